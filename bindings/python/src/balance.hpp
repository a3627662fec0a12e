#pragma once
// A balance as Python holds it: the problem is turned into numbers once and solved as often as
// wanted.
#include <memory>

#include "convert.hpp"
#include "feed/balance/balance_answer.hpp"
#include "feed/balance/prepared_balance.hpp"

namespace feed::python {

inline constexpr std::array<std::string_view, 4> status_words{"solved", "infeasible", "unbounded",
                                                              "failed"};
inline constexpr std::array<std::string_view, 5> objective_words{
    "closest to aims", "closest to usual", "least added", "cheapest", "use up most"};

struct SharedProblem {
    std::shared_ptr<const PreparedBalance> prepared;
};

/// A ready set of targets by its name. Raises out_of_range.
std::vector<Target> target_set_of(const std::string& name);

}  // namespace feed::python
