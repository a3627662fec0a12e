#pragma once
// Where to move when several nonbasic entries are loose: a Newton step on the objective reduced to
// them, or a direction along which the reduced objective is flat and falls.

#include <cstddef>

#include "feed/solver/dictionary.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver::detail {

class ReducedNewton {
public:
    explicit ReducedNewton(Dictionary& dictionary) : d_(dictionary), b_(dictionary.b) {}

    /// @param tolerance        a slope below this share of its terms is zero.
    /// @param least_curvature  a curvature of which less than this share is left is rounding.
    void look_closer(double tolerance, double least_curvature) {
        tolerance_ = tolerance;
        least_curvature_ = least_curvature;
    }

    /// How many columns are loose.
    [[nodiscard]] std::size_t count() const { return loose_; }
    /// Whether the direction has no curvature: only a limit ends it.
    [[nodiscard]] bool flat() const { return flat_; }

    /// Finds the loose columns.
    void gather() {
        loose_ = 0;
        for (std::size_t j = 0; j < d_.n; ++j) {
            if (b_.place[b_.nonbasic[j]] == Place::parked) b_.place[b_.nonbasic[j]] = Place::loose;
            if (b_.place[b_.nonbasic[j]] == Place::loose) b_.loose_columns[loose_++] = j;
        }
    }

    /// At an optimum: loose entries that nothing determines stay where they are.
    void park() {
        if (loose_ == 0 || !d_.curved) return;
        newton();
        for (std::size_t k = 0; k < loose_; ++k) {
            if (b_.right[k] == 0) b_.place[b_.nonbasic[b_.loose_columns[k]]] = Place::parked;
        }
    }

    /// A direction of descent on the loose columns into b_.step; false if they are stationary.
    bool direction() {
        bool steep = false;
        for (std::size_t k = 0; k < loose_; ++k) {
            const std::size_t j = b_.loose_columns[k];
            if (size_of(b_.slope[j]) > tolerance_ * b_.slope_size[j]) steep = true;
        }
        if (!steep) return false;
        return newton();
    }

    /// The same with one more column, `entering`, along which the objective is known to fall.
    bool direction_with(std::size_t entering) {
        b_.loose_columns[loose_++] = entering;
        if (loose_ == 1 && !d_.curved) {
            b_.step[0] = b_.slope[entering] > 0 ? -1.0 : 1.0;
            flat_ = true;
            return true;
        }
        return newton();
    }

private:
    /// Entry (p, q) of the reduced hessian on two loose columns.
    [[nodiscard]] double curvature(std::size_t p, std::size_t q) const {
        const std::size_t n = d_.n;
        double sum = 0;
        for (std::size_t i = 0; i < d_.m; ++i) {
            const std::size_t id = b_.basic[i];
            if (id >= n) continue;
            const double* row = b_.table.data() + i * n;
            sum += (row[p] * b_.scaled_hessian[id]) * row[q];
        }
        if (p == q && b_.nonbasic[p] < n) sum += b_.scaled_hessian[b_.nonbasic[p]];
        return sum;
    }

    /// Entry (p, p); zero if it is no more than the rounding of table entries that should be zero.
    [[nodiscard]] double own_curvature(std::size_t p) const {
        const std::size_t n = d_.n;
        double sharpest = 0;
        double squares = 1;
        for (std::size_t j = 0; j < n; ++j) {
            if (b_.scaled_hessian[j] > sharpest) sharpest = b_.scaled_hessian[j];
        }
        for (std::size_t i = 0; i < d_.m; ++i) {
            const double entry = b_.table[i * n + p];
            squares += entry * entry;
        }
        const double sum = curvature(p, p);
        return sum > 1e-24 * (sharpest * squares) ? sum : 0.0;
    }

    /// Newton step on the loose columns, or a flat direction of descent if the reduced hessian has
    /// one.
    bool newton() {
        const std::size_t s = loose_;
        double* l = b_.factor.data();
        double* inverse = b_.right.data();
        for (std::size_t i = 0; i < s; ++i) {
            double* li = l + i * s;
            const std::size_t column = b_.loose_columns[i];
            const double diagonal = d_.curved ? own_curvature(column) : 0.0;
            for (std::size_t j = 0; j < i; ++j) {
                const double* lj = l + j * s;
                double sum = d_.curved ? curvature(column, b_.loose_columns[j]) : 0.0;
                for (std::size_t q = 0; q < j; ++q)
                    sum -= li[q] * lj[q];
                li[j] = sum;
            }
            double pivot = diagonal;
            for (std::size_t j = 0; j < i; ++j) {
                const double product = li[j];
                li[j] = product * inverse[j];
                pivot -= product * li[j];
            }
            if (pivot > least_curvature_ * diagonal && pivot > 0) {
                inverse[i] = 1 / pivot;
                continue;
            }
            inverse[i] = 0;
            if (flat_direction(i)) return true;
        }
        flat_ = false;
        double* p = b_.step.data();
        for (std::size_t i = 0; i < s; ++i) {
            p[i] = inverse[i] > 0 ? -b_.slope[b_.loose_columns[i]] : 0.0;
            for (std::size_t q = 0; q < i; ++q)
                p[i] -= l[i * s + q] * p[q];
            if (!(inverse[i] > 0)) p[i] = 0;
        }
        for (std::size_t i = 0; i < s; ++i)
            p[i] *= inverse[i];
        bool any = false;
        for (std::size_t i = s; i-- > 0;) {
            if (!(inverse[i] > 0)) continue;
            for (std::size_t q = i + 1; q < s; ++q)
                p[i] -= l[q * s + i] * p[q];
            if (p[i] != 0) any = true;
        }
        return any;
    }

    /// Along column i, with the columns before it answering, the objective has no curvature: use it
    /// if it falls.
    bool flat_direction(std::size_t i) {
        const std::size_t s = loose_;
        const double* l = b_.factor.data();
        double* p = b_.step.data();
        for (std::size_t k = 0; k < s; ++k)
            p[k] = 0;
        p[i] = 1;
        for (std::size_t k = i; k-- > 0;) {
            double sum = -l[i * s + k];
            for (std::size_t q = k + 1; q < i; ++q)
                sum -= l[q * s + k] * p[q];
            p[k] = b_.right[k] > 0 ? sum : 0.0;
        }
        double longest = 0;
        for (std::size_t k = 0; k <= i; ++k) {
            if (size_of(p[k]) > longest) longest = size_of(p[k]);
        }
        double fall = 0;
        double size = 0;
        for (std::size_t k = 0; k <= i; ++k) {
            if (size_of(p[k]) <= 1e-13 * longest) p[k] = 0;
            const std::size_t j = b_.loose_columns[k];
            fall += b_.slope[j] * p[k];
            size += b_.slope_size[j] * size_of(p[k]);
        }
        if (!(size_of(fall) > tolerance_ * size)) return false;
        if (fall > 0) {
            for (std::size_t k = 0; k <= i; ++k)
                p[k] = -p[k];
        }
        flat_ = true;
        return true;
    }

    Dictionary& d_;
    Buffers& b_;
    double tolerance_ = search_tolerance;
    double least_curvature_ = 1e-11;
    std::size_t loose_ = 0;
    bool flat_ = false;
};

}  // namespace feed::solver::detail
