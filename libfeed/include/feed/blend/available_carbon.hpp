#pragma once
#include "feed/feedstock/assumed.hpp"
#include "feed/feedstock/feedstock.hpp"

namespace feed {

/// Which definition "available C:N" follows; shown with the answer.
inline constexpr std::string_view available_carbon_definition =
    "available C:N counts carbon by its degradable share, 0.83 - 0.028 x lignin in % of volatile "
    "solids (Chandler et al. 1980), over total nitrogen";

/// The share of the volatile solids, and so of their carbon, that microbes can take:
/// 0.83 - 0.028 x L with L the lignin in per cent of the volatile solids, never below 0 or above
/// 0.83 (Chandler et al. 1980; zero from L = 29.6 % on). Fitted on anaerobic digestion; fungi do
/// better on wood.
/// lignin: lignin over volatile solids, 0 to 1. Threads: pure.
constexpr double degradable_share(double lignin) noexcept {
    const double share = 0.83 - 2.8 * lignin;
    return share < 0.0 ? 0.0 : share > 0.83 ? 0.83 : share;
}

/// The degradable share of a feedstock's carbon with its range, least where there is most lignin;
/// by its decay class where its lignin is not known. Constant time.
constexpr Taken degradable_share_of(const Feedstock& feedstock) noexcept {
    const auto share = [](const Range& lignin) {
        return Range{degradable_share(lignin.value), degradable_share(lignin.high),
                     degradable_share(lignin.low)};
    };
    const auto& lignin = feedstock[Property::lignin_dry];
    if (!lignin) {
        const auto at = static_cast<std::size_t>(feedstock.decay_class);
        return {share(Range(assumed::lignin[at])), Grade::d, true};
    }
    const Taken ash = *taken(feedstock, Property::ash_dry);
    const Range organic = ash.range.rest();
    const Range dry = Range(*lignin).around_value();
    // More than all of the volatile solids is no share: nothing is degradable then.
    const auto over = [](double part, double whole) { return whole > 0.0 ? part / whole : 1.0; };
    return {share({over(dry.value, organic.value), over(dry.low, organic.high),
                   over(dry.high, organic.low)}),
            worst(lignin->grade, ash.grade), false};
}

}  // namespace feed
