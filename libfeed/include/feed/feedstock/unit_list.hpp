#pragma once
#include <cstdint>
#include <string_view>

#include "feed/feedstock/measure.hpp"
#include "feed/quantity/pinch.hpp"
#include "feed/quantity/units.hpp"

// The units of amounts with their sizes; how people spell them is in amount_units.hpp and
// data/names/.
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
    defined_unit("hundredweight", UnitKind::mass, kilograms_per_pound * 112.0),
    defined_unit("L", UnitKind::volume, 1.0),
    defined_unit("ml", UnitKind::volume, 0.001),
    defined_unit("cl", UnitKind::volume, 0.01),
    defined_unit("dl", UnitKind::volume, 0.1),
    defined_unit("m3", UnitKind::volume, 1000.0),
    defined_unit("in3", UnitKind::volume, litres_per_cubic_foot / 1728.0),
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
    counted_unit("whole", Measure::piece),
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
    vessel("shot glass", 0.04, 0.02, 0.06),
    vessel("soup bowl", 0.4, 0.25, 0.6),
    vessel("mixing bowl", 2.5, 1.0, 5.0),
    vessel("ladle", 0.12, 0.06, 0.25),
    vessel("serving spoon", 0.05, 0.03, 0.08),
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
    vessel("stockpot", 8.0, 4.0, 15.0),
    vessel("platter", 1.0, 0.4, 2.5),
    vessel("plate", 0.4, 0.2, 0.8),
    vessel("saucer", 0.15, 0.08, 0.3),
    vessel("serving", 0.2, 0.1, 0.35),
    vessel("box", 10.0, 3.0, 30.0),
    vessel("shoe box", 7.0, 5.0, 10.0),
    vessel("crate", 30.0, 15.0, 50.0),
    vessel("kitchen bin", 30.0, 10.0, 50.0),
    vessel("wheelie bin", 200.0, 120.0, 360.0),
    vessel("drum", 200.0, 60.0, 220.0),
    vessel("bulk bag", 800.0, 500.0, 1000.0),
    vessel("trailer load", 1000.0, 400.0, 2500.0),
    vessel("garden cart", 150.0, 75.0, 300.0),
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
    vessel("double handful", 0.24, 0.12, 0.5),
    vessel("garden fork", 6.0, 3.0, 12.0),
    vessel("dustpan", 1.0, 0.4, 2.0),
    vessel("shovel", 4.0, 2.0, 7.0),
    vessel("trowel", 0.3, 0.15, 0.6),
    vessel("scoop", 0.2, 0.05, 0.5),
    vessel("spoonful", 0.015, 0.005, 0.025),
    vessel("capful", 0.01, 0.005, 0.03),
    vessel("forkful", 0.02, 0.01, 0.04),
    pack("pinch", pinch::usual_kg, pinch::least_kg, pinch::most_kg),
    vessel("splash", 0.03, 0.01, 0.06),
    vessel("drop", 0.00005, 0.00003, 0.0001),
    pack("bale", 18.0, 10.0, 25.0),
    pack("loaf", 0.6, 0.4, 0.9),
    pack("pack", 0.4, 0.1, 1.0, Measure::bag),
    pack("sachet", 0.01, 0.003, 0.1),
    pack("flake", 1.5, 0.8, 3.0),
};

}  // namespace feed::detail
