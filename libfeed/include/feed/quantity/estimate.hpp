#pragma once
#include <cstdint>

#include "feed/quantity/grade.hpp"

namespace feed {

/// What is known of a computed quantity.
enum class Knowledge : std::uint8_t {
    known,     ///< value, low and high hold
    at_least,  ///< a property is missing for a small share of the mass: value is a lower bound
    unknown,   ///< missing for more: no number is given
};

/// A computed quantity with its interval, its grade and how much of it is known.
/// T is a typed quantity (Mass, Volume, WetFraction ...) or double for a plain ratio.
template <class T>
struct Estimate {
    T value{};
    T low{};
    T high{};
    Knowledge knowledge = Knowledge::unknown;
    Grade grade = Grade::d;
    /// Share (0 to 1) of the mass concerned whose property is known; 1 when knowledge is `known`.
    double covered = 0.0;

    constexpr bool is_known() const noexcept { return knowledge == Knowledge::known; }
    constexpr bool has_value() const noexcept { return knowledge != Knowledge::unknown; }
};

/// A known estimate from value, low, high and grade.
template <class T>
constexpr Estimate<T> known(T value, T low, T high, Grade grade) {
    return {value, low, high, Knowledge::known, grade, 1.0};
}

/// The same estimate in plain numbers. @param to_number  from T to double, rising; its name or
/// place says the unit. Not asked where nothing is known.
template <class T, class ToNumber>
constexpr Estimate<double> in_numbers(const Estimate<T>& from, ToNumber to_number) {
    Estimate<double> plain;
    plain.knowledge = from.knowledge;
    plain.grade = from.grade;
    plain.covered = from.covered;
    if (!from.has_value()) return plain;
    plain.value = to_number(from.value);
    plain.low = to_number(from.low);
    plain.high = to_number(from.high);
    return plain;
}

}  // namespace feed
