#pragma once
// Refresh and rescue: other work on a bed, each computed on the bed today and judged before and
// after.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/bed/advice.hpp"
#include "feed/bed/flush.hpp"
#include "feed/ration/bed_work.hpp"

namespace feed {

/// What is to be done to a bed.
enum class RefreshChange : std::uint8_t { bedding, flush, dry, split, move, away, winter };
inline constexpr std::array<std::string_view, 7> refresh_words{"bedding", "flush", "dry",   "split",
                                                               "move",    "away",  "winter"};
constexpr std::string_view text(RefreshChange change) noexcept {
    return refresh_words[static_cast<std::size_t>(change)];
}

/// Whether it is done.
enum class RefreshVerdict : std::uint8_t {
    does,        ///< it is computed
    act_first,   ///< something else comes first, a step or a look: the ration says what
    not_now,     ///< less bed could not bear what was fed lately
    not_needed,  ///< nothing of the bed asks for it
    no_drain,    ///< water would stand: a bed that is flushed has to drain
    too_cold,    ///< winter: colder than the worms bear
    too_warm     ///< a place warmer than they bear
};
inline constexpr std::array<std::string_view, 7> refresh_verdict_words{
    "does", "act_first", "not_now", "not_needed", "no_drain", "too_cold", "too_warm"};
constexpr std::string_view text(RefreshVerdict verdict) noexcept {
    return refresh_verdict_words[static_cast<std::size_t>(verdict)];
}

struct RefreshOptions {
    double share = 1.0 / 3.0;                ///< of the bed that is changed, above 0, at most 0.75
    std::optional<Temperature> temperature;  ///< of the bed where it goes, or at its coldest
};

struct RefreshAnswer {
    RefreshChange change = RefreshChange::bedding;
    RefreshVerdict verdict = RefreshVerdict::does;
    Ration today;                         ///< of the bed as it stands
    BedAfter after;                       ///< of one half where the bed is split
    std::vector<BedChange> days;          ///< of drying: what goes in each day, the first today
    std::optional<TemperatureAdvice> at;  ///< of a move or a winter
    double leaf_layer_l = 0.0;            ///< of a winter: loose bedding laid on top
    /// Of the bed that is changed: less than asked for where that would raise something.
    double share = 0.0;
    int least_days = 0;          ///< without food, whatever the ration says
    std::optional<int> feed_on;  ///< days from today; nothing: not before a look
};

namespace limits {

/// A bed that was moved is left alone for so long, as a new bin is (common practice).
inline constexpr int moved_rest_days = 3;
/// Loose bedding laid over a bed for the winter, m (common practice: several inches).
inline constexpr double winter_layer_m = 0.10;
/// A flush aims at this share of the salt at which a bed is watched.
inline constexpr double flush_aim_share = 0.75;
/// Nobody pours more than this through a bed at once, as times what it holds (judgement).
inline constexpr double most_flush_times = 3.0;
/// More days of drying than this ask for another way.
inline constexpr int most_drying_days = 10;

}  // namespace limits

namespace detail {

/// Whether something stands in the way of a work: an act that it does not mend, or an alarm. One
/// of long ago, since when nobody looked, is looked at first.
inline bool comes_first(const RefreshAnswer& answer, const RationInput& in,
                        std::initializer_list<Hazard> mended) {
    const auto mends = [&](Hazard hazard) {
        return std::find(mended.begin(), mended.end(), hazard) != mended.end();
    };
    // What smells is lifted out before anything else.
    const auto stands = [&](const StandingAlarm& alarm) {
        const bool mended_by_it =
            alarm.hazard && *alarm.hazard != Hazard::airless && mends(*alarm.hazard);
        return alarm.level == Level::act && !mended_by_it;
    };
    if (looks_first(answer.today))
        return in.unanswered.empty() ||
               std::any_of(in.unanswered.begin(), in.unanswered.end(), stands);
    if (const auto hazard = awaited_warmth(answer.today)) return !mends(*hazard);
    if (answer.today.answer != RationAnswer::act_first) return false;
    for (std::size_t h = 0; h < hazard_count; ++h) {
        const auto hazard = static_cast<Hazard>(h);
        if (needs_a_step(hazard) && answer.today.before[h] == Level::act && !mends(hazard))
            return true;
    }
    const std::vector<StandingAlarm> alarms = alarms_of(in);
    return std::any_of(alarms.begin(), alarms.end(), stands);
}

/// The day on which feeding goes on by the ration of the bed after. What the ration of today says
/// for today stands, whatever is done to the bed: where nothing is fed, not today.
inline std::optional<int> feeding_goes_on(const Ration& today, const Ration& after,
                                          int least_days) {
    if (after.answer == RationAnswer::act_first) return std::nullopt;
    const bool rests =
        today.answer == RationAnswer::wait || today.answer == RationAnswer::act_first;
    if (rests) least_days = std::max(least_days, 1);
    if (after.answer != RationAnswer::wait) return least_days;
    if (!after.next_feeding) return std::nullopt;
    return std::max(least_days, after.next_feeding->day);
}

inline void finish(const RationInput& in, BedChange change, RefreshAnswer& answer) {
    answer.after = bed_after(in, std::move(change));
    answer.feed_on = feeding_goes_on(answer.today, answer.after.ration, answer.least_days);
}

/// A share of the bed out, as much loose bedding in, and its water.
inline void change_bedding(const RationInput& in, double share, RefreshAnswer& answer) {
    const double contents_m3 = completed(in.bed).contents.value();
    const auto changed = [&](double part) {
        BedChange change;
        change.taken_share = part;
        fill_up(in, part * contents_m3, change);
        finish(in, std::move(change), answer);
        answer.share = part;
    };
    changed(share);
    for (const double smaller : shares_told) {
        if (answer.after.worse().empty()) return;
        if (smaller < share) changed(smaller);
    }
    if (answer.after.worse().empty()) return;
    answer.verdict = RefreshVerdict::not_now;
    finish(in, {}, answer);
}

/// Loose bedding, as drying puts it in, until neither wet nor airless is raised.
/// @param in  the bed, already flushed where it was.
inline void dry_out(RationInput in, RefreshAnswer& answer) {
    for (int day = 0; day < limits::most_drying_days; ++day) {
        Ration unused;
        const RationWork work = work_of(in, unused);
        std::array<bool, hazard_count> raised{};
        for (const Hazard hazard : {Hazard::wet, Hazard::airless})
            raised[static_cast<std::size_t>(hazard)] = is_raised(work.idle[hazard].level);
        if (!raised[static_cast<std::size_t>(Hazard::wet)] &&
            !raised[static_cast<std::size_t>(Hazard::airless)])
            return;
        // The first day's step is that of the ration, with all that is raised.
        for (std::size_t h = 0; h < hazard_count; ++h)
            raised[h] = raised[h] || is_raised(work.idle.of[h].level);
        const ActStep step = step_for(work, raised);
        if (!(step.bedding_kg > 0.0)) return;
        BedChange today;
        today.bedding.push_back({work.materials.bedding, wet_kilograms(step.bedding_kg)});
        apply_change(in.bed, today);
        answer.days.push_back(std::move(today));
    }
}

inline BedChange all_of(const std::vector<BedChange>& changes, BedChange sum = {}) {
    for (const BedChange& one : changes) {
        for (const Portion& portion : one.bedding) {
            if (!sum.bedding.empty() && sum.bedding.back().feedstock->id == portion.feedstock->id)
                sum.bedding.back().wet_mass = sum.bedding.back().wet_mass + portion.wet_mass;
            else
                sum.bedding.push_back(portion);
        }
    }
    return sum;
}

inline void flush_salt(const RationInput& in, RefreshAnswer& answer) {
    const CompletedBed bed = completed(in.bed);
    const double salt = judged(in).salt;
    if (!(salt > limits::salt.watch)) {
        answer.verdict = RefreshVerdict::not_needed;
        return finish(in, {}, answer);
    }
    if (bed.drainage == Drainage::none) {
        answer.verdict = RefreshVerdict::no_drain;
        return change_bedding(in, 1.0 / 3.0, answer);
    }
    const double wanted = limits::flush_aim_share * limits::salt.watch / salt;
    const double most_kg = limits::most_flush_times * in_kilograms(bed.water_capacity.value);
    BedChange change;
    change.flushed_kg =
        rounded_volume(std::min(flush_water_for(bed, wanted), most_kg), true, in.units);
    dry_out(with_change(in, change), answer);
    answer.least_days = static_cast<int>(answer.days.size());
    finish(in, all_of(answer.days, std::move(change)), answer);
}

inline void dry_bed(const RationInput& in, RefreshAnswer& answer) {
    dry_out(in, answer);
    if (answer.days.empty()) answer.verdict = RefreshVerdict::not_needed;
    answer.least_days = static_cast<int>(answer.days.size());
    finish(in, all_of(answer.days), answer);
}

inline void split_bed(const RationInput& in, RefreshAnswer& answer) {
    BedChange change;
    change.taken_share = 0.5;
    change.worms_went_too = true;
    fill_up(in, 0.5 * completed(in.bed).contents.value(), change);
    finish(in, std::move(change), answer);
}

/// The bed where it will be that warm or cold.
inline void elsewhere(const RationInput& in, const RefreshOptions& options, bool winter,
                      RefreshAnswer& answer) {
    RationInput there = in;
    if (options.temperature) there.bed.temperature = *options.temperature;
    const CompletedBed bed = completed(there.bed);
    std::vector<Portion> scraps;
    for (const ThingAtHand& thing : in.things) {
        if (part_of(*thing.feedstock) == Part::scraps && thing.most)
            scraps.push_back({thing.feedstock, *thing.most});
    }
    answer.at = at_temperature(there.bed, bed.temperature, scraps, in.units);
    if (winter) {
        answer.leaf_layer_l = rounded_volume(
            1000.0 * limits::winter_layer_m * in_square_metres(bed.surface), false, in.units);
    } else {
        answer.least_days = limits::moved_rest_days;
    }
    const SpeciesLimits& bears = limits_of(bed.species);
    if (bed.temperature < bears.coldest)
        answer.verdict = RefreshVerdict::too_cold;
    else if (bed.temperature >= bears.warmest)  // there they eat nothing
        answer.verdict = RefreshVerdict::too_warm;
    const BedJudged before = judged(in);
    answer.after = bed_after(there, {});
    answer.after.before = before.levels;
    answer.feed_on = answer.verdict == RefreshVerdict::does
                         ? feeding_goes_on(answer.today, answer.after.ration, answer.least_days)
                         : std::nullopt;
}

}  // namespace detail

/// Work on a bed, computed on the bed today. A time away has its own advice (going_away).
/// @param change  any but away.
/// Errors: none; shares and temperatures are checked where they are read. Threads: pure. Time: a
/// few rations.
inline RefreshAnswer refresh(const RationInput& in, RefreshChange change,
                             const RefreshOptions& options = {}) {
    RefreshAnswer answer;
    answer.change = change;
    answer.today = ration(in);
    const auto first = [&](std::initializer_list<Hazard> mended) {
        if (!detail::comes_first(answer, in, mended)) return false;
        answer.verdict = RefreshVerdict::act_first;
        detail::finish(in, {}, answer);
        return true;
    };
    switch (change) {
        case RefreshChange::bedding:
            if (!first({Hazard::salty, Hazard::airless}))
                detail::change_bedding(in, options.share, answer);
            break;
        case RefreshChange::flush:
            if (!first({Hazard::salty})) detail::flush_salt(in, answer);
            break;
        case RefreshChange::dry:
            if (!first({Hazard::wet, Hazard::airless})) detail::dry_bed(in, answer);
            break;
        case RefreshChange::split:
            if (!first({})) detail::split_bed(in, answer);
            break;
        case RefreshChange::move:
            // Moving is how a bed gets out of heat and cold.
            if (!first({Hazard::hot, Hazard::cold})) detail::elsewhere(in, options, false, answer);
            break;
        case RefreshChange::winter:
        case RefreshChange::away:
            if (!first({Hazard::cold})) detail::elsewhere(in, options, true, answer);
            break;
    }
    // What would mend the alarm has nothing to do: then the step of the ration is what helps.
    if (answer.today.answer == RationAnswer::act_first &&
        answer.verdict == RefreshVerdict::not_needed)
        answer.verdict = RefreshVerdict::act_first;
    return answer;
}

}  // namespace feed
