#pragma once
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <initializer_list>
#include <string>
#include <string_view>

#include "feed/quantity/number_print.hpp"
#include "feed/quantity/pinch.hpp"
#include "feed/quantity/unit_system.hpp"
#include "feed/quantity/units.hpp"

// Amounts in sentences: two significant digits, in the units that the person reads. Everything here
// is pure and reads no locale.
namespace feed::words {

inline constexpr double square_metres_per_square_foot = metres_per_foot * metres_per_foot;
inline constexpr double kilograms_per_square_metre_for_a_pound_a_square_foot =
    kilograms_per_pound / square_metres_per_square_foot;

/// A unit in which an amount is printed: how much of the inner unit (kg, L, m2) it is, and its
/// word.
struct PrintedUnit {
    double size = 1.0;
    std::string_view word;
};

/// The unit that a mass in kg is printed in: "g" or "kg"; "oz" or "lb".
inline PrintedUnit mass_unit(double kg, UnitSystem units) noexcept {
    const bool us = units == UnitSystem::us;
    const double large = us ? kilograms_per_pound : 1.0;
    if (std::abs(kg) >= 0.995 * large) return {large, us ? "lb" : "kg"};
    return us ? PrintedUnit{kilograms_per_pound / 16.0, "oz"} : PrintedUnit{0.001, "g"};
}

/// The unit that a volume in litres is printed in: "ml" or "L"; "cup", "qt" or "gal".
inline PrintedUnit volume_unit(double litres, UnitSystem units) noexcept {
    const double size = std::abs(litres);
    if (units == UnitSystem::metric)
        return size >= 0.995 ? PrintedUnit{1.0, "L"} : PrintedUnit{0.001, "ml"};
    if (size >= 0.995 * litres_per_us_gallon) return {litres_per_us_gallon, "gal"};
    if (size >= 0.2495 * litres_per_us_gallon) return {litres_per_us_gallon / 4.0, "qt"};
    return {litres_per_us_gallon / 16.0, "cup"};
}

/// The unit that an area in m2 is printed in.
inline PrintedUnit area_unit(UnitSystem units) noexcept {
    if (units == UnitSystem::metric) return {1.0, "m2"};
    return {square_metres_per_square_foot, "sq ft"};
}

inline std::string in_unit(double amount, const PrintedUnit& unit) {
    return significant(amount / unit.size, 2) + " " + std::string(unit.word);
}

/// The least step of a kitchen scale: a gram, a tenth of an ounce.
inline constexpr double scale_step_kg(UnitSystem units) noexcept {
    return units == UnitSystem::us ? 0.1 * kilograms_per_pound / 16.0 : 0.001;
}
/// A small mass as a kitchen scale shows it. Below one step it is left as it is: nobody weighs
/// that.
inline double weighed(double kg, UnitSystem units) noexcept {
    const double step = scale_step_kg(units);
    const bool fine = kg >= step && kg < 9.95 * mass_unit(kg, units).size;
    return fine ? step * std::floor(kg / step + 0.5) : kg;
}

/// "170 g", "1.2 kg"; "6 oz", "2.6 lb"; no finer than a kitchen scale.
inline std::string mass(double kg, UnitSystem units) {
    return in_unit(weighed(kg, units), mass_unit(kg, units));
}
/// "a pinch" of what nobody weighs, else the mass.
inline std::string pinch_or_mass(double kg, UnitSystem units) {
    return pinch::holds(kg) ? "a pinch" : mass(kg, units);
}
/// "250 ml", "3 L"; "1.1 cups", "2.1 gal".
inline std::string volume(double litres, UnitSystem units) {
    const PrintedUnit unit = volume_unit(litres, units);
    // A cup goes by tenths: nobody pours a hundredth.
    const bool cups = unit.word == "cup" && litres >= 0.095 * unit.size;
    const double shown =
        cups ? unit.size * std::floor(10.0 * litres / unit.size + 0.5) / 10.0 : litres;
    std::string text = in_unit(shown, unit);
    if (text.size() > 3 && text.substr(text.size() - 3) == "cup" && text != "1 cup") text += 's';
    return text;
}
/// "0.2 m2"; "2.2 sq ft".
inline std::string area(double square_metres, UnitSystem units) {
    return in_unit(square_metres, area_unit(units));
}
/// "30 cm", "1.2 m"; "12 in", "3.9 ft". A bed is not measured finer than to a centimetre or half
/// an inch.
inline std::string length(double metres, UnitSystem units) {
    const auto measured = [](double number, double step) {
        return significant(number < 10.0 ? std::max(1.0, std::round(number / step)) * step : number,
                           2);
    };
    if (units == UnitSystem::us) {
        const double feet = metres / metres_per_foot;
        return feet < 2.0 ? measured(feet * 12.0, 0.5) + " in" : significant(feet, 2) + " ft";
    }
    return metres < 0.995 ? measured(metres * 100.0, 1.0) + " cm" : significant(metres, 2) + " m";
}
/// Worms on a surface: "4.9 kg a square metre"; "1 lb a square foot".
inline std::string stocking(double kilograms_a_square_metre, UnitSystem units) {
    if (units == UnitSystem::metric)
        return significant(kilograms_a_square_metre, 2) + " kg a square metre";
    return significant(
               kilograms_a_square_metre / kilograms_per_square_metre_for_a_pound_a_square_foot, 2) +
           " lb a square foot";
}
/// "54 x 37 cm"; "21 x 15 in".
inline std::string sides(std::initializer_list<double> metres, UnitSystem units) {
    std::string text;
    for (const double side : metres) {
        const double shown = units == UnitSystem::us ? side / metres_per_foot * 12.0 : 100.0 * side;
        text += (text.empty() ? "" : " x ") + significant(shown, 2);
    }
    return text + (units == UnitSystem::us ? " in" : " cm");
}
/// Degrees without the unit, with a digit after the point only where it is asked for.
inline std::string degrees(double celsius, UnitSystem units, bool fine = false) {
    const double shown = units == UnitSystem::us ? celsius * 1.8 + 32.0 : celsius;
    const double step = fine ? 0.1 : 1.0;
    return significant(std::round(shown / step) * step, 4);
}
inline std::string degree_word(UnitSystem units) {
    return units == UnitSystem::us ? " F" : " C";
}
/// "21 C"; "70 F".
inline std::string temperature(double celsius, UnitSystem units) {
    return degrees(celsius, units) + degree_word(units);
}
/// A step between two temperatures, by whole degrees from one on: "3 C"; "5 F".
inline std::string warming(double kelvin, UnitSystem units) {
    const double step = units == UnitSystem::us ? 1.8 * kelvin : kelvin;
    return significant(step < 1.0 ? step : std::floor(step + 0.5), 2) + degree_word(units);
}

inline std::string percent(double share) {
    return significant(100.0 * share, 2) + " %";
}
inline std::string number(double x) {
    return significant(x, 2);
}
/// A number beside its limit: a third figure where two would make them look the same.
inline std::string number_beside(double x, double limit) {
    const bool same = x != limit && significant(x, 2) == significant(limit, 2);
    return significant(x, same ? 3 : 2);
}
inline std::string day_count(double days) {
    const std::string text = significant(days, 2);
    return text + (text == "1" ? " day" : " days");
}

namespace detail {

inline constexpr bool is_figure(char c) noexcept {
    return (c >= '0' && c <= '9') || c == '.';
}
inline constexpr bool is_letter(char c) noexcept {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// Length of the number at `at`, 0 where none begins; a stop that ends a sentence is no part of it.
inline std::size_t number_length(std::string_view text, std::size_t at) noexcept {
    std::size_t end = at;
    while (end < text.size() && is_figure(text[end]))
        ++end;
    while (end > at && text[end - 1] == '.')
        --end;
    return end - at;
}

inline double plain_number(std::string_view figures) noexcept {
    double whole = 0.0;
    double scale = 0.0;
    for (const char c : figures) {
        if (c == '.') {
            scale = 1.0;
            continue;
        }
        whole = whole * 10.0 + (c - '0');
        scale *= 10.0;
    }
    return scale > 0.0 ? whole / scale : whole;
}

/// A metric unit in fixed text and how its number is said in US units.
struct FixedUnit {
    std::string_view metric;
    std::string_view us;
    double factor;
    double offset;
    int digits = 2;
};
inline constexpr FixedUnit fixed_units[] = {
    {"kg a square metre", "lb a square foot",
     1.0 / kilograms_per_square_metre_for_a_pound_a_square_foot, 0.0},
    {"kg/m3", "lb/ft3", square_metres_per_square_foot* metres_per_foot / kilograms_per_pound, 0.0},
    {"kg", "lb", 1.0 / kilograms_per_pound, 0.0, 3},
    {"g", "oz", 0.016 / kilograms_per_pound, 0.0},
    {"L", "qt", 4.0 / litres_per_us_gallon, 0.0},
    {"ml", "cups", 0.016 / litres_per_us_gallon, 0.0},
    {"m2", "sq ft", 1.0 / square_metres_per_square_foot, 0.0},
    {"cm", "in", 1.0 / 2.54, 0.0},
    {"C", "F", 1.8, 32.0},
};

/// Whether the unit that ends at `after` stands alone: not the beginning of a word ("cm" in
/// "cmol"), nor of a concentration ("0.2 g N/kg", "3 g a kg"), which is left as it is.
inline constexpr bool unit_ends(std::string_view text, std::size_t after) noexcept {
    if (after >= text.size()) return true;
    const char c = text[after];
    if (is_letter(c) || c == '/' || (is_figure(c) && c != '.')) return false;
    for (const std::string_view of : {" a kg", " per kg", " a litre"}) {
        if (text.substr(after, of.size()) == of) return false;
    }
    const std::size_t word = after + 1;
    const std::size_t end = text.find_first_of(" ,;.)", word);
    const auto next = text.substr(word, end == std::string_view::npos ? end : end - word);
    return c != ' ' || next.find('/') == std::string_view::npos;
}

}  // namespace detail

/// Text whose numbers are not worked out ("below 10 C they slow down", "first layer 10-15 cm", "4 L
/// at 94 kg/m3") in the units that are read. An amount that is worked out is not written like this:
/// it has its number still and goes through the functions above, which round what was judged.
/// Concentrations in g a kg are left as laboratories print them.
inline std::string fixed_text(std::string_view text, UnitSystem units) {
    if (units == UnitSystem::metric) return std::string(text);
    std::string out;
    std::size_t at = 0;
    while (at < text.size()) {
        const bool starts = detail::is_figure(text[at]) && text[at] != '.' &&
                            (at == 0 || (!detail::is_letter(text[at - 1]) && text[at - 1] != '-'));
        const std::size_t first = starts ? detail::number_length(text, at) : 0;
        if (first == 0) {
            out += text[at++];
            continue;
        }
        std::size_t end = at + first;
        std::string_view between;
        std::size_t second = 0;
        for (const std::string_view word : {std::string_view("-"), std::string_view(" to ")}) {
            if (text.substr(end, word.size()) != word) continue;
            second = detail::number_length(text, end + word.size());
            if (second > 0) between = word;
        }
        const std::size_t second_at = end + between.size();
        if (second > 0) end = second_at + second;
        const auto* found = static_cast<const detail::FixedUnit*>(nullptr);
        for (const auto& unit : detail::fixed_units) {
            const std::size_t after = end + 1 + unit.metric.size();
            if (found == nullptr && end < text.size() && text[end] == ' ' &&
                text.substr(end + 1, unit.metric.size()) == unit.metric &&
                detail::unit_ends(text, after))
                found = &unit;
        }
        if (found == nullptr) {
            out += text.substr(at, first);
            at += first;
            continue;
        }
        const auto said = [&](std::size_t from, std::size_t count) {
            const double n = detail::plain_number(text.substr(from, count));
            const double us = n * found->factor + found->offset;
            return found->offset != 0.0 ? significant(std::round(us), 4)
                                        : significant(us, found->digits);
        };
        out += said(at, first);
        if (second > 0) out += std::string(between) + said(second_at, second);
        out += " " + std::string(found->us);
        at = end + 1 + found->metric.size();
    }
    return out;
}

}  // namespace feed::words
