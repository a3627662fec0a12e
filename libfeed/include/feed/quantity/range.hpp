#pragma once
#include <algorithm>

#include "feed/quantity/estimate.hpp"

namespace feed {

/// Anything with a value and the two ends of its range: a factor, a stored number.
template <class T>
concept HasRange = requires(const T& of) {
    double{of.value};
    double{of.low};
    double{of.high};
};

/// A plain number with its range, for inner arithmetic where the unit is in the name of the field.
/// Sums and products are those of interval arithmetic.
struct Range {
    double value = 0.0;
    double low = 0.0;
    double high = 0.0;

    constexpr Range() noexcept = default;
    constexpr Range(double v, double l, double h) noexcept : value(v), low(l), high(h) {}
    explicit constexpr Range(double exact) noexcept : value(exact), low(exact), high(exact) {}
    template <HasRange T>
    explicit constexpr Range(const T& of) noexcept : value(of.value), low(of.low), high(of.high) {}

    constexpr Range& operator+=(const Range& b) noexcept {
        value += b.value;
        low += b.low;
        high += b.high;
        return *this;
    }
    friend constexpr Range operator+(Range a, const Range& b) noexcept { return a += b; }
    friend constexpr Range operator-(const Range& a, const Range& b) noexcept {
        return {a.value - b.value, a.low - b.high, a.high - b.low};
    }
    /// By a number of at least 0.
    friend constexpr Range operator*(double k, const Range& a) noexcept {
        return {k * a.value, k * a.low, k * a.high};
    }
    friend constexpr Range operator*(const Range& a, const Range& b) noexcept {
        const double p = a.low * b.low;
        const double q = a.low * b.high;
        const double r = a.high * b.low;
        const double s = a.high * b.high;
        return {a.value * b.value, std::min(std::min(p, q), std::min(r, s)),
                std::max(std::max(p, q), std::max(r, s))};
    }
    /// By a range above 0, of a range of at least 0.
    friend constexpr Range operator/(const Range& a, const Range& b) noexcept {
        return {a.value / b.value, a.low / b.high, a.high / b.low};
    }
    /// Nothing below 0.
    constexpr Range floored() const noexcept {
        return {std::max(value, 0.0), std::max(low, 0.0), std::max(high, 0.0)};
    }
    /// The range with the value inside it.
    constexpr Range around_value() const noexcept {
        return {value, std::min(low, value), std::max(high, value)};
    }
    /// 1 minus a share.
    constexpr Range rest() const noexcept { return {1.0 - value, 1.0 - high, 1.0 - low}; }
};

/// The range as an estimate in a typed quantity, by a function from number to quantity.
template <class MakeQuantity>
constexpr auto estimate_of(const Range& r, MakeQuantity make, Grade grade) {
    return known(make(r.value), make(r.low), make(r.high), grade);
}

}  // namespace feed
