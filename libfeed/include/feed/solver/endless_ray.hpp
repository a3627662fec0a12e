#pragma once
// Whether ratios fall without any end, not just towards a limit.

#include <cstddef>

#include "feed/solver/dictionary.hpp"
#include "feed/solver/problem.hpp"
#include "feed/solver/ratio_values.hpp"
#include "feed/solver/solve.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver::detail {

/// Looks for a ray of the polyhedron along which every numerator falls while no denominator grows;
/// it is left in the workspace's x. A linear problem: the least growth of the denominators together
/// among the rays along which every numerator falls by one at least. Nothing on the way depends on
/// a level, which near such a ray grows beyond what rows of numbers can tell apart.
/// @param values  its denominators must be >= 0 on the polyhedron, so that none falls along a ray.
/// Needs a workspace of n variables and m + k rows, whose `extended` problem is overwritten.
inline bool find_endless_ray(const Polyhedron& within, const RatioValues& values,
                             Workspace& workspace, const Options& options) {
    OwnedProblem& own = workspace.buffers().extended;
    const std::size_t n = within.variable_count();
    const std::size_t m = within.row_count();
    const std::size_t ratios = values.count();
    const auto lower_along = [](double limit) { return limit > -infinity ? 0.0 : -infinity; };
    const auto upper_along = [](double limit) { return limit < infinity ? 0.0 : infinity; };
    for (std::size_t j = 0; j < n; ++j) {
        own.lower[j] = lower_along(within.lower[j]);
        own.upper[j] = upper_along(within.upper[j]);
        own.gradient[j] = 0;
        for (std::size_t k = 0; k < ratios; ++k)
            own.gradient[j] += values.denominator(k)[j];
    }
    for (std::size_t i = 0; i < m; ++i) {
        for (std::size_t j = 0; j < n; ++j)
            own.rows[i * n + j] = within.rows[i * n + j];
        own.row_lower[i] = lower_along(within.row_lower[i]);
        own.row_upper[i] = upper_along(within.row_upper[i]);
    }
    for (std::size_t k = 0; k < ratios; ++k) {
        for (std::size_t j = 0; j < n; ++j)
            own.rows[(m + k) * n + j] = values.numerator(k)[j];
        own.row_lower[m + k] = -infinity;
        own.row_upper[m + k] = -1;
    }
    const Problem problem{{}, {own.gradient.data(), n}, own.view(n, m + ratios)};
    if (solve_generally(problem, workspace, options).status != Status::solved) return false;
    for (std::size_t k = 0; k < ratios; ++k) {
        const SizedValue grown = values.denominator_along(k, workspace.buffers().x.data());
        if (size_of(grown.value) > options.tolerance * grown.size) return false;
    }
    return true;
}

}  // namespace feed::solver::detail
