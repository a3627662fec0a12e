#include "feed/io/observation_text.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string_view>
#include <utility>
#include <vector>

#include "diary_entry.hpp"
#include "feed/bed/bed_keys.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/printable.hpp"
#include "feed/quantity/units.hpp"
#include "plot_notes.hpp"

namespace feed::io {

std::string yaml_text(std::string_view words) {
    std::string text = "\"";
    for (std::size_t at = 0; at < words.size();) {
        const CodePoint c = code_point_at(words, at);
        if (!c.valid) {
            text += "\xEF\xBF\xBD";  // U+FFFD: the file stays UTF-8
        } else if (c.value == '"' || c.value == '\\') {
            text += '\\';
            text += static_cast<char>(c.value);
        } else if (c.value == '\n') {
            text += "\\n";
        } else if (c.value == '\t') {
            text += "\\t";
        } else {
            // YAML has the same escapes for hidden characters as we show them by.
            text += printable(words.substr(at, c.length));
        }
        at += c.length;
    }
    return text + "\"";
}

namespace {

/// Enough digits that a scale's reading comes back as it was.
constexpr int kept_digits = 6;

/// A unit in which a reading may have been said.
struct KeptUnit {
    std::string_view word;
    double size;
    double zero = 0.0;  ///< the number of the inner unit at 0
};

/// A number in the first unit in which it is exact, as the keeper will have said it: 1 lb is no
/// 0.453592 kg, nor 12 oz 0.75 lb. In the first of the units where it is exact in none.
template <std::size_t Size>
std::string kept(double number, const KeptUnit (&units)[Size]) {
    constexpr int few_digits = 4;
    std::string first;
    for (const KeptUnit& unit : units) {
        const double shown = (number - unit.zero) / unit.size;
        const std::string digits = significant(shown, few_digits);
        const auto read = read_number(digits);
        const double back = read ? read->number : 0.0;
        const bool exact = std::abs(back - shown) <= 1e-9 * std::max(1.0, std::abs(shown));
        if (!exact) continue;
        std::string text = digits + " " + std::string(unit.word);
        const bool is_part = unit.zero == 0.0 && std::abs(shown) < 1.0 && shown != 0.0;
        if (!is_part) return text;
        if (first.empty()) first = std::move(text);
    }
    if (!first.empty()) return first;
    return significant((number - units[0].zero) / units[0].size, kept_digits) + " " +
           std::string(units[0].word);
}

std::string kilograms_of(WetMass mass) {
    constexpr KeptUnit units[] = {
        {"kg", 1.0}, {"lb", kilograms_per_pound}, {"oz", kilograms_per_pound / 16.0}};
    return kept(mass.in_kilograms(), units);
}

std::string percent_of(double share) {
    return significant(100.0 * share, kept_digits) + " %";
}

std::string celsius_of(Temperature temperature) {
    constexpr KeptUnit units[] = {{"C", 1.0, 0.0}, {"F", 1.0 / 1.8, -32.0 / 1.8}};
    return kept(in_celsius(temperature), units);
}

void write_temperatures(DiaryEntry& entry, const std::vector<PlacedTemperature>& temperatures) {
    if (temperatures.empty()) return;
    if (temperatures.size() == 1 && temperatures[0].place.empty())
        return entry.plain("temperature", celsius_of(temperatures[0].temperature));
    std::vector<std::pair<std::string, std::string>> values;
    values.reserve(temperatures.size());
    for (const PlacedTemperature& one : temperatures)
        values.emplace_back(
            one.place.empty() ? "place " + std::to_string(values.size() + 1) : one.place,
            celsius_of(one.temperature));
    entry.by_place("temperature", std::move(values));
}

/// What the bin showed and what was measured.
void signs_and_readings(const Observation& seen, DiaryEntry& entry) {
    if (seen.worms) entry.plain("worms", feed::text(*seen.worms));
    if (seen.vigour) entry.plain("vigour", feed::text(*seen.vigour));
    if (seen.worm_weight) entry.plain("worm_weight", kilograms_of(*seen.worm_weight));
    if (seen.squeeze) entry.plain("squeeze", feed::text(*seen.squeeze));
    if (seen.moisture) entry.plain("moisture", percent_of(seen.moisture->value()));
    if (seen.pooling) entry.plain("pooling", *seen.pooling ? "true" : "false");
    if (seen.smell) entry.plain("smell", feed::text(*seen.smell));
    if (seen.ph) entry.plain("ph", significant(*seen.ph, kept_digits));
    write_temperatures(entry, seen.temperatures);
    if (seen.air_low) entry.plain("air_low", celsius_of(*seen.air_low));
    if (seen.air_high) entry.plain("air_high", celsius_of(*seen.air_high));
    if (seen.weight_in) entry.plain("weight_in", kilograms_of(*seen.weight_in));
    if (seen.running_total) entry.plain("running_total", kilograms_of(*seen.running_total));
}

}  // namespace

DiaryEntry entry_of(const Observation& seen) {
    DiaryEntry entry(seen.date);
    entry.quoted("by", seen.by);
    if (seen.of_feeding) entry.plain("of_feeding", feed::text(*seen.of_feeding));
    if (seen.left) entry.plain("left", kilograms_of(*seen.left));
    if (seen.share_gone) entry.plain("share_gone", percent_of(*seen.share_gone));
    if (seen.gone != FoodGone::unsaid)
        entry.plain("gone", seen.gone == FoodGone::yes ? "true" : "false");
    if (!seen.plots.empty()) entry.list("plots", plot_texts(seen.plots), true);
    signs_and_readings(seen, entry);
    entry.quoted("bedding", seen.bedding);
    entry.quoted("pests", seen.pests);
    entry.quoted("action", seen.action);
    entry.quoted("note", seen.note);
    return entry;
}

std::string observation_yaml(const Observation& seen, int indent) {
    return entry_of(seen).yaml(indent);
}

}  // namespace feed::io
