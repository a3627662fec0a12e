#pragma once
// The numerators and denominators of several ratios, and their values at a point or along a ray.

#include <cstddef>

#include "feed/solver/dictionary.hpp"
#include "feed/solver/ratios.hpp"

namespace feed::solver::detail {

/// A sum and the size of its terms, against which its rounding is judged.
struct SizedValue {
    double value;
    double size;
};

/// Reads the ratios of a problem of `variables` variables.
class RatioValues {
public:
    RatioValues(const Ratios& ratios, std::size_t variables) : ratios_(ratios), n_(variables) {}

    [[nodiscard]] std::size_t count() const {
        return n_ == 0 ? 0 : ratios_.denominators.size() / n_;
    }
    [[nodiscard]] const double* numerator(std::size_t k) const {
        return ratios_.numerators.data() + k * n_;
    }
    [[nodiscard]] const double* denominator(std::size_t k) const {
        return ratios_.denominators.data() + k * n_;
    }
    [[nodiscard]] double numerator_constant(std::size_t k) const {
        return ratios_.numerator_constants.empty() ? 0.0 : ratios_.numerator_constants[k];
    }
    [[nodiscard]] double denominator_constant(std::size_t k) const {
        return ratios_.denominator_constants.empty() ? 0.0 : ratios_.denominator_constants[k];
    }

    /// The largest coefficient of a denominator; 1 if all are zero.
    [[nodiscard]] double usual_size(std::size_t k) const {
        double largest = size_of(denominator_constant(k));
        for (std::size_t j = 0; j < n_; ++j) {
            if (size_of(denominator(k)[j]) > largest) largest = size_of(denominator(k)[j]);
        }
        return largest > 0 ? largest : 1.0;
    }

    [[nodiscard]] SizedValue numerator_at(std::size_t k, const double* x) const {
        return linear(numerator(k), numerator_constant(k), x);
    }
    [[nodiscard]] SizedValue denominator_at(std::size_t k, const double* x) const {
        return linear(denominator(k), denominator_constant(k), x);
    }
    /// What a numerator may be off by because a coordinate of the point is only known to the
    /// rounding of the largest: all that is left of a numerator whose own terms should vanish.
    [[nodiscard]] double numerator_noise(std::size_t k, const double* x) const {
        double coefficients = 0;
        double largest = 0;
        for (std::size_t j = 0; j < n_; ++j) {
            coefficients += size_of(numerator(k)[j]);
            if (size_of(x[j]) > largest) largest = size_of(x[j]);
        }
        return 1e-13 * coefficients * largest;
    }
    /// The largest noise of a numerator over its denominator, where that is above zero.
    [[nodiscard]] double largest_noise(const double* x) const {
        double largest = 0;
        for (std::size_t k = 0; k < count(); ++k) {
            const SizedValue d = denominator_at(k, x);
            if (d.value <= 1e-12 * d.size) continue;
            const double noise = numerator_noise(k, x) / d.value;
            if (noise > largest) largest = noise;
        }
        return largest;
    }
    /// How a numerator or denominator grows along a ray.
    [[nodiscard]] SizedValue numerator_along(std::size_t k, const double* ray) const {
        return linear(numerator(k), 0, ray);
    }
    [[nodiscard]] SizedValue denominator_along(std::size_t k, const double* ray) const {
        return linear(denominator(k), 0, ray);
    }

private:
    [[nodiscard]] SizedValue linear(const double* a, double constant, const double* x) const {
        double value = constant;
        double size = size_of(constant);
        for (std::size_t j = 0; j < n_; ++j) {
            const double term = a[j] * x[j];
            value += term;
            size += size_of(term);
        }
        return {value, size};
    }

    const Ratios& ratios_;
    std::size_t n_;
};

}  // namespace feed::solver::detail
