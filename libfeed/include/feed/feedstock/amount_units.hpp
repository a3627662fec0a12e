#pragma once
#include <algorithm>
#include <array>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>

#include "feed/feedstock/names.hpp"
#include "feed/feedstock/unit_list.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed::detail {

/// A spelling of a unit; compared with the text of `unit_text`.
struct UnitSpelling {
    std::string_view text;
    std::string_view name;
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
    {"medium", "whole"},
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
