#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "feed/balance/balance_problem.hpp"
#include "feed/blend/blend_properties.hpp"

namespace feed {

enum class BalanceStatus : std::uint8_t { solved, infeasible, unbounded, failed };

/// What one target came to.
struct Reached {
    Target target;
    Estimate<double> quantity;  ///< in the unit of the target property
    bool inside = false;
    bool binding = false;
};

/// The smallest single addition that mends an unreachable target.
struct Mend {
    std::shared_ptr<const Feedstock> feedstock;
    std::string label;
    WetMass add;
};

/// The answer of a balance.
struct BalanceAnswer {
    BalanceStatus status = BalanceStatus::failed;
    std::vector<Portion>
        portions;  ///< same order as the entries; the closest blend when infeasible
    std::vector<Reached> reached;
    BlendProperties properties;
    std::vector<std::string> conflict;  ///< minimal set of the keeper's own entries, in file order
    std::optional<Mend> mend;
    std::string unbounded_entry;  ///< what nothing limits
    std::vector<Assumption> assumed;
    Grade grade = Grade::d;  ///< the worst grade the answer leans on
};

}  // namespace feed
