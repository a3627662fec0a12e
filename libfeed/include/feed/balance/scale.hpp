#pragma once
#include <cstddef>

#include "feed/balance/prepared_balance.hpp"
#include "feed/balance/target_kind.hpp"

namespace feed {

/// The mass that fixes the scale of a problem, in wet kilograms: what has to go in, else a total,
/// else what may go in, else one. Threads: pure.
inline double scale_kg(const PreparedBalance& prepared) {
    double fixed = 0.0;
    double bounded = 0.0;
    for (std::size_t i = 0; i < prepared.entry_count(); ++i) {
        fixed += prepared.lower[i];
        if (prepared.upper[i] < solver::infinity) bounded += prepared.upper[i];
    }
    for (const auto& target : prepared.problem.targets) {
        if (target.property != TargetProperty::total_wet_kg) continue;
        for (const auto& number : {target.low, target.aim, target.high}) {
            if (number && *number > fixed) fixed = *number;
        }
    }
    if (fixed > 0.0) return fixed;
    return bounded > 0.0 ? bounded : 1.0;
}

}  // namespace feed
