#pragma once
#include <cmath>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "feed/feedstock/amount_units.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed {

/// A vessel the keeper declared, such as a bucket of 10 L.
struct Container {
    std::string name;
    Volume volume;
};

/// What an amount counts.
enum class AmountKind : std::uint8_t { mass, volume, measure };

/// An amount as written, with its unit understood. Masses and volumes are of the wet material.
struct Amount {
    AmountKind kind = AmountKind::mass;
    double count = 0.0;  ///< the number as written
    Mass mass = kilograms(0.0);
    /// For volumes; and for measures whose volume is fixed (cup, tablespoon, teaspoon).
    Volume volume = cubic_metres(0.0);
    Measure measure = Measure::piece;
    std::string unit;  ///< the unit in the library's own words ("US gallon", "piece", "bucket")
    std::string said;  ///< what was taken for granted ("gallon is taken as US gallon"), or empty
};

/// An amount and the words after it ("6 piece" and "apple").
struct AmountAndWords {
    Amount amount;
    std::string words;
};

namespace detail {

/// Place of the decimal comma in "1,5 kg", if there is one.
inline bool has_decimal_comma(std::string_view text) {
    const auto number = read_number(text);
    return number && number->length < text.size() && text[number->length] == ',';
}

inline Error amount_error(ErrorCode code, std::string_view text, std::string allowed,
                          std::string message) {
    Error error;
    error.code = code;
    error.field = "amount";
    error.value = std::string(text);
    error.allowed = std::move(allowed);
    error.message = std::move(message);
    return error;
}

inline constexpr std::string_view amount_form =
    "a positive number and a unit, such as 1.2 kg, 3 L, 2 cup, 6 piece, 1/2 gallon";

/// The number at the start of an amount, or why there is none.
inline Result<NumberText> amount_number(std::string_view text) {
    if (text.empty())
        return amount_error(ErrorCode::empty, text, std::string(amount_form),
                            "the amount is empty");
    const auto number = read_number(text);
    if (!number) {
        const std::string word = plain_text(text.substr(0, text.find(' ')));
        const bool not_finite = word == "nan" || word == "inf" || word == "infinity";
        return amount_error(not_finite ? ErrorCode::not_a_number : ErrorCode::wrong_type, text,
                            std::string(amount_form),
                            "\"" + std::string(text) + "\" does not start with a number");
    }
    if (has_decimal_comma(text))
        return amount_error(ErrorCode::wrong_type, text, std::string(amount_form),
                            "\"" + std::string(text) +
                                "\" has a comma; the decimal mark is a point, as in 1.5 kg, and "
                                "thousands are written without a mark");
    if (!std::isfinite(number->number))
        return amount_error(ErrorCode::not_a_number, text, std::string(amount_form),
                            "the amount is not a finite number");
    if (number->number <= 0.0)
        return amount_error(ErrorCode::out_of_range, text, "more than 0",
                            number->number < 0.0
                                ? "an amount cannot be negative"
                                : "an amount of zero says nothing; leave the entry out");
    return *number;
}

inline Amount amount_of(double count, const AmountUnit& unit, bool qualified) {
    Amount amount;
    amount.kind = unit.kind == UnitKind::mass     ? AmountKind::mass
                  : unit.kind == UnitKind::volume ? AmountKind::volume
                                                  : AmountKind::measure;
    amount.count = count;
    amount.mass = kilograms(unit.kind == UnitKind::mass ? count * unit.size : 0.0);
    amount.volume = litres(unit.kind == UnitKind::mass ? 0.0 : count * unit.size);
    amount.measure = unit.measure;
    amount.unit = std::string(unit.name);
    if (unit.differs_by_country && !qualified)
        amount.said = "\"" + std::string(unit.plain_name) + "\" is taken as " +
                      std::string(unit.name) + "; write imperial " + std::string(unit.plain_name) +
                      " for the other one";
    return amount;
}

inline Amount amount_of(double count, const Container& container) {
    Amount amount;
    amount.kind = AmountKind::volume;
    amount.count = count;
    amount.volume = cubic_metres(count * container.volume.value());
    amount.unit = container.name;
    return amount;
}

/// Whether an amount overflows once its unit is counted.
inline bool is_too_large(const Amount& amount) {
    return !std::isfinite(amount.mass.value()) || !std::isfinite(amount.volume.value());
}
inline Error too_large(std::string_view text) {
    return amount_error(ErrorCode::out_of_range, text, "an amount that exists",
                        "the amount is larger than can be counted");
}

/// The amount with the unit word(s) given in plain singular text, or nothing when unknown.
inline std::optional<Amount> amount_with_unit(double count, std::string_view written,
                                              std::span<const Container> containers) {
    const std::string unit_words = unit_text(written);
    const std::string folded = singular_text(unit_words);
    for (const auto& container : containers) {
        if (singular_text(plain_text(container.name)) == folded) return amount_of(count, container);
    }
    if (const auto found = find_unit(unit_words))
        return amount_of(count, *found->unit, found->qualified);
    if (const auto found = find_unit(folded))
        return amount_of(count, *found->unit, found->qualified);
    return std::nullopt;
}

inline Error unknown_unit(std::string_view text, std::string_view unit,
                          std::span<const Container> containers) {
    std::string allowed(unit_names_for_people);
    for (const auto& container : containers)
        allowed += ", " + container.name;
    std::string message = "unit \"" + std::string(unit) + "\" is not known";
    const std::string plain = unit_text(unit);
    if (plain == "t" || plain == "T")
        message += "; write tonne or teaspoon";
    else if (plain == "dozen")
        message += "; write 12 piece";
    else if (const std::string near = nearest_unit(plain, 2); !near.empty())
        message += "; did you mean " + near + "?";
    else
        message += "; a vessel of your own can be declared under containers with its volume";
    return amount_error(ErrorCode::unit_unknown, text, std::move(allowed), std::move(message));
}

}  // namespace detail

/// Reads an amount that fills the whole text: a number as people write it ("1.2", "1/2", "1 1/2",
/// a fraction sign; decimal point only) and a unit: kg, g, mg, tonne, lb, oz; L, ml, US or imperial
/// gallon, quart, pint, cup, fluid ounce, tablespoon, teaspoon, ft3, yd3, m3 and the like; a
/// household measure (piece, handful, sheet ...); or a container the keeper declared. A gallon,
/// quart, pint or fluid ounce without "US" or "imperial" is US, and `said` tells so.
/// Errors: empty, wrong_type (no number, a decimal comma), not_a_number, out_of_range (negative or
/// zero), unit_missing, unit_unknown (with the nearest unit). Threads: pure.
inline Result<Amount> parse_amount(std::string_view text,
                                   std::span<const Container> containers = {}) {
    const auto clean = detail::trim(text);
    const auto number = detail::amount_number(clean);
    if (!number) return number.errors();
    const auto unit = detail::trim(clean.substr(number->length));
    if (unit.empty())
        return detail::amount_error(
            ErrorCode::unit_missing, clean, std::string(detail::amount_form),
            "\"" + std::string(clean) + "\" has no unit; write for instance " + std::string(clean) +
                " kg or " + std::string(clean) + " piece");
    auto amount = detail::amount_with_unit(number->number, unit, containers);
    if (!amount) return detail::unknown_unit(clean, unit, containers);
    if (detail::is_too_large(*amount)) return detail::too_large(clean);
    return *amount;
}

/// Reads an amount and the feedstock after it, as on a command line: "1.2 kg coffee grounds",
/// "6 piece apple", "1/2 bucket of leaves". The longest run of words that is a unit is the unit.
/// Errors: those of parse_amount; empty when no feedstock follows.
inline Result<AmountAndWords> parse_amount_and_words(std::string_view text,
                                                     std::span<const Container> containers = {}) {
    const auto clean = detail::trim(text);
    const auto number = detail::amount_number(clean);
    if (!number) return number.errors();
    const auto rest = detail::trim(clean.substr(number->length));
    std::optional<AmountAndWords> best;
    std::size_t end = 0;
    for (int word = 0; word < 4 && end < rest.size(); ++word) {
        end = std::min(rest.find(' ', end + (word > 0 ? 1 : 0)), rest.size());
        auto amount = detail::amount_with_unit(number->number, rest.substr(0, end), containers);
        if (amount)
            best = AmountAndWords{std::move(*amount), std::string(detail::trim(rest.substr(end)))};
    }
    if (!best) {
        const auto first = rest.substr(0, rest.find(' '));
        // One letter wrong is a slip of the unit; more may as well be the feedstock ("6 leeks").
        if (!detail::nearest_unit(detail::unit_text(first), 1).empty())
            return detail::unknown_unit(clean, first, containers);
        return detail::amount_error(
            ErrorCode::unit_missing, clean, std::string(detail::amount_form),
            "\"" + std::string(clean) +
                "\" has no unit that is known after the number; a count is "
                "written " +
                std::string(clean.substr(0, number->length)) + " piece " + std::string(rest));
    }
    if (detail::is_too_large(best->amount)) return detail::too_large(clean);
    if (best->words.substr(0, 3) == "of ") best->words.erase(0, 3);
    if (best->words.empty())
        return detail::amount_error(ErrorCode::empty, clean, "an amount and a feedstock",
                                    "\"" + std::string(clean) + "\" names no feedstock");
    return *best;
}

}  // namespace feed
