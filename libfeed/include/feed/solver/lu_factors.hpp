#pragma once
// A square matrix in factors, for solving with it and with its transpose.

#include <cstddef>
#include <utility>

#include "feed/solver/dictionary.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver::detail {

/// L and U of a matrix whose rows were exchanged, in the workspace. The matrix is written there by
/// the caller, row after row.
class LuFactors {
public:
    explicit LuFactors(Buffers& buffers)
        : factor_(buffers.factor.data()),
          right_(buffers.residual.data()),
          half_(buffers.correction.data()),
          order_(buffers.order.data()) {}

    /// An empty matrix of `size` rows. @return its entries, to be filled.
    double* clear(std::size_t size) {
        size_ = size;
        for (std::size_t k = 0; k < size * size; ++k)
            factor_[k] = 0;
        return factor_;
    }

    /// Gauss with partial pivoting. False if the matrix is singular.
    bool factorise() {
        double* a = factor_;
        const std::size_t s = size_;
        for (std::size_t k = 0; k < s; ++k)
            order_[k] = k;
        for (std::size_t k = 0; k < s; ++k) {
            std::size_t best = k;
            for (std::size_t r = k + 1; r < s; ++r) {
                if (size_of(a[r * s + k]) > size_of(a[best * s + k])) best = r;
            }
            if (!(size_of(a[best * s + k]) > 0)) return false;
            if (best != k) {
                for (std::size_t c = 0; c < s; ++c)
                    std::swap(a[k * s + c], a[best * s + c]);
                std::swap(order_[k], order_[best]);
            }
            const double inverse = 1 / a[k * s + k];
            for (std::size_t r = k + 1; r < s; ++r) {
                const double factor = a[r * s + k] * inverse;
                a[r * s + k] = factor;
                if (factor == 0) continue;
                for (std::size_t c = k + 1; c < s; ++c)
                    a[r * s + c] -= factor * a[k * s + c];
            }
        }
        return true;
    }

    /// residual := inverse of the matrix times residual, of the workspace.
    void apply_inverse() {
        const std::size_t s = size_;
        const double* a = factor_;
        double* t = half_;
        for (std::size_t k = 0; k < s; ++k) {
            double sum = right_[order_[k]];
            for (std::size_t c = 0; c < k; ++c)
                sum -= a[k * s + c] * t[c];
            t[k] = sum;
        }
        for (std::size_t k = s; k-- > 0;) {
            double sum = t[k];
            for (std::size_t c = k + 1; c < s; ++c)
                sum -= a[k * s + c] * t[c];
            t[k] = sum / a[k * s + k];
        }
        for (std::size_t k = 0; k < s; ++k)
            right_[k] = t[k];
    }

    /// The same with the transposed matrix.
    void apply_transposed_inverse() {
        const std::size_t s = size_;
        const double* a = factor_;
        double* t = half_;
        for (std::size_t k = 0; k < s; ++k)
            t[k] = right_[k];
        for (std::size_t k = 0; k < s; ++k) {
            t[k] /= a[k * s + k];
            for (std::size_t c = k + 1; c < s; ++c)
                t[c] -= a[k * s + c] * t[k];
        }
        for (std::size_t k = s; k-- > 0;) {
            for (std::size_t c = 0; c < k; ++c)
                t[c] -= a[k * s + c] * t[k];
        }
        for (std::size_t k = 0; k < s; ++k)
            right_[order_[k]] = t[k];
    }

private:
    double* factor_;
    double* right_;
    double* half_;
    std::size_t* order_;
    std::size_t size_ = 0;
};

}  // namespace feed::solver::detail
