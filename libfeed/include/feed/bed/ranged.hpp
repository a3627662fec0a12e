#pragma once
#include <algorithm>

#include "feed/bed/factor.hpp"
#include "feed/feedstock/feedstock.hpp"
#include "feed/quantity/estimate.hpp"

namespace feed {

/// A plain number with its interval, for the inner arithmetic of the bed layer, where the unit is
/// in the name of the field. Sums and products are those of interval arithmetic.
struct Ranged {
    double value = 0.0;
    double low = 0.0;
    double high = 0.0;

    constexpr Ranged() noexcept = default;
    constexpr Ranged(double v, double l, double h) noexcept : value(v), low(l), high(h) {}
    explicit constexpr Ranged(double exact) noexcept : value(exact), low(exact), high(exact) {}
    explicit constexpr Ranged(const Factor& f) noexcept
        : value(f.value), low(f.low), high(f.high) {}
    explicit constexpr Ranged(const Datum& d) noexcept : value(d.value), low(d.low), high(d.high) {}

    constexpr Ranged& operator+=(const Ranged& b) noexcept {
        value += b.value;
        low += b.low;
        high += b.high;
        return *this;
    }
    friend constexpr Ranged operator+(Ranged a, const Ranged& b) noexcept { return a += b; }
    friend constexpr Ranged operator-(const Ranged& a, const Ranged& b) noexcept {
        return {a.value - b.value, a.low - b.high, a.high - b.low};
    }
    /// By a number of at least 0.
    friend constexpr Ranged operator*(double k, const Ranged& a) noexcept {
        return {k * a.value, k * a.low, k * a.high};
    }
    friend constexpr Ranged operator*(const Ranged& a, const Ranged& b) noexcept {
        const double p = a.low * b.low;
        const double q = a.low * b.high;
        const double r = a.high * b.low;
        const double s = a.high * b.high;
        return {a.value * b.value, std::min(std::min(p, q), std::min(r, s)),
                std::max(std::max(p, q), std::max(r, s))};
    }
    /// By a range above 0, of a range of at least 0.
    friend constexpr Ranged operator/(const Ranged& a, const Ranged& b) noexcept {
        return {a.value / b.value, a.low / b.high, a.high / b.low};
    }
    /// Nothing below 0.
    constexpr Ranged floored() const noexcept {
        return {std::max(value, 0.0), std::max(low, 0.0), std::max(high, 0.0)};
    }
    /// 1 minus a share.
    constexpr Ranged rest() const noexcept { return {1.0 - value, 1.0 - high, 1.0 - low}; }
};

/// The range as an estimate in a typed quantity, by a function from number to quantity.
template <class MakeQuantity>
constexpr auto estimate_of(const Ranged& r, MakeQuantity make, Grade grade) {
    return known(make(r.value), make(r.low), make(r.high), grade);
}

}  // namespace feed
