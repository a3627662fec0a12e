#pragma once
// The linear structure the general method works on: every variable and row activity is either basic
// or not, and the basic ones are linear functions of the others (Chvatal 1983, "Linear
// Programming", chapter 8, bounded form).
//
// Rows and columns are scaled by powers of two, which rounds nothing. Values of basic entries are
// summed afresh from the table whenever they are needed, together with the size of their terms, so
// that tolerances are relative.

#include <bit>
#include <cstddef>
#include <cstdint>
#include <utility>

#include "feed/solver/problem.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver::detail {

inline double size_of(double value) {
    return value < 0 ? -value : value;
}

/// Relative room given to limits while searching; the final check is on the exact point.
inline constexpr double search_tolerance = 1e-11;

/// An entry the scaled table comes to hold below this is rounding.
inline constexpr double least_entry = 1e-12;

/// Exponent of two of a number that is not zero.
inline int exponent_of(double value) {
    return static_cast<int>((std::bit_cast<std::uint64_t>(value) >> 52U) & 0x7ffU) - 1023;
}

/// Two to a power, held to a range in which products with ordinary numbers neither overflow nor
/// vanish.
inline double power_of_two(int exponent) {
    const int held = exponent < -300 ? -300 : (exponent > 300 ? 300 : exponent);
    return std::bit_cast<double>(static_cast<std::uint64_t>(held + 1023) << 52U);
}

class Dictionary {
public:
    explicit Dictionary(Buffers& buffers) : b(buffers) {}

    Buffers& b;
    std::size_t n = 0;
    std::size_t m = 0;
    bool curved = false;
    double objective_scale = 1;
    std::size_t pivots_since_rebuild = 0;

    /// Takes a problem over: scales it and copies its limits. The table is not touched.
    void load(const Problem& problem) {
        const Polyhedron& within = problem.within;
        n = within.variable_count();
        m = within.row_count();
        scale(within.rows.data());
        curved = false;
        for (std::size_t j = 0; j < n; ++j) {
            const double s = b.column_scale[j];
            b.low[j] = within.lower[j] / s;
            b.high[j] = within.upper[j] / s;
            b.scaled_hessian[j] = problem.hessian.empty() ? 0.0 : (problem.hessian[j] * s) * s;
            if (b.scaled_hessian[j] != 0) curved = true;
            b.scaled_gradient[j] = problem.gradient.empty() ? 0.0 : problem.gradient[j] * s;
        }
        scale_objective();
        for (std::size_t i = 0; i < m; ++i) {
            b.low[n + i] = within.row_lower[i] * b.row_scale[i];
            b.high[n + i] = within.row_upper[i] * b.row_scale[i];
        }
        for (std::size_t id = 0; id < n + m; ++id)
            b.pinned[id] = 0;
    }

    /// A new objective for the loaded limits; linear.
    void set_gradient(const double* gradient) {
        for (std::size_t j = 0; j < n; ++j) {
            b.scaled_hessian[j] = 0;
            b.scaled_gradient[j] = gradient[j] * b.column_scale[j];
        }
        curved = false;
        objective_scale = 1;
    }

    /// All row activities basic, every variable at its bound nearest to zero.
    void start() {
        for (std::size_t i = 0; i < m; ++i) {
            b.basic[i] = n + i;
            b.place[n + i] = Place::basic;
        }
        for (std::size_t j = 0; j < n; ++j) {
            b.nonbasic[j] = j;
            b.place[j] = resting_place(j);
            b.loose_value[j] = 0;
        }
        for (std::size_t k = 0; k < n * m; ++k)
            b.table[k] = b.scaled_rows[k];
        pivots_since_rebuild = 0;
    }

    /// Computes the table anew from the rows for the present places, and repairs places that do not
    /// fit the limits.
    void rebuild() {
        for (std::size_t k = 0; k < n * m; ++k)
            b.table[k] = b.scaled_rows[k];
        for (std::size_t i = 0; i < m; ++i)
            b.basic[i] = n + i;
        for (std::size_t j = 0; j < n; ++j)
            b.nonbasic[j] = j;
        for (std::size_t j = 0; j < n; ++j) {
            if (b.place[j] != Place::basic) continue;
            // Among the rows that are to leave the basis, the one with the largest entry.
            std::size_t best = m;
            double best_size = 1e-10;
            for (std::size_t i = 0; i < m; ++i) {
                const std::size_t id = b.basic[i];
                if (id < n || b.place[id] == Place::basic) continue;
                const double entry = size_of(b.table[i * n + j]);
                if (entry > best_size) {
                    best_size = entry;
                    best = i;
                }
            }
            if (best < m) {
                pivot(best, j);
            } else {
                b.place[j] = resting_place(j);
                b.loose_value[j] = 0;
            }
        }
        for (std::size_t i = 0; i < m; ++i) {
            if (b.basic[i] >= n) b.place[b.basic[i]] = Place::basic;
        }
        for (std::size_t j = 0; j < n; ++j)
            settle(b.nonbasic[j]);
        pivots_since_rebuild = 0;
    }

    /// Swaps basic entry i and nonbasic entry j in the table; places are the caller's business.
    void pivot(std::size_t i, std::size_t j) {
        double* row = b.table.data() + i * n;
        const double inverse = 1 / row[j];
        for (std::size_t k = 0; k < n; ++k)
            row[k] = -(row[k] * inverse);
        row[j] = inverse;
        for (std::size_t r = 0; r < m; ++r) {
            if (r == i) continue;
            double* other = b.table.data() + r * n;
            const double factor = other[j];
            if (factor == 0) continue;
            other[j] = 0;
            for (std::size_t k = 0; k < n; ++k) {
                const double before = other[k];
                const double after = before + factor * row[k];
                // What is left of a cancellation is rounding, not information.
                const bool rounding =
                    size_of(after) <= 1e-14 * size_of(before) || size_of(after) <= least_entry;
                other[k] = rounding ? 0.0 : after;
            }
        }
        std::swap(b.basic[i], b.nonbasic[j]);
        ++pivots_since_rebuild;
    }

    [[nodiscard]] double value_at_rest(std::size_t id) const {
        switch (b.place[id]) {
            case Place::at_lower:
                return b.low[id];
            case Place::at_upper:
                return b.high[id];
            default:
                return b.loose_value[id];
        }
    }

    /// Values of the basic entries and the sizes of their terms.
    void place_basics() {
        // Even columns first, then odd ones: summed as the full rows are.
        std::size_t count = 0;
        for (std::size_t parity = 0; parity < 2; ++parity) {
            for (std::size_t j = parity; j < n; j += 2) {
                b.point[j] = value_at_rest(b.nonbasic[j]);
                if (b.point[j] != 0) b.off_zero[count++] = j;
            }
        }
        if (count < n / 4) return place_basics_from(count);
        for (std::size_t i = 0; i < m; ++i) {
            const double* row = b.table.data() + i * n;
            double value0 = 0, value1 = 0, size0 = 0, size1 = 0;
            std::size_t j = 0;
            for (; j + 2 <= n; j += 2) {
                const double term0 = row[j] * b.point[j];
                const double term1 = row[j + 1] * b.point[j + 1];
                value0 += term0;
                value1 += term1;
                size0 += size_of(term0);
                size1 += size_of(term1);
            }
            if (j < n) {
                const double term = row[j] * b.point[j];
                value0 += term;
                size0 += size_of(term);
            }
            b.basic_value[i] = value0 + value1;
            b.basic_size[i] = size0 + size1;
        }
    }

    /// Slopes over the nonbasic entries of a function whose slopes on the basic ones are
    /// basic_cost, with the sizes of the terms they are summed from. @param own  the function's own
    /// slope on a nonbasic entry, and its size.
    template <typename Own>
    void place_slopes(Own own) {
        for (std::size_t j = 0; j < n; ++j)
            own(b.nonbasic[j], b.slope[j], b.slope_size[j]);
        for (std::size_t i = 0; i < m; ++i) {
            const double size = b.basic_cost_size[i];
            if (size == 0) continue;
            const double cost = b.basic_cost[i];
            const double* row = b.table.data() + i * n;
            for (std::size_t j = 0; j < n; ++j) {
                b.slope[j] += row[j] * cost;
                b.slope_size[j] += size_of(row[j]) * size;
            }
        }
    }

    /// Puts a nonbasic entry where its limits allow it to be.
    void settle(std::size_t id) {
        const bool no_low = b.place[id] == Place::at_lower && b.low[id] == -infinity;
        const bool no_high = b.place[id] == Place::at_upper && b.high[id] == infinity;
        if (no_low || no_high) {
            b.place[id] = resting_place(id);
            b.loose_value[id] = 0;
        } else if (b.place[id] == Place::loose) {
            if (b.loose_value[id] <= b.low[id]) b.place[id] = Place::at_lower;
            if (b.loose_value[id] >= b.high[id]) b.place[id] = Place::at_upper;
        }
    }

private:
    /// The same to the bit where most of the others rest at zero, which adds nothing.
    /// @param count  of those off zero, whose columns stand in b.off_zero.
    void place_basics_from(std::size_t count) {
        // The last column of an odd number of columns is one of the even ones.
        std::size_t even = 0;
        while (even < count && b.off_zero[even] % 2 == 0)
            ++even;
        for (std::size_t i = 0; i < m; ++i) {
            const double* row = b.table.data() + i * n;
            double value0 = 0, value1 = 0, size0 = 0, size1 = 0;
            for (std::size_t k = 0; k < even; ++k) {
                const double term = row[b.off_zero[k]] * b.point[b.off_zero[k]];
                value0 += term;
                size0 += size_of(term);
            }
            for (std::size_t k = even; k < count; ++k) {
                const double term = row[b.off_zero[k]] * b.point[b.off_zero[k]];
                value1 += term;
                size1 += size_of(term);
            }
            b.basic_value[i] = value0 + value1;
            b.basic_size[i] = size0 + size1;
        }
    }

    [[nodiscard]] Place resting_place(std::size_t id) const {
        const bool has_low = b.low[id] > -infinity;
        const bool has_high = b.high[id] < infinity;
        if (has_low && has_high) {
            return size_of(b.low[id]) <= size_of(b.high[id]) ? Place::at_lower : Place::at_upper;
        }
        if (has_low) return Place::at_lower;
        return has_high ? Place::at_upper : Place::loose;
    }

    /// A power of two that brings the sharpest curvature near one, so that it mixes well with the
    /// rows.
    void scale_objective() {
        objective_scale = 1;
        if (!curved) return;
        double sharpest = 0;
        for (std::size_t j = 0; j < n; ++j) {
            if (b.scaled_hessian[j] > sharpest) sharpest = b.scaled_hessian[j];
        }
        objective_scale = power_of_two(-exponent_of(sharpest));
        for (std::size_t j = 0; j < n; ++j) {
            b.scaled_hessian[j] *= objective_scale;
            b.scaled_gradient[j] *= objective_scale;
        }
    }

    /// Powers of two that bring the largest and smallest entry of each row, then of each column,
    /// around one.
    void scale(const double* rows) {
        for (std::size_t i = 0; i < m; ++i) {
            int least = 4000;
            int most = -4000;
            for (std::size_t j = 0; j < n; ++j) {
                const double entry = rows[i * n + j];
                if (entry == 0) continue;
                const int exponent = exponent_of(entry);
                if (exponent < least) least = exponent;
                if (exponent > most) most = exponent;
            }
            b.row_scale[i] = most == -4000 ? 1.0 : power_of_two(-((least + most) >> 1));
        }
        for (std::size_t j = 0; j < n; ++j) {
            int least = 4000;
            int most = -4000;
            for (std::size_t i = 0; i < m; ++i) {
                const double entry = rows[i * n + j] * b.row_scale[i];
                if (entry == 0) continue;
                const int exponent = exponent_of(entry);
                if (exponent < least) least = exponent;
                if (exponent > most) most = exponent;
            }
            b.column_scale[j] = most == -4000 ? 1.0 : power_of_two(-((least + most) >> 1));
            for (std::size_t i = 0; i < m; ++i) {
                b.scaled_rows[i * n + j] = (rows[i * n + j] * b.row_scale[i]) * b.column_scale[j];
            }
        }
    }
};

}  // namespace feed::solver::detail
