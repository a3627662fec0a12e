#include "feed/io/observation_text.hpp"

#include <string_view>

#include "feed/quantity/number_print.hpp"
#include "feed/quantity/printable.hpp"
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

std::string kilograms_of(WetMass mass) {
    return significant(mass.in_kilograms(), kept_digits) + " kg";
}

std::string percent_of(double share) {
    return significant(100.0 * share, kept_digits) + " %";
}

std::string celsius_of(Temperature temperature) {
    return significant(in_celsius(temperature), kept_digits) + " C";
}

std::string temperatures_of(const std::vector<PlacedTemperature>& temperatures) {
    if (temperatures.size() == 1 && temperatures[0].place.empty())
        return celsius_of(temperatures[0].temperature);
    std::string text = "{";
    for (std::size_t i = 0; i < temperatures.size(); ++i) {
        const std::string& place = temperatures[i].place;
        text += (i > 0 ? ", " : "") +
                yaml_text(place.empty() ? "place " + std::to_string(i + 1) : place) + ": " +
                celsius_of(temperatures[i].temperature);
    }
    return text + "}";
}

/// What the bin showed and what was measured, each by `line(key, value)`.
template <class Line>
void signs_and_readings(const Observation& seen, const Line& line) {
    if (seen.worms) line("worms", feed::text(*seen.worms));
    if (seen.vigour) line("vigour", feed::text(*seen.vigour));
    if (seen.worm_weight) line("worm_weight", kilograms_of(*seen.worm_weight));
    if (seen.squeeze) line("squeeze", squeeze_key(*seen.squeeze));
    if (seen.moisture) line("moisture", percent_of(seen.moisture->value()));
    if (seen.pooling) line("pooling", *seen.pooling ? "true" : "false");
    if (seen.smell) line("smell", feed::text(*seen.smell));
    if (seen.ph) line("ph", significant(*seen.ph, kept_digits));
    if (!seen.temperatures.empty()) line("temperature", temperatures_of(seen.temperatures));
    if (seen.air_low) line("air_low", celsius_of(*seen.air_low));
    if (seen.air_high) line("air_high", celsius_of(*seen.air_high));
    if (seen.weight_in) line("weight_in", kilograms_of(*seen.weight_in));
    if (seen.running_total) line("running_total", kilograms_of(*seen.running_total));
}

}  // namespace

std::string_view squeeze_key(Squeeze squeeze) noexcept {
    switch (squeeze) {
        case Squeeze::crumbly:
            return "crumbly";
        case Squeeze::damp:
            return "damp";
        case Squeeze::drops:
            return "drops";
        case Squeeze::many_drops:
            return "many drops";
        case Squeeze::streams:
            return "streams";
        case Squeeze::pooling:
            return "pooling";
    }
    return "";
}

std::string observation_yaml(const Observation& seen, int indent) {
    const std::string blanks(static_cast<std::size_t>(indent < 0 ? 0 : indent), ' ');
    std::string text = blanks + "- date: " + feed::text(seen.date) + "\n";
    const auto line = [&](std::string_view key, std::string_view value) {
        text += blanks + "  " + std::string(key) + ": " + std::string(value) + "\n";
    };
    const auto words = [&](std::string_view key, const std::string& value) {
        if (!value.empty()) line(key, yaml_text(value));
    };
    words("by", seen.by);
    if (seen.of_feeding) line("of_feeding", feed::text(*seen.of_feeding));
    if (seen.left) line("left", kilograms_of(*seen.left));
    if (seen.share_gone) line("share_gone", percent_of(*seen.share_gone));
    if (seen.gone != FoodGone::unsaid) line("gone", seen.gone == FoodGone::yes ? "true" : "false");
    if (!seen.plots.empty()) {
        text += blanks + "  plots:\n";
        for (const std::string& look : plot_texts(seen.plots))
            text += blanks + "    - " + yaml_text(look) + "\n";
    }
    signs_and_readings(seen, line);
    words("bedding", seen.bedding);
    words("pests", seen.pests);
    words("action", seen.action);
    words("note", seen.note);
    return text;
}

}  // namespace feed::io
