#pragma once
// The parametric method behind `fractional`.

#include <cstddef>
#include <span>
#include <vector>

#include "feed/solver/endless_ray.hpp"
#include "feed/solver/problem.hpp"
#include "feed/solver/ratio_values.hpp"
#include "feed/solver/ratios.hpp"
#include "feed/solver/ray_limit.hpp"
#include "feed/solver/solve.hpp"
#include "feed/solver/stages.hpp"
#include "feed/solver/verify.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver {

namespace detail {

/// One run of the parametric method. With a level t, the smallest s is sought for which
/// numerator_k - t denominator_k <= weight_k s for every k; s < 0 means that t can be beaten, and
/// the point found gives the next, lower t. Weights are the denominators at the previous point,
/// which makes the levels fall superlinearly.
class FractionalRun {
public:
    FractionalRun(const Polyhedron& within, const Ratios& ratios, Workspace& workspace,
                  const Options& options)
        : within_(within),
          ratios_(ratios),
          values_(ratios, within.variable_count()),
          workspace_(workspace),
          b_(workspace.buffers()),
          options_(options),
          n_(within.variable_count()),
          m_(within.row_count()),
          k_(values_.count()) {}

    FractionalResult run(std::span<const double> tie_objectives) {
        if (!denominators_hold()) return result_;
        copy_limits();
        for (std::size_t k = 0; k < k_; ++k)
            b_.weights[k] = values_.usual_size(k);
        // Deviations from aims that can be met have the answer zero, so the first level is zero.
        level_ = 0;
        place_level();
        Stages stages(b_.extended.view(n_ + 1, m_ + k_), b_, options_);
        for (std::size_t round = 0; round < round_limit; ++round) {
            if (round > 0) {
                place_level();
                stages.reload(b_.extended.view(n_ + 1, m_ + k_));
            }
            double reached = infinity;
            Next next = look_for_lower(stages, reached);
            // Where a ratio has no value the descent cannot start; find a point where all have.
            if (next == Next::judge && reached == infinity) {
                if (round > 0 || !start_elsewhere()) return bad_denominator(bad_);
                continue;
            }
            if (next == Next::judge) next = judge(reached);
            if (next == Next::over) return result_;
            if (next == Next::finish) return finish(stages, tie_objectives);
        }
        return given_up(Status::iteration_limit);
    }

private:
    static constexpr std::size_t round_limit = 100;

    /// What a round of the method leads to.
    enum class Next { judge, another_level, finish, over };

    /// Seeks a point with lower ratios. A rough one will do as long as it lowers the level clearly.
    Next look_for_lower(Stages& stages, double& reached) {
        const std::span<const double> excess{b_.extended.gradient.data(), n_ + 1};
        Status status = stages.seek(excess);
        reached = status == Status::solved ? largest_ratio() : infinity;
        if (status == Status::solved && clearly_lower(reached)) return Next::judge;
        status = stages.minimise(excess);
        result_.iterations = spent_ + stages.iterations();
        if (status == Status::unbounded) return follow_ray() ? Next::another_level : Next::over;
        if (status == Status::numerical && at_infinity_ && ray_.step_below(level_))
            return Next::another_level;
        if (status == Status::solved) {
            reached = largest_ratio();
            return Next::judge;
        }
        if (status == Status::infeasible) {
            infeasible();
        } else {
            given_up(status);
        }
        return Next::over;
    }

    /// Whether the level that a point reached is the answer, or the next to be beaten.
    Next judge(double reached) {
        if (!level_is_reached_ && (size_of(reached) <= 1e-13 * ratio_size_ ||
                                   size_of(reached) <= values_.largest_noise(b_.x.data()))) {
            return Next::finish;
        }
        if (bad_ < k_) last_bad_ = bad_;
        // A level taken from a point where a ratio had no value can turn out to be too low.
        const bool too_low =
            level_is_reached_ && !at_infinity_ && reached - level_ > 1e-12 * ratio_size_;
        if (too_low && ++raised_ > 3) {
            bad_denominator(last_bad_ < k_ ? last_bad_ : 0);
            return Next::over;
        }
        const bool lower = reached < (at_infinity_ ? ray_.level() - ray_.rounding() : level_);
        if (!level_is_reached_ || lower || too_low) {
            level_is_reached_ = true;
            at_infinity_ = false;
            ray_.leave();
            level_ = reached;
            take_weights();
            return Next::another_level;
        }
        if (at_infinity_ && reached > ray_.level() + ray_.rounding()) {
            level_ = ray_.level();
            unbounded();
            return Next::over;
        }
        if (at_infinity_ && ray_.step_below_point(reached, level_)) return Next::another_level;
        return Next::finish;
    }

    [[nodiscard]] bool clearly_lower(double reached) const {
        if (reached == infinity) return false;
        const double fall = level_is_reached_ ? level_ - reached : size_of(reached);
        return fall > 1e-6 * ratio_size_;
    }

    /// Whether every denominator is >= 0 on the feasible set: at once if the bounds alone say so.
    bool denominators_hold() {
        for (std::size_t k = 0; k < k_; ++k) {
            double least = values_.denominator_constant(k);
            for (std::size_t j = 0; j < n_; ++j) {
                const double d = values_.denominator(k)[j];
                if (d != 0) least += d > 0 ? d * within_.lower[j] : d * within_.upper[j];
            }
            if (least >= 0) continue;
            const Problem problem{{}, ratios_.denominators.subspan(k * n_, n_), within_};
            const Result lowest = solve_generally(problem, workspace_, options_);
            spent_ += lowest.iterations;
            result_.iterations = spent_;
            if (lowest.status == Status::infeasible) {
                infeasible();
                return false;
            }
            if (lowest.status == Status::unbounded) {
                bad_denominator(k);
                return false;
            }
            if (lowest.status != Status::solved) {
                failed(lowest.status);
                return false;
            }
            const SizedValue value = values_.denominator_at(k, b_.x.data());
            if (value.value < -options_.tolerance * value.size) {
                bad_denominator(k);
                return false;
            }
        }
        return true;
    }

    void copy_limits() {
        OwnedProblem& own = b_.extended;
        for (std::size_t j = 0; j < n_; ++j) {
            own.lower[j] = within_.lower[j];
            own.upper[j] = within_.upper[j];
            own.gradient[j] = 0;
        }
        own.lower[n_] = -infinity;
        own.upper[n_] = infinity;
        own.gradient[n_] = 1;
        for (std::size_t i = 0; i < m_; ++i) {
            double* row = own.rows.data() + i * (n_ + 1);
            for (std::size_t j = 0; j < n_; ++j)
                row[j] = within_.rows[i * n_ + j];
            row[n_] = 0;
            own.row_lower[i] = within_.row_lower[i];
            own.row_upper[i] = within_.row_upper[i];
        }
    }

    /// a - b, and zero if that is only what rounding leaves of equal numbers.
    static double difference(double a, double b) {
        const double rest = a - b;
        return size_of(rest) <= 4e-16 * (size_of(a) + size_of(b)) ? 0.0 : rest;
    }

    void place_level() {
        OwnedProblem& own = b_.extended;
        for (std::size_t k = 0; k < k_; ++k) {
            double* row = own.rows.data() + (m_ + k) * (n_ + 1);
            for (std::size_t j = 0; j < n_; ++j) {
                row[j] = difference(level_ * values_.denominator(k)[j], values_.numerator(k)[j]);
            }
            row[n_] = b_.weights[k];
            own.row_lower[m_ + k] =
                difference(values_.numerator_constant(k), level_ * values_.denominator_constant(k));
            own.row_upper[m_ + k] = infinity;
        }
    }

    /// The largest ratio at the present point. Notes in bad_ the first ratio whose denominator is
    /// zero there.
    double largest_ratio() {
        bad_ = k_;
        double largest = -infinity;
        ratio_size_ = 0;
        for (std::size_t k = 0; k < k_; ++k) {
            const SizedValue d = values_.denominator_at(k, b_.x.data());
            const SizedValue a = values_.numerator_at(k, b_.x.data());
            if (d.value <= 1e-12 * d.size) {
                if (bad_ == k_) bad_ = k;
                if (a.value > 1e-12 * a.size) {
                    bad_ = k;
                    return infinity;
                }
                continue;
            }
            if (a.value / d.value > largest) largest = a.value / d.value;
            if (a.size / d.value > ratio_size_) ratio_size_ = a.size / d.value;
        }
        if (largest == -infinity) return infinity;
        return largest;
    }

    void take_weights() {
        for (std::size_t k = 0; k < k_; ++k) {
            const SizedValue d = values_.denominator_at(k, b_.x.data());
            if (d.value > 1e-12 * d.size) b_.weights[k] = d.value;
        }
    }

    /// The level may be lowered without end, or towards a limit, along a ray. False if the run is
    /// over.
    bool follow_ray() {
        double limit = -infinity;
        double limit_size = 0;
        for (std::size_t k = 0; k < k_; ++k) {
            const SizedValue d = values_.denominator_along(k, b_.ray.data());
            const SizedValue a = values_.numerator_along(k, b_.ray.data());
            // A ray is checked to the tolerance only.
            if (d.value <= options_.tolerance * d.size) continue;
            if (a.value / d.value > limit) limit = a.value / d.value;
            if (a.size / d.value > limit_size) limit_size = a.size / d.value;
            b_.weights[k] = d.value;
        }
        const double known = at_infinity_ ? ray_.level() : level_;
        const bool no_lower = level_is_reached_ && limit > known - 1e-13 * limit_size;
        // The same end again is rounding, not a lower limit.
        const bool same_end =
            at_infinity_ && known - limit <= 1e-12 * (size_of(known) + size_of(limit));
        keep_ray(b_.ray);
        ray_.take(limit, limit_size, !no_lower && !same_end, !at_infinity_);
        level_is_reached_ = true;
        at_infinity_ = true;
        if (limit > -infinity && ray_.step_below(level_)) return true;
        level_ = ray_.level();
        unbounded();
        return false;
    }

    /// A point between those that make each denominator largest, so that none is zero. Sets the
    /// level there.
    bool start_elsewhere() {
        for (std::size_t j = 0; j < n_; ++j)
            b_.mean[j] = 0;
        for (std::size_t k = 0; k < k_; ++k) {
            for (std::size_t j = 0; j < n_; ++j)
                b_.objective[j] = -values_.denominator(k)[j];
            const Problem problem{{}, {b_.objective.data(), n_}, within_};
            const Result most = solve_generally(problem, workspace_, options_);
            spent_ += most.iterations;
            if (most.status != Status::solved && most.status != Status::unbounded) return false;
            const double share = 1 / static_cast<double>(k_);
            for (std::size_t j = 0; j < n_; ++j) {
                b_.mean[j] += share * b_.x[j];
                if (most.status == Status::unbounded) b_.mean[j] += share * b_.ray[j];
            }
        }
        for (std::size_t j = 0; j < n_; ++j)
            b_.x[j] = b_.mean[j];
        level_ = largest_ratio();
        if (level_ == infinity) return false;
        level_is_reached_ = true;
        take_weights();
        return true;
    }

    FractionalResult finish(Stages& stages, std::span<const double> tie_objectives) {
        stages.keep_multipliers();
        stages.pin();
        const std::size_t count = n_ == 0 ? 0 : tie_objectives.size() / n_;
        b_.objective[n_] = 0;
        for (std::size_t o = 0; o < count && !stages.single_point(); ++o) {
            for (std::size_t j = 0; j < n_; ++j)
                b_.objective[j] = tie_objectives[o * n_ + j];
            const Status status = stages.minimise({b_.objective.data(), n_ + 1});
            if (status == Status::unbounded) {
                keep_ray(b_.ray);
                return unbounded();
            }
            if (status != Status::solved) return failed(status);
            stages.pin();
        }
        const Status status = stages.settle_variables(n_);
        if (status != Status::solved) return failed(status);
        stages.restore_multipliers();
        result_.iterations = spent_ + stages.iterations();
        result_.residuals = stages.kept_residuals();
        const double reached = largest_ratio();
        if (bad_ < k_) return bad_denominator(bad_);
        // The ratios at the final point against the level that was proven to be the lowest.
        for (std::size_t k = 0; k < k_; ++k) {
            const SizedValue d = values_.denominator_at(k, b_.x.data());
            const SizedValue a = values_.numerator_at(k, b_.x.data());
            double over = a.value - level_ * d.value;
            if (size_of(over) <= values_.numerator_noise(k, b_.x.data())) over = 0;
            const double size = a.size + size_of(level_) * d.size;
            if (size == 0) continue;
            if (over / size > result_.residuals.primal) result_.residuals.primal = over / size;
            // The shares of the ratios in the proof add up to one; what rounding left of one proves
            // nothing.
            const bool decides = b_.row_multipliers[m_ + k] * b_.weights[k] > options_.tolerance;
            if (decides && -over / size > result_.residuals.complementarity) {
                result_.residuals.complementarity = -over / size;
            }
        }
        if (!accepted(result_.residuals, options_.tolerance)) return failed(Status::numerical);
        result_.status = FractionalStatus::solved;
        result_.value = reached;
        view();
        return result_;
    }

    void view() {
        result_.x = {b_.x.data(), n_};
        result_.row_multipliers = {b_.row_multipliers.data(), m_};
        result_.bound_multipliers = {b_.bound_multipliers.data(), n_};
        result_.ratio_multipliers = {b_.row_multipliers.data() + m_, k_};
    }

    FractionalResult infeasible() {
        const bool proven =
            proves_infeasible(within_, {b_.row_multipliers.data(), m_},
                              {b_.bound_multipliers.data(), n_}, options_.tolerance);
        if (!proven) return failed(Status::numerical);
        result_.status = FractionalStatus::infeasible;
        view();
        result_.x = {};
        result_.ratio_multipliers = {};
        return result_;
    }

    /// Sets the ray aside that `unbounded` answers with: later searches write over it.
    void keep_ray(const std::vector<double>& ray) {
        for (std::size_t j = 0; j < n_; ++j)
            b_.mean[j] = ray[j];
    }

    FractionalResult unbounded() {
        result_.status = FractionalStatus::unbounded;
        result_.value = level_;
        for (std::size_t j = 0; j < n_; ++j)
            b_.ray[j] = b_.mean[j];
        result_.ray = {b_.ray.data(), n_};
        return result_;
    }

    FractionalResult bad_denominator(std::size_t k) {
        result_.status = FractionalStatus::denominator;
        result_.bad_ratio = k;
        return result_;
    }

    /// The levels led nowhere: fallen so low that nothing else is seen beside them, or an end with
    /// nothing to show.
    FractionalResult given_up(Status status) {
        if (!at_infinity_ || !find_endless_ray(within_, values_, workspace_, options_))
            return failed(status);
        keep_ray(b_.x);
        level_ = -infinity;
        return unbounded();
    }

    FractionalResult failed(Status status) {
        result_.status = status == Status::iteration_limit ? FractionalStatus::iteration_limit
                                                           : FractionalStatus::numerical;
        if (status != Status::iteration_limit) result_.fault = Fault::not_verified;
        return result_;
    }

    const Polyhedron& within_;
    const Ratios& ratios_;
    RatioValues values_;
    Workspace& workspace_;
    Buffers& b_;
    Options options_;
    std::size_t n_, m_, k_;
    std::size_t spent_ = 0;
    std::size_t bad_ = 0;
    std::size_t last_bad_ = static_cast<std::size_t>(-1);
    std::size_t raised_ = 0;
    double level_ = 0;
    bool level_is_reached_ = false;
    bool at_infinity_ = false;  ///< the level comes from a ray
    RayLimit ray_;
    double ratio_size_ = 0;  ///< the largest size of the terms of a numerator over its denominator.
    FractionalResult result_;
};

}  // namespace detail

}  // namespace feed::solver
