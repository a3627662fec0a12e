#pragma once
#include <algorithm>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "feed/bed/hazard_words.hpp"
#include "feed/ration/decide.hpp"

namespace feed {

/// A planned feeding judged against a bed, and the ration for the same bed and the same things:
/// what a keeper should do. `hazards` holds every hazard of the plan as written, in the order of
/// the enumeration.
struct CheckResult {
    Ration ration;
    std::vector<HazardFinding> hazards;
    std::vector<CautionFinding> cautions;  ///< of the plan as written
    std::vector<Assumption> assumed;
    Grade grade = Grade::d;
    bool as_planned = false;  ///< the ration puts in all that was planned, and no less

    const HazardFinding& operator[](Hazard hazard) const {
        return hazards[static_cast<std::size_t>(hazard)];
    }
};

/// Judges a planned feeding against a bed: every hazard with its value, limits, source and reason,
/// the cautions of the feedstocks, and the ration.
/// @param in    the bed, what stands, and what is at hand (the planned feeding is part of it).
/// @param plan  scraps with their bedding, water and amendments; may be empty.
/// Errors: none; impossible numbers are refused where files are read. Threads: pure. Time: a
/// ration.
inline CheckResult check(const RationInput& in, std::span<const Portion> plan) {
    CheckResult result;
    detail::RationWork work = detail::work_of(in, result.ration);
    detail::decide(work, result.ration);
    const Load load =
        load_of(plan, decayed_shares(work.numbers.horizon_days, work.numbers.decay_speed));
    const HazardNumbers judged = hazard_numbers(work.place, load);
    result.hazards.reserve(hazard_count);
    for (std::size_t h = 0; h < hazard_count; ++h) {
        const auto hazard = static_cast<Hazard>(h);
        const HazardNumber& n = judged.of[h];
        HazardFinding finding;
        finding.hazard = hazard;
        finding.level = n.level;
        finding.value = {
            n.value.value, n.value.low, n.value.high, n.knowledge, worst(load.grade, Grade::d),
            n.covered};
        finding.limit = n.watch;
        finding.limit_act = n.act;
        finding.higher_is_worse = n.higher_is_worse;
        finding.unit = n.unit;
        finding.source = n.source;
        finding.why = why_sentence(hazard, work.place, load, judged, in.units);
        result.hazards.push_back(std::move(finding));
    }
    std::vector<std::string> labels;
    for (const Portion& portion : plan) {
        const auto named = std::find_if(
            in.things.begin(), in.things.end(),
            [&](const ThingAtHand& thing) { return thing.feedstock == portion.feedstock; });
        labels.push_back(named == in.things.end() ? std::string() : named->label);
    }
    result.cautions = cautions_of(plan, labels);
    result.assumed = result.ration.assumed;
    result.as_planned =
        result.ration.answer == RationAnswer::feed && result.ration.take_out.empty();
    return result;
}

/// The same for a bed and a feeding alone: what is planned is what is at hand.
inline CheckResult check(const Bed& bed, std::span<const Portion> plan,
                         UnitSystem units = UnitSystem::metric) {
    RationInput in;
    in.bed = bed;
    in.units = units;
    for (const Portion& portion : plan)
        in.things.push_back({portion.feedstock, portion.feedstock->name, portion.wet_mass, {}});
    return check(in, plan);
}

}  // namespace feed
