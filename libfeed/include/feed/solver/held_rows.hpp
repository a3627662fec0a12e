#pragma once
// The rows that the quick path holds at their limits: their Gram matrix over the free variables,
// weighted with the inverse hessian, and its factors.

#include <cstddef>

#include "feed/solver/workspace.hpp"

namespace feed::solver::detail {

class HeldRows {
public:
    HeldRows(const double* rows, std::size_t variables, Buffers& buffers)
        : n_(variables),
          rows_(rows),
          stride_(buffers.gram_fresh.size()),
          free_inverse_(buffers.free_inverse.data()),
          gram_(buffers.gram.data()),
          lower_factor_(buffers.factor.data()),
          gram_fresh_(buffers.gram_fresh.data()),
          pivot_inverse_(buffers.pivot_inverse.data()),
          step_(buffers.multiplier_step.data()),
          active_(buffers.active.data()) {}

    /// How many rows are held; the next place of the list is for the row that is on its way to its
    /// limit.
    [[nodiscard]] std::size_t count() const { return count_; }
    [[nodiscard]] bool full() const { return count_ + 1 >= stride_; }
    void clear() { count_ = 0; }
    void keep_next() { ++count_; }

    /// Row i of the factor L; on the diagonal its pivot.
    [[nodiscard]] const double* factor(std::size_t i) const { return lower_factor_ + i * stride_; }

    /// Takes the row at place k out of the list.
    void drop(std::size_t k) {
        for (std::size_t i = k; i < count_; ++i) {
            active_[i] = active_[i + 1];
            gram_fresh_[i] = gram_fresh_[i + 1];
            double* to = gram_ + i * stride_;
            const double* from = to + stride_;
            for (std::size_t q = 0; q < k; ++q)
                to[q] = from[q];
            for (std::size_t q = k; q <= i; ++q)
                to[q] = from[q + 1];
        }
        --count_;
    }

    /// Gram matrix of the held rows over the free variables, weighted with the inverse hessian.
    void refresh() {
        for (std::size_t k = 0; k < count_; ++k)
            take(k);
    }

    void take(std::size_t k) {
        const double* row = rows_ + active_[k] * n_;
        for (std::size_t q = 0; q <= k; ++q) {
            gram_[k * stride_ + q] = dot_free(row, rows_ + active_[q] * n_);
        }
        gram_fresh_[k] = gram_[k * stride_ + k];
    }

    /// Adds or takes away one variable's part; computes afresh where the subtraction would cancel.
    void free_or_bind(std::size_t j, double weight) {
        const std::size_t count = count_ + 1;
        bool cancelled = false;
        for (std::size_t k = 0; k < count; ++k) {
            const double a = rows_[active_[k] * n_ + j] * weight;
            if (a == 0) continue;
            double* row = gram_ + k * stride_;
            for (std::size_t q = 0; q <= k; ++q)
                row[q] += a * rows_[active_[q] * n_ + j];
            if (row[k] < 0.05 * gram_fresh_[k]) cancelled = true;
        }
        if (cancelled) {
            for (std::size_t k = 0; k < count; ++k)
                take(k);
        }
    }

    /// L D L' of the leading `count` rows; a pivot lost to rounding is skipped: its row depends on
    /// those before it.
    void factorise(std::size_t count) {
        for (std::size_t i = 0; i < count; ++i) {
            const double* g = gram_ + i * stride_;
            double* l = lower_factor_ + i * stride_;
            double pivot = g[i];
            for (std::size_t j = 0; j < i; ++j) {
                const double* lj = lower_factor_ + j * stride_;
                double sum = g[j];
                for (std::size_t q = 0; q < j; ++q)
                    sum -= l[q] * lj[q];
                l[j] = sum;  // times the pivot of j
            }
            for (std::size_t j = 0; j < i; ++j) {
                const double product = l[j];
                l[j] = product * pivot_inverse_[j];
                pivot -= product * l[j];
            }
            l[i] = pivot;
            pivot_inverse_[i] = pivot > 1e-12 * g[i] && pivot > 0 ? 1 / pivot : 0.0;
        }
    }

    /// Solves gram * step = step for the held rows.
    void solve() {
        double* s = step_;
        for (std::size_t i = 0; i < count_; ++i) {
            for (std::size_t q = 0; q < i; ++q)
                s[i] -= lower_factor_[i * stride_ + q] * s[q];
        }
        for (std::size_t i = 0; i < count_; ++i)
            s[i] *= pivot_inverse_[i];
        for (std::size_t i = count_; i-- > 0;) {
            for (std::size_t q = i + 1; q < count_; ++q) {
                s[i] -= lower_factor_[q * stride_ + i] * s[q];
            }
        }
    }

private:
    [[nodiscard]] double dot_free(const double* a, const double* c) const {
        const double* f = free_inverse_;
        double s0 = 0, s1 = 0, s2 = 0, s3 = 0;
        std::size_t j = 0;
        for (; j + 4 <= n_; j += 4) {
            s0 += (a[j] * f[j]) * c[j];
            s1 += (a[j + 1] * f[j + 1]) * c[j + 1];
            s2 += (a[j + 2] * f[j + 2]) * c[j + 2];
            s3 += (a[j + 3] * f[j + 3]) * c[j + 3];
        }
        for (; j < n_; ++j)
            s0 += (a[j] * f[j]) * c[j];
        return (s0 + s1) + (s2 + s3);
    }

    std::size_t n_;
    const double* rows_;
    std::size_t stride_;
    const double* free_inverse_;
    double* gram_;
    double* lower_factor_;
    double* gram_fresh_;
    double* pivot_inverse_;
    double* step_;
    std::size_t* active_;
    std::size_t count_ = 0;
};

}  // namespace feed::solver::detail
