#pragma once
// Memory for the solver, taken once.

#include <cstddef>
#include <vector>

#include "feed/solver/problem.hpp"

namespace feed::solver {

namespace detail {

/// A problem of the solver's own making: a copy of the caller's with rows and columns added or
/// limits changed.
struct OwnedProblem {
    std::vector<double> hessian, gradient, lower, upper, rows, row_lower, row_upper;

    OwnedProblem(std::size_t variables, std::size_t row_count)
        : hessian(variables),
          gradient(variables),
          lower(variables),
          upper(variables),
          rows(variables * row_count),
          row_lower(row_count),
          row_upper(row_count) {}

    /// The first `variables` and `row_count` of it as a view.
    [[nodiscard]] Polyhedron view(std::size_t variables, std::size_t row_count) const {
        return {{lower.data(), variables},
                {upper.data(), variables},
                {rows.data(), variables * row_count},
                {row_lower.data(), row_count},
                {row_upper.data(), row_count}};
    }
};

/// Where a variable or row activity stands in the dictionary: basic, or at a limit, or between its
/// limits and free to move (loose), or between them with nothing that determines it (parked).
enum class Place : unsigned char { basic, at_lower, at_upper, loose, parked };

/// All arrays the methods write to. n and m are the largest sizes, with the solver's own extra
/// column and rows.
struct Buffers {
    std::size_t n, m;
    // The answer.
    std::vector<double> x, row_multipliers, bound_multipliers, ray;
    std::vector<Side> variable_sides, row_sides;
    // Quick path.
    std::vector<double> inverse_hessian, free_inverse, bound_value, pull, pull_step, pull_lower,
        pull_upper, rising_edge, falling_edge;
    std::vector<double> inverse_norm, multiplier_step, gram, gram_fresh, pivot_inverse;
    std::vector<std::size_t> active;
    std::vector<int> state, row_state;
    // Dictionary: variables are numbered 0..n-1, row activities n..n+m-1.
    std::vector<double> scaled_rows, table, low, high, scaled_hessian, scaled_gradient;
    std::vector<double> column_scale, row_scale, loose_value, noise;
    std::vector<double> basic_value, basic_size, basic_rate, basic_cost, basic_cost_size, slope,
        slope_size, step;
    std::vector<double> break_time;
    std::vector<std::size_t> basic, nonbasic, loose_columns, off_zero;
    std::vector<Place> place;
    std::vector<unsigned char> pinned, seems_zero;
    // Exact solution on a set of active limits.
    std::vector<double> factor, right, correction, residual, first_row_multipliers,
        first_bound_multipliers;
    std::vector<std::size_t> order, free_variables, tight_rows;
    // Problems of the solver's own.
    OwnedProblem extended, narrowed;
    std::vector<double> point, objective, mean, weights;

    Buffers(std::size_t variables, std::size_t rows)
        : n(variables + 1),
          m(2 * rows),
          x(n),
          row_multipliers(m),
          bound_multipliers(n),
          ray(n),
          variable_sides(n),
          row_sides(m),
          inverse_hessian(n),
          free_inverse(n),
          bound_value(n),
          pull(n),
          pull_step(n),
          pull_lower(n),
          pull_upper(n),
          rising_edge(n),
          falling_edge(n),
          inverse_norm(m),
          multiplier_step(rows + 1),
          gram((rows + 1) * (rows + 1)),
          gram_fresh(rows + 1),
          pivot_inverse(rows + 1),
          active(rows + 1),
          state(n),
          row_state(m),
          scaled_rows(m * n),
          table(m * n),
          low(n + m),
          high(n + m),
          scaled_hessian(n),
          scaled_gradient(n),
          column_scale(n),
          row_scale(m),
          loose_value(n + m),
          noise(n + m),
          basic_value(m),
          basic_size(m),
          basic_rate(m),
          basic_cost(m),
          basic_cost_size(m),
          slope(n),
          slope_size(n),
          step(n),
          break_time(2 * m),
          basic(m),
          nonbasic(n),
          loose_columns(n),
          off_zero(n),
          place(n + m),
          pinned(n + m),
          seems_zero(n + m),
          factor((n + rows) * (n + rows)),
          right(n + m),
          correction(n + m),
          residual(n + m),
          first_row_multipliers(m),
          first_bound_multipliers(n),
          order(n + m),
          free_variables(n),
          tight_rows(m),
          extended(n, m),
          narrowed(n, m),
          point(n),
          objective(n),
          mean(n),
          weights(m) {}
};

}  // namespace detail

/// Everything a solve writes to; allocated by the constructor, never by a solve.
/// One workspace serves one thread at a time; results point into it until its next use.
class Workspace {
public:
    /// @param max_variables, max_rows  the largest problem it has to hold; `fractional` counts its
    ///                                 ratios as rows. Memory: about 8 (n + m)^2 bytes and up.
    Workspace(std::size_t max_variables, std::size_t max_rows)
        : max_variables_(max_variables), max_rows_(max_rows), buffers_(max_variables, max_rows) {}

    [[nodiscard]] std::size_t max_variables() const { return max_variables_; }
    [[nodiscard]] std::size_t max_rows() const { return max_rows_; }

    /// For the methods of this layer only.
    [[nodiscard]] detail::Buffers& buffers() { return buffers_; }

private:
    std::size_t max_variables_;
    std::size_t max_rows_;
    detail::Buffers buffers_;
};

}  // namespace feed::solver
