#pragma once
// From a set of active limits to the point and the multipliers they fix, solved afresh from the
// rows, so that nothing the search has rounded is left in the answer.

#include <cstddef>

#include "feed/solver/dictionary.hpp"
#include "feed/solver/lu_factors.hpp"
#include "feed/solver/problem.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver::detail {

/// An opinion on how much of a value is rounding. The check of the answer has the last word.
struct Rounding {
    double zero_share;  ///< of the largest value of its kind, for a value that the search took for
                        ///< zero.
    double pull_share;  ///< of the terms that pull at a curved variable, over its curvature; 0:
                        ///< ignore them.
};

/// The equations of the active limits of a dictionary, factorised with partial pivoting and used
/// with refinement.
class ExactPoint {
public:
    ExactPoint(Dictionary& dictionary, const Rounding& rounding)
        : d_(dictionary), b_(dictionary.b), factors_(dictionary.b), rounding_(rounding) {}

    /// Reads the active limits and factorises. False if the equations are singular.
    /// @param joint  whether loose entries are free, and point and multipliers have to be solved
    /// together.
    bool prepare(bool joint) {
        const std::size_t n = d_.n;
        free_ = 0;
        tight_ = 0;
        estimate_noise();
        for (std::size_t j = 0; j < n; ++j) {
            const bool loose = b_.place[j] == Place::loose && joint;
            if (b_.place[j] == Place::basic || loose) b_.free_variables[free_++] = j;
        }
        for (std::size_t i = 0; i < d_.m; ++i) {
            const Place place = b_.place[n + i];
            const bool loose = place == Place::loose && joint;
            if (place != Place::basic && !loose) b_.tight_rows[tight_++] = i;
        }
        joint_ = joint;
        if (!joint_ && free_ != tight_) return false;
        const std::size_t size = joint_ ? free_ + tight_ : free_;
        double* a = factors_.clear(size);
        const std::size_t offset = joint_ ? free_ : 0;
        for (std::size_t r = 0; r < tight_; ++r) {
            for (std::size_t c = 0; c < free_; ++c) {
                const double entry = row(r)[b_.free_variables[c]];
                a[(offset + r) * size + c] = entry;
                if (joint_) a[c * size + free_ + r] = -entry;
            }
        }
        if (joint_) {
            for (std::size_t c = 0; c < free_; ++c) {
                a[c * size + c] = b_.scaled_hessian[b_.free_variables[c]];
            }
        }
        return factors_.factorise();
    }

    /// The point and multipliers for the loaded objective, in the caller's units.
    void solve(const Polyhedron& within) {
        for (std::size_t i = 0; i < d_.m; ++i)
            b_.row_multipliers[i] = 0;
        if (joint_) {
            rest();
            solve_joint();
            write_point(within);
        } else {
            solve_for_point(within);
            solve_multipliers([this](std::size_t j) { return b_.scaled_gradient[j]; });
        }
        write_multipliers();
    }

    /// Only the point; not after a joint preparation.
    void solve_for_point(const Polyhedron& within) {
        rest();
        for (int round = 0; round < rounds; ++round) {
            for (std::size_t r = 0; r < tight_; ++r)
                b_.residual[r] = row_gap(r);
            factors_.apply_inverse();
            refining_ = round > 0;
            if (correct_point() && refining_) break;
        }
        write_point(within);
    }

    /// Farkas multipliers from the signs of the oversteppings in basic_cost.
    void solve_proof() {
        const std::size_t n = d_.n;
        for (std::size_t i = 0; i < d_.m; ++i)
            b_.row_multipliers[i] = 0;
        for (std::size_t j = 0; j < n; ++j)
            b_.bound_multipliers[j] = 0;
        for (std::size_t i = 0; i < d_.m; ++i) {
            const std::size_t id = b_.basic[i];
            if (id < n) {
                b_.bound_multipliers[id] = -b_.basic_cost[i];
            } else {
                b_.row_multipliers[id - n] = -b_.basic_cost[i];
            }
        }
        // What the tight rows must add on each basic variable.
        for (std::size_t j = 0; j < n; ++j) {
            double sum = -b_.bound_multipliers[j];
            for (std::size_t i = 0; i < d_.m; ++i) {
                if (b_.row_multipliers[i] != 0) {
                    sum -= b_.scaled_rows[i * n + j] * b_.row_multipliers[i];
                }
            }
            b_.objective[j] = sum;
        }
        solve_multipliers([this](std::size_t j) { return b_.objective[j]; });
        drop_wrong_row_signs();
        for (std::size_t j = 0; j < n; ++j) {
            if (b_.place[j] == Place::basic) continue;
            double sum = 0;
            for (std::size_t i = 0; i < d_.m; ++i) {
                sum -= b_.scaled_rows[i * n + j] * b_.row_multipliers[i];
            }
            if (size_of(sum) <= b_.noise[j]) sum = 0;
            b_.bound_multipliers[j] = drop_wrong_sign(j, sum);
        }
        unscale_multipliers();
    }

private:
    [[nodiscard]] const double* row(std::size_t r) const {
        return b_.scaled_rows.data() + b_.tight_rows[r] * d_.n;
    }

    [[nodiscard]] double tight_value(std::size_t r) const {
        return d_.value_at_rest(d_.n + b_.tight_rows[r]);
    }

    [[nodiscard]] double row_gap(std::size_t r) const {
        double gap = tight_value(r);
        const double* a = row(r);
        for (std::size_t j = 0; j < d_.n; ++j)
            gap -= a[j] * b_.point[j];
        return gap;
    }

    /// Nonbasic variables where they stand, basic ones at zero.
    void rest() {
        for (std::size_t j = 0; j < d_.n; ++j) {
            b_.point[j] = b_.place[j] == Place::basic ? 0.0 : d_.value_at_rest(j);
        }
    }

    /// Multipliers of the tight rows such that A' y equals `slope` on the free variables.
    template <typename Slope>
    void solve_multipliers(Slope slope) {
        for (int round = 0; round < rounds; ++round) {
            for (std::size_t c = 0; c < free_; ++c) {
                const std::size_t j = b_.free_variables[c];
                double gap = slope(j);
                for (std::size_t r = 0; r < tight_; ++r) {
                    gap -= row(r)[j] * b_.row_multipliers[b_.tight_rows[r]];
                }
                b_.residual[c] = gap;
            }
            factors_.apply_transposed_inverse();
            refining_ = round > 0;
            if (correct_multipliers(0) && refining_) break;
        }
    }

    /// Adds a correction to the free variables. A value no larger than its last correction, or than
    /// the rounding of the terms it comes from, carries no information: it is zero, or at its limit
    /// if it is that close to one. True if no value moved by more than its last digit.
    bool correct_point() {
        double largest = 0;
        bool stands = true;
        for (std::size_t c = 0; c < free_; ++c) {
            double& value = b_.point[b_.free_variables[c]];
            value += b_.residual[c];
            if (size_of(value) > largest) largest = size_of(value);
        }
        for (std::size_t c = 0; c < free_; ++c) {
            const std::size_t j = b_.free_variables[c];
            double noise = noise_of(j, b_.residual[c], largest);
            if (rounding_.pull_share > 0 && b_.scaled_hessian[j] > 0) {
                const double share = rounding_.pull_share * pull_size(j) / b_.scaled_hessian[j];
                if (share > noise) noise = share;
            }
            double& value = b_.point[j];
            if (size_of(value) <= noise) value = 0;
            if (size_of(value - b_.low[j]) <= b_.noise[j]) value = b_.low[j];
            if (size_of(value - b_.high[j]) <= b_.noise[j]) value = b_.high[j];
            if (value != 0 && size_of(b_.residual[c]) > settled * size_of(value)) stands = false;
        }
        return stands;
    }

    /// The same for the multipliers of the tight rows.
    bool correct_multipliers(std::size_t offset) {
        double largest = 0;
        bool stands = true;
        for (std::size_t r = 0; r < tight_; ++r) {
            double& value = b_.row_multipliers[b_.tight_rows[r]];
            value += b_.residual[offset + r];
            if (size_of(value) > largest) largest = size_of(value);
        }
        for (std::size_t r = 0; r < tight_; ++r) {
            const std::size_t i = b_.tight_rows[r];
            double& value = b_.row_multipliers[i];
            const double last = b_.residual[offset + r];
            if (size_of(value) <= noise_of(d_.n + i, last, largest)) value = 0;
            if (value != 0 && size_of(last) > settled * size_of(value)) stands = false;
        }
        return stands;
    }

    /// @param last  the latest correction.
    [[nodiscard]] double noise_of(std::size_t id, double last, double largest) const {
        const double share = (b_.seems_zero[id] != 0 ? rounding_.zero_share : 1e-20) * largest;
        double noise = b_.noise[id];
        if (noise < share) noise = share;
        if (refining_ && noise < size_of(last)) noise = size_of(last);
        return noise;
    }

    /// What the search knows of the values to come: the rounding in them, and which of them should
    /// be zero.
    void estimate_noise() {
        for (std::size_t j = 0; j < d_.n; ++j) {
            const std::size_t id = b_.nonbasic[j];
            const bool loose_variable = id < d_.n && b_.place[id] == Place::loose;
            b_.noise[id] = loose_variable ? 0.0 : 1e-14 * b_.slope_size[j];
            b_.seems_zero[id] =
                !loose_variable && size_of(b_.slope[j]) <= search_tolerance * b_.slope_size[j];
        }
        for (std::size_t i = 0; i < d_.m; ++i) {
            const std::size_t id = b_.basic[i];
            b_.noise[id] = 1e-14 * b_.basic_size[i];
            b_.seems_zero[id] = size_of(b_.basic_value[i]) <= search_tolerance * b_.basic_size[i];
        }
    }

    void solve_joint() {
        for (std::size_t c = 0; c < free_; ++c)
            b_.point[b_.free_variables[c]] = 0;
        for (int round = 0; round < rounds; ++round) {
            for (std::size_t c = 0; c < free_; ++c) {
                const std::size_t j = b_.free_variables[c];
                double gap = -(b_.scaled_hessian[j] * b_.point[j]) - b_.scaled_gradient[j];
                for (std::size_t r = 0; r < tight_; ++r) {
                    gap += row(r)[j] * b_.row_multipliers[b_.tight_rows[r]];
                }
                b_.residual[c] = gap;
            }
            for (std::size_t r = 0; r < tight_; ++r)
                b_.residual[free_ + r] = row_gap(r);
            factors_.apply_inverse();
            refining_ = round > 0;
            const bool point_stands = correct_point();
            const bool multipliers_stand = correct_multipliers(free_);
            if (point_stands && multipliers_stand && refining_) break;
        }
        double largest = 0;
        for (std::size_t c = 0; c < free_; ++c) {
            const double size = size_of(b_.point[b_.free_variables[c]]);
            if (size > largest) largest = size;
        }
        for (std::size_t c = 0; c < free_; ++c) {
            follow_pull(b_.free_variables[c], largest);
        }
    }

    /// The size of the terms that say where the multipliers want variable j.
    [[nodiscard]] double pull_size(std::size_t j) const {
        double size = size_of(b_.scaled_gradient[j]);
        for (std::size_t r = 0; r < tight_; ++r) {
            size += size_of(row(r)[j] * b_.row_multipliers[b_.tight_rows[r]]);
        }
        return size;
    }

    /// Where the multipliers alone fix a curved variable and rounding in the rows has moved it,
    /// they have the word.
    void follow_pull(std::size_t j, double largest) {
        const double h = b_.scaled_hessian[j];
        if (h == 0) return;
        double pull = -b_.scaled_gradient[j];
        double size = size_of(pull);
        for (std::size_t r = 0; r < tight_; ++r) {
            const double term = row(r)[j] * b_.row_multipliers[b_.tight_rows[r]];
            pull += term;
            size += size_of(term);
        }
        double& value = b_.point[j];
        const double gap = size_of(h * value - pull);
        if (gap > 1e-10 * (size + size_of(h * value)) && gap <= h * (1e-12 * largest))
            value = pull / h;
    }

    /// Caller's units; limits are met exactly, and what only rounding keeps off a limit is put
    /// there.
    void write_point(const Polyhedron& within) {
        for (std::size_t j = 0; j < d_.n; ++j) {
            double value = b_.point[j] * b_.column_scale[j];
            if (b_.place[j] == Place::at_lower) value = within.lower[j];
            if (b_.place[j] == Place::at_upper) value = within.upper[j];
            if (value < within.lower[j]) value = within.lower[j];
            if (value > within.upper[j]) value = within.upper[j];
            b_.x[j] = value;
        }
    }

    /// A multiplier of a limit that is not there, or on its wrong side, can only be rounding.
    [[nodiscard]] double drop_wrong_sign(std::size_t id, double multiplier) const {
        if (b_.low[id] == b_.high[id]) return multiplier;
        if (b_.place[id] == Place::at_lower) return multiplier > 0 ? multiplier : 0.0;
        if (b_.place[id] == Place::at_upper) return multiplier < 0 ? multiplier : 0.0;
        return 0;
    }

    void write_multipliers() {
        const std::size_t n = d_.n;
        drop_wrong_row_signs();
        for (std::size_t j = 0; j < n; ++j) {
            if (b_.place[j] == Place::basic) {
                b_.bound_multipliers[j] = 0;
                continue;
            }
            double sum = b_.scaled_hessian[j] * b_.point[j] + b_.scaled_gradient[j];
            for (std::size_t r = 0; r < tight_; ++r) {
                sum -= row(r)[j] * b_.row_multipliers[b_.tight_rows[r]];
            }
            if (size_of(sum) <= b_.noise[j]) sum = 0;
            b_.bound_multipliers[j] = drop_wrong_sign(j, sum);
        }
        unscale_multipliers();
    }

    void drop_wrong_row_signs() {
        for (std::size_t r = 0; r < tight_; ++r) {
            const std::size_t i = b_.tight_rows[r];
            b_.row_multipliers[i] = drop_wrong_sign(d_.n + i, b_.row_multipliers[i]);
        }
    }

    void unscale_multipliers() {
        const double whole = 1 / d_.objective_scale;
        for (std::size_t i = 0; i < d_.m; ++i)
            b_.row_multipliers[i] *= b_.row_scale[i] * whole;
        for (std::size_t j = 0; j < d_.n; ++j) {
            b_.bound_multipliers[j] *= whole / b_.column_scale[j];
        }
    }

    Dictionary& d_;
    Buffers& b_;
    LuFactors factors_;
    static constexpr int rounds = 4;
    static constexpr double settled = 4e-16;  ///< a relative correction that changes nothing more.
    Rounding rounding_;
    bool refining_ = false;
    std::size_t free_ = 0;
    std::size_t tight_ = 0;
    bool joint_ = false;
};

}  // namespace feed::solver::detail
