#pragma once
#include <algorithm>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "feed/bed/bed_numbers.hpp"
#include "feed/bed/cautions.hpp"
#include "feed/bed/completed.hpp"
#include "feed/bed/hazard.hpp"
#include "feed/bed/hazard_numbers.hpp"
#include "feed/bed/hazard_words.hpp"
#include "feed/bed/remedy.hpp"
#include "feed/bed/remedy_words.hpp"
#include "feed/feedstock/table.hpp"

namespace feed {

namespace detail {

inline constexpr std::size_t remedy_bedding_index = *find_id("cardboard-corrugated");
inline constexpr std::size_t remedy_lime_index = *find_id("eggshell-powder");
inline constexpr std::string_view remedy_water_id = "water-tap";
inline constexpr std::size_t remedy_water_index = *find_id(remedy_water_id);
inline constexpr std::string_view remedy_scraps_id = "vegetable-produce-mixed";
inline constexpr std::size_t remedy_scraps_index = *find_id(remedy_scraps_id);

inline RemedyMaterials remedy_materials(const CheckOptions& options, const DecayedShares& decayed,
                                        bool nothing_planned = false) {
    RemedyMaterials with;
    if (options.bedding_at_hand) {
        with.bedding = options.bedding_at_hand;
        with.bedding_words = with.bedding->name;
    } else {
        with.bedding = std::make_shared<const Feedstock>(feedstock_at(remedy_bedding_index));
        with.bedding_words = "dry shredded cardboard";
    }
    with.lime = std::make_shared<const Feedstock>(feedstock_at(remedy_lime_index));
    with.lime_words = "ground eggshell";
    with.water_id = remedy_water_id;
    with.scraps_id = remedy_scraps_id;
    with.bedding_per_kg = load_of(*with.bedding, 1.0, decayed);
    with.lime_per_kg = load_of(*with.lime, 1.0, decayed);
    with.water_per_kg = load_of(feedstock_at(remedy_water_index), 1.0, decayed);
    if (nothing_planned)
        with.scraps_per_kg = load_of(feedstock_at(remedy_scraps_index), 1.0, decayed);
    return with;
}

inline void add_remedies(HazardFinding& finding, const RemedyProblem& problem) {
    std::vector<RemedyNumber> found;
    for (const RemedyKind kind : remedies_tried(finding.hazard)) {
        if (const auto r = try_remedy(kind, finding.hazard, problem)) found.push_back(*r);
    }
    if (found.empty()) {
        finding.remedy = no_remedy(finding.hazard, problem);
    } else {
        const auto raises_none = [](const RemedyNumber& r) {
            return std::none_of(r.raises.begin(), r.raises.end(), [](bool b) { return b; });
        };
        auto best = std::find_if(found.begin(), found.end(), raises_none);
        if (best == found.end()) best = found.begin();
        finding.remedy = remedy_of(*best, problem);
        for (auto it = found.begin(); it != found.end(); ++it) {
            if (it != best) finding.other_remedies.push_back(remedy_of(*it, problem));
        }
    }
    if (finding.hazard == Hazard::sour) {
        const std::string withheld = lime_withheld(problem);
        if (!withheld.empty()) finding.remedy.text += " " + withheld;
    }
}

/// Where several hazards are raised, or the step against one raises another, one set of steps
/// against them all.
inline void add_joint_remedy(CheckResult& result, const RemedyProblem& problem) {
    std::array<bool, hazard_count> helpless{};
    std::size_t raised = 0;
    bool raises_another = false;
    for (const HazardFinding& finding : result.hazards) {
        if (finding.level != Level::watch && finding.level != Level::act) continue;
        ++raised;
        raises_another = raises_another || !finding.remedy.raises.empty();
        helpless[static_cast<std::size_t>(finding.hazard)] = !finding.remedy.hazard_gone;
    }
    if (raised < 2 && !raises_another) return;
    const JointNumber n = joint_remedy(problem, helpless);
    const bool some = std::any_of(n.clears.begin(), n.clears.end(), [](bool b) { return b; });
    if (n.found && !some) return;
    result.together = joint_remedy_of(n, problem);
}

inline void add_feeding_assumptions(CheckResult& result, const Load& load, const Bed& bed,
                                    const BedNumbers& numbers, const CheckOptions& options) {
    const auto assume = [&](std::string text) {
        result.assumed.push_back({std::move(text), Grade::d});
    };
    if (!options.until_next)
        assume("The next feeding is in " + words::day_count(numbers.horizon_days) +
               (bed.earlier.size() >= 2 ? ", as in the diary." : "."));
    if (!options.spread)
        assume("The food is laid over a third of the surface, " +
               words::area(numbers.surface_m2 * limits::usual_spread_share.value, options.units) +
               ".");
    if (load.acid_guessed_kg > 0.0)
        assume("The acid of " + words::mass(load.acid_guessed_kg, options.units) +
               " of the scraps has no figure: 0.2 % is taken, 0.8 % where they are sour.");
    if (load.capacity_guessed_kg > 0.0)
        assume("How much water " + words::mass(load.capacity_guessed_kg, options.units) +
               " of the bedding holds has no figure: 2.5 times its dry weight is taken.");
    assume(
        "Four fifths of the scraps' own water comes out, and bedding is planned to be filled to "
        "seven tenths.");
}

}  // namespace detail

/// Judges a planned feeding against a bed: every hazard with its value, limits, source, reason and
/// a remedy that was worked out and judged again; the cautions of the feedstocks; what was assumed.
/// @param said     the bed; what it leaves out is assumed (see completed).
/// @param feeding  scraps with their bedding, water and amendments; may be empty.
/// Errors: none; impossible numbers are refused where files are read. Threads: pure. Linear in the
/// portions of the feeding and the diary.
inline CheckResult check(const Bed& said, std::span<const Portion> feeding,
                         const CheckOptions& options = {}) {
    const CompletedBed bed = completed(said, options.units);
    const BedNumbers numbers = bed_numbers(said, bed, options);
    const DecayedShares decayed = decayed_shares(numbers.horizon_days);
    const Load load = load_of(feeding, decayed);
    const double spread = options.spread ? std::clamp(in_square_metres(*options.spread),
                                                      1e-4 * numbers.surface_m2, numbers.surface_m2)
                                         : limits::usual_spread_share.value * numbers.surface_m2;
    const HazardNumbers judged = hazard_numbers(numbers, load, spread);

    CheckResult result;
    result.assumed = bed.assumed;
    detail::add_feeding_assumptions(result, load, said, numbers, options);
    result.hazards.reserve(hazard_count);
    std::optional<RemedyMaterials> materials;
    std::optional<RemedyProblem> problem;
    for (std::size_t h = 0; h < hazard_count; ++h) {
        const auto hazard = static_cast<Hazard>(h);
        const HazardNumber& n = judged.of[h];
        const bool layer = hazard == Hazard::airless && n.higher_is_worse;
        HazardFinding finding;
        finding.hazard = hazard;
        finding.level = n.level;
        finding.value = {
            n.value.value, n.value.low, n.value.high, n.knowledge, worst(load.grade, Grade::d),
            n.covered};
        finding.limit = n.watch;
        finding.limit_act = n.act;
        finding.higher_is_worse = n.higher_is_worse;
        finding.unit = unit_of(hazard, layer);
        finding.source = source_of(hazard, numbers, layer);
        finding.why = why_sentence(hazard, numbers, load, judged, options.units);
        if (n.level == Level::watch || n.level == Level::act) {
            if (!materials)
                materials = detail::remedy_materials(options, decayed, load.scraps_wet_kg <= 0.0);
            problem = RemedyProblem{&numbers,    &judged, feeding,
                                    load,        spread,  bed.free_room.value(),
                                    &*materials, decayed, options.units};
            detail::add_remedies(finding, *problem);
        }
        result.hazards.push_back(std::move(finding));
    }
    if (problem) detail::add_joint_remedy(result, *problem);
    result.cautions = cautions_of(feeding, numbers, options.units);
    result.grade = Grade::d;
    if (load.scraps_wet_kg > 0.0)
        result.look_back = "In " + words::day_count(numbers.horizon_days) +
                           " the food should be mostly gone; if it is not, skip a feeding.";
    return result;
}

}  // namespace feed
