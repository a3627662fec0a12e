#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "feed/feedstock/measure.hpp"
#include "feed/quantity/plain_text.hpp"
#include "feed/quantity/units.hpp"

namespace feed::detail {

enum class UnitKind : std::uint8_t { mass, volume, measure };

/// A unit of amounts. `size` is kilograms or litres in one unit; 0 for a measure without a volume.
struct AmountUnit {
    std::string_view name;        ///< shown in answers
    std::string_view plain_name;  ///< without the country
    double size;
    UnitKind kind;
    Measure measure = Measure::piece;
    bool differs_by_country = false;
};

/// A spelling of a unit; compared with the text of `unit_text`.
struct UnitSpelling {
    std::string_view text;
    std::string_view name;
};

inline constexpr double us = litres_per_us_gallon;
inline constexpr double imperial = litres_per_imperial_gallon;
inline constexpr double litres_per_cubic_foot =
    1000.0 * metres_per_foot * metres_per_foot * metres_per_foot;

// Gallon = 4 quarts = 8 pints; US pint 16 fluid ounces, imperial pint 20 (NIST Handbook 44,
// appendix C; UK Units of Measurement Regulations 1995). Cup, tablespoon and teaspoon: customary
// half pint, half and sixth of a US fluid ounce; the imperial spoons are the same parts of the
// imperial gallon.
inline constexpr AmountUnit amount_units[] = {
    {"kg", "kg", 1.0, UnitKind::mass},
    {"g", "g", 0.001, UnitKind::mass},
    {"mg", "mg", 0.000001, UnitKind::mass},
    {"tonne", "tonne", 1000.0, UnitKind::mass},
    {"lb", "lb", kilograms_per_pound, UnitKind::mass},
    {"oz", "oz", kilograms_per_pound / 16.0, UnitKind::mass},
    {"L", "L", 1.0, UnitKind::volume},
    {"ml", "ml", 0.001, UnitKind::volume},
    {"cl", "cl", 0.01, UnitKind::volume},
    {"dl", "dl", 0.1, UnitKind::volume},
    {"m3", "m3", 1000.0, UnitKind::volume},
    {"ft3", "ft3", litres_per_cubic_foot, UnitKind::volume},
    {"yd3", "yd3", 27.0 * litres_per_cubic_foot, UnitKind::volume},
    {"US gallon", "gallon", us, UnitKind::volume, Measure::piece, true},
    {"US quart", "quart", us / 4.0, UnitKind::volume, Measure::piece, true},
    {"US pint", "pint", us / 8.0, UnitKind::volume, Measure::piece, true},
    {"US fluid ounce", "fluid ounce", us / 128.0, UnitKind::volume, Measure::piece, true},
    {"imperial gallon", "gallon", imperial, UnitKind::volume},
    {"imperial quart", "quart", imperial / 4.0, UnitKind::volume},
    {"imperial pint", "pint", imperial / 8.0, UnitKind::volume},
    {"imperial fluid ounce", "fluid ounce", imperial / 160.0, UnitKind::volume},
    {"cup", "cup", us / 16.0, UnitKind::measure, Measure::cup},
    {"tablespoon", "tablespoon", us / 256.0, UnitKind::measure, Measure::tablespoon},
    {"teaspoon", "teaspoon", us / 768.0, UnitKind::measure, Measure::teaspoon},
    {"imperial cup", "cup", imperial / 16.0, UnitKind::measure, Measure::cup},
    {"imperial tablespoon", "tablespoon", imperial / 256.0, UnitKind::measure, Measure::tablespoon},
    {"imperial teaspoon", "teaspoon", imperial / 768.0, UnitKind::measure, Measure::teaspoon},
    {"piece", "piece", 0.0, UnitKind::measure, Measure::piece},
    {"small piece", "small piece", 0.0, UnitKind::measure, Measure::piece_small},
    {"large piece", "large piece", 0.0, UnitKind::measure, Measure::piece_large},
    {"handful", "handful", 0.0, UnitKind::measure, Measure::handful},
    {"sheet", "sheet", 0.0, UnitKind::measure, Measure::sheet},
    {"slice", "slice", 0.0, UnitKind::measure, Measure::slice},
    {"leaf", "leaf", 0.0, UnitKind::measure, Measure::leaf},
    {"stalk", "stalk", 0.0, UnitKind::measure, Measure::stalk},
    {"head", "head", 0.0, UnitKind::measure, Measure::head},
    {"bunch", "bunch", 0.0, UnitKind::measure, Measure::bunch},
};

inline constexpr UnitSpelling unit_spellings[] = {
    {"kilogram", "kg"},
    {"kilogramme", "kg"},
    {"kilo", "kg"},
    {"kgs", "kg"},
    {"gram", "g"},
    {"gramme", "g"},
    {"gm", "g"},
    {"gr", "g"},
    {"milligram", "mg"},
    {"milligramme", "mg"},
    {"metric ton", "tonne"},
    {"lbs", "lb"},
    {"pound", "lb"},
    {"ounce", "oz"},
    {"l", "L"},
    {"litre", "L"},
    {"liter", "L"},
    {"ltr", "L"},
    {"dm3", "L"},
    {"cubic decimetre", "L"},
    {"millilitre", "ml"},
    {"milliliter", "ml"},
    {"cc", "ml"},
    {"cm3", "ml"},
    {"cubic centimetre", "ml"},
    {"cubic centimeter", "ml"},
    {"centilitre", "cl"},
    {"decilitre", "dl"},
    {"cubic metre", "m3"},
    {"cubic meter", "m3"},
    {"cu m", "m3"},
    {"cubic foot", "ft3"},
    {"cu ft", "ft3"},
    {"cuft", "ft3"},
    {"cubic yard", "yd3"},
    {"cu yd", "yd3"},
    {"cuyd", "yd3"},
    {"gal", "gallon"},
    {"qt", "quart"},
    {"pt", "pint"},
    {"fl oz", "fluid ounce"},
    {"floz", "fluid ounce"},
    {"tbsp", "tablespoon"},
    {"tbs", "tablespoon"},
    {"tablespoonful", "tablespoon"},
    {"tsp", "teaspoon"},
    {"teaspoonful", "teaspoon"},
    {"cupful", "cup"},
    {"pc", "piece"},
    {"pcs", "piece"},
    {"each", "piece"},
    {"whole", "piece"},
    {"medium", "piece"},
    {"medium piece", "piece"},
    {"piece medium", "piece"},
    {"small", "small piece"},
    {"piece small", "small piece"},
    {"large", "large piece"},
    {"big", "large piece"},
    {"big piece", "large piece"},
    {"piece large", "large piece"},
    {"handsful", "handful"},
    {"page", "sheet"},
    {"stick", "stalk"},
    {"stem", "stalk"},
    {"rib", "stalk"},
};

/// What an error lists as allowed.
inline constexpr std::string_view unit_names_for_people =
    "kg, g, mg, tonne, lb, oz, L, ml, cl, dl, m3, ft3, yd3, gallon, quart, pint, fluid ounce (US "
    "or "
    "imperial), cup, tablespoon, teaspoon, piece, small piece, large piece, handful, sheet, slice, "
    "leaf, stalk, head, bunch";

/// A unit as written, made comparable: plain text, with "ft^3" and the superscript three as "ft3".
inline std::string unit_text(std::string_view written) {
    std::string text;
    for (std::size_t i = 0; i < written.size(); ++i) {
        const char c = written[i];
        if (c == '^' || c == '.') continue;
        if (written.substr(i, 2) == "\xC2\xB3") {
            text += '3';
            ++i;
        } else {
            text += c;
        }
    }
    return plain_text(text);
}

inline const AmountUnit* unit_named(std::string_view name) {
    for (const auto& unit : amount_units) {
        if (unit.name == name) return &unit;
    }
    return nullptr;
}

struct FoundUnit {
    const AmountUnit* unit;
    bool qualified;  ///< the country was written
};

/// The unit with a text made by unit_text, in the singular or as spelled in the lists.
inline std::optional<FoundUnit> find_unit(std::string_view text) {
    bool is_us = false;
    bool is_imperial = false;
    const auto take = [&text](std::string_view prefix) {
        const bool there = text.substr(0, prefix.size()) == prefix;
        if (there) text.remove_prefix(prefix.size());
        return there;
    };
    // The singular of "us" is kept, see singular().
    if (take("us ") || take("u s "))
        is_us = true;
    else if (take("imperial ") || take("imp ") || take("uk ") || take("british "))
        is_imperial = true;
    std::string_view name = text;
    for (const auto& spelling : unit_spellings) {
        if (spelling.text == text) name = spelling.name;
    }
    if (is_imperial) {
        for (const auto& unit : amount_units) {
            if (unit.plain_name == name && unit.name.substr(0, 8) == "imperial")
                return FoundUnit{&unit, true};
        }
        return std::nullopt;
    }
    for (const auto& unit : amount_units) {
        const bool has_country = unit.differs_by_country || unit.measure == Measure::cup ||
                                 unit.measure == Measure::tablespoon ||
                                 unit.measure == Measure::teaspoon;
        if (is_us && !has_country) continue;
        if (unit.name == name || (unit.differs_by_country && unit.plain_name == name))
            return FoundUnit{&unit, is_us};
    }
    return std::nullopt;
}

/// The unit a slip probably meant, or empty. `slips` is how many letters may differ.
inline std::string nearest_unit(std::string_view text, std::size_t slips) {
    const std::string folded = singular_text(text);
    std::string best;
    std::size_t best_distance = (folded.size() <= 3 ? 1 : slips) + 1;
    const auto consider = [&](std::string_view spelling, std::string_view name) {
        if (spelling.size() < 2) return;
        const std::size_t distance = edit_distance(folded, plain_text(spelling));
        if (distance < best_distance && distance < spelling.size()) {
            best_distance = distance;
            best = std::string(name);
        }
    };
    for (const auto& unit : amount_units)
        consider(unit.plain_name, unit.plain_name);
    for (const auto& spelling : unit_spellings)
        consider(spelling.text, spelling.name);
    return best;
}

}  // namespace feed::detail
