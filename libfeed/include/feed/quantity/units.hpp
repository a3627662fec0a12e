#pragma once
#include <boost/units/absolute.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/area.hpp>
#include <boost/units/systems/si/frequency.hpp>
#include <boost/units/systems/si/length.hpp>
#include <boost/units/systems/si/mass.hpp>
#include <boost/units/systems/si/mass_density.hpp>
#include <boost/units/systems/si/temperature.hpp>
#include <boost/units/systems/si/time.hpp>
#include <boost/units/systems/si/volume.hpp>

namespace feed {

// The typed quantities of the library. A number becomes a quantity only by naming its unit
// (`kilograms(1.2)`) and becomes a number again only by naming it too (`in_kilograms(mass)`).

using Mass = boost::units::quantity<boost::units::si::mass>;
using Length = boost::units::quantity<boost::units::si::length>;
using Area = boost::units::quantity<boost::units::si::area>;
using Volume = boost::units::quantity<boost::units::si::volume>;
using Density = boost::units::quantity<boost::units::si::mass_density>;
using Duration = boost::units::quantity<boost::units::si::time>;
using Rate = boost::units::quantity<boost::units::si::frequency>;
/// A point on the temperature scale; the difference of two is a TemperatureDifference.
using Temperature = boost::units::quantity<boost::units::absolute<boost::units::si::temperature>>;
using TemperatureDifference = boost::units::quantity<boost::units::si::temperature>;

inline constexpr double seconds_per_day = 86400.0;
inline constexpr double kelvin_at_zero_celsius = 273.15;
/// International avoirdupois pound, exact (NIST Handbook 44, appendix C).
inline constexpr double kilograms_per_pound = 0.45359237;
/// US liquid gallon, 231 cubic inches, exact (NIST Handbook 44, appendix C).
inline constexpr double litres_per_us_gallon = 3.785411784;
/// Imperial gallon, exact (UK Units of Measurement Regulations 1995).
inline constexpr double litres_per_imperial_gallon = 4.54609;
inline constexpr double metres_per_foot = 0.3048;

constexpr Mass kilograms(double number) {
    return number * boost::units::si::kilogram;
}
constexpr Mass grams(double number) {
    return kilograms(number / 1000.0);
}
constexpr double in_kilograms(Mass mass) {
    return mass.value();
}
constexpr double in_grams(Mass mass) {
    return mass.value() * 1000.0;
}

constexpr Length metres(double number) {
    return number * boost::units::si::metre;
}
constexpr double in_metres(Length length) {
    return length.value();
}
constexpr Area square_metres(double number) {
    return number * boost::units::si::square_metre;
}
constexpr double in_square_metres(Area area) {
    return area.value();
}

constexpr Volume cubic_metres(double number) {
    return number * boost::units::si::cubic_metre;
}
constexpr Volume litres(double number) {
    return cubic_metres(number / 1000.0);
}
constexpr double in_litres(Volume volume) {
    return volume.value() * 1000.0;
}

constexpr Density kilograms_per_cubic_metre(double number) {
    return number * boost::units::si::kilogrammes_per_cubic_metre;
}
constexpr double in_kilograms_per_cubic_metre(Density density) {
    return density.value();
}

constexpr Duration days(double number) {
    return (number * seconds_per_day) * boost::units::si::second;
}
constexpr double in_days(Duration duration) {
    return duration.value() / seconds_per_day;
}
constexpr Rate per_day(double number) {
    return (number / seconds_per_day) * boost::units::si::hertz;
}
constexpr double in_per_day(Rate rate) {
    return rate.value() * seconds_per_day;
}

constexpr Temperature kelvin(double number) {
    return number * boost::units::absolute<boost::units::si::temperature>();
}
constexpr Temperature celsius(double number) {
    return kelvin(number + kelvin_at_zero_celsius);
}
constexpr double in_kelvin(Temperature temperature) {
    return temperature.value();
}
constexpr double in_celsius(Temperature temperature) {
    return temperature.value() - kelvin_at_zero_celsius;
}

}  // namespace feed
