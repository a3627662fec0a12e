#pragma once
#include <algorithm>
#include <array>
#include <cstdint>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>

#include "feed/feedstock/measure.hpp"
#include "feed/feedstock/names.hpp"
#include "feed/quantity/pinch.hpp"
#include "feed/quantity/plain_text.hpp"
#include "feed/quantity/units.hpp"

namespace feed::detail {

enum class UnitKind : std::uint8_t { mass, volume, measure };

/// A unit of amounts. `size` is kilograms or litres in one unit; 0 for a measure without a volume.
struct AmountUnit {
    std::string_view name;        ///< shown in answers
    std::string_view plain_name;  ///< without the country
    double size = 0.0;
    UnitKind kind = UnitKind::mass;
    Measure measure = Measure::piece;
    bool differs_by_country = false;
    /// What another one may hold, as a share of `size`; 1 for a unit that is defined. A vessel of
    /// the house has a range and is said once.
    double low = 1.0;
    double high = 1.0;
    double count = 1.0;  ///< how many of the measure one unit is
    constexpr bool is_vessel() const noexcept { return low != high; }
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

constexpr AmountUnit defined_unit(std::string_view name, UnitKind kind, double size) {
    return {name, name, size, kind};
}
constexpr AmountUnit counted_unit(std::string_view name, Measure measure, double count = 1.0) {
    return {name, name, 0.0, UnitKind::measure, measure, false, 1.0, 1.0, count};
}
constexpr AmountUnit us_unit(std::string_view name, std::string_view plain_name, double size) {
    return {name, plain_name, size, UnitKind::volume, Measure::piece, true};
}
constexpr AmountUnit imperial_unit(std::string_view name, std::string_view plain_name,
                                   double size) {
    return {name, plain_name, size, UnitKind::volume};
}
constexpr AmountUnit spoon(std::string_view name, std::string_view plain_name, double size,
                           Measure measure) {
    return {name, plain_name, size, UnitKind::measure, measure};
}
/// A vessel of the house: litres, with the smallest and the largest in use.
constexpr AmountUnit vessel(std::string_view name, double litres, double low, double high,
                            Measure measure = Measure::piece) {
    return {name, name, litres, UnitKind::volume, measure, false, low / litres, high / litres, 1.0};
}
/// What is sold or packed by weight: kilograms, with the smallest and the largest in use.
constexpr AmountUnit pack(std::string_view name, double kilograms, double low, double high,
                          Measure measure = Measure::piece) {
    return {name,    name,  kilograms,       UnitKind::mass,
            measure, false, low / kilograms, high / kilograms,
            1.0};
}

// Gallon = 4 quarts = 8 pints; US pint 16 fluid ounces, imperial pint 20; US bushel 2150.42 cubic
// inches = 4 pecks; stone 14 lb (NIST Handbook 44, appendix C; UK Units of Measurement Regulations
// 1995). Cup, tablespoon and teaspoon: customary half pint, half and sixth of a US fluid ounce; the
// imperial spoons are the same parts of the imperial gallon. Vessels and packs are judgements
// (grade D): what is common in shops and kitchens, from the smallest to the largest.
inline constexpr double us_bushel = 35.23907016688;
inline constexpr AmountUnit amount_units[] = {
    defined_unit("kg", UnitKind::mass, 1.0),
    defined_unit("g", UnitKind::mass, 0.001),
    defined_unit("mg", UnitKind::mass, 0.000001),
    defined_unit("tonne", UnitKind::mass, 1000.0),
    defined_unit("lb", UnitKind::mass, kilograms_per_pound),
    defined_unit("oz", UnitKind::mass, kilograms_per_pound / 16.0),
    defined_unit("metric pound", UnitKind::mass, 0.5),
    defined_unit("stone", UnitKind::mass, kilograms_per_pound * 14.0),
    defined_unit("L", UnitKind::volume, 1.0),
    defined_unit("ml", UnitKind::volume, 0.001),
    defined_unit("cl", UnitKind::volume, 0.01),
    defined_unit("dl", UnitKind::volume, 0.1),
    defined_unit("m3", UnitKind::volume, 1000.0),
    defined_unit("ft3", UnitKind::volume, litres_per_cubic_foot),
    defined_unit("yd3", UnitKind::volume, 27.0 * litres_per_cubic_foot),
    defined_unit("bushel", UnitKind::volume, us_bushel),
    defined_unit("peck", UnitKind::volume, us_bushel / 4.0),
    us_unit("US gallon", "gallon", us),
    us_unit("US quart", "quart", us / 4.0),
    us_unit("US pint", "pint", us / 8.0),
    us_unit("US fluid ounce", "fluid ounce", us / 128.0),
    imperial_unit("imperial gallon", "gallon", imperial),
    imperial_unit("imperial quart", "quart", imperial / 4.0),
    imperial_unit("imperial pint", "pint", imperial / 8.0),
    imperial_unit("imperial fluid ounce", "fluid ounce", imperial / 160.0),
    spoon("cup", "cup", us / 16.0, Measure::cup),
    spoon("tablespoon", "tablespoon", us / 256.0, Measure::tablespoon),
    spoon("teaspoon", "teaspoon", us / 768.0, Measure::teaspoon),
    spoon("imperial cup", "cup", imperial / 16.0, Measure::cup),
    spoon("imperial tablespoon", "tablespoon", imperial / 256.0, Measure::tablespoon),
    spoon("imperial teaspoon", "teaspoon", imperial / 768.0, Measure::teaspoon),
    counted_unit("piece", Measure::piece),
    counted_unit("small piece", Measure::piece_small),
    counted_unit("large piece", Measure::piece_large),
    counted_unit("handful", Measure::handful),
    counted_unit("sheet", Measure::sheet),
    counted_unit("ream", Measure::sheet, 500.0),
    counted_unit("slice", Measure::slice),
    counted_unit("leaf", Measure::leaf),
    counted_unit("stalk", Measure::stalk),
    counted_unit("head", Measure::head),
    counted_unit("bunch", Measure::bunch),
    vessel("bucket", 10.0, 5.0, 19.0),
    vessel("caddy", 5.0, 3.0, 8.0),
    vessel("mug", 0.3, 0.2, 0.4),
    vessel("teacup", 0.18, 0.12, 0.25),
    vessel("dessertspoon", 0.01, 0.007, 0.015),
    vessel("lunch box", 1.0, 0.5, 2.0),
    vessel("glass", 0.25, 0.15, 0.4),
    vessel("bowl", 1.0, 0.3, 3.0),
    vessel("teapot", 0.4, 0.1, 1.0),
    vessel("jar", 0.4, 0.2, 1.0),
    vessel("can", 0.4, 0.2, 0.8),
    vessel("punnet", 0.5, 0.3, 0.9),
    vessel("tub", 1.0, 0.5, 2.0),
    vessel("ice cream tub", 2.0, 1.0, 4.0),
    vessel("yoghurt pot", 0.15, 0.1, 0.5),
    vessel("coffee can", 1.0, 0.4, 3.0),
    vessel("container", 1.0, 0.5, 3.0),
    vessel("bottle", 0.75, 0.33, 2.0),
    vessel("carton", 1.0, 0.5, 2.0),
    vessel("pan", 2.0, 1.0, 5.0),
    vessel("plate", 0.4, 0.2, 0.8),
    vessel("saucer", 0.15, 0.08, 0.3),
    vessel("serving", 0.2, 0.1, 0.35),
    vessel("box", 10.0, 3.0, 30.0),
    vessel("shoe box", 7.0, 5.0, 10.0),
    vessel("crate", 30.0, 15.0, 50.0),
    vessel("basket", 8.0, 3.0, 20.0),
    vessel("tray", 3.0, 1.0, 8.0),
    vessel("trug", 20.0, 10.0, 40.0),
    vessel("bag", 8.0, 2.0, 20.0, Measure::bag),
    vessel("carrier bag", 12.0, 8.0, 20.0),
    vessel("sandwich bag", 1.0, 0.6, 1.5),
    vessel("freezer bag", 3.0, 1.0, 4.0),
    vessel("bin bag", 50.0, 30.0, 115.0),
    vessel("sack", 40.0, 20.0, 80.0),
    vessel("garbage can", 100.0, 75.0, 130.0),
    vessel("wheelbarrow", 90.0, 60.0, 170.0),
    vessel("watering can", 8.0, 5.0, 10.0),
    vessel("armful", 15.0, 8.0, 30.0),
    vessel("shovel", 4.0, 2.0, 7.0),
    vessel("trowel", 0.3, 0.15, 0.6),
    vessel("scoop", 0.2, 0.05, 0.5),
    vessel("spoonful", 0.015, 0.005, 0.025),
    pack("pinch", pinch::usual_kg, pinch::least_kg, pinch::most_kg),
    vessel("splash", 0.03, 0.01, 0.06),
    vessel("drop", 0.00005, 0.00003, 0.0001),
    pack("bale", 18.0, 10.0, 25.0),
    pack("loaf", 0.6, 0.4, 0.9),
    pack("pack", 0.4, 0.1, 1.0, Measure::bag),
    pack("flake", 1.5, 0.8, 3.0),
};

// Sorted by spelling, to be searched.
inline constexpr UnitSpelling unit_spellings[] = {
    {"armload", "armful"},
    {"bag for life", "carrier bag"},
    {"bagful", "bag"},
    {"barrow", "wheelbarrow"},
    {"barrow load", "wheelbarrow"},
    {"barrowful", "wheelbarrow"},
    {"barrowload", "wheelbarrow"},
    {"basin", "pan"},
    {"big", "large piece"},
    {"big piece", "large piece"},
    {"bin liner", "bin bag"},
    {"biscuit of hay", "flake"},
    {"bowlful", "bowl"},
    {"boxful", "box"},
    {"bucketful", "bucket"},
    {"bundle", "bunch"},
    {"c", "cup"},
    {"cc", "ml"},
    {"centilitre", "cl"},
    {"chunk", "slice"},
    {"clove", "piece"},
    {"cm3", "ml"},
    {"cob", "piece"},
    {"coffee tin", "coffee can"},
    {"colander", "pan"},
    {"compost caddy", "caddy"},
    {"container full", "container"},
    {"cu ft", "ft3"},
    {"cu m", "m3"},
    {"cu yd", "yd3"},
    {"cubic centimeter", "ml"},
    {"cubic centimetre", "ml"},
    {"cubic decimetre", "L"},
    {"cubic foot", "ft3"},
    {"cubic meter", "m3"},
    {"cubic metre", "m3"},
    {"cubic yard", "yd3"},
    {"cuft", "ft3"},
    {"cupful", "cup"},
    {"cuyd", "yd3"},
    {"dash", "pinch"},
    {"decilitre", "dl"},
    {"dessert spoon", "dessertspoon"},
    {"dessertspoonful", "dessertspoon"},
    {"dm3", "L"},
    {"dollop", "spoonful"},
    {"dsp", "dessertspoon"},
    {"dustbin", "garbage can"},
    {"dustbin bag", "bin bag"},
    {"each", "piece"},
    {"ear", "piece"},
    {"feed scoop", "bowl"},
    {"fistful", "handful"},
    {"fl oz", "fluid ounce"},
    {"floret", "piece"},
    {"floz", "fluid ounce"},
    {"gal", "gallon"},
    {"gallon bag", "freezer bag"},
    {"gallon freezer bag", "freezer bag"},
    {"gallon zip lock bag", "freezer bag"},
    {"gallon ziploc bag", "freezer bag"},
    {"gallon ziplock bag", "freezer bag"},
    {"garbage bag", "bin bag"},
    {"gm", "g"},
    {"gr", "g"},
    {"gram", "g"},
    {"gramme", "g"},
    {"grocery bag", "carrier bag"},
    {"handfull", "handful"},
    {"handsful", "handful"},
    {"helping", "serving"},
    {"ice cream container", "ice cream tub"},
    {"jam jar", "jar"},
    {"jarful", "jar"},
    {"jug", "pan"},
    {"kgs", "kg"},
    {"kilo", "kg"},
    {"kilogram", "kg"},
    {"kilogramme", "kg"},
    {"kitchen caddy", "caddy"},
    {"knob", "spoonful"},
    {"l", "L"},
    {"large", "large piece"},
    {"lbs", "lb"},
    {"leaf bag", "bin bag"},
    {"liter", "L"},
    {"litre", "L"},
    {"lt", "L"},
    {"ltr", "L"},
    {"lunchbox", "lunch box"},
    {"margarine tub", "tub"},
    {"medium", "piece"},
    {"medium piece", "piece"},
    {"metric ton", "tonne"},
    {"milk bottle", "bottle"},
    {"milligram", "mg"},
    {"milligramme", "mg"},
    {"milliliter", "ml"},
    {"millilitre", "ml"},
    {"mugful", "mug"},
    {"ounce", "oz"},
    {"pack of", "pack"},
    {"packet", "pack"},
    {"page", "sheet"},
    {"pail", "bucket"},
    {"pailful", "bucket"},
    {"panful", "pan"},
    {"pc", "piece"},
    {"pcs", "piece"},
    {"piece large", "large piece"},
    {"piece medium", "piece"},
    {"piece small", "small piece"},
    {"plant pot", "tub"},
    {"plateful", "plate"},
    {"portion", "serving"},
    {"pot", "tub"},
    {"potful", "tub"},
    {"pound", "lb"},
    {"pt", "pint"},
    {"pudding basin", "bowl"},
    {"qt", "quart"},
    {"rib", "stalk"},
    {"rubbish bag", "bin bag"},
    {"sackful", "sack"},
    {"saucepan", "pan"},
    {"scoopful", "scoop"},
    {"shoebox", "shoe box"},
    {"shopping bag", "carrier bag"},
    {"shovelful", "shovel"},
    {"small", "small piece"},
    {"smidgen", "pinch"},
    {"spade", "shovel"},
    {"spadeful", "shovel"},
    {"spear", "piece"},
    {"spoon", "spoonful"},
    {"sprig", "stalk"},
    {"sprinkle", "pinch"},
    {"sprinkling", "pinch"},
    {"squirt", "splash"},
    {"st", "stone"},
    {"stem", "stalk"},
    {"stick", "stalk"},
    {"tablespoonful", "tablespoon"},
    {"tbs", "tablespoon"},
    {"tbsp", "tablespoon"},
    {"tea cup", "teacup"},
    {"teaspoonful", "teaspoon"},
    {"tin", "can"},
    {"tinful", "can"},
    {"trash bag", "bin bag"},
    {"trash can", "garbage can"},
    {"trayful", "tray"},
    {"trowelful", "trowel"},
    {"tsp", "teaspoon"},
    {"tubful", "tub"},
    {"tupperware", "container"},
    {"washing up bowl", "bucket"},
    {"wedge", "slice"},
    {"wheel barrow", "wheelbarrow"},
    {"wheelbarrow load", "wheelbarrow"},
    {"wheelbarrowful", "wheelbarrow"},
    {"whole", "piece"},
    {"yoghurt tub", "yoghurt pot"},
    {"yogurt container", "yoghurt pot"},
    {"yogurt pot", "yoghurt pot"},
    {"yogurt tub", "yoghurt pot"},
    {"zip lock bag", "freezer bag"},
    {"ziploc", "freezer bag"},
    {"ziploc bag", "freezer bag"},
    {"ziplock", "freezer bag"},
    {"ziplock bag", "freezer bag"},
};

/// What an error lists as allowed.
inline constexpr std::string_view unit_names_for_people =
    "kg, g, lb, oz, L, ml, gallon, pint, cup, tablespoon, handful, piece, slice, sheet, bucket";

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

/// The unit with a name; "gallon" alone is the US one. Null when there is none.
constexpr const AmountUnit* unit_named(std::string_view name) noexcept {
    for (const auto& unit : amount_units) {
        if (unit.name == name || (unit.differs_by_country && unit.plain_name == name)) return &unit;
    }
    return nullptr;
}

static_assert([] {
    for (std::size_t i = 1; i < std::size(unit_spellings); ++i) {
        if (!(unit_spellings[i - 1].text < unit_spellings[i].text)) return false;
    }
    return true;
}());

struct FoundUnit {
    const AmountUnit* unit;
    bool qualified;  ///< the country was written
};

/// The unit of exactly this text, in English; then in the other languages.
inline const AmountUnit* unit_of_text(std::string_view text) noexcept {
    if (const AmountUnit* unit = unit_named(text)) return unit;
    const auto* spelling = std::lower_bound(
        std::begin(unit_spellings), std::end(unit_spellings), text,
        [](const UnitSpelling& one, std::string_view wanted) { return one.text < wanted; });
    if (spelling != std::end(unit_spellings) && spelling->text == text)
        return unit_named(spelling->name);
    for (const auto& language : languages) {
        const auto word = std::lower_bound(
            language.units.begin(), language.units.end(), text,
            [](const table::UnitWord& one, std::string_view wanted) { return one.text < wanted; });
        if (word != language.units.end() && word->text == text) return unit_named(word->unit);
    }
    return nullptr;
}

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
    const AmountUnit* unit = unit_of_text(text);
    if (unit == nullptr) return std::nullopt;
    if (is_imperial) {
        for (const auto& other : amount_units) {
            if (other.plain_name == unit->plain_name && other.name.substr(0, 8) == "imperial")
                return FoundUnit{&other, true};
        }
        return std::nullopt;
    }
    const bool has_country = unit->differs_by_country || unit->measure == Measure::cup ||
                             unit->measure == Measure::tablespoon ||
                             unit->measure == Measure::teaspoon;
    if (is_us && !has_country) return std::nullopt;
    return FoundUnit{unit, is_us};
}

/// The unit a slip probably meant, or empty. `slips` is how many letters may differ.
inline std::string nearest_unit(std::string_view text, std::size_t slips) {
    const std::string folded = singular_text(text);
    if (folded.size() > longest_name) return {};
    std::string best;
    std::size_t best_distance = (folded.size() <= 3 ? 1 : slips) + 1;
    const auto consider = [&](std::string_view written, std::string_view name) {
        const std::string spelling = plain_text(written);
        const std::size_t gap = spelling.size() > folded.size() ? spelling.size() - folded.size()
                                                                : folded.size() - spelling.size();
        if (spelling.size() < 2 || gap >= best_distance) return;
        const std::size_t distance = edit_distance(folded, spelling);
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
