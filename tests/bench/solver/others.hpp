#pragma once
// The same problems for general-purpose solvers, where they are installed. Setting up is not timed.

#include <cstddef>
#include <memory>

#include "solver_problems.hpp"

namespace feed_bench {

/// One problem in another solver's own form.
class Other {
public:
    virtual ~Other() = default;
    /// Solves from scratch. @return the objective, or NaN if the solver gave up.
    virtual double solve() = 0;
};

/// Null where the solver is not installed.
std::unique_ptr<Other> make_nlopt_slsqp(const feed_test::GeneratedProblem& problem);
std::unique_ptr<Other> make_glpk(const feed_test::GeneratedProblem& problem);
std::unique_ptr<Other> make_clp(const feed_test::GeneratedProblem& problem);

}  // namespace feed_bench
