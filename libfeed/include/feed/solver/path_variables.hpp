#pragma once
// The variables of the quick path: each is free, or bound to one of its limits, depending on how
// hard the multipliers pull at it.

#include <cstddef>

#include "feed/solver/problem.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver::detail {

/// What ends a straight piece of the path.
enum class PieceEnd { nothing, reached, row_released, bent };

/// The pull on variable j is (A'y - g)_j; it stands at clip(pull_j / h_j). The loops over all
/// variables choose between numbers instead of branching: which variables are bound follows no
/// pattern that a processor could guess.
class PathVariables {
public:
    PathVariables(const Problem& problem, Buffers& buffers)
        : n_(problem.within.variable_count()),
          lower_(problem.within.lower.data()),
          upper_(problem.within.upper.data()),
          hessian_(problem.hessian.data()),
          gradient_(problem.gradient.empty() ? nullptr : problem.gradient.data()),
          x_(buffers.x.data()),
          bound_multipliers_(buffers.bound_multipliers.data()),
          inverse_hessian_(buffers.inverse_hessian.data()),
          free_inverse_(buffers.free_inverse.data()),
          bound_value_(buffers.bound_value.data()),
          pull_(buffers.pull.data()),
          pull_step_(buffers.pull_step.data()),
          pull_lower_(buffers.pull_lower.data()),
          pull_upper_(buffers.pull_upper.data()),
          rising_edge_(buffers.rising_edge.data()),
          falling_edge_(buffers.falling_edge.data()),
          state_(buffers.state.data()) {}

    /// Without any multiplier: the pull is -g.
    void start() {
        clear_pull();
        for (std::size_t j = 0; j < n_; ++j) {
            const double h = hessian_[j];
            const double inverse = 1 / h;
            inverse_hessian_[j] = inverse;
            pull_lower_[j] = h * lower_[j];
            pull_upper_[j] = h * upper_[j];
            const bool fixed = lower_[j] == upper_[j];
            const bool low = pull_[j] <= pull_lower_[j];
            const bool high = pull_[j] >= pull_upper_[j];
            const int side = low ? at_lower : high ? at_upper : free;
            take_state(j, fixed ? without_room : side);
        }
    }

    void clear_pull() {
        for (std::size_t j = 0; j < n_; ++j)
            pull_[j] = gradient_ ? -gradient_[j] : 0.0;
    }

    /// Adds a row's part: coefficients times its multiplier.
    void add_pull(const double* row, double multiplier) {
        for (std::size_t j = 0; j < n_; ++j)
            pull_[j] += row[j] * multiplier;
    }

    /// The change of the pull, in the same way.
    void start_step(const double* row, double multiplier) {
        for (std::size_t j = 0; j < n_; ++j)
            pull_step_[j] = row[j] * multiplier;
    }
    void add_step(const double* row, double multiplier) {
        for (std::size_t j = 0; j < n_; ++j)
            pull_step_[j] += row[j] * multiplier;
    }

    /// The square of a row's length in the measure of the hessian.
    [[nodiscard]] double norm(const double* row) const {
        double sum = 0;
        for (std::size_t j = 0; j < n_; ++j)
            sum += (row[j] * row[j]) * inverse_hessian_[j];
        return sum;
    }

    void place_point() {
        for (std::size_t j = 0; j < n_; ++j) {
            const double value = pull_[j] * free_inverse_[j] + bound_value_[j];
            const double raised = value < lower_[j] ? lower_[j] : value;
            x_[j] = raised > upper_[j] ? upper_[j] : raised;
        }
    }

    /// The first variable, in time, that meets or leaves a bound while the pull changes at the
    /// rates of the step.
    void next_bend(double& time, PieceEnd& stop, std::size_t& which) const {
        for (std::size_t j = 0; j < n_; ++j) {
            const double rate = pull_step_[j];
            const bool rising = rate > 0;
            const double edge = rising ? rising_edge_[j] : falling_edge_[j];
            const double room = rising ? edge - pull_[j] : pull_[j] - edge;
            const double speed = rising ? rate : -rate;
            // Where the pull does not change this is false, for an endless time too.
            if (room < time * speed) {
                time = room > 0 ? room / speed : 0.0;
                stop = PieceEnd::bent;
                which = j;
            }
        }
    }

    void go(double time) {
        for (std::size_t j = 0; j < n_; ++j)
            pull_[j] += time * pull_step_[j];
    }

    /// Lets variable j change between free and bound. @return what that adds to its share in the
    /// rows' curvature.
    double bend(std::size_t j) {
        const bool rising = pull_step_[j] > 0;
        const bool was_free = state_[j] == free;
        pull_[j] = rising == was_free ? pull_upper_[j] : pull_lower_[j];
        const int bound = rising ? at_upper : at_lower;
        take_state(j, was_free ? bound : free);
        return was_free ? -inverse_hessian_[j] : inverse_hessian_[j];
    }

    /// The bounds' multipliers at the end of the path.
    void finish() {
        for (std::size_t j = 0; j < n_; ++j) {
            const double push = hessian_[j] * x_[j] - pull_[j];
            // A variable that stands exactly where it would stand without its bound is not pushed.
            const bool pushed = state_[j] == without_room || (state_[j] == at_lower && push > 0) ||
                                (state_[j] == at_upper && push < 0);
            bound_multipliers_[j] = pushed ? push : 0.0;
        }
    }

    /// The bounds' part of a proof that nothing satisfies the rows.
    void write_proof() {
        for (std::size_t j = 0; j < n_; ++j)
            bound_multipliers_[j] = state_[j] == free ? 0.0 : -pull_step_[j];
    }

    void write_sides(Side* sides) const {
        constexpr Side side_of[] = {Side::lower, Side::between, Side::upper, Side::both};
        for (std::size_t j = 0; j < n_; ++j)
            sides[j] = side_of[state_[j] - at_lower];
    }

private:
    enum : int { at_lower = -1, free = 0, at_upper = 1, without_room = 2 };

    /// A variable without room never becomes free.
    void take_state(std::size_t j, int state) {
        state_[j] = state;
        free_inverse_[j] = state == free ? inverse_hessian_[j] : 0.0;
        const double bound = state == at_upper ? upper_[j] : lower_[j];
        bound_value_[j] = state == free ? 0.0 : bound;
        double above = infinity;
        double below = -infinity;
        if (state == free) {
            above = pull_upper_[j];
            below = pull_lower_[j];
        }
        rising_edge_[j] = state == at_lower ? pull_lower_[j] : above;
        falling_edge_[j] = state == at_upper ? pull_upper_[j] : below;
    }

    std::size_t n_;
    const double* lower_;
    const double* upper_;
    const double* hessian_;
    const double* gradient_;
    double* x_;
    double* bound_multipliers_;
    double* inverse_hessian_;
    double* free_inverse_;  ///< zero where bound
    double* bound_value_;   ///< zero where free
    double* pull_;
    double* pull_step_;
    double* pull_lower_;  ///< the pulls at which its bounds are met
    double* pull_upper_;
    double* rising_edge_;   ///< the pull at which it bends next when that rises
    double* falling_edge_;  ///< the same when it falls
    int* state_;
};

}  // namespace feed::solver::detail
