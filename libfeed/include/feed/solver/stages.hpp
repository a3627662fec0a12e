#pragma once
// Linear objectives one after the other on the same limits, each on the points left by those before
// it.
//
// After a stage every nonbasic entry whose slope is not zero is pinned to its limit: the points
// that satisfy the narrowed limits are exactly the best ones of that stage. Nothing is loosened, so
// nothing drifts from stage to stage.

#include <cstddef>
#include <span>

#include "feed/solver/solve.hpp"

namespace feed::solver::detail {

class Stages {
public:
    /// @param within  must outlive the stages; its row coefficients are read, its limits are
    /// copied.
    Stages(const Polyhedron& within, Buffers& buffers, const Options& options)
        : b_(buffers),
          n_(within.variable_count()),
          m_(within.row_count()),
          options_(options),
          dictionary_(buffers),
          primal_(dictionary_, iteration_limit(options, n_, m_)) {
        load(within);
        dictionary_.start();
    }

    /// Starts anew on changed limits or coefficients of the same size, from the place reached so
    /// far.
    void reload(const Polyhedron& within) {
        load(within);
        dictionary_.rebuild();
    }

    /// One stage. The result is checked; `solved` leaves point and multipliers in the workspace.
    Status minimise(std::span<const double> gradient) {
        const Problem problem{{}, gradient, narrowed_};
        dictionary_.set_gradient(gradient.data());
        for (int attempt = 0; attempt < 4; ++attempt) {
            if (attempt > 0) dictionary_.rebuild();
            primal_.look_closer(attempt);
            const Status ended = primal_.run();
            if (ended == Status::iteration_limit) return ended;
            if (ended == Status::numerical) continue;
            if (confirm(problem, dictionary_, ended, options_.tolerance, result_)) return ended;
        }
        return Status::numerical;
    }

    /// Like `minimise` but unchecked: a rough point, within rounding of the limits.
    Status seek(std::span<const double> gradient) {
        dictionary_.set_gradient(gradient.data());
        primal_.look_closer(0);
        const Status ended = primal_.run();
        if (ended != Status::solved) return ended;
        for (std::size_t j = 0; j < n_; ++j) {
            const std::size_t id = b_.nonbasic[j];
            if (id < n_) b_.x[id] = dictionary_.value_at_rest(id) * b_.column_scale[id];
        }
        for (std::size_t i = 0; i < m_; ++i) {
            const std::size_t id = b_.basic[i];
            if (id >= n_) continue;
            double value = b_.basic_value[i] * b_.column_scale[id];
            if (value < narrowed_.lower[id]) value = narrowed_.lower[id];
            if (value > narrowed_.upper[id]) value = narrowed_.upper[id];
            b_.x[id] = value;
        }
        return ended;
    }

    /// Keeps only the points that are best for the stage just solved.
    void pin() {
        for (std::size_t j = 0; j < n_; ++j) {
            const std::size_t id = b_.nonbasic[j];
            if (b_.low[id] == b_.high[id]) continue;
            const Place place = b_.place[id];
            if (place != Place::at_lower && place != Place::at_upper) continue;
            if (size_of(b_.slope[j]) <= search_tolerance * b_.slope_size[j]) continue;
            hold(id, place);
        }
    }

    /// Whether the limits leave one point.
    [[nodiscard]] bool single_point() const {
        for (std::size_t j = 0; j < n_; ++j) {
            const std::size_t id = b_.nonbasic[j];
            if (b_.low[id] != b_.high[id]) return false;
        }
        return true;
    }

    /// Makes the variables before `count` small, one after the other. Uses the workspace's
    /// objective.
    Status settle_variables(std::size_t count) {
        for (std::size_t j = 0; j < n_; ++j)
            b_.objective[j] = 0;
        for (std::size_t j = 0; j < count && !single_point(); ++j) {
            if (b_.place[j] != Place::basic && b_.low[j] == b_.high[j]) continue;
            b_.objective[j] = 1;
            Status status = minimise({b_.objective.data(), n_});
            if (status == Status::unbounded) {
                b_.objective[j] = -1;
                status = minimise({b_.objective.data(), n_});
            }
            b_.objective[j] = 0;
            if (status == Status::unbounded) {
                left_alone_ = true;
                continue;
            }
            if (status != Status::solved) return status;
            pin();
        }
        if (!left_alone_) return Status::solved;
        // The last search may have ended on a ray; the point belongs to no objective now.
        return minimise({b_.objective.data(), n_});
    }

    /// Sets the present multipliers aside: they belong to the objective that came first.
    void keep_multipliers() {
        for (std::size_t i = 0; i < m_; ++i)
            b_.first_row_multipliers[i] = b_.row_multipliers[i];
        for (std::size_t j = 0; j < n_; ++j) {
            b_.first_bound_multipliers[j] = b_.bound_multipliers[j];
        }
        kept_residuals_ = result_.residuals;
    }

    void restore_multipliers() {
        for (std::size_t i = 0; i < m_; ++i)
            b_.row_multipliers[i] = b_.first_row_multipliers[i];
        for (std::size_t j = 0; j < n_; ++j) {
            b_.bound_multipliers[j] = b_.first_bound_multipliers[j];
        }
    }

    [[nodiscard]] const Residuals& residuals() const { return result_.residuals; }
    [[nodiscard]] const Residuals& kept_residuals() const { return kept_residuals_; }
    [[nodiscard]] std::size_t iterations() const { return primal_.iterations(); }

private:
    void load(const Polyhedron& within) {
        OwnedProblem& own = b_.narrowed;
        for (std::size_t j = 0; j < n_; ++j) {
            own.lower[j] = within.lower[j];
            own.upper[j] = within.upper[j];
        }
        for (std::size_t i = 0; i < m_; ++i) {
            own.row_lower[i] = within.row_lower[i];
            own.row_upper[i] = within.row_upper[i];
        }
        narrowed_ = own.view(n_, m_);
        narrowed_.rows = within.rows;
        dictionary_.load({{}, {}, narrowed_});
    }

    /// Turns the limit an entry stands at into both of its limits.
    void hold(std::size_t id, Place place) {
        OwnedProblem& own = b_.narrowed;
        double& low = id < n_ ? own.lower[id] : own.row_lower[id - n_];
        double& high = id < n_ ? own.upper[id] : own.row_upper[id - n_];
        if (place == Place::at_lower) {
            high = low;
            b_.high[id] = b_.low[id];
        } else {
            low = high;
            b_.low[id] = b_.high[id];
        }
    }

    Buffers& b_;
    std::size_t n_, m_;
    Options options_;
    Polyhedron narrowed_;
    Dictionary dictionary_;
    Primal primal_;
    Result result_;
    Residuals kept_residuals_;
    bool left_alone_ = false;
};

}  // namespace feed::solver::detail
