#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <utility>
#include <vector>

#include "feed/ration/next_feeding.hpp"
#include "feed/ration/plan.hpp"
#include "feed/ration/work.hpp"

// The answers without food: act first, or wait.
namespace feed::detail {

inline void add_reason(Ration& ration, Reason reason) {
    if (ration.reasons.size() < 2) ration.reasons.push_back(std::move(reason));
}

/// Hazards that are answered by a step and no food, worst first.
inline bool needs_a_step(Hazard hazard) noexcept {
    return hazard == Hazard::sour || hazard == Hazard::wet || hazard == Hazard::dry ||
           hazard == Hazard::ammonia || hazard == Hazard::salty || hazard == Hazard::airless ||
           hazard == Hazard::hot || hazard == Hazard::cold;
}

inline Reason reason_of(const StandingAlarm& alarm) {
    Reason reason{ReasonKind::alarm, alarm.hazard.value_or(Hazard::sour), alarm.what,
                  static_cast<double>(alarm.days_ago)};
    reason.hazard_known = alarm.hazard.has_value();
    return reason;
}

/// Puts a step into the answer, and what is then left of each hazard.
inline void put_in_step(const RationWork& work, const ActStep& step, Ration& ration) {
    const auto put = [&](const std::shared_ptr<const Feedstock>& what, Part part, double kg) {
        if (!(kg > 0.0)) return;
        ThingAtHand thing = offered(what);
        thing.at_hand = part == Part::poured_water;
        for (const ThingAtHand& there : work.things) {
            if (there.feedstock == what) thing = there;
        }
        ration.put_in.push_back({std::move(thing), part, wet_kilograms(kg), work.in.units});
    };
    put(work.materials.bedding, Part::bedding, step.bedding_kg);
    put(work.materials.water, Part::poured_water, step.water_kg);
    put(work.materials.lime, Part::amendment, step.lime_kg);
    ration.water_kg = step.water_kg;
    ration.lime_kg = step.lime_kg;
    for (std::size_t h = 0; h < hazard_count; ++h)
        ration.after[h] = step.after.of[h].level;
}

/// Whether a smell or standing water was noted that loose bedding eases whatever is reckoned.
inline bool is_eased_by_bedding(const StandingAlarm& alarm) noexcept {
    return alarm.level == Level::act && !tells_of_alkali(alarm.what) &&
           (alarm.hazard == Hazard::sour || alarm.hazard == Hazard::ammonia ||
            alarm.hazard == Hazard::airless || alarm.hazard == Hazard::wet);
}

inline bool tells_of_ammonia(const StandingAlarm& alarm) noexcept {
    return alarm.hazard == Hazard::ammonia;
}

/// Whether what was noted may come of too much water: all but heat and cold.
inline bool may_tell_of_wet(const StandingAlarm& alarm) noexcept {
    return alarm.level == Level::act && alarm.hazard != Hazard::hot &&
           alarm.hazard != Hazard::cold && alarm.hazard != Hazard::dry;
}

/// One day's step against what is raised, for the whole bed and not for the place of one feeding.
/// Where nothing is reckoned to be wrong but it smells, loose bedding goes in (common practice), as
/// much as raises nothing.
inline ActStep step_for(const RationWork& work, const std::array<bool, hazard_count>& raised) {
    const FeedingPlace whole = feeding_place(work.numbers, work.numbers.surface_m2);
    StepMaterials with = work.materials;
    // Lime sets ammonia free (Cornell, ammonia odors): none where it is smelt, whatever is
    // reckoned.
    if (std::any_of(work.alarms.begin(), work.alarms.end(), tells_of_ammonia))
        with.most_lime_kg = 0.0;
    // Nor does water go into a bed that stinks or is fled from only because it is reckoned to be a
    // little dry: nobody has felt that.
    const bool may_be_wet = std::any_of(work.alarms.begin(), work.alarms.end(), may_tell_of_wet);
    if (may_be_wet && work.idle[Hazard::dry].level != Level::act) with.most_water_kg = 0.0;
    ActStep step = act_step(whole, with, raised, work.in.units);
    const bool smells = std::any_of(work.alarms.begin(), work.alarms.end(), is_eased_by_bedding);
    if (!smells || step.bedding_kg > 0.0 || step.water_kg > 0.0) return step;
    const ActStep loose = loose_bedding_step(whole, with, work.in.units);
    return loose.any() ? loose : step;
}

/// While a bed at watch waits for its food, one day's step goes in all the same: else it would be
/// as wet, dry or sour tomorrow.
inline void step_while_waiting(const RationWork& work, Ration& ration) {
    std::array<bool, hazard_count> raised{};
    bool any = false;
    for (const Hazard hazard : watched_hazards) {
        const bool now = work.idle[hazard].level == Level::watch;
        raised[static_cast<std::size_t>(hazard)] = now;
        any = any || now;
    }
    if (any) put_in_step(work, step_for(work, raised), ration);
}

/// Whether a hazard of the bed is past the limit at which a step comes before food.
inline bool wants_step_against(const RationWork& work, Hazard hazard) noexcept {
    return needs_a_step(hazard) && work.idle[hazard].level == Level::act;
}

/// Whether the bed is past such a limit, or an alarm stands.
inline bool wants_a_step(const RationWork& work) noexcept {
    for (std::size_t h = 0; h < hazard_count; ++h)
        if (wants_step_against(work, static_cast<Hazard>(h))) return true;
    return std::any_of(work.alarms.begin(), work.alarms.end(),
                       [](const StandingAlarm& alarm) { return alarm.level == Level::act; });
}

/// Where the bed wants a step: one, and no food.
inline bool act_first(const RationWork& work, Ration& ration) {
    if (!wants_a_step(work)) return false;
    std::array<bool, hazard_count> raised{};
    for (std::size_t h = 0; h < hazard_count; ++h) {
        const auto hazard = static_cast<Hazard>(h);
        if (!wants_step_against(work, hazard)) continue;
        raised[h] = true;
        add_reason(ration, {ReasonKind::hazard_now, hazard, "", work.idle.of[h].value.value});
    }
    for (const StandingAlarm& alarm : work.alarms) {
        if (alarm.level != Level::act) continue;
        if (alarm.hazard) raised[static_cast<std::size_t>(*alarm.hazard)] = true;
        add_reason(ration, reason_of(alarm));
    }
    for (std::size_t h = 0; h < hazard_count; ++h)
        raised[h] = raised[h] || is_raised(work.idle.of[h].level);
    ration.answer = RationAnswer::act_first;
    put_in_step(work, step_for(work, raised), ration);
    ration.next_look = 1;
    return true;
}

inline Forecast forecast_of_ration(const RationWork& work, std::vector<Portion> portions) {
    ForecastOptions options;
    options.days = longest_wait_days;
    options.ranges = work.in.ranges;
    options.new_food = work.in.new_food;
    options.units = work.in.units;
    const Feeding feeding{days(0), std::move(portions), {}, {}};
    if (feeding.portions.empty()) return forecast(work.in.bed, {}, options);
    return forecast(work.in.bed, {&feeding, 1}, options);
}

/// Days for which nobody can look or feed; 0 where nobody goes away.
inline int days_away(const RationWork& work) {
    return work.in.away ? static_cast<int>(std::ceil(std::max(0.0, in_days(*work.in.away)))) : 0;
}

inline void wait_until(const RationWork& work, Ration& ration, int least_days) {
    ration.answer = RationAnswer::wait;
    const int away = days_away(work);
    least_days = std::max(least_days, away);
    const Forecast f = forecast_of_ration(work, {});
    auto next = next_feeding_day(f, work.numbers, 0.0, std::max(1, least_days));
    ration.next_feeding = next;
    ration.next_look = next ? std::clamp(next->day, 1, 7) : 7;
    if (least_days > 0) ration.next_look = std::min(ration.next_look, std::max(1, least_days));
    if (away > 0) ration.next_look = away;
}

/// The bed wanted a step, and it was done: what it did is not judged on the same day. Where nothing
/// is left to be mended, feeding goes on; else somebody looks first.
inline bool wait_after_step(const RationWork& work, Ration& ration) {
    if (!work.in.step_done_today) return false;
    wait_until(work, ration, 1);
    add_reason(ration, {ReasonKind::step_done, Hazard::sour, "", 0.0});
    if (wants_a_step(work)) ration.next_feeding.reset();
    return true;
}

/// The next feeding is not before the day on which half of what was seen should be gone.
inline void wait_for_half(const RationDay& half_gone, Ration& ration) {
    if (!ration.next_feeding) return;
    RationDay& next = *ration.next_feeding;
    next.day = std::max(next.day, half_gone.day);
    next.earliest = std::clamp(half_gone.earliest, next.earliest, next.day);
    next.latest = std::max(next.latest, half_gone.latest);
    ration.next_look = std::max(ration.next_look, std::clamp(next.day, 1, 7));
}

/// Why these worms eat next to nothing: the bed is too cold or too warm for them, or they are few.
inline Reason little_eaten(const RationWork& work) {
    const double c = work.numbers.temperature_c;
    const bool outside = work.numbers.cold_factor < 1.0 &&
                         work.week_kg >= least_portion_kg * work.numbers.cold_factor;
    if (!outside) return {ReasonKind::few_worms, Hazard::overfed, "", work.week_kg};
    const bool cold = c < in_celsius(work.numbers.species->optimum_low);
    return {ReasonKind::hazard_now, cold ? Hazard::cold : Hazard::hot, "", c};
}

/// Waits until a bed is warmer or cooler. What was measured days ago tells no day: then the answer
/// is to take the temperature again.
inline bool waits_for_warmth(const RationWork& work, Ration& ration, Reason reason) {
    const int stale_days = stale_temperature_days(work.in);
    reason.given = static_cast<double>(stale_days);
    wait_until(work, ration, reason.hazard == Hazard::cold ? 7 : 1);
    add_reason(ration, std::move(reason));
    if (stale_days > 0) {
        ration.next_feeding.reset();
        ration.next_look = 1;
    }
    return true;
}

/// An alarm of over a week ago, since when nobody looked, or a pH as old: nobody knows whether it
/// is over. Nor how the bed is where nothing was noted for months.
inline bool must_look_first(const RationWork& work, Ration& ration) {
    const Bed& bed = work.in.bed;
    const bool old_ph = is_too_alkaline(bed) && is_ph_old(bed);
    const bool silent = static_cast<double>(work.in.silent_days) > limits::silence.value;
    if (work.in.unanswered.empty() && !old_ph && !silent) return false;
    if (silent)
        add_reason(ration, {ReasonKind::nothing_noted, Hazard::underfed, "",
                            static_cast<double>(work.in.silent_days)});
    if (old_ph)
        add_reason(ration, {ReasonKind::measure_first, Hazard::ammonia, "", in_days(bed.ph_age)});
    for (const StandingAlarm& alarm : work.in.unanswered) {
        Reason reason = reason_of(alarm);
        reason.kind = ReasonKind::look_first;
        add_reason(ration, std::move(reason));
    }
    ration.answer = RationAnswer::wait;
    ration.next_look = 0;
    return true;
}

/// Whether scraps went in on this day.
inline bool was_fed_today(const RationWork& work) {
    const auto& earlier = work.in.bed.earlier;
    return std::any_of(earlier.begin(), earlier.end(), [](const Feeding& feeding) {
        const double day = in_days(feeding.day);
        return day > -1.0 && day <= 0.0 &&
               std::any_of(feeding.portions.begin(), feeding.portions.end(),
                           [](const Portion& portion) {
                               return part_of(*portion.feedstock) == Part::scraps &&
                                      portion.wet_mass.in_kilograms() > 0.0;
                           });
    });
}

/// Where waiting is the answer: heat, cold, food that is left, a full container, the first days.
inline bool must_wait(const RationWork& work, Ration& ration) {
    if (must_look_first(work, ration)) return true;
    const auto level = [&](Hazard h) { return work.idle[h].level; };
    const auto waits = [&](Reason reason, int least_days) {
        add_reason(ration, std::move(reason));
        wait_until(work, ration, least_days);
        return true;
    };
    if (level(Hazard::hot) == Level::watch)
        return waits_for_warmth(
            work, ration,
            {ReasonKind::hazard_now, Hazard::hot, "", work.idle[Hazard::hot].value.value});
    if (!(work.week_kg >= least_portion_kg)) {
        const Reason reason = little_eaten(work);
        if (reason.kind == ReasonKind::hazard_now) return waits_for_warmth(work, ration, reason);
        // Until there are more of them: no day ends that.
        waits(reason, 7);
        ration.next_feeding.reset();
        return true;
    }
    const double age = in_days(work.bed.age);
    const bool much_left = work.soft_kg > limits::feed_again_share.value * work.week_kg;
    const Reason left{ReasonKind::food_left, Hazard::overfed, "", work.soft_kg};
    if (work.bed.age_given && age < limits::first_feeding_day.value) {
        // Fed too early, it is the food that is waited for.
        if (much_left) add_reason(ration, left);
        return waits({ReasonKind::new_bin, Hazard::sour, "", age},
                     work.in.begins_in_days +
                         static_cast<int>(std::ceil(limits::first_feeding_day.value - age)));
    }
    if (much_left) return waits(left, 0);
    // Half gone is the least that is published: a look that found less holds until it should be.
    if (work.in.seen_left &&
        work.in.seen_left->wet_kg > limits::useful_share.value * work.week_kg) {
        waits({ReasonKind::food_left, Hazard::overfed, "", work.in.seen_left->wet_kg}, 0);
        wait_for_half(work.in.seen_left->half_gone, ration);
        return true;
    }
    if (!has_room_on(work.numbers, 0.0, work.week_kg, 0.0))
        return waits({ReasonKind::fed_lately, Hazard::overfed, "", work.numbers.recent_scraps_kg},
                     0);
    // What was said for a day is fed on that day: asked again, it does not grow, whatever the bed
    // and the caddy have become by feeding.
    if (was_fed_today(work)) return waits({ReasonKind::fed_today, Hazard::overfed, "", 0.0}, 0);
    const double litres = in_litres(work.bed.free_room);
    if (litres >= 0.5) return false;
    // It is full until something is taken out: no day ends that.
    waits({ReasonKind::no_room, Hazard::overfed, "", litres}, 7);
    ration.next_feeding.reset();
    return true;
}

}  // namespace feed::detail
