#pragma once
// Memory for the solver, taken once.

#include <cstddef>

#include "feed/solver/problem.hpp"

namespace feed::solver {

/// Everything a solve writes to; allocated by the constructor, never by a solve.
/// One workspace serves one thread at a time; results point into it until its next use.
class Workspace {
public:
    /// @param max_variables, max_rows  the largest problem it has to hold. `fractional` counts its
    /// ratios as rows.
    Workspace(std::size_t max_variables, std::size_t max_rows)
        : max_variables_(max_variables), max_rows_(max_rows) {}

    [[nodiscard]] std::size_t max_variables() const { return max_variables_; }
    [[nodiscard]] std::size_t max_rows() const { return max_rows_; }

private:
    std::size_t max_variables_;
    std::size_t max_rows_;
};

}  // namespace feed::solver
