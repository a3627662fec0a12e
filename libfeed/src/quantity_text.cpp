#include "feed/io/quantity_text.hpp"

#include <array>
#include <span>
#include <utility>

#include "feed/feedstock/amount_units.hpp"
#include "feed/feedstock/count_text.hpp"
#include "feed/quantity/in_units.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/units.hpp"

namespace feed::io {
namespace {

/// number in the kind's unit = written x factor + offset
struct UnitWord {
    std::string_view word;
    double factor;
    double offset = 0.0;
};

constexpr UnitWord fraction_units[] = {
    {"%", 0.01},         {"percent", 0.01},     {"per cent", 0.01},    {"g/kg", 0.001},
    {"mg/g", 0.001},     {"mg/kg", 1e-6},       {"g/g", 1.0},          {"kg/kg", 1.0},
    {"g/100 g", 0.01},   {"g/100g", 0.01},      {"mg/100 g", 1e-5},    {"mg/100g", 1e-5},
    {"g per kg", 0.001}, {"g per 100 g", 0.01}, {"mg per 100 g", 1e-5}};
constexpr UnitWord share_units[] = {{"%", 0.01}, {"percent", 0.01}, {"per cent", 0.01}};
constexpr UnitWord ratio_units[] = {{":1", 1.0}, {": 1", 1.0}, {"to 1", 1.0}};
constexpr UnitWord water_held_units[] = {{"g/g", 1.0},  {"kg/kg", 1.0}, {"L/kg", 1.0},
                                         {"%", 0.01},   {"ml/g", 1.0},  {"g/g dry", 1.0},
                                         {"lb/lb", 1.0}};
constexpr UnitWord density_units[] = {
    {"kg/m3", 1.0},
    {"kg/m\xC2\xB3", 1.0},
    {"g/L", 1.0},
    {"kg/L", 1000.0},
    {"g/ml", 1000.0},
    {"g/cm3", 1000.0},
    {"lb/ft3", kilograms_per_pound / (metres_per_foot * metres_per_foot * metres_per_foot)},
    {"lb/yd3", kilograms_per_pound / (27.0 * metres_per_foot * metres_per_foot * metres_per_foot)},
    {"lb/gal", kilograms_per_pound / litres_per_us_gallon * 1000.0}};
constexpr UnitWord conductivity_units[] = {{"dS/m", 1.0}, {"mS/cm", 1.0}, {"uS/cm", 0.001}};
constexpr double fahrenheit_factor = 5.0 / 9.0;
constexpr double fahrenheit_offset = -160.0 / 9.0;
constexpr UnitWord temperature_units[] = {{"C", 1.0},
                                          {"\xC2\xB0"
                                           "C",
                                           1.0},
                                          {"deg C", 1.0},
                                          {"F", fahrenheit_factor, fahrenheit_offset},
                                          {"\xC2\xB0"
                                           "F",
                                           fahrenheit_factor, fahrenheit_offset},
                                          {"deg F", fahrenheit_factor, fahrenheit_offset},
                                          {"K", 1.0, -kelvin_at_zero_celsius}};
constexpr UnitWord length_units[] = {
    {"m", 1.0},         {"cm", 0.01},   {"mm", 0.001},    {"in", 0.0254},   {"inch", 0.0254},
    {"inches", 0.0254}, {"ft", 0.3048}, {"foot", 0.3048}, {"feet", 0.3048}, {"yd", 0.9144}};
constexpr double square_foot = metres_per_foot * metres_per_foot;
constexpr UnitWord area_units[] = {{"m2", 1.0},
                                   {"m\xC2\xB2", 1.0},
                                   {"cm2", 1e-4},
                                   {"ft2", square_foot},
                                   {"sq ft", square_foot},
                                   {"square feet", square_foot},
                                   {"square foot", square_foot},
                                   {"square metres", 1.0}};
constexpr UnitWord duration_units[] = {{"day", 1.0},       {"days", 1.0},       {"d", 1.0},
                                       {"hour", 1.0 / 24}, {"hours", 1.0 / 24}, {"h", 1.0 / 24},
                                       {"week", 7.0},      {"weeks", 7.0},      {"months", 30.4375},
                                       {"month", 30.4375}, {"year", 365.25},    {"years", 365.25}};
constexpr UnitWord rate_units[] = {
    {"/day", 1.0},           {"per day", 1.0},      {"/d", 1.0},         {"a day", 1.0},
    {"per week", 1.0 / 7.0}, {"a week", 1.0 / 7.0}, {"/week", 1.0 / 7.0}};
constexpr UnitWord volume_ratio_units[] = {{"L/L", 1.0}, {":1", 1.0}, {"cup/cup", 1.0}};
constexpr UnitWord cost_units[] = {{"per kg", 1.0},
                                   {"/kg", 1.0},
                                   {"a kg", 1.0},
                                   {"per lb", 1.0 / kilograms_per_pound},
                                   {"/lb", 1.0 / kilograms_per_pound},
                                   {"a pound", 1.0 / kilograms_per_pound},
                                   {"per t", 0.001}};

struct KindFacts {
    std::span<const UnitWord> units;
    bool bare;  ///< may stand without a unit
    double lowest;
    double highest;
    std::string_view allowed;
    std::string_view example;
};

KindFacts facts(QuantityKind kind) noexcept {
    switch (kind) {
        case QuantityKind::moisture:
            return {fraction_units, true, 0, 1, "0 % to 100 % (or 0 to 1) of the wet mass", "78 %"};
        case QuantityKind::fraction:
            return {fraction_units, false, 0, 1, "0 % to 100 %, with a unit such as % or g/kg",
                    "0.9 %"};
        case QuantityKind::share:
            return {share_units, true, 0, 1, "0 % to 100 % (or 0 to 1)", "60 %"};
        case QuantityKind::cn_ratio:
            return {ratio_units, true, 1e-3, 1e5, "above 0, such as 30 or 30:1", "30:1"};
        case QuantityKind::water_held:
            return {water_held_units, false, 0, 30, "0 to 30 g/g of the dry mass", "3 g/g"};
        case QuantityKind::neutralising:
            return {fraction_units, false, 0, 2, "0 % to 200 % of calcium carbonate, with a unit",
                    "90 %"};
        case QuantityKind::density:
            return {density_units, false, 1, 3000, "1 to 3000 kg/m3, with a unit", "450 kg/m3"};
        case QuantityKind::conductivity:
            return {conductivity_units, false, 0, 300, "0 to 300 dS/m, with a unit", "2.1 dS/m"};
        case QuantityKind::temperature:
            return {temperature_units, false, -40, 120, "-40 C to 120 C, with C or F", "20 C"};
        case QuantityKind::length:
            return {length_units, false, 1e-4, 1000, "above 0, at most 1000 m, with a unit",
                    "30 cm"};
        case QuantityKind::area:
            return {area_units, false, 1e-6, 1e6, "above 0, with a unit such as m2", "0.2 m2"};
        case QuantityKind::duration:
            return {duration_units, false, 0, 36525, "0 to 100 years, with a unit such as days",
                    "4 days"};
        case QuantityKind::rate:
            return {rate_units, false, 0, 100, "0 to 100 /day, with a unit such as /day",
                    "0.22 /day"};
        case QuantityKind::volume:
            return {{}, false, 1e-6, 1e8, "above 0, with a unit such as L", "40 L"};
        case QuantityKind::mass:
            return {{}, false, 1e-9, 1e7, "above 0, with a unit such as g or kg", "1.2 kg"};
        case QuantityKind::weighed:
            return {{}, false, 0, 1e7, "0 or more, with a unit such as g or kg", "200 g"};
        case QuantityKind::cost:
            return {cost_units, false, 0, 1e6, "0 or more, per kg or per lb", "0.40 per kg"};
        case QuantityKind::volume_ratio:
            return {volume_ratio_units, true, 0, 1000, "0 to 1000 litres a litre", "0.5 L/L"};
        case QuantityKind::ph:
            return {{}, true, 0, 14, "0 to 14, without a unit", "6.5"};
        case QuantityKind::number:
            return {{}, true, 0, 1e12, "a number from 0, without a unit", "12"};
    }
    return {{}, true, 0, 0, "", ""};
}

Error plain_error(ErrorCode code, std::string_view text, QuantityKind kind, std::string message) {
    return make_error(code, "", std::string(text), std::string(allowed_text(kind)),
                      std::move(message));
}

constexpr char lower(char c) noexcept {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool same_word(std::string_view a, std::string_view b) noexcept {
    if (a.size() != b.size()) return false;
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (lower(a[i]) != lower(b[i])) return false;
    }
    return true;
}

const UnitWord* unit_for(std::span<const UnitWord> units, std::string_view word) noexcept {
    for (const auto& unit : units) {
        if (unit.word == word) return &unit;
    }
    for (const auto& unit : units) {
        if (same_word(unit.word, word)) return &unit;
    }
    return nullptr;
}

/// Whether a kind is written in the units of amounts (feedstock/amount_units.hpp).
constexpr bool is_amount(QuantityKind kind) noexcept {
    return kind == QuantityKind::volume || kind == QuantityKind::mass ||
           kind == QuantityKind::weighed;
}

/// Kilograms or litres in one unit of amounts that is defined, or nothing.
std::optional<double> amount_unit(std::string_view word, QuantityKind kind) {
    const bool mass = kind != QuantityKind::volume;
    // Here no spoon can be meant.
    if (mass && word == "t") word = "tonne";
    const std::string written = detail::unit_text(word);
    auto found = detail::find_unit(written);
    if (!found) found = detail::find_unit(singular_text(written));
    if (!found || found->unit->is_vessel() || found->unit->size <= 0.0) return std::nullopt;
    if (mass != (found->unit->kind == detail::UnitKind::mass)) return std::nullopt;
    return found->unit->size;
}

struct Written {
    double number;
    std::string_view unit;
};

Result<Written> split(std::string_view text, QuantityKind kind) {
    const auto clean = detail::trim(text);
    if (clean.empty()) {
        return plain_error(ErrorCode::missing_value, text, kind, "a number is missing here");
    }
    const auto number = read_number(clean);
    // "a pound", "half a litre".
    const auto said = number || !is_amount(kind) ? std::nullopt : detail::read_count(clean);
    if (!number && !said) {
        return plain_error(ErrorCode::not_a_number, text, kind,
                           "\"" + std::string(clean) + "\" does not start with a number");
    }
    if (number && number->other != 0.0) {
        const std::string rest(clean.substr(number->length));
        return offered(
            plain_error(ErrorCode::ambiguous_amount, text, kind,
                        "the comma can be read in two ways"),
            "; write ",
            {significant(number->number, 9) + rest, significant(number->other, 9) + rest});
    }
    const auto unit = detail::trim(clean.substr(number ? number->length : said->length));
    return Written{number ? number->number : said->value, unit};
}

/// A number that was written without its unit: what was probably meant?
Error missing_unit(std::string_view text, double number, QuantityKind kind) {
    Error error = plain_error(ErrorCode::unit_missing, text, kind, "the unit is missing");
    if (kind != QuantityKind::fraction && kind != QuantityKind::neutralising) return error;
    return offered(std::move(error), "; is ", {std::string(detail::trim(text)) + " %"},
                   number > 1.0 ? " meant?" : " or a share of 1 meant?");
}

Result<double> in_range(std::string_view text, double number, QuantityKind kind, bool bare) {
    const auto rule = facts(kind);
    if (number >= rule.lowest && number <= rule.highest) return number;
    const bool is_share = kind == QuantityKind::moisture || kind == QuantityKind::share;
    if (is_share && bare && number > 1.0 && number <= 100.0) {
        return offered(
            plain_error(ErrorCode::percent_slip, text, kind, "a bare number here is a share of 1"),
            "; is ", {std::string(detail::trim(text)) + " %"}, " meant?");
    }
    std::string message = number < rule.lowest ? "this is too small" : "this is too large";
    if (number < 0.0 && rule.lowest >= 0.0) message = "this must not be negative";
    if (number == 0.0) message = "this must be more than zero";
    return plain_error(ErrorCode::out_of_range, text, kind, std::move(message));
}

Result<double> convert(const Written& written, std::string_view text, QuantityKind kind) {
    const auto rule = facts(kind);
    if (written.unit.empty()) {
        if (!rule.bare) return missing_unit(text, written.number, kind);
        return in_range(text, written.number, kind, true);
    }
    if (is_amount(kind)) {
        if (const auto size = amount_unit(written.unit, kind))
            return in_range(text, in_units(written.number, *size), kind, false);
    }
    const auto* unit = unit_for(rule.units, written.unit);
    if (unit == nullptr) {
        return plain_error(ErrorCode::unit_unknown, text, kind,
                           "\"" + std::string(written.unit) + "\" is not a unit that fits here");
    }
    return in_range(text, in_units(written.number, unit->factor) + unit->offset, kind, false);
}

bool take_prefix(std::string_view& text, std::string_view prefix) noexcept {
    if (text.substr(0, prefix.size()) != prefix) return false;
    text = detail::trim(text.substr(prefix.size()));
    return true;
}

/// The ends of a range the other way round.
/// @param unit  written once, behind the upper end; else "".
Error swapped_ends(std::string_view text, QuantityKind kind, std::string_view low,
                   std::string_view high, std::string_view unit) {
    std::string swapped(detail::trim(high));
    swapped.append(" to ").append(detail::trim(low));
    if (!unit.empty()) swapped.append(" ").append(unit);
    return offered(
        plain_error(ErrorCode::low_above_high, text, kind, "the lower end is above the upper end"),
        "; write ", {std::move(swapped)});
}

}  // namespace

std::string_view example_of(QuantityKind kind) noexcept {
    return facts(kind).example;
}

std::string_view allowed_text(QuantityKind kind) noexcept {
    return facts(kind).allowed;
}

Result<double> parse_quantity(std::string_view text, QuantityKind kind) {
    const auto written = split(text, kind);
    if (!written) return written.errors();
    return convert(*written, text, kind);
}

Result<WindowText> parse_window(std::string_view text, QuantityKind kind) {
    auto rest = detail::trim(text);
    WindowText window;
    if (take_prefix(rest, "at least ") || take_prefix(rest, "from ")) {
        if (rest.find(" to ") == std::string_view::npos) {
            const auto low = parse_quantity(rest, kind);
            if (!low) return low.errors();
            window.low = *low;
            return window;
        }
    } else if (take_prefix(rest, "at most ") || take_prefix(rest, "up to ")) {
        const auto high = parse_quantity(rest, kind);
        if (!high) return high.errors();
        window.high = *high;
        return window;
    }
    auto middle = rest.find(" to ");
    // "30 to 1" is one ratio, "20 to 50" is a window.
    if (kind == QuantityKind::cn_ratio && middle != std::string_view::npos &&
        rest.substr(middle) == " to 1") {
        middle = std::string_view::npos;
    }
    if (middle == std::string_view::npos) {
        const auto one = parse_quantity(rest, kind);
        if (!one) return one.errors();
        window.low = window.high = *one;
        window.single = true;
        return window;
    }
    const auto low_text = rest.substr(0, middle);
    const auto high_text = rest.substr(middle + 4);
    auto low = split(low_text, kind);
    const auto high = split(high_text, kind);
    if (!low) return low.errors();
    if (!high) return high.errors();
    // "70 to 85 %": one unit for both ends.
    const bool shared_unit = low->unit.empty();
    if (shared_unit) low.value().unit = high->unit;
    const auto low_number = convert(*low, low_text, kind);
    const auto high_number = convert(*high, high_text, kind);
    if (!low_number) return low_number.errors();
    if (!high_number) return high_number.errors();
    if (*low_number > *high_number) {
        return swapped_ends(text, kind, low_text, high_text, shared_unit ? high->unit : "");
    }
    window.low = *low_number;
    window.high = *high_number;
    return window;
}

Result<int> parse_whole(std::string_view text, int lowest, int highest) {
    const std::string allowed =
        "a whole number from " + std::to_string(lowest) + " to " + std::to_string(highest);
    const auto number = parse_number(text);
    if (!number)
        return make_error(ErrorCode::not_a_number, "", std::string(text), allowed,
                          "\"" + std::string(text) + "\" is not a number");
    if (*number < lowest || *number > highest || *number != static_cast<int>(*number))
        return make_error(ErrorCode::out_of_range, "", std::string(text), allowed,
                          "this must be " + allowed);
    return static_cast<int>(*number);
}

}  // namespace feed::io
