#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "feed/bed/advice.hpp"
#include "feed/bed/cautions.hpp"
#include "feed/bed/crowding.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/ration/leave_out.hpp"
#include "feed/ration/plan.hpp"
#include "feed/ration/weigh.hpp"
#include "feed/ration/without_food.hpp"

// What to put into a bed today: without food where it is not well, else a plan.
namespace feed {

namespace detail {

/// What may go in today: what of the week's ration has room, half of that while the bed is watched,
/// but no less than what is worth opening the bin for: so a day that was named for feeding stays.
inline double most_scraps_today(const RationWork& work) {
    const double room_kg = std::max(0.0, work.week_kg - work.numbers.recent_scraps_kg);
    const double worth_kg = std::min(least_ration_kg, work.allowed * work.week_kg);
    return std::min(room_kg, std::max(work.allowed * room_kg, worth_kg));
}

inline PlanProblem plan_problem(RationWork& work, Ration& ration) {
    if (!any_of_part(work.things, Part::scraps)) {
        constexpr std::size_t mixed = *find_id("vegetable-produce-mixed");
        work.things.insert(work.things.begin(),
                           offered(std::make_shared<const Feedstock>(feedstock_at(mixed))));
        work.things.front().label = "soft mixed scraps";
        add_reason(ration, {ReasonKind::nothing_at_hand, Hazard::underfed, "", 0.0});
    }
    if (!any_of_part(work.things, Part::bedding))
        work.things.push_back(offered(work.materials.bedding));
    PlanProblem problem;
    problem.place = work.place;
    problem.things = work.things;
    const DecayedShares decayed =
        decayed_shares(work.numbers.horizon_days, work.numbers.decay_speed);
    for (const ThingAtHand& thing : work.things)
        problem.per_kg.push_back(load_of(*thing.feedstock, 1.0, decayed));
    problem.water_per_kg = load_of(*work.materials.water, 1.0, decayed);
    for (const Hazard hazard : watched_hazards) {
        const HazardNumber& n = work.idle[hazard];
        if (n.level == Level::watch)
            add_reason(ration, {ReasonKind::hazard_now, hazard, "", n.value.value});
    }
    for (const StandingAlarm& alarm : work.alarms) {
        if (alarm.level == Level::watch) add_reason(ration, reason_of(alarm));
    }
    problem.most_scraps_kg = most_scraps_today(work);
    problem.free_room_m3 = work.bed.free_room.value();
    if (may_lime(work.place, Load{}))
        problem.most_lime_kg = limits::most_lime.value * work.numbers.surface_m2 / 1000.0;
    const double worms_kg = work.numbers.worms_kg.value;
    problem.caps = week_caps(work.things, work.in.bed.earlier, worms_kg);
    problem.given_of_kind = given_of_kinds(work.in.bed.earlier, worms_kg);
    problem.idle = work.idle;
    problem.units = work.in.units;
    return problem;
}

inline void add_put_in(const RationWork& work, const Plan& plan, Ration& ration) {
    for (const Part part : {Part::scraps, Part::bedding}) {
        for (std::size_t j = 0; j < work.things.size(); ++j) {
            if (part_of(*work.things[j].feedstock) != part || !(plan.kg[j] > 0.0)) continue;
            ration.put_in.push_back(
                {work.things[j], part, wet_kilograms(plan.kg[j]), work.in.units});
        }
    }
    if (plan.water_kg > 0.0) {
        ration.put_in.push_back({offered(work.materials.water), Part::poured_water,
                                 wet_kilograms(plan.water_kg), work.in.units});
        ration.put_in.back().thing.at_hand = true;
    }
    for (std::size_t j = 0; j < work.things.size(); ++j) {
        if (part_of(*work.things[j].feedstock) != Part::amendment || !(plan.kg[j] > 0.0)) continue;
        ration.put_in.push_back(
            {work.things[j], Part::amendment, wet_kilograms(plan.kg[j]), work.in.units});
        ration.lime_kg += plan.kg[j];
    }
    ration.water_kg = plan.water_kg;
    ration.scraps = wet_kilograms(plan.load.scraps_wet_kg);
}

/// What stays out, and why: caps, the worms, or a hazard that more would raise.
inline void add_rest(const RationWork& work, const PlanProblem& problem, const Plan& plan,
                     Ration& ration) {
    double there_kg = 0.0;
    double left_kg = 0.0;
    std::optional<std::size_t> capped;
    for (std::size_t j = 0; j < work.things.size(); ++j) {
        const ThingAtHand& thing = work.things[j];
        if (part_of(*thing.feedstock) != Part::scraps || !thing.most) continue;
        const double rest = thing.most->in_kilograms() - plan.kg[j];
        there_kg += thing.most->in_kilograms();
        if (rest < 0.005) continue;
        left_kg += rest;
        const bool by_cap = plan.kg[j] >= 0.9 * problem.caps[j].left_kg() || plan.capped_by_kind[j];
        if (by_cap && !capped) capped = j;
        ration.rest.push_back({thing, wet_kilograms(rest), by_cap});
    }
    ration.answer = left_kg > 0.05 * there_kg ? RationAnswer::feed_less : RationAnswer::feed;
    if (ration.answer == RationAnswer::feed) return;
    if (capped) add_reason(ration, cap_reason(work.things[*capped], problem, *capped));
    if (plan.by_cap_of_worms || most_of_rows(plan.pull, Hazard::overfed) > 1e-12) {
        Reason worms{ReasonKind::cap_worms, Hazard::overfed, "", work.week_kg};
        worms.in_new_bin = !work.place.rules.own_record && work.numbers.ramp_factor < 1.0;
        add_reason(ration, std::move(worms));
    }
    for (std::size_t i = 0; i < hazard_row_count; ++i) {
        if (plan.pull[i] <= 1e-12 || hazard_rows[i].hazard == Hazard::overfed) continue;
        add_reason(ration, {ReasonKind::hazard_with, hazard_rows[i].hazard, "", 0.0});
    }
    if (plan.by_heat) add_reason(ration, {ReasonKind::hazard_with, Hazard::hot, "", 0.0});
    if (plan.by_room) add_reason(ration, {ReasonKind::no_room, Hazard::overfed, "", 0.0});
    if (plan.by_bedding) add_reason(ration, {ReasonKind::no_bedding, Hazard::overfed, "", 0.0});
}

/// Nothing worth laying may go in.
/// @param by_bed  worms and caps leave room for what is at hand, but the bed does not: no day ends
///                that, so it is mended by the step of the day and looked at tomorrow.
inline void too_little(const RationWork& work, bool by_heat, bool by_bed, Ration& ration) {
    if (by_heat) add_reason(ration, {ReasonKind::hazard_with, Hazard::hot, "", 0.0});
    add_reason(ration, {ReasonKind::too_little, Hazard::overfed, "", 0.0});
    wait_until(work, ration, 1);
    if (!by_bed) return;
    ration.next_feeding.reset();
    ration.next_look = std::max(1, days_away(work));
}

inline void feed_today(RationWork& work, Ration& ration) {
    leave_out_capped(work, ration);
    const PlanProblem problem = plan_problem(work, ration);
    const Plan plan = make_plan(problem);
    std::vector<double> by_caps(work.things.size(), 0.0);
    for (std::size_t j = 0; j < work.things.size(); ++j) {
        const ThingAtHand& thing = work.things[j];
        if (part_of(*thing.feedstock) != Part::scraps) continue;
        by_caps[j] = std::min(most_there_kg(thing), problem.caps[j].left_kg());
    }
    const double there_kg =
        allowed_by_kinds(work, problem, std::move(by_caps), problem.given_of_kind);
    // Before rounding: what a rounding takes does not decide.
    const double may_kg = std::min(there_kg, problem.most_scraps_kg);
    const double least_kg = std::min(least_ration_kg, 0.9 * may_kg);
    if (!plan.found || plan.unrounded_kg < least_kg - 1e-9)
        return too_little(work, plan.by_heat, may_kg >= least_portion_kg, ration);
    add_put_in(work, plan, ration);
    add_rest(work, problem, plan, ration);
    for (std::size_t h = 0; h < hazard_count; ++h)
        ration.after[h] = plan.after.of[h].level;
    std::vector<Portion> portions;
    std::vector<std::string> labels;
    for (const PutIn& put : ration.put_in) {
        portions.push_back({put.thing.feedstock, put.wet_mass});
        labels.push_back(put.thing.label);
    }
    ration.cautions = cautions_of(portions, labels);
    const Forecast f = forecast_of_ration(work, std::move(portions));
    const int away = days_away(work);
    ration.next_feeding =
        next_feeding_day(f, work.numbers, plan.load.scraps_wet_kg, std::max(1, away));
    const int seen = ration.next_feeding ? ration.next_feeding->day : 7;
    ration.next_look = away > 0 ? away : std::clamp(seen, 1, 7);
    double fed = 0.0;
    double left = 0.0;
    double most = 0.0;
    const auto on = std::min(static_cast<std::size_t>(ration.next_look), f.days);
    for (const ForecastPortion& portion : f.portions) {
        if (!portion.is_scraps || portion.day != 0) continue;
        fed += portion.wet_kg;
        left += portion.wet_kg * f.share_left(portion, on);
        most += portion.wet_kg * f.most_left(portion, on);
    }
    if (fed > 0.0) {
        ration.share_left = left / fed;
        ration.share_left_high = most / fed;
    }
    ration.weigh = worth_measuring(work.in.bed, work.numbers, work.things, plan.kg, plan.pull,
                                   plan.by_cap_of_worms, ration.scraps.in_kilograms());
}

/// Lime, ash, shell or grit at hand of which nothing goes in: who asked about it is told.
inline void add_unneeded(const RationWork& work, Ration& ration) {
    for (const ThingAtHand& thing : work.things) {
        if (part_of(*thing.feedstock) != Part::amendment || !thing.most) continue;
        const bool goes_in =
            std::any_of(ration.put_in.begin(), ration.put_in.end(),
                        [&](const PutIn& put) { return put.thing.feedstock == thing.feedstock; });
        if (!goes_in) ration.rest.push_back({thing, *thing.most, false});
    }
}

/// What went in within two weeks and is never fed is kept in the diary, and answered first: dig it
/// out.
inline void answer_what_went_in(const RationWork& work, Ration& ration) {
    std::vector<CautionFinding> findings;
    for_each_barred_in(work.in.bed, [&](const Feedstock& f, double) {
        const auto told = [&](const CautionFinding& one) { return one.feedstock == f.name; };
        if (std::any_of(findings.begin(), findings.end(), told)) return;
        const auto of_it =
            std::find_if(caution_words.begin(), caution_words.end(),
                         [&](const CautionWords& words) { return f.has(words.caution); });
        const Caution caution = of_it == caution_words.end() ? Caution::pathogen : of_it->caution;
        findings.push_back({caution, Level::act, f.name,
                            "dig out what is left of the " + plain_name("", f) +
                                " that went in: " + std::string(why_barred(f)) + ". Wear gloves.",
                            "common practice", true});
    });
    for (CautionFinding& caution : ration.cautions)
        findings.push_back(std::move(caution));
    ration.cautions = std::move(findings);
}

/// What will dry while nobody looks goes in before, as far as the bed takes it without anything
/// being raised: so there is one amount of water.
inline void water_for_the_time_away(const RationWork& work, Ration& ration) {
    const DecayedShares decayed =
        decayed_shares(work.numbers.horizon_days, work.numbers.decay_speed);
    const Load put_in = load_of(portions_of(ration.put_in), decayed);
    const Load water = load_of(*work.materials.water, 1.0, decayed);
    const double away = std::min(in_days(*work.in.away), longest_away_days);
    const UnitSystem units = work.in.units;
    double more_kg =
        rounded_water(left_alone(work.numbers, work.bed, put_in, away, units).water_to_add, units);
    while (more_kg > 0.0) {
        Load with = put_in;
        const HazardNumbers after = hazard_numbers(work.place, with.add(water, more_kg));
        bool raises = false;
        for (std::size_t h = 0; h < hazard_count; ++h)
            raises = raises || after.of[h].level > std::max(ration.before[h], ration.after[h]);
        if (raises) {
            more_kg = rounded_water(0.5 * more_kg, units);
            continue;
        }
        for (std::size_t h = 0; h < hazard_count; ++h)
            ration.after[h] = after.of[h].level;
        break;
    }
    if (!(more_kg > 0.0)) return;
    ration.water_kg += more_kg;
    const auto is_water = [](const PutIn& put) { return put.part == Part::poured_water; };
    const auto there = std::find_if(ration.put_in.begin(), ration.put_in.end(), is_water);
    if (there != ration.put_in.end()) {
        there->wet_mass = wet_kilograms(ration.water_kg);
        return;
    }
    ThingAtHand thing = offered(work.materials.water);
    thing.at_hand = true;
    const auto lime = std::find_if(ration.put_in.begin(), ration.put_in.end(),
                                   [](const PutIn& put) { return put.part == Part::amendment; });
    ration.put_in.insert(
        lime, {std::move(thing), Part::poured_water, wet_kilograms(more_kg), work.in.units});
}

/// Worms that had little for weeks and get little today are to have more: the keeper is told.
inline void tell_hunger(const RationWork& work, Ration& ration) {
    const auto hungry = static_cast<std::size_t>(Hazard::underfed);
    if (!is_raised(work.idle.of[hungry].level) || !is_raised(ration.after[hungry])) return;
    add_reason(ration, {ReasonKind::hazard_now, Hazard::underfed, "", work.week_kg});
}

/// Decides a ration from its work. @param ration  what is taken out, from work_of.
inline void decide(RationWork& work, Ration& ration) {
    ration.date = work.in.date;
    ration.units = work.in.units;
    ration.spread = square_metres(work.place.spread_m2);
    ration.week = wet_kilograms(work.week_kg);
    ration.worms = work.bed.worms.value;
    ration.worms_given = work.bed.worms_given;
    ration.worms_room = room_for_worms(work.bed);
    ration.crowded = is_crowded(work.bed);
    ration.assumed = work.bed.assumed;
    for (std::size_t h = 0; h < hazard_count; ++h) {
        ration.before[h] = ration.after[h] = work.idle.of[h].level;
        if (is_raised(work.idle.of[h].level) && static_cast<Hazard>(h) != Hazard::underfed)
            ration.raised.push_back(static_cast<Hazard>(h));
    }
    const bool done = wait_after_step(work, ration);
    if (!done && !act_first(work, ration) && !must_wait(work, ration)) feed_today(work, ration);
    if (ration.answer == RationAnswer::wait && !looks_first(ration) && !done)
        step_while_waiting(work, ration);
    if (work.in.away && ration.answer != RationAnswer::act_first && !looks_first(ration))
        water_for_the_time_away(work, ration);
    if (ration.answer == RationAnswer::feed || ration.answer == RationAnswer::feed_less)
        tell_hunger(work, ration);
    answer_what_went_in(work, ration);
    if (ration.answer == RationAnswer::wait || ration.answer == RationAnswer::act_first) {
        for (const ThingAtHand& thing : work.things) {
            if (part_of(*thing.feedstock) == Part::scraps && thing.most)
                ration.rest.push_back({thing, *thing.most, false});
        }
    }
    add_unneeded(work, ration);
}

}  // namespace detail

/// What to put into this bed today, from the bed as it stands and what is at hand: first what is
/// never fed is taken out; then the bed is judged without food (act first, or wait); then as much
/// goes in as every hazard, cap, bedding and the room allow, by the aims of bed-model: first what
/// was asked to be used first, most scraps up to what the worms start with, as the caddy comes,
/// nearest the aim of wetness, least added, the order of the list. Rounded as printed and judged as
/// printed. Errors: none; impossible numbers are refused where files are read. Threads: pure. Time:
/// some small linear problems and one forecast of six weeks.
inline Ration ration(const RationInput& in) {
    Ration answer;
    detail::RationWork work = detail::work_of(in, answer);
    detail::decide(work, answer);
    return answer;
}

}  // namespace feed
