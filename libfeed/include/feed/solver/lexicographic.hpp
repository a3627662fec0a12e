#pragma once
// Several linear objectives in order of priority, ending in one single point.

#include <cstddef>
#include <span>

#include "feed/solver/problem.hpp"
#include "feed/solver/solve.hpp"
#include "feed/solver/stages.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver {

namespace detail {

/// A stage that did not end in `solved`, as a result.
inline Result ended_early(Buffers& b, const Polyhedron& within, Status status,
                          std::size_t iterations) {
    Result result;
    if (status == Status::infeasible || status == Status::unbounded) {
        write_sides(within, b);
        result = result_view(b, within.variable_count(), within.row_count(), status);
    } else {
        result.status = status;
        if (status == Status::numerical) result.fault = Fault::not_verified;
    }
    result.iterations = iterations;
    return result;
}

/// `lexicographic` on a problem that is known to be well formed.
/// @param length   entries of one objective; variables beyond it cost nothing and are not settled.
/// @param leading  an objective of all variables that comes before the others, or empty.
inline Result lexicographic_checked(const Polyhedron& within, std::span<const double> leading,
                                    std::span<const double> objectives, std::size_t length,
                                    Workspace& workspace, const Options& options) {
    Buffers& b = workspace.buffers();
    const std::size_t n = within.variable_count();
    const std::size_t count = length == 0 ? 0 : objectives.size() / length;
    Stages stages(within, b, options);
    double first = 0;
    bool first_known = false;
    const auto stage = [&](std::span<const double> gradient) {
        const Status status = stages.minimise(gradient);
        if (status != Status::solved) return status;
        if (!first_known) {
            first = objective_at({{}, gradient, within}, {b.x.data(), n});
            stages.keep_multipliers();
            write_sides(within, b);
            first_known = true;
        }
        stages.pin();
        return status;
    };
    Status status = Status::solved;
    if (!leading.empty()) status = stage(leading);
    for (std::size_t k = 0; k < count && status == Status::solved; ++k) {
        if (first_known && stages.single_point()) break;
        for (std::size_t j = 0; j < n; ++j) {
            b.objective[j] = j < length ? objectives[k * length + j] : 0.0;
        }
        status = stage({b.objective.data(), n});
    }
    if (status == Status::solved && !first_known) {
        for (std::size_t j = 0; j < n; ++j)
            b.objective[j] = 0;
        status = stage({b.objective.data(), n});
    }
    if (status == Status::solved) status = stages.settle_variables(length);
    if (status != Status::solved) return ended_early(b, within, status, stages.iterations());
    stages.restore_multipliers();
    Result result = result_view(b, n, within.row_count(), Status::solved);
    result.objective = first;
    result.iterations = stages.iterations();
    result.residuals = stages.kept_residuals();
    const double primal = feasibility_error(within, result.x);
    if (primal > result.residuals.primal) result.residuals.primal = primal;
    return result;
}

}  // namespace detail

/// Minimises linear objectives one after the other, each among the points that are best for those
/// before it; then makes the first variable as small as possible, then the second, and so on, so
/// that the answer is a single point. A variable without a lower limit on the remaining face is
/// made as large as possible instead, and left alone if it has no upper limit either.
/// @param within      the feasible set.
/// @param objectives  k times n finite entries, objective after objective; k may be 0.
/// @return x is the final point; objective and multipliers belong to the first objective. Unbounded
/// if an objective
///         has no minimum on the face left by those before it.
/// Threads: any number, each with its own workspace. Allocates nothing.
inline Result lexicographic(const Polyhedron& within, std::span<const double> objectives,
                            Workspace& workspace, const Options& options = {}) {
    const std::size_t n = within.variable_count();
    const Fault fault = detail::fault_of(within, workspace);
    if (fault != Fault::none) return detail::failure(fault);
    if (n == 0 ? !objectives.empty() : objectives.size() % n != 0) {
        return detail::failure(Fault::sizes_differ);
    }
    if (!detail::all_finite(objectives)) return detail::failure(Fault::not_finite);
    if (detail::limits_cross(within)) {
        return detail::crossed(workspace.buffers(), n, within.row_count());
    }
    return detail::lexicographic_checked(within, {}, objectives, n, workspace, options);
}

}  // namespace feed::solver
