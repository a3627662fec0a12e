#pragma once
// One separable convex quadratic or linear problem.

#include <cstddef>

#include "feed/solver/dictionary.hpp"
#include "feed/solver/dual_path.hpp"
#include "feed/solver/exact_point.hpp"
#include "feed/solver/primal.hpp"
#include "feed/solver/problem.hpp"
#include "feed/solver/verify.hpp"
#include "feed/solver/well_formed.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver {

namespace detail {

inline std::size_t iteration_limit(const Options& options, std::size_t n, std::size_t m) {
    return options.iteration_limit != 0 ? options.iteration_limit : 200 + 50 * (n + m);
}

/// The arrays of the workspace as a result, written in place.
inline void view_result(const Buffers& b, std::size_t n, std::size_t m, Status status,
                        Result& result) {
    result.status = status;
    result.x = {b.x.data(), n};
    result.row_multipliers = {b.row_multipliers.data(), m};
    result.bound_multipliers = {b.bound_multipliers.data(), n};
    if (status == Status::unbounded) result.ray = {b.ray.data(), n};
    result.variable_sides = {b.variable_sides.data(), n};
    result.row_sides = {b.row_sides.data(), m};
}

inline Result result_view(const Buffers& b, std::size_t n, std::size_t m, Status status) {
    Result result;
    view_result(b, n, m, status, result);
    return result;
}

inline Result failure(Fault fault) {
    Result result;
    result.fault = fault;
    return result;
}

/// Infeasible because two limits cross; the limits themselves are the proof.
inline Result crossed(Buffers& b, std::size_t n, std::size_t m) {
    for (std::size_t j = 0; j < n; ++j)
        b.bound_multipliers[j] = b.x[j] = 0;
    for (std::size_t i = 0; i < m; ++i)
        b.row_multipliers[i] = 0;
    for (std::size_t j = 0; j < n; ++j)
        b.variable_sides[j] = Side::between;
    for (std::size_t i = 0; i < m; ++i)
        b.row_sides[i] = Side::between;
    return result_view(b, n, m, Status::infeasible);
}

inline double objective_at(const Problem& problem, std::span<const double> x) {
    double sum = 0;
    for (std::size_t j = 0; j < x.size(); ++j) {
        const double half = problem.hessian.empty() ? 0.0 : 0.5 * problem.hessian[j] * x[j];
        const double slope = problem.gradient.empty() ? 0.0 : problem.gradient[j];
        sum += (half + slope) * x[j];
    }
    return sum;
}

inline Side side_of(Place place, bool equal) {
    if (place == Place::at_lower) return equal ? Side::both : Side::lower;
    if (place == Place::at_upper) return equal ? Side::both : Side::upper;
    return Side::between;
}

inline void write_sides(const Polyhedron& within, Buffers& b) {
    const std::size_t n = within.variable_count();
    for (std::size_t j = 0; j < n; ++j) {
        b.variable_sides[j] = side_of(b.place[j], within.lower[j] == within.upper[j]);
    }
    for (std::size_t i = 0; i < within.row_count(); ++i) {
        b.row_sides[i] = side_of(b.place[n + i], within.row_lower[i] == within.row_upper[i]);
    }
}

/// Turns the place where a search ended into an answer that has passed its check. False if it does
/// not pass.
inline bool confirm_with(const Problem& problem, Dictionary& dictionary, Status ended,
                         const Rounding& rounding, double tolerance, Result& result) {
    Buffers& b = dictionary.b;
    const Polyhedron& within = problem.within;
    const std::size_t n = within.variable_count();
    const std::size_t m = within.row_count();
    ExactPoint exact(dictionary, rounding);
    if (ended == Status::solved) {
        if (!exact.prepare(dictionary.curved)) return false;
        exact.solve(within);
        result = result_view(b, n, m, Status::solved);
        result.residuals =
            optimality_errors(problem, result.x, result.row_multipliers, result.bound_multipliers);
        return accepted(result.residuals, tolerance);
    }
    if (!exact.prepare(false)) return false;
    if (ended == Status::infeasible) {
        exact.solve_proof();
        result = result_view(b, n, m, Status::infeasible);
        return proves_infeasible(within, result.row_multipliers, result.bound_multipliers,
                                 tolerance);
    }
    exact.solve_for_point(within);
    result = result_view(b, n, m, Status::unbounded);
    result.residuals.primal = feasibility_error(within, result.x);
    return result.residuals.primal <= tolerance && proves_unbounded(problem, result.ray, tolerance);
}

/// The same, with several opinions on what is rounding; the check decides.
inline bool confirm(const Problem& problem, Dictionary& dictionary, Status ended, double tolerance,
                    Result& result) {
    for (const Rounding& rounding :
         {Rounding{1e-14, 0}, Rounding{1e-12, 0}, Rounding{1e-16, 0}, Rounding{1e-14, 1e-15}}) {
        if (confirm_with(problem, dictionary, ended, rounding, tolerance, result)) return true;
    }
    return false;
}

inline Result solve_generally(const Problem& problem, Workspace& workspace,
                              const Options& options) {
    Buffers& b = workspace.buffers();
    const std::size_t n = problem.within.variable_count();
    const std::size_t m = problem.within.row_count();
    Dictionary dictionary(b);
    dictionary.load(problem);
    dictionary.start();
    Primal primal(dictionary, iteration_limit(options, n, m));
    Result result;
    for (int attempt = 0; attempt < 4; ++attempt) {
        if (attempt == 1 || attempt == 3) dictionary.rebuild();
        if (attempt == 2) dictionary.start();  // another way there
        primal.look_closer(attempt);
        const Status ended = primal.run();
        if (ended == Status::iteration_limit) {
            result = failure(Fault::none);
            result.status = Status::iteration_limit;
            result.iterations = primal.iterations();
            return result;
        }
        if (ended == Status::numerical) continue;
        if (confirm(problem, dictionary, ended, options.tolerance, result)) {
            write_sides(problem.within, b);
            result.iterations = primal.iterations();
            if (ended == Status::solved) result.objective = objective_at(problem, result.x);
            return result;
        }
    }
    result = failure(Fault::not_verified);
    result.iterations = primal.iterations();
    return result;
}

/// The quick path, checked. False if it has no answer that passes.
inline bool solve_strictly_convex(const Problem& problem, Workspace& workspace,
                                  const Options& options, Result& result) {
    Buffers& b = workspace.buffers();
    const Polyhedron& within = problem.within;
    const std::size_t n = within.variable_count();
    const std::size_t m = within.row_count();
    DualPath path(problem, b);
    const PathEnd end = path.run();
    if (end == PathEnd::gave_up) return false;
    path.write_sides();
    if (end == PathEnd::infeasible) {
        view_result(b, n, m, Status::infeasible, result);
        result.iterations = path.iterations();
        // A weak proof is left to the general method.
        return proves_infeasible(within, result.row_multipliers, result.bound_multipliers,
                                 options.tolerance) &&
               proof_stands_out(within, result.row_multipliers, result.bound_multipliers,
                                options.tolerance);
    }
    view_result(b, n, m, Status::solved, result);
    result.iterations = path.iterations();
    for (int attempt = 0; attempt < 2; ++attempt) {
        if (attempt > 0) path.sharpen();
        result.residuals =
            optimality_errors(problem, result.x, result.row_multipliers, result.bound_multipliers);
        if (accepted(result.residuals, options.tolerance)) {
            result.objective = objective_at(problem, result.x);
            return true;
        }
    }
    return false;
}

inline bool strictly_convex(const Problem& problem) {
    if (problem.hessian.empty()) return false;
    for (const double h : problem.hessian) {
        if (!(h > 0)) return false;
    }
    return true;
}

}  // namespace detail

/// Solves a problem and checks the answer independently.
/// @return see Result; valid until the workspace is used again.
/// Threads: any number, each with its own workspace. Allocates nothing.
inline Result solve(const Problem& problem, Workspace& workspace, const Options& options = {}) {
    const Fault fault = detail::fault_of(problem, workspace);
    if (fault != Fault::none) return detail::failure(fault);
    if (detail::limits_cross(problem.within)) {
        return detail::crossed(workspace.buffers(), problem.within.variable_count(),
                               problem.within.row_count());
    }
    Result result;
    if (!options.general_method && detail::strictly_convex(problem) &&
        detail::solve_strictly_convex(problem, workspace, options, result)) {
        return result;
    }
    return detail::solve_generally(problem, workspace, options);
}

}  // namespace feed::solver
