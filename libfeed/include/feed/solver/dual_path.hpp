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
          lower_(problem.within.lower.data()),
          upper_(problem.within.upper.data()),
          hessian_(problem.hessian.data()),
          gradient_(problem.gradient.empty() ? nullptr : problem.gradient.data()),
          b_(buffers),
          x_(buffers.x.data()),
          y_(buffers.row_multipliers.data()),
          pull_(buffers.pull.data()),
          pull_step_(buffers.pull_step.data()),
          free_inverse_(buffers.free_inverse.data()),
          held_(problem.within.rows.data(), n_, buffers) {}

    PathEnd run() {
        start();
        const std::size_t limit = 100 + 10 * (n_ + m_);
        for (;;) {
            place_point();
            double violation = 0;
            double sign = 0;
            const std::size_t row = most_violated(violation, sign);
            if (row == m_) break;
            const PathEnd end = hold(row, sign, violation, limit);
            if (end != PathEnd::answer) return end;
        }
        finish();
        return PathEnd::answer;
    }

    [[nodiscard]] std::size_t iterations() const { return iterations_; }

    void write_sides() {
        for (std::size_t j = 0; j < n_; ++j) {
            const signed char state = b_.state[j];
            b_.variable_sides[j] = state == 0   ? Side::between
                                   : state == 2 ? Side::both
                                   : state < 0  ? Side::lower
                                                : Side::upper;
        }
        for (std::size_t i = 0; i < m_; ++i) {
            b_.row_sides[i] = b_.row_state[i] == 0             ? Side::between
                              : row_lower_[i] == row_upper_[i] ? Side::both
                              : b_.row_state[i] > 0            ? Side::lower
                                                               : Side::upper;
        }
    }

    /// Removes the rounding that built up along the way: the same active limits, computed afresh.
    void sharpen() {
        for (int round = 0; round < 3; ++round) {
            place_pull();
            place_point();
            held_.refresh();
            held_.factorise(held_.count());
            for (std::size_t k = 0; k < held_.count(); ++k) {
                const std::size_t i = b_.active[k];
                const double limit = b_.row_state[i] > 0 ? row_lower_[i] : row_upper_[i];
                b_.multiplier_step[k] = limit - dot(rows_ + i * n_, x_);
            }
            held_.solve();
            for (std::size_t k = 0; k < held_.count(); ++k)
                y_[b_.active[k]] += b_.multiplier_step[k];
        }
        place_pull();
        place_point();
        finish();
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

    void set_state(std::size_t j) {
        // The state that belongs to the pull on variable j; a variable without room never becomes
        // free.
        if (lower_[j] == upper_[j]) {
            b_.state[j] = 2;
            free_inverse_[j] = 0;
        } else if (pull_[j] <= b_.pull_lower[j]) {
            b_.state[j] = -1;
            free_inverse_[j] = 0;
        } else if (pull_[j] >= b_.pull_upper[j]) {
            b_.state[j] = 1;
            free_inverse_[j] = 0;
        } else {
            b_.state[j] = 0;
            free_inverse_[j] = b_.inverse_hessian[j];
        }
    }

    void start() {
        for (std::size_t j = 0; j < n_; ++j) {
            const double h = hessian_[j];
            b_.inverse_hessian[j] = 1 / h;
            b_.pull_lower[j] = h * lower_[j];
            b_.pull_upper[j] = h * upper_[j];
            pull_[j] = gradient_ ? -gradient_[j] : 0.0;
            set_state(j);
        }
        for (std::size_t i = 0; i < m_; ++i) {
            y_[i] = 0;
            b_.row_state[i] = 0;
            b_.inverse_norm[i] = -1;  // not yet known
        }
        held_.clear();
    }

    void place_pull() {
        for (std::size_t j = 0; j < n_; ++j)
            pull_[j] = gradient_ ? -gradient_[j] : 0.0;
        for (std::size_t k = 0; k < held_.count(); ++k) {
            const double* row = rows_ + b_.active[k] * n_;
            const double y = y_[b_.active[k]];
            for (std::size_t j = 0; j < n_; ++j)
                pull_[j] += row[j] * y;
        }
    }

    void place_point() {
        for (std::size_t j = 0; j < n_; ++j) {
            if (b_.state[j] == 0) {
                double value = pull_[j] * b_.inverse_hessian[j];
                if (value < lower_[j]) value = lower_[j];
                if (value > upper_[j]) value = upper_[j];
                x_[j] = value;
            } else {
                x_[j] = b_.state[j] == 1 ? upper_[j] : lower_[j];
            }
        }
    }

    /// The row whose violation promises the steepest climb; m if none is violated.
    std::size_t most_violated(double& violation, double& sign) {
        std::size_t best = m_;
        double best_merit = 0;
        for (std::size_t i = 0; i < m_; ++i) {
            if (b_.row_state[i] != 0) continue;
            const double* row = rows_ + i * n_;
            const double activity = dot(row, x_);
            double over = row_lower_[i] - activity;
            double direction = 1;
            double limit = row_lower_[i];
            if (!(over > 0)) {
                over = activity - row_upper_[i];
                direction = -1;
                limit = row_upper_[i];
            }
            if (!(over > 0)) continue;
            double size = limit < 0 ? -limit : limit;
            for (std::size_t j = 0; j < n_; ++j) {
                const double term = row[j] * x_[j];
                size += term < 0 ? -term : term;
            }
            if (over <= 1e-13 * size) continue;
            if (b_.inverse_norm[i] < 0) {
                double norm = 0;
                for (std::size_t j = 0; j < n_; ++j) {
                    norm += (row[j] * row[j]) * b_.inverse_hessian[j];
                }
                b_.inverse_norm[i] = 1 / norm;
            }
            const double merit = (over * over) * b_.inverse_norm[i];
            if (merit > best_merit) {
                best_merit = merit;
                best = i;
                violation = over;
                sign = direction;
            }
        }
        return best;
    }

    /// Moves the multiplier of `row` until the row is at its limit.
    PathEnd hold(std::size_t row, double sign, double violation, std::size_t limit) {
        if (held_.full()) return PathEnd::gave_up;
        b_.active[held_.count()] = row;
        b_.row_state[row] = sign > 0 ? 1 : -1;
        held_.take(held_.count());
        double* step = b_.multiplier_step.data();
        for (;;) {
            if (++iterations_ > limit) return PathEnd::gave_up;
            held_.factorise(held_.count() + 1);
            // The held rows stay at their limits if their multipliers answer each unit of the new
            // one like this.
            const double* last = held_.factor(held_.count());
            for (std::size_t i = held_.count(); i-- > 0;) {
                double sum = last[i];
                for (std::size_t q = i + 1; q < held_.count(); ++q) {
                    sum -= held_.factor(q)[i] * step[q];
                }
                step[i] = sum;
            }
            for (std::size_t i = 0; i < held_.count(); ++i)
                step[i] *= -sign;
            step[held_.count()] = sign;
            place_pull_step();

            double time = infinity;
            Stop stop = Stop::nothing;
            std::size_t which = 0;
            const double curvature =
                b_.pivot_inverse[held_.count()] > 0 ? last[held_.count()] : 0.0;
            if (curvature > 0) {
                time = violation * b_.pivot_inverse[held_.count()];
                stop = Stop::reached;
            }
            for (std::size_t k = 0; k < held_.count(); ++k) {
                const std::size_t i = b_.active[k];
                if (row_lower_[i] == row_upper_[i]) continue;
                // A multiplier that shrinks towards zero.
                const double shrink = b_.row_state[i] > 0 ? -step[k] : step[k];
                const double left = b_.row_state[i] > 0 ? y_[i] : -y_[i];
                if (shrink > 0 && left < time * shrink) {
                    time = left > 0 ? left / shrink : 0.0;
                    stop = Stop::row_released;
                    which = k;
                }
            }
            next_bend(time, stop, which);
            if (stop == Stop::nothing) {
                write_proof();
                return PathEnd::infeasible;
            }

            for (std::size_t k = 0; k <= held_.count(); ++k)
                y_[b_.active[k]] += time * step[k];
            for (std::size_t j = 0; j < n_; ++j)
                pull_[j] += time * pull_step_[j];
            violation -= time * curvature;
            if (stop == Stop::reached) {
                held_.keep_next();
                return PathEnd::answer;
            }
            if (stop == Stop::row_released) {
                release(which);
            } else {
                bend(which);
            }
            if (!(violation > 0)) violation = 0;
        }
    }

    enum class Stop { nothing, reached, row_released, bent };

    void place_pull_step() {
        const double* step = b_.multiplier_step.data();
        const double* row = rows_ + b_.active[held_.count()] * n_;
        for (std::size_t j = 0; j < n_; ++j)
            pull_step_[j] = row[j] * step[held_.count()];
        for (std::size_t k = 0; k < held_.count(); ++k) {
            const double weight = step[k];
            if (weight == 0) continue;
            row = rows_ + b_.active[k] * n_;
            for (std::size_t j = 0; j < n_; ++j)
                pull_step_[j] += row[j] * weight;
        }
    }

    /// The first variable, in time, that meets or leaves a bound.
    void next_bend(double& time, Stop& stop, std::size_t& which) const {
        for (std::size_t j = 0; j < n_; ++j) {
            const double rate = pull_step_[j];
            const signed char state = b_.state[j];
            if (rate > 0) {
                if (state > 0) continue;
                const double room = (state == 0 ? b_.pull_upper[j] : b_.pull_lower[j]) - pull_[j];
                if (room < time * rate) {
                    time = room > 0 ? room / rate : 0.0;
                    stop = Stop::bent;
                    which = j;
                }
            } else if (rate < 0) {
                if (state < 0 || state == 2) continue;
                const double room = pull_[j] - (state == 0 ? b_.pull_lower[j] : b_.pull_upper[j]);
                if (room < time * -rate) {
                    time = room > 0 ? room / -rate : 0.0;
                    stop = Stop::bent;
                    which = j;
                }
            }
        }
    }

    /// Lets variable j change between free and bound.
    void bend(std::size_t j) {
        const bool rising = pull_step_[j] > 0;
        if (b_.state[j] == 0) {
            pull_[j] = rising ? b_.pull_upper[j] : b_.pull_lower[j];
            b_.state[j] = rising ? 1 : -1;
            free_inverse_[j] = 0;
            held_.free_or_bind(j, -b_.inverse_hessian[j]);
        } else {
            pull_[j] = rising ? b_.pull_lower[j] : b_.pull_upper[j];
            b_.state[j] = 0;
            free_inverse_[j] = b_.inverse_hessian[j];
            held_.free_or_bind(j, b_.inverse_hessian[j]);
        }
    }

    /// Stops holding the row at place k of the list.
    void release(std::size_t k) {
        y_[b_.active[k]] = 0;
        b_.row_state[b_.active[k]] = 0;
        held_.drop(k);
    }

    /// Farkas multipliers: the direction along which the dual objective rises without end.
    void write_proof() {
        for (std::size_t i = 0; i < m_; ++i)
            y_[i] = 0;
        for (std::size_t k = 0; k <= held_.count(); ++k)
            y_[b_.active[k]] = b_.multiplier_step[k];
        for (std::size_t j = 0; j < n_; ++j) {
            b_.bound_multipliers[j] = b_.state[j] == 0 ? 0.0 : -pull_step_[j];
        }
    }

    void finish() {
        for (std::size_t j = 0; j < n_; ++j) {
            const signed char state = b_.state[j];
            b_.bound_multipliers[j] = state == 0 ? 0.0 : hessian_[j] * x_[j] - pull_[j];
            // A variable that stands exactly where it would stand without its bound is not pushed.
            if (state == -1 && b_.bound_multipliers[j] < 0) b_.bound_multipliers[j] = 0;
            if (state == 1 && b_.bound_multipliers[j] > 0) b_.bound_multipliers[j] = 0;
        }
    }

    std::size_t n_, m_;
    const double* rows_;
    const double* row_lower_;
    const double* row_upper_;
    const double* lower_;
    const double* upper_;
    const double* hessian_;
    const double* gradient_;
    Buffers& b_;
    double* x_;
    double* y_;
    double* pull_;
    double* pull_step_;
    double* free_inverse_;
    HeldRows held_;
    std::size_t iterations_ = 0;
};

}  // namespace feed::solver::detail
