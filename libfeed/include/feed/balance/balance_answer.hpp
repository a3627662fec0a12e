#pragma once
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "feed/balance/balance_problem.hpp"
#include "feed/balance/wetness.hpp"
#include "feed/blend/blend_properties.hpp"
#include "feed/blend/take_out.hpp"

namespace feed {

enum class BalanceStatus : std::uint8_t { solved, infeasible, unbounded, failed };

/// What one target came to.
struct Reached {
    Target target;
    Estimate<double> quantity;  ///< in the unit of the target property
    bool inside = false;        ///< the must holds
    bool wished = true;         ///< the wish holds too
    bool binding = false;
};

/// The smallest single addition that mends an unreachable target.
struct Mend {
    std::shared_ptr<const Feedstock> feedstock;
    std::string label;
    WetMass add;
    /// What to feed with it, one for each entry: with other amounts it may not mend.
    std::vector<Portion> with;
};

/// The answer of a balance.
struct BalanceAnswer {
    BalanceStatus status = BalanceStatus::failed;
    std::vector<TakeOut> take_out;  ///< never fed here, before all else; none of it is in portions
    std::vector<Portion>
        portions;  ///< same order as the entries; the closest blend when infeasible
    std::vector<Reached> reached;
    BlendProperties properties;
    /// How far the worst property is from its aim: 0 at the aims, 1 at a window edge, more than 1
    /// outside. Only for closest_to_aims and for the closest blend of an infeasible problem.
    double largest_deviation = 0.0;
    Wetness wetness;                    ///< water set free against what the bedding can hold
    std::vector<std::string> conflict;  ///< minimal set of the keeper's own entries, in file order
    std::optional<Mend> mend;
    std::vector<std::string> advice;   ///< what helps when the targets cannot be met, best first
    std::string unbounded_entry;       ///< what nothing limits
    std::vector<std::string> remarks;  ///< what it means where a wish is not held, a sentence each
    std::vector<Assumption> assumed;
    Grade grade = Grade::d;  ///< the worst grade the answer leans on
};

}  // namespace feed
