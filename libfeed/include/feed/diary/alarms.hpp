#pragma once
// What was seen that stands in the way of feeding, and until when.
#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feed/bed/hazard.hpp"
#include "feed/bed/look_limits.hpp"
#include "feed/bed/species.hpp"
#include "feed/diary/diary.hpp"

namespace feed {

/// What a look can raise.
enum class AlarmKind : std::uint8_t {
    worms_dying,  // the gravest first: where there is room for one it is told
    worms_leaving,
    worms_at_lid,
    worms_sluggish,
    sour_smell,
    rotten_smell,
    ammonia_smell,
    pooling,
    too_hot,
    too_cold,
    too_sour,  ///< a measured pH at which worms do not live
};
inline constexpr std::size_t alarm_kind_count = 11;

/// Something seen that has not been seen to be over.
struct Alarm {
    AlarmKind kind = AlarmKind::worms_leaving;
    Level level = Level::act;  ///< watch or act
    Date seen;
    Date ends;              ///< the last day on which it stands; then the answer is to look
    std::string_view text;  ///< a few words, within a sentence
};

/// Without a later look an alarm stands so many days (D).
inline constexpr int alarm_days = static_cast<int>(limits::standing_alarm.value);
/// Worms wander in the first nights of a new bin (common practice).
inline constexpr double wandering_days = limits::wandering.value;
/// An older temperature counts only as watch (D).
inline constexpr int fresh_temperature_days = static_cast<int>(limits::fresh_temperature.value);
/// Eisenia fetida lives above pH 5 and below 9, the ends themselves left out (Edwards, Earthworm
/// Ecology, table 18.3).
inline constexpr double lowest_ph = limits::lowest_ph.value;
inline constexpr double highest_ph = limits::highest_ph.value;

namespace detail {

/// What one look says of one kind: raised, over, or nothing.
struct AlarmSaid {
    bool raised = false;
    Level level = Level::act;
};

inline std::optional<AlarmSaid> place_says(AlarmKind kind, const Observation& look) noexcept {
    if (!look.worms) return std::nullopt;
    const bool leaving = *look.worms == WormPlace::leaving;
    const bool at_lid = *look.worms == WormPlace::at_lid;
    if (kind == AlarmKind::worms_leaving) {
        if (at_lid) return std::nullopt;  // on their way out, they are not back
        return AlarmSaid{leaving, Level::act};
    }
    return AlarmSaid{at_lid, Level::watch};
}

inline std::optional<AlarmSaid> smell_says(AlarmKind kind, const Observation& look) noexcept {
    if (!look.smell) return std::nullopt;
    const Smell smell = *look.smell;
    switch (kind) {
        case AlarmKind::sour_smell:
            return AlarmSaid{smell == Smell::sour || smell == Smell::vinegar, Level::act};
        case AlarmKind::rotten_smell:
            return AlarmSaid{smell == Smell::rotten || smell == Smell::swampy, Level::act};
        default:
            return AlarmSaid{smell == Smell::ammonia, Level::act};
    }
}

inline std::optional<AlarmSaid> water_says(const Observation& look) noexcept {
    if (look.pooling) return AlarmSaid{*look.pooling, Level::act};
    if (look.squeeze) return AlarmSaid{*look.squeeze == Squeeze::pooling, Level::act};
    return std::nullopt;
}

inline std::optional<AlarmSaid> warmth_says(AlarmKind kind, const Observation& look,
                                            const SpeciesLimits& limits, bool fresh) noexcept {
    if (look.temperatures.empty()) return std::nullopt;
    double warmest = -300.0;
    double coldest = 1000.0;
    for (const PlacedTemperature& one : look.temperatures) {
        warmest = std::max(warmest, in_celsius(one.temperature));
        coldest = std::min(coldest, in_celsius(one.temperature));
    }
    const bool raised = kind == AlarmKind::too_hot ? warmest > in_celsius(limits.warmest)
                                                   : coldest < in_celsius(limits.coldest);
    return AlarmSaid{raised, fresh ? Level::act : Level::watch};
}

inline std::optional<AlarmSaid> says(AlarmKind kind, const Observation& look,
                                     const SpeciesLimits& limits, bool fresh) noexcept {
    switch (kind) {
        case AlarmKind::worms_leaving:
        case AlarmKind::worms_at_lid:
            return place_says(kind, look);
        case AlarmKind::worms_sluggish:
            if (!look.vigour) return std::nullopt;
            return AlarmSaid{*look.vigour == WormVigour::sluggish, Level::watch};
        case AlarmKind::worms_dying:
            // Who is slow after worms died is no news that they live well.
            if (!look.vigour || *look.vigour == WormVigour::sluggish) return std::nullopt;
            return AlarmSaid{*look.vigour == WormVigour::dying, Level::act};
        case AlarmKind::sour_smell:
        case AlarmKind::rotten_smell:
        case AlarmKind::ammonia_smell:
            return smell_says(kind, look);
        case AlarmKind::pooling:
            return water_says(look);
        case AlarmKind::too_hot:
        case AlarmKind::too_cold:
            return warmth_says(kind, look, limits, fresh);
        case AlarmKind::too_sour:
            if (!look.ph) return std::nullopt;
            return AlarmSaid{*look.ph <= lowest_ph, Level::act};
    }
    return std::nullopt;
}

/// Whether a look gives worms a reason to leave: dry, wet, sour or hot.
inline bool gives_reason(const Observation& look, const SpeciesLimits& limits) noexcept {
    if (look.squeeze && (*look.squeeze == Squeeze::crumbly || *look.squeeze >= Squeeze::streams))
        return true;
    if (look.pooling.value_or(false)) return true;
    if (look.smell && *look.smell != Smell::earthy && *look.smell != Smell::none) return true;
    if (look.ph && (*look.ph <= lowest_ph || *look.ph >= highest_ph)) return true;
    const auto hot = warmth_says(AlarmKind::too_hot, look, limits, true);
    return hot && hot->raised;
}

}  // namespace detail

constexpr std::string_view text(AlarmKind kind) noexcept {
    constexpr std::string_view words[alarm_kind_count] = {
        "worms were dying",          "worms were leaving",       "worms massed at the lid",
        "worms were sluggish",       "it smelled sour",          "it smelled rotten",
        "it smelled of ammonia",     "water stood in the bin",   "it was too hot for worms",
        "it was too cold for worms", "it was too sour for worms"};
    return words[static_cast<std::size_t>(kind)];
}

namespace detail {

/// What the last look that spoke of a kind said, and when.
struct LastSaid {
    AlarmSaid said;
    const Observation* look = nullptr;
};

/// The last written of one day wins: it was the later look.
inline std::optional<LastSaid> last_said(AlarmKind kind, const Diary& diary, std::int64_t today,
                                         const SpeciesLimits& limits) {
    std::optional<LastSaid> last;
    std::int64_t on = INT64_MIN;
    for (const Observation& look : diary.observations) {
        const std::int64_t seen = day_number(look.date);
        if (seen > today || seen < on) continue;
        const bool fresh = today - seen <= fresh_temperature_days;
        if (const auto said = says(kind, look, limits, fresh)) {
            last = LastSaid{*said, &look};
            on = seen;
        }
    }
    return last;
}

/// Of each kind what the last look that spoke of it raised, however long ago.
inline std::vector<Alarm> raised_on(const Diary& diary, Date day, const SpeciesLimits& limits,
                                    std::optional<double> age_days) {
    std::vector<Alarm> raised;
    const std::int64_t today = day_number(day);
    for (std::size_t k = 0; k < alarm_kind_count; ++k) {
        const auto kind = static_cast<AlarmKind>(k);
        const auto last = last_said(kind, diary, today, limits);
        if (!last || !last->said.raised) continue;
        const std::int64_t seen = day_number(last->look->date);
        const bool of_worms = kind == AlarmKind::worms_leaving || kind == AlarmKind::worms_at_lid;
        if (of_worms && age_days &&
            *age_days - static_cast<double>(today - seen) <= wandering_days &&
            !gives_reason(*last->look, limits))
            continue;
        raised.push_back(
            {kind, last->said.level, last->look->date, date_of(seen + alarm_days), text(kind)});
    }
    return raised;
}

/// Whether the week of an alarm is past on a day.
inline bool has_ended(const Alarm& alarm, Date day) noexcept {
    return day_number(alarm.ends) < day_number(day);
}

/// Whether somebody looked into the bin: whatever was found there, smelt or measured.
inline bool is_look(const Observation& seen) noexcept {
    return seen.left || seen.share_gone || seen.gone != FoodGone::unsaid || !seen.plots.empty() ||
           seen.worms || seen.vigour || seen.worm_weight || seen.squeeze || seen.moisture ||
           seen.pooling || seen.smell || seen.ph || !seen.temperatures.empty();
}

}  // namespace detail

/// The alarms that stand on a day: of each kind, what the last look that spoke of it said, for at
/// most a week. In the order of AlarmKind. Time: looks x kinds.
/// @param age_days  of the bin on that day, where it is known.
inline std::vector<Alarm> alarms_on(const Diary& diary, Date day, const SpeciesLimits& limits,
                                    std::optional<double> age_days) {
    std::vector<Alarm> standing = detail::raised_on(diary, day, limits, age_days);
    standing.erase(std::remove_if(standing.begin(), standing.end(),
                                  [&](const Alarm& one) { return detail::has_ended(one, day); }),
                   standing.end());
    return standing;
}

/// The alarms whose week is past on a day, and since when nobody looked into the bin: whether they
/// are over nobody knows, so the answer is to look. Heat and cold are left out: a temperature stays
/// in the description of the bed, and says itself that it is old.
/// @param age_days  of the bin on that day, where it is known.
inline std::vector<Alarm> unanswered_alarms_on(const Diary& diary, Date day,
                                               const SpeciesLimits& limits,
                                               std::optional<double> age_days) {
    std::vector<Alarm> unanswered = detail::raised_on(diary, day, limits, age_days);
    const auto is_answered = [&](const Alarm& one) {
        if (!detail::has_ended(one, day) || one.kind == AlarmKind::too_hot ||
            one.kind == AlarmKind::too_cold)
            return true;
        return std::any_of(
            diary.observations.begin(), diary.observations.end(), [&](const Observation& seen) {
                return detail::has_ended(one, seen.date) &&
                       day_number(seen.date) <= day_number(day) && detail::is_look(seen);
            });
    };
    unanswered.erase(std::remove_if(unanswered.begin(), unanswered.end(), is_answered),
                     unanswered.end());
    return unanswered;
}

}  // namespace feed
