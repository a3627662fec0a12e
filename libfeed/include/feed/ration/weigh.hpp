#pragma once
#include <algorithm>
#include <array>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "feed/feedstock/amount_mass.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/quantity/sorted.hpp"
#include "feed/ration/plan.hpp"

namespace feed {

/// What is worth measuring: for each uncertain number how far the ration would move over its range,
/// by the sensitivities of the solved problem; the one or two that move it by a tenth or more, most
/// first.
/// @param pull  scraps in kg for each unit by which the limit of a hazard row is raised.
inline std::vector<WorthMeasuring> worth_measuring(
    const Bed& said, const BedNumbers& bed, std::span<const ThingAtHand> things,
    std::span<const double> kg, const std::array<double, detail::hazard_row_count>& pull,
    bool by_worms, double ration_kg) {
    std::vector<WorthMeasuring> found;
    const auto pull_of = [&](Hazard hazard) { return detail::most_of_rows(pull, hazard); };
    const auto half = [](const Ranged& r) { return 0.5 * (r.high - r.low); };
    const auto add = [&](WorthMeasuring::Kind kind, double moves, std::string label = "") {
        if (moves >= 0.1 * ration_kg) found.push_back({kind, std::move(label), moves});
    };
    const bool eaten_decides = by_worms || pull_of(Hazard::overfed) > 1e-12;
    const bool weighed = said.worms.known == WormsKnown::weighed && said.worms.wet_mass;
    if (eaten_decides && !weighed)
        add(WorthMeasuring::Kind::worms, ration_kg * half(bed.worms_kg) / bed.worms_kg.value);
    const bool wetness_said = said.squeeze || said.moisture;
    if (!wetness_said)
        add(WorthMeasuring::Kind::squeeze, (pull_of(Hazard::wet) + pull_of(Hazard::dry)) *
                                               bed.capacity_kg.value * half(bed.saturation));
    if (!said.ph) add(WorthMeasuring::Kind::ph, pull_of(Hazard::sour) * half(bed.acid_g));
    if (std::holds_alternative<std::monostate>(said.temperature) && bed.cold_factor < 1.0)
        add(WorthMeasuring::Kind::temperature, 0.5 * ration_kg);
    for (std::size_t j = 0; j < things.size(); ++j) {
        if (!(kg[j] > 0.0) || !things[j].amount || things[j].amount->kind == AmountKind::mass)
            continue;
        if (part_of(*things[j].feedstock) != Part::scraps) continue;
        const auto spread = wet_mass_of(*things[j].amount, *things[j].feedstock);
        if (!spread || !(spread->wet_mass.in_kilograms() > 0.0)) continue;
        const double share = 0.5 * (spread->high.in_kilograms() - spread->low.in_kilograms()) /
                             spread->wet_mass.in_kilograms();
        add(WorthMeasuring::Kind::thing, share * kg[j], things[j].name());
    }
    detail::sort_by(found, [](const WorthMeasuring& one) { return -one.moves_wet_kg; });
    if (found.size() > 2) found.resize(2);
    return found;
}

}  // namespace feed
