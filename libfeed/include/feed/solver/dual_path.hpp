#pragma once
// The quick path for strictly convex problems with few rows.
//
// Every hessian entry is above zero, so row multipliers y fix the point: x_j = clip((A'y - g)_j /
// h_j). Starting from y = 0 the dual objective is climbed: one violated row at a time is brought to
// its limit by moving its multiplier while the rows already at a limit are held there. Along the
// way x moves in straight pieces; a piece ends when a variable meets or leaves a bound or a
// multiplier falls to zero. This is the dual active set method of Goldfarb and Idnani (1983,
// Mathematical Programming 27, "A numerically stable dual method for solving strictly convex
// quadratic programs"), with bounds kept implicitly and a diagonal hessian. Work per piece: n times
// the rows held, plus the cube of that number over six.

#include <cstddef>
#include <span>

#include "feed/solver/held_rows.hpp"
#include "feed/solver/path_variables.hpp"
#include "feed/solver/problem.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver::detail {

enum class PathEnd { answer, infeasible, gave_up };

/// One run of the method; writes x, multipliers and sides of the workspace.
class DualPath {
public:
    DualPath(const Problem& problem, Buffers& buffers)
        : n_(problem.within.variable_count()),
          m_(problem.within.row_count()),
          rows_(problem.within.rows.data()),
          row_lower_(problem.within.row_lower.data()),
          row_upper_(problem.within.row_upper.data()),
          b_(buffers),
          x_(buffers.x.data()),
          y_(buffers.row_multipliers.data()),
          row_state_(buffers.row_state.data()),
          active_(buffers.active.data()),
          step_(buffers.multiplier_step.data()),
          inverse_norm_(buffers.inverse_norm.data()),
          variables_(problem, buffers),
          held_(problem.within.rows.data(), n_, buffers) {}

    PathEnd run() {
        start();
        const std::size_t limit = 100 + 10 * (n_ + m_);
        for (;;) {
            variables_.place_point();
            double violation = 0;
            double sign = 0;
            const std::size_t row = most_violated(violation, sign);
            if (row == m_) break;
            const PathEnd end = hold(row, sign, violation, limit);
            if (end != PathEnd::answer) return end;
        }
        variables_.finish();
        return PathEnd::answer;
    }

    [[nodiscard]] std::size_t iterations() const { return iterations_; }

    void write_sides() {
        variables_.write_sides(b_.variable_sides.data());
        for (std::size_t i = 0; i < m_; ++i) {
            b_.row_sides[i] = row_state_[i] == 0               ? Side::between
                              : row_lower_[i] == row_upper_[i] ? Side::both
                              : row_state_[i] > 0              ? Side::lower
                                                               : Side::upper;
        }
    }

    /// Removes the rounding that built up along the way: the same active limits, computed afresh.
    void sharpen() {
        for (int round = 0; round < 3; ++round) {
            place_pull();
            variables_.place_point();
            held_.refresh();
            held_.factorise(held_.count());
            for (std::size_t k = 0; k < held_.count(); ++k) {
                const std::size_t i = active_[k];
                const double limit = row_state_[i] > 0 ? row_lower_[i] : row_upper_[i];
                step_[k] = limit - dot(rows_ + i * n_, x_);
            }
            held_.solve();
            for (std::size_t k = 0; k < held_.count(); ++k)
                y_[active_[k]] += step_[k];
        }
        place_pull();
        variables_.place_point();
        variables_.finish();
    }

private:
    /// Fixed order of four interleaved partial sums: quick, and the same bits everywhere.
    [[nodiscard]] double dot(const double* a, const double* c) const {
        double s0 = 0, s1 = 0, s2 = 0, s3 = 0;
        std::size_t j = 0;
        for (; j + 4 <= n_; j += 4) {
            s0 += a[j] * c[j];
            s1 += a[j + 1] * c[j + 1];
            s2 += a[j + 2] * c[j + 2];
            s3 += a[j + 3] * c[j + 3];
        }
        for (; j < n_; ++j)
            s0 += a[j] * c[j];
        return (s0 + s1) + (s2 + s3);
    }

    void start() {
        variables_.start();
        for (std::size_t i = 0; i < m_; ++i) {
            y_[i] = 0;
            row_state_[i] = 0;
            inverse_norm_[i] = -1;  // not yet known
        }
        held_.clear();
    }

    void place_pull() {
        variables_.clear_pull();
        for (std::size_t k = 0; k < held_.count(); ++k)
            variables_.add_pull(rows_ + active_[k] * n_, y_[active_[k]]);
    }

    /// The row whose violation promises the steepest climb; m if none is violated.
    std::size_t most_violated(double& violation, double& sign) {
        std::size_t best = m_;
        double best_merit = -1;  // not yet known: a row that is violated alone needs none
        for (std::size_t i = 0; i < m_; ++i) {
            if (row_state_[i] != 0) continue;
            const double* row = rows_ + i * n_;
            const double activity = dot(row, x_);
            const double under = row_lower_[i] - activity;
            const bool rises = under > 0;
            const double over = rises ? under : activity - row_upper_[i];
            if (!(over > 0)) continue;
            const double limit = rises ? row_lower_[i] : row_upper_[i];
            double size = limit < 0 ? -limit : limit;
            for (std::size_t j = 0; j < n_; ++j) {
                const double term = row[j] * x_[j];
                size += term < 0 ? -term : term;
            }
            if (over <= 1e-13 * size) continue;
            if (best < m_) {
                if (best_merit < 0) best_merit = merit(best, violation);
                const double of_this = merit(i, over);
                if (!(of_this > best_merit)) continue;
                best_merit = of_this;
            }
            best = i;
            violation = over;
            sign = rises ? 1 : -1;
        }
        return best;
    }

    /// The square of a row's distance, in the measure of the hessian.
    double merit(std::size_t i, double over) {
        if (inverse_norm_[i] < 0) inverse_norm_[i] = 1 / variables_.norm(rows_ + i * n_);
        return (over * over) * inverse_norm_[i];
    }

    /// Moves the multiplier of `row` until the row is at its limit.
    PathEnd hold(std::size_t row, double sign, double violation, std::size_t limit) {
        if (held_.full()) return PathEnd::gave_up;
        active_[held_.count()] = row;
        row_state_[row] = sign > 0 ? 1 : -1;
        held_.take(held_.count());
        for (;;) {
            if (++iterations_ > limit) return PathEnd::gave_up;
            held_.factorise(held_.count() + 1);
            // The held rows stay at their limits if their multipliers answer each unit of the new
            // one like this.
            const double* last = held_.factor(held_.count());
            place_step(last, sign);
            place_pull_step();

            double time = infinity;
            PieceEnd stop = PieceEnd::nothing;
            std::size_t which = 0;
            const double curvature =
                b_.pivot_inverse[held_.count()] > 0 ? last[held_.count()] : 0.0;
            if (curvature > 0) {
                time = violation * b_.pivot_inverse[held_.count()];
                stop = PieceEnd::reached;
            }
            next_release(time, stop, which);
            variables_.next_bend(time, stop, which);
            if (stop == PieceEnd::nothing) {
                write_proof();
                return PathEnd::infeasible;
            }

            for (std::size_t k = 0; k <= held_.count(); ++k)
                y_[active_[k]] += time * step_[k];
            variables_.go(time);
            violation -= time * curvature;
            if (stop == PieceEnd::reached) {
                held_.keep_next();
                return PathEnd::answer;
            }
            if (stop == PieceEnd::row_released) {
                release(which);
            } else {
                held_.free_or_bind(which, variables_.bend(which));
            }
            if (!(violation > 0)) violation = 0;
        }
    }

    /// The step of the held rows' multipliers that goes with one unit of the new one's.
    void place_step(const double* last, double sign) {
        for (std::size_t i = held_.count(); i-- > 0;) {
            double sum = last[i];
            for (std::size_t q = i + 1; q < held_.count(); ++q) {
                sum -= held_.factor(q)[i] * step_[q];
            }
            step_[i] = sum;
        }
        for (std::size_t i = 0; i < held_.count(); ++i)
            step_[i] *= -sign;
        step_[held_.count()] = sign;
    }

    /// The first multiplier that shrinks to zero along the step, if that is before `time`.
    void next_release(double& time, PieceEnd& stop, std::size_t& which) const {
        for (std::size_t k = 0; k < held_.count(); ++k) {
            const std::size_t i = active_[k];
            if (row_lower_[i] == row_upper_[i]) continue;
            const double shrink = row_state_[i] > 0 ? -step_[k] : step_[k];
            const double left = row_state_[i] > 0 ? y_[i] : -y_[i];
            if (shrink > 0 && left < time * shrink) {
                time = left > 0 ? left / shrink : 0.0;
                stop = PieceEnd::row_released;
                which = k;
            }
        }
    }

    void place_pull_step() {
        variables_.start_step(rows_ + active_[held_.count()] * n_, step_[held_.count()]);
        for (std::size_t k = 0; k < held_.count(); ++k) {
            if (step_[k] != 0) variables_.add_step(rows_ + active_[k] * n_, step_[k]);
        }
    }

    /// Stops holding the row at place k of the list.
    void release(std::size_t k) {
        y_[active_[k]] = 0;
        row_state_[active_[k]] = 0;
        held_.drop(k);
    }

    /// Farkas multipliers: the direction along which the dual objective rises without end.
    void write_proof() {
        for (std::size_t i = 0; i < m_; ++i)
            y_[i] = 0;
        for (std::size_t k = 0; k <= held_.count(); ++k)
            y_[active_[k]] = step_[k];
        variables_.write_proof();
    }

    std::size_t n_, m_;
    const double* rows_;
    const double* row_lower_;
    const double* row_upper_;
    Buffers& b_;
    double* x_;
    double* y_;
    int* row_state_;
    std::size_t* active_;
    double* step_;
    double* inverse_norm_;
    PathVariables variables_;
    HeldRows held_;
    std::size_t iterations_ = 0;
};

}  // namespace feed::solver::detail
