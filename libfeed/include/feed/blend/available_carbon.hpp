#pragma once
#include <array>

#include "feed/feedstock/feedstock.hpp"

namespace feed {

/// A plain share (0 to 1) with its range and grade.
struct ShareRange {
    double value = 0.0;
    double low = 0.0;
    double high = 0.0;
    Grade grade = Grade::d;
    bool assumed = false;  ///< a stated default stood in for a missing value
};

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

/// Lignin over volatile solids where a feedstock has no value of its own, by decay class, in the
/// order of DecayClass (grade D): soft tissue 2 %, roots and peel 6 %, straw and leaves 15 %, wood
/// and shell 25 %; minerals have none.
inline constexpr std::array<ShareRange, 5> default_lignin{{
    {0.00, 0.00, 0.00, Grade::d, true},
    {0.02, 0.00, 0.05, Grade::d, true},
    {0.06, 0.02, 0.12, Grade::d, true},
    {0.15, 0.08, 0.22, Grade::d, true},
    {0.25, 0.18, 0.32, Grade::d, true},
}};

/// Ash over dry mass where a feedstock has no value of its own: 8 %, 2 to 15 % (grade D).
inline constexpr ShareRange default_ash{0.08, 0.02, 0.15, Grade::d, true};

/// Ash over dry mass of a feedstock, or the stated default. Constant time.
constexpr ShareRange ash_share(const Feedstock& feedstock) noexcept {
    const auto& ash = feedstock[Property::ash_dry];
    if (!ash) return default_ash;
    return {ash->value, ash->low, ash->high, ash->grade, false};
}

/// The typical degradable share of a feedstock's carbon. Constant time.
constexpr double degradable_share_of(const Feedstock& feedstock) noexcept {
    const auto& lignin = feedstock[Property::lignin_dry];
    if (!lignin)
        return degradable_share(
            default_lignin[static_cast<std::size_t>(feedstock.decay_class)].value);
    const auto& ash = feedstock[Property::ash_dry];
    const double organic = 1.0 - (ash ? ash->value : default_ash.value);
    return organic > 0.0 ? degradable_share(lignin->value / organic) : 0.0;
}

/// The degradable share with its range: least where there is most lignin. Constant time.
constexpr ShareRange degradable_range_of(const Feedstock& feedstock) noexcept {
    const auto& lignin = feedstock[Property::lignin_dry];
    if (!lignin) {
        const auto& stated = default_lignin[static_cast<std::size_t>(feedstock.decay_class)];
        return {degradable_share(stated.value), degradable_share(stated.high),
                degradable_share(stated.low), Grade::d, true};
    }
    const ShareRange ash = ash_share(feedstock);
    const double most_organic = 1.0 - ash.low;
    const double least_organic = 1.0 - ash.high;
    return {degradable_share_of(feedstock),
            least_organic > 0.0 ? degradable_share(lignin->high / least_organic) : 0.0,
            most_organic > 0.0 ? degradable_share(lignin->low / most_organic) : 0.0,
            worst(lignin->grade, ash.grade), false};
}

}  // namespace feed
