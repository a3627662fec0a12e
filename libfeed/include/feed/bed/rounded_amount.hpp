#pragma once
#include <algorithm>
#include <cmath>
#include <optional>

#include "feed/quantity/amount_words.hpp"
#include "feed/quantity/in_units.hpp"

// The least or most of a step that is safe, in figures that can be printed.
namespace feed::detail {

/// Two significant digits, upwards or downwards; 0 stays 0.
inline double rounded_two(double number, bool up) noexcept {
    if (!(number > 0.0)) return 0.0;
    double power = 1.0;
    while (number >= power * 100.0)
        power *= 10.0;
    while (number < power * 10.0)
        power /= 10.0;
    const double steps = number / power;
    const double whole = up ? std::ceil(steps - 1e-9) : std::floor(steps + 1e-9);
    return in_units(whole, power);
}

/// Two significant digits of the unit that a person reads, so that what is printed is what was
/// judged.
inline double rounded_in(const words::PrintedUnit& unit, double amount, bool up) noexcept {
    return in_units(rounded_two(amount / unit.size, up), unit.size);
}
inline double rounded_mass(double kg, bool up, UnitSystem units) noexcept {
    return rounded_in(words::mass_unit(kg, units), kg, up);
}
inline double rounded_volume(double litres, bool up, UnitSystem units) noexcept {
    return rounded_in(words::volume_unit(litres, units), litres, up);
}
inline double rounded_area(double square_metres, bool up, UnitSystem units) noexcept {
    return rounded_in(words::area_unit(units), square_metres, up);
}

/// The largest t in [0, most) for which safe(t); nothing when not even nothing is safe. Rounded
/// down and tested again.
/// @param round  as for least_amount.
/// @param guess  where the hazard is linear: the amount that the line gives, or 0.
template <class Safe, class Rounded>
std::optional<double> most_amount(double most, const Safe& safe, const Rounded& round,
                                  double guess = 0.0) noexcept {
    if (!safe(0.0)) return std::nullopt;
    if (guess > 0.0 && guess < most && !safe(guess * (1.0 + 1e-6))) {
        const double rounded = round(guess, false);
        if (safe(rounded)) return rounded;
    }
    double low = 0.0;
    double high = most;
    for (int i = 0; i < 14 && high - low > 0.002 * high; ++i) {
        const double middle = 0.5 * (low + high);
        (safe(middle) ? low : high) = middle;
    }
    const double rounded = round(low, false);
    return safe(rounded) ? rounded : 0.0;
}

/// Water by the tenth of a litre or the half cup, rounded down; less is a sprinkle that nobody
/// measures.
inline double rounded_water(double kg, UnitSystem units) {
    const double step = units == UnitSystem::us ? litres_per_us_gallon / 32.0 : 0.1;
    return in_units(std::floor(kg / step + 1e-9), step);
}

}  // namespace feed::detail
