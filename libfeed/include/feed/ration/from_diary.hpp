#pragma once
#include <algorithm>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "feed/diary/bed_today.hpp"
#include "feed/diary/diary.hpp"
#include "feed/diary/own_rate.hpp"
#include "feed/forecast/soft_food.hpp"
#include "feed/ration/decide.hpp"

namespace feed {

namespace detail {

/// The hazard that an alarm tells of; nothing where it may be several things.
constexpr std::optional<Hazard> hazard_of(AlarmKind kind) noexcept {
    switch (kind) {
        case AlarmKind::sour_smell:
        case AlarmKind::too_sour:
            return Hazard::sour;
        case AlarmKind::rotten_smell:
            return Hazard::airless;
        case AlarmKind::ammonia_smell:
            return Hazard::ammonia;
        case AlarmKind::pooling:
            return Hazard::wet;
        case AlarmKind::too_hot:
            return Hazard::hot;
        case AlarmKind::too_cold:
            return Hazard::cold;
        case AlarmKind::worms_leaving:
        case AlarmKind::worms_at_lid:
        case AlarmKind::worms_sluggish:
        case AlarmKind::worms_dying:
            break;
    }
    return std::nullopt;
}

/// The course of what was fed today: that of new food, each preparation at its own pace.
inline std::vector<SoftLeft> course_of_new(std::span<const Portion> portions,
                                           const std::vector<SoftLeft>& new_food) {
    double wet_kg = 0.0;
    for (const Portion& portion : portions) {
        if (part_of(*portion.feedstock) == Part::scraps) wet_kg += portion.wet_mass.in_kilograms();
    }
    if (!(wet_kg > 0.0)) return new_food;
    std::vector<SoftLeft> course(new_food.size(), SoftLeft{0.0, 0.0, 0.0});
    for (const Portion& portion : portions) {
        if (part_of(*portion.feedstock) != Part::scraps) continue;
        const double share = portion.wet_mass.in_kilograms() / wet_kg;
        const RateFactor& pace = portion.feedstock->decay_rate_factor;
        for (std::size_t day = 0; day < course.size(); ++day) {
            const SoftLeft left = paced(new_food[day], pace);
            course[day].value += share * left.value;
            course[day].low += share * left.low;
            course[day].high += share * left.high;
        }
    }
    return course;
}

/// What looks found of feedings of which over half is still there; nothing without any.
inline std::optional<SeenLeft> seen_left_of(const BedToday& now) {
    std::optional<SeenLeft> seen;
    for (const FoodLeft& food : now.food) {
        if (!food.half_gone_in) continue;
        if (!seen) seen.emplace();
        const auto [day, earliest, latest] = *food.half_gone_in;
        // "Not gone" says nothing of how much: then it is half that may be there still.
        const bool not_gone = food.seen_gone && !*food.seen_gone;
        const double share = std::max(food.share_left.value, not_gone ? 0.5 : 0.0);
        seen->wet_kg += share * food.scraps.in_kilograms();
        seen->half_gone.day = std::max(seen->half_gone.day, day);
        seen->half_gone.earliest = std::max(seen->half_gone.earliest, earliest);
        seen->half_gone.latest = std::max(seen->half_gone.latest, latest);
    }
    return seen;
}

/// Whether a look says how the bed or its worms are.
inline bool tells_of_the_bed(const Observation& seen) noexcept {
    return seen.worms || seen.vigour || seen.squeeze || seen.moisture || seen.pooling ||
           seen.smell || seen.ph || !seen.temperatures.empty();
}

/// Whether something was done to the bed on a day, without food, and nothing was seen after it.
inline bool was_helped_on(const Diary& diary, Date day) {
    const auto is_of_day = [&](const auto& entry) { return entry.date == day; };
    if (std::any_of(diary.feedings.begin(), diary.feedings.end(), is_of_day)) return false;
    bool helped = false;
    for (const Observation& seen : diary.observations) {
        if (!is_of_day(seen)) continue;
        if (!seen.bedding.empty() || !seen.action.empty())
            helped = true;
        else
            helped = helped && !tells_of_the_bed(seen);
    }
    return helped;
}

/// The diary without what was done to the bed on a day.
inline Diary before_help_on(const Diary& diary, Date day) {
    Diary before = diary;
    for (Observation& seen : before.observations) {
        if (seen.date != day) continue;
        seen.bedding.clear();
        seen.bedding_read.reset();
        seen.action.clear();
    }
    return before;
}

}  // namespace detail

/// The bed of a diary on a day as every verb starts from it: with what went in up to and on that
/// day, what was seen, what stands, and this bin's own rates where its looks tell them. The things
/// at hand are left empty.
/// @param today  nothing where the diary names no day: then the bed is taken as described.
/// Threads: pure. Time: learning from the looks, at most 50 ms for 26 weeks.
inline RationInput ration_input_of(const Diary& diary, std::optional<Date> today,
                                   UnitSystem units = UnitSystem::metric) {
    RationInput in;
    in.units = units;
    in.date = today;
    in.bed = diary.bed;
    if (!today) return in;
    const BedToday now = bed_today(diary.bed, diary, *today);
    in.bed = now.bed;
    for (const DatedFeeding& feeding : diary.feedings) {
        if (feeding.date != *today) continue;
        in.bed.earlier.push_back(
            {days(0), feeding.portions, {}, detail::course_of_new(feeding.portions, now.new_food)});
        for (const Portion& portion : feeding.portions) {
            if (part_of(*portion.feedstock) == Part::poured_water)
                in.bed.water_added =
                    in.bed.water_added + kilograms(portion.wet_mass.in_kilograms());
        }
    }
    in.seen_left = detail::seen_left_of(now);
    if (diary.bed_date)
        in.begins_in_days = static_cast<int>(
            std::clamp<std::int64_t>(day_number(*diary.bed_date) - day_number(*today), 0, 366));
    // A description without a diary says nothing of when somebody last looked.
    const bool is_kept = !diary.feedings.empty() || !diary.observations.empty();
    if (const auto span = span_of(diary); span && is_kept)
        in.silent_days =
            static_cast<int>(std::clamp<std::int64_t>(day_number(*today) - span->last, 0, 36600));
    const auto standing = [&](const Alarm& alarm) {
        return StandingAlarm{detail::hazard_of(alarm.kind), std::string(alarm.text), alarm.level,
                             static_cast<int>(day_number(*today) - day_number(alarm.seen))};
    };
    for (const Alarm& alarm : now.alarms)
        in.alarms.push_back(standing(alarm));
    for (const Alarm& alarm : now.unanswered)
        in.unanswered.push_back(standing(alarm));
    if (const auto own = own_rate_of(diary, *today)) in.bed.own_feeding_rate = own;
    in.temperature_days_old = now.temperature_days_old;
    in.ranges = now.ranges;
    in.new_food = now.new_food;
    in.looks_learned_from = now.looks_learned_from;
    if (detail::was_helped_on(diary, *today)) {
        Ration unused;
        const RationInput before =
            ration_input_of(detail::before_help_on(diary, *today), today, units);
        in.step_done_today = detail::wants_a_step(detail::work_of(before, unused));
    }
    return in;
}

}  // namespace feed
