#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "feed/quantity/error.hpp"

namespace feed::io {

/// What a text in a file measures; fixes the units it may carry and the range it may have.
enum class QuantityKind : std::uint8_t {
    moisture,      ///< share of the wet mass, "78 %" or 0.78; number 0..1
    fraction,      ///< any other mass fraction, unit required ("0.9 %", "9 g/kg"); number 0..1
    share,         ///< share of a whole that is not a mass, "60 %" or 0.6; number 0..1
    cn_ratio,      ///< carbon to nitrogen by mass, "30" or "30:1"
    water_held,    ///< water per dry mass, "3 g/g", "300 %", "3 L/kg"; number kg/kg
    neutralising,  ///< kg calcium carbonate per kg, unit required; number 0..2
    density,       ///< "450 kg/m3", "0.45 kg/L"; number kg/m3
    conductivity,  ///< "2.1 dS/m"; number dS/m
    temperature,   ///< "20 C", "68 F"; number degrees C
    length,        ///< "30 cm", "12 in"; number m
    area,          ///< "0.2 m2", "2 sq ft"; number m2
    duration,      ///< "4 days", "2 weeks"; number days
    rate,          ///< "0.22 /day", "1.5 per week"; number per day
    volume,        ///< "40 L", "10 gal"; number L
    mass,          ///< "1.2 kg", "1 lb"; number kg
    weighed,       ///< a mass that may be nothing: "0 g"; number kg
    cost,          ///< "0.40 per kg", "1.20/lb"; number per kg, in any money
    volume_ratio,  ///< "0.5 L/L" or 0.5; number L per L
    ph,            ///< 0..14, no unit
    number,        ///< any finite number from 0, no unit
};

/// A window or a single number as written. For a single number low and high hold it too.
struct WindowText {
    std::optional<double> low;
    std::optional<double> high;
    bool single = false;
};

/// Reads one number with its unit: "9 g/kg", "78 %", "30:1".
/// Returns the number in the unit of the kind. Errors (field and place left empty): missing_value,
/// not_a_number, unit_missing, unit_unknown, percent_slip, out_of_range. Reads no locale.
/// Threads: pure.
Result<double> parse_quantity(std::string_view text, QuantityKind kind);

/// Reads "70 % to 85 %", "70 to 85 %", "at least 30 %", "at most 0.5 %" or a single number.
/// Errors: those of parse_quantity for either end, and low_above_high. Threads: pure.
Result<WindowText> parse_window(std::string_view text, QuantityKind kind);

/// What a kind allows, in words for an error: "0 % to 100 %, with a unit such as % or g/kg".
std::string_view allowed_text(QuantityKind kind) noexcept;

/// A text that is read as this kind: "20 C". Static storage.
std::string_view example_of(QuantityKind kind) noexcept;

/// A whole number from `lowest` to `highest`. Errors: not_a_number, out_of_range. Threads: pure.
Result<int> parse_whole(std::string_view text, int lowest, int highest);

}  // namespace feed::io
