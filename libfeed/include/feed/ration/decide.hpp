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

#include "feed/bed/act_step.hpp"
#include "feed/bed/cautions.hpp"
#include "feed/bed/completed.hpp"
#include "feed/feedstock/place.hpp"
#include "feed/ration/next_feeding.hpp"
#include "feed/ration/plan.hpp"
#include "feed/ration/ration.hpp"
#include "feed/ration/weigh.hpp"

namespace feed {

/// What was seen, smelt or counted that stands until a later look says otherwise.
struct StandingAlarm {
    std::optional<Hazard> hazard;  ///< what it tells of; nothing where it may be several things
    std::string what;              ///< "the worms are leaving"
    Level level = Level::act;      ///< act: a step and no food; watch: half of the ration
    int days_ago = 0;
};

/// What a ration is decided from.
struct RationInput {
    Bed bed;  ///< as it stands today, with its earlier feedings and what was seen
    std::vector<StandingAlarm> alarms;
    std::vector<ThingAtHand> things;
    std::optional<Date> date;  ///< today
    std::optional<Area> spread;
    std::optional<Ranged> soft_food_kg;  ///< left of the earlier feedings, where looks tell it
    ParameterRanges ranges = published_ranges();  ///< this bin's own rates where learned
    std::vector<SoftLeft> new_food;  ///< course of food from today on, where looks tell it
    std::size_t looks_learned_from = 0;
    UnitSystem units = UnitSystem::metric;
};

namespace detail {

/// Everything a ration is worked out with.
struct RationWork {
    const RationInput& in;
    CompletedBed bed;
    BedNumbers numbers;
    FeedingPlace place;
    HazardNumbers idle;
    StepMaterials materials;
    std::vector<ThingAtHand> things;  ///< without what is taken out; with what is offered
    double week_kg = 0.0;
    double soft_kg = 0.0;
    double allowed = 1.0;  ///< share of the week's ration: less while the bed is watched
};

inline ThingAtHand offered(std::shared_ptr<const Feedstock> feedstock) {
    ThingAtHand thing;
    thing.label = feedstock->name;
    thing.feedstock = std::move(feedstock);
    thing.at_hand = false;
    return thing;
}

inline bool any_of_part(std::span<const ThingAtHand> things, Part part) {
    return std::any_of(things.begin(), things.end(),
                       [&](const ThingAtHand& thing) { return part_of(*thing.feedstock) == part; });
}

/// Sets aside what is never fed; the rest is what may go in.
inline void set_aside(RationWork& work, Ration& ration) {
    for (const ThingAtHand& thing : work.in.things) {
        const Feedstock& f = *thing.feedstock;
        if (barred_in(f, Place::worm_bed)) {
            ration.take_out.push_back(take_out(f, thing.label));
        } else if (part_of(f) != Part::poured_water) {
            work.things.push_back(thing);
            if (work.things.back().label.empty()) work.things.back().label = f.name;
        }
    }
}

/// Joins what is listed twice, so that each thing has one amount.
inline void join_repeated(std::vector<ThingAtHand>& things) {
    for (std::size_t i = 0; i < things.size(); ++i) {
        for (std::size_t j = i + 1; j < things.size();) {
            const bool same = things[i].feedstock->id == things[j].feedstock->id &&
                              things[i].feedstock->prepared_as == things[j].feedstock->prepared_as;
            if (!same) {
                ++j;
                continue;
            }
            if (things[i].most && things[j].most)
                things[i].most = *things[i].most + *things[j].most;
            else
                things[i].most.reset();
            things[i].amount.reset();
            things[i].first = things[i].first || things[j].first;
            things.erase(things.begin() + static_cast<std::ptrdiff_t>(j));
        }
    }
}

/// The materials of a step. Bedding: the first at hand without a cap of which there is enough, else
/// the house bedding, offered as such. Lime: the first at hand that is ground, else eggshell.
inline StepMaterials step_materials_of(std::span<const ThingAtHand> things, double contents_m3) {
    std::shared_ptr<const Feedstock> bedding;
    std::shared_ptr<const Feedstock> lime;
    double most_bedding_kg = solver::infinity;
    double most_lime_kg = solver::infinity;
    constexpr double worth_stirring_in_kg = 0.01;
    for (const ThingAtHand& thing : things) {
        const Feedstock& f = *thing.feedstock;
        const double there = thing.most ? thing.most->in_kilograms() : solver::infinity;
        if (!lime && is_ground_lime(f) && there >= worth_stirring_in_kg) {
            lime = thing.feedstock;
            most_lime_kg = there;
        }
        if (bedding || part_of(f) != Part::bedding || f.most_wet_kg_per_kg_worms) continue;
        const double wanted = limits::step_bedding_share.value * contents_m3 * loose_kg_per_m3(f);
        if (there < 0.5 * wanted) continue;
        bedding = thing.feedstock;
        most_bedding_kg = there;
    }
    StepMaterials with = step_materials(std::move(bedding));
    with.most_bedding_kg = most_bedding_kg;
    if (lime) with.lime = std::move(lime);
    with.most_lime_kg = most_lime_kg;
    return with;
}

/// While one of these is at watch, half of the ration goes in.
inline constexpr std::array<Hazard, 5> watched_hazards{Hazard::wet, Hazard::dry, Hazard::sour,
                                                       Hazard::salty, Hazard::airless};

inline RationWork work_of(const RationInput& in, Ration& ration) {
    RationWork work{in, completed(in.bed, in.units), {}, {}, {}, {}, {}};
    CheckOptions options;
    options.units = in.units;
    options.until_next = days(limits::usual_interval.value);
    options.soft_food_kg = in.soft_food_kg;
    work.numbers = bed_numbers(in.bed, work.bed, options);
    const double surface = work.numbers.surface_m2;
    const double spread = in.spread
                              ? std::clamp(in_square_metres(*in.spread), 1e-4 * surface, surface)
                              : limits::usual_spread_share.value * surface;
    work.place = feeding_place(work.numbers, spread);
    work.idle = hazard_numbers(work.place, Load{});
    set_aside(work, ration);
    join_repeated(work.things);
    work.materials = step_materials_of(work.things, work.numbers.contents_m3);
    work.week_kg = 7.0 * work.place.rules.start_wet_kg_per_day;
    work.soft_kg = work.numbers.soft_food_kg.value;
    for (const Hazard hazard : watched_hazards) {
        if (work.idle[hazard].level == Level::watch)
            work.allowed = limits::watched_ration_share.value;
    }
    for (const StandingAlarm& alarm : in.alarms) {
        if (alarm.level == Level::watch) work.allowed = limits::watched_ration_share.value;
    }
    return work;
}

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
    return alarm.level == Level::act &&
           (alarm.hazard == Hazard::sour || alarm.hazard == Hazard::ammonia ||
            alarm.hazard == Hazard::airless || alarm.hazard == Hazard::wet);
}

/// One day's step against what is raised, for the whole bed and not for the place of one feeding.
/// Where nothing is reckoned to be wrong but it smells, loose bedding goes in (common practice), as
/// much as raises nothing.
inline ActStep step_for(const RationWork& work, const std::array<bool, hazard_count>& raised) {
    const FeedingPlace whole = feeding_place(work.numbers, work.numbers.surface_m2);
    ActStep step = act_step(whole, work.materials, raised, work.in.units);
    const bool smells =
        std::any_of(work.in.alarms.begin(), work.in.alarms.end(), is_eased_by_bedding);
    if (step.any() || !smells) return step;
    return loose_bedding_step(whole, work.materials, work.in.units);
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

/// Where the bed is past an act limit, or an alarm stands: one step, no food.
inline bool act_first(const RationWork& work, Ration& ration) {
    std::array<bool, hazard_count> raised{};
    bool act = false;
    for (std::size_t h = 0; h < hazard_count; ++h) {
        const auto hazard = static_cast<Hazard>(h);
        if (!needs_a_step(hazard) || work.idle.of[h].level != Level::act) continue;
        act = raised[h] = true;
        add_reason(ration, {ReasonKind::hazard_now, hazard, "", work.idle.of[h].value.value});
    }
    for (const StandingAlarm& alarm : work.in.alarms) {
        if (alarm.level != Level::act) continue;
        act = true;
        if (alarm.hazard) raised[static_cast<std::size_t>(*alarm.hazard)] = true;
        add_reason(ration, reason_of(alarm));
    }
    if (!act) return false;
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

inline void wait_until(const RationWork& work, Ration& ration, int least_days) {
    ration.answer = RationAnswer::wait;
    const Forecast f = forecast_of_ration(work, {});
    auto next = next_feeding_day(f, work.numbers, 0.0, work.allowed, std::max(1, least_days));
    ration.next_feeding = next;
    ration.next_look = next ? std::clamp(next->day, 1, 7) : 7;
    if (least_days > 0) ration.next_look = std::min(ration.next_look, std::max(1, least_days));
}

/// Where waiting is the answer: heat, cold, food that is left, a full container, the first days.
inline bool must_wait(const RationWork& work, Ration& ration) {
    const auto level = [&](Hazard h) { return work.idle[h].level; };
    const auto waits = [&](Reason reason, int least_days) {
        add_reason(ration, std::move(reason));
        wait_until(work, ration, least_days);
        return true;
    };
    if (level(Hazard::hot) == Level::watch)
        return waits({ReasonKind::hazard_now, Hazard::hot, "", work.idle[Hazard::hot].value.value},
                     1);
    if (!(work.week_kg >= least_ration_kg))
        return waits({ReasonKind::hazard_now, Hazard::cold, "", work.numbers.temperature_c}, 7);
    const double age = in_days(work.bed.age);
    if (work.bed.age_given && age < limits::first_feeding_day.value)
        return waits({ReasonKind::new_bin, Hazard::sour, "", age},
                     static_cast<int>(std::ceil(limits::first_feeding_day.value - age)));
    if (work.soft_kg > limits::feed_again_share.value * work.week_kg)
        return waits({ReasonKind::food_left, Hazard::overfed, "", work.soft_kg}, 0);
    if (!has_room_on(work.numbers, 0.0, work.week_kg, work.allowed * work.week_kg, 0.0))
        return waits({ReasonKind::fed_lately, Hazard::overfed, "", work.numbers.recent_scraps_kg},
                     0);
    const double litres = in_litres(work.bed.free_room);
    if (litres < 0.5) return waits({ReasonKind::no_room, Hazard::overfed, "", litres}, 7);
    return false;
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
    const DecayedShares decayed = decayed_shares(work.numbers.horizon_days);
    for (const ThingAtHand& thing : work.things)
        problem.per_kg.push_back(load_of(*thing.feedstock, 1.0, decayed));
    problem.water_per_kg = load_of(*work.materials.water, 1.0, decayed);
    for (const Hazard hazard : watched_hazards) {
        const HazardNumber& n = work.idle[hazard];
        if (n.level == Level::watch)
            add_reason(ration, {ReasonKind::hazard_now, hazard, "", n.value.value});
    }
    for (const StandingAlarm& alarm : work.in.alarms) {
        if (alarm.level == Level::watch) add_reason(ration, reason_of(alarm));
    }
    problem.most_scraps_kg =
        std::max(0.0, work.allowed * work.week_kg - work.numbers.recent_scraps_kg);
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

/// What these worms may have of a thing in a week, and what went in: of it, or of its kind.
inline Reason cap_reason(const ThingAtHand& thing, const PlanProblem& problem, std::size_t j) {
    const WeekCap& cap = problem.caps[j];
    Reason reason{ReasonKind::cap, Hazard::overfed, thing.label, cap.week_kg};
    reason.given = cap.given_kg;
    for (std::size_t kind = 0; kind < capped_together.size(); ++kind) {
        if (!thing.feedstock->has(capped_together[kind])) continue;
        const double of_kind = problem.given_of_kind[kind] * cap.week_kg;
        if (of_kind <= reason.given + 0.001) continue;
        reason.given = of_kind;
        reason.with_its_kind = true;
    }
    return reason;
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
    if (plan.by_cap_of_worms || most_of_rows(plan.pull, Hazard::overfed) > 1e-12)
        add_reason(ration, {ReasonKind::cap_worms, Hazard::overfed, "", work.week_kg});
    for (std::size_t i = 0; i < hazard_row_count; ++i) {
        if (plan.pull[i] <= 1e-12 || hazard_rows[i].hazard == Hazard::overfed) continue;
        add_reason(ration, {ReasonKind::hazard_with, hazard_rows[i].hazard, "", 0.0});
    }
    if (plan.by_heat) add_reason(ration, {ReasonKind::hazard_with, Hazard::hot, "", 0.0});
    if (plan.by_room) add_reason(ration, {ReasonKind::no_room, Hazard::overfed, "", 0.0});
    if (plan.by_bedding) add_reason(ration, {ReasonKind::no_bedding, Hazard::overfed, "", 0.0});
}

inline void feed_today(RationWork& work, Ration& ration) {
    const PlanProblem problem = plan_problem(work, ration);
    const Plan plan = make_plan(problem);
    double there_kg = 0.0;
    for (std::size_t j = 0; j < work.things.size(); ++j) {
        const ThingAtHand& thing = work.things[j];
        if (part_of(*thing.feedstock) != Part::scraps) continue;
        there_kg +=
            std::min(thing.most ? thing.most->in_kilograms() : 1e3, problem.caps[j].left_kg());
    }
    // Before rounding: what a rounding takes does not decide.
    if (!plan.found || plan.unrounded_kg < std::min(least_ration_kg, 0.9 * there_kg) - 1e-9) {
        if (plan.by_heat) add_reason(ration, {ReasonKind::hazard_with, Hazard::hot, "", 0.0});
        add_reason(ration, {ReasonKind::too_little, Hazard::overfed, "", 0.0});
        wait_until(work, ration, 1);
        return;
    }
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
    ration.next_feeding =
        next_feeding_day(f, work.numbers, plan.load.scraps_wet_kg, work.allowed, 1);
    const int seen = ration.next_feeding ? ration.next_feeding->day : 7;
    ration.next_look = std::clamp(seen, 1, 7);
    double fed = 0.0;
    double left = 0.0;
    double most = 0.0;
    const auto on = static_cast<std::size_t>(ration.next_look);
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

/// What went in within two weeks and is never fed is kept in the diary, and answered first: dig it
/// out.
inline void answer_what_went_in(const RationWork& work, Ration& ration) {
    constexpr double still_there_days = 14.0;
    std::vector<CautionFinding> findings;
    for (const Feeding& feeding : work.in.bed.earlier) {
        if (in_days(feeding.day) < -still_there_days || in_days(feeding.day) > 0.0) continue;
        for (const Portion& portion : feeding.portions) {
            const Feedstock& f = *portion.feedstock;
            const auto told = [&](const CautionFinding& one) { return one.feedstock == f.name; };
            if (!barred_in(f, Place::worm_bed) ||
                std::any_of(findings.begin(), findings.end(), told))
                continue;
            const auto of_it =
                std::find_if(caution_words.begin(), caution_words.end(),
                             [&](const CautionWords& words) { return f.has(words.caution); });
            const Caution caution =
                of_it == caution_words.end() ? Caution::pathogen : of_it->caution;
            findings.push_back({caution, Level::act, f.name,
                                "dig out what is left of the " + f.name + " that went in: " +
                                    std::string(why_barred(f)) + ". Wear gloves.",
                                "common practice"});
        }
    }
    ration.cautions.insert(ration.cautions.begin(), findings.begin(), findings.end());
}

/// Decides a ration from its work. @param ration  what is taken out, from work_of.
inline void decide(RationWork& work, Ration& ration) {
    ration.date = work.in.date;
    ration.units = work.in.units;
    ration.spread = square_metres(work.place.spread_m2);
    ration.week = wet_kilograms(work.week_kg);
    ration.assumed = work.bed.assumed;
    for (std::size_t h = 0; h < hazard_count; ++h) {
        ration.before[h] = ration.after[h] = work.idle.of[h].level;
        if (is_raised(work.idle.of[h].level) && static_cast<Hazard>(h) != Hazard::underfed)
            ration.raised.push_back(static_cast<Hazard>(h));
    }
    if (!act_first(work, ration) && !must_wait(work, ration)) feed_today(work, ration);
    if (ration.answer == RationAnswer::wait) step_while_waiting(work, ration);
    answer_what_went_in(work, ration);
    if (ration.answer == RationAnswer::wait || ration.answer == RationAnswer::act_first) {
        for (const ThingAtHand& thing : work.things) {
            if (part_of(*thing.feedstock) == Part::scraps && thing.most)
                ration.rest.push_back({thing, *thing.most, false});
        }
    }
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
