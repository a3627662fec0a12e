#include "quantity_lines.hpp"

#include <algorithm>

#include "feed/bed/cautions.hpp"
#include "feed/io/caution_text.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/quantity/number_print.hpp"

namespace feed_command {

using namespace feed;
using io::padded;
using io::UnitSystem;
using io::wrapped;

namespace {

constexpr std::size_t name_columns = 25;
constexpr std::size_t value_columns = 15;
constexpr std::size_t range_columns = 25;

/// A computed quantity as value, range and grade; `show` turns a number into text with its unit.
template <class T, class Show>
std::string estimate_line(std::string_view name, const Estimate<T>& estimate, Show show) {
    if (!estimate.has_value()) return quantity_line(name, "cannot tell", "", "");
    if (!estimate.is_known()) {
        return quantity_line(name, "at least " + show(estimate.value),
                             "known for " + io::percent_text(estimate.covered),
                             how_sure(estimate.grade));
    }
    const auto low = show(estimate.low);
    const auto high = show(estimate.high);
    return quantity_line(name, show(estimate.value), low == high ? "" : low + " to " + high,
                         how_sure(estimate.grade));
}

}  // namespace

std::string datum_text(const PropertyKind& kind, double number, UnitSystem units) {
    if (kind.property == Property::cn_ratio) return significant(number, 2) + ":1";
    if (kind.unit == "kg/m3") return io::density_text(kilograms_per_cubic_metre(number), units);
    if (kind.property == Property::water_holding_capacity_dry)
        return significant(number, 2) + (units == UnitSystem::us ? " lb/lb" : " g/g");
    const bool small = kind.unit == "kg citric/kg" || kind.property == Property::sodium_wet ||
                       kind.property == Property::potassium_wet;
    if (small && units == UnitSystem::metric) return significant(number * 1000.0, 2) + " g/kg";
    if (kind.property == Property::ph) return significant(number, 2);
    if (kind.unit == "dS/m") return significant(number, 2) + " dS/m";
    return io::percent_text(number);
}

std::string quantity_line(std::string_view name, std::string_view value, std::string_view range,
                          std::string_view grade) {
    // A long name stands on a line of its own.
    if (io::columns_of(name) > name_columns)
        return "  " + std::string(name) + "\n" + quantity_line("", value, range, grade);
    auto line = "  " + padded(name, name_columns) + " " + padded(value, value_columns) + " " +
                padded(range, range_columns) + " " + std::string(grade);
    while (line.back() == ' ')
        line.pop_back();
    return line + "\n";
}

std::vector<std::string> caution_lines(std::span<const Portion> portions,
                                       std::span<const std::string> labels) {
    std::vector<std::string> lines;
    for (const CautionFinding& one : cautions_of(portions, labels))
        lines.push_back(one.text);
    for (const Caution caution : {Caution::acidity, Caution::salt}) {
        std::vector<std::string> names;
        std::string_view said;
        for (std::size_t i = 0; i < portions.size(); ++i) {
            const Feedstock& f = *portions[i].feedstock;
            const auto text = io::bed_caution_text(caution, f);
            const std::string name = plain_name(i < labels.size() ? labels[i] : "", f);
            if (text.empty() || std::find(names.begin(), names.end(), name) != names.end())
                continue;
            names.push_back(name);
            said = text;
        }
        if (!names.empty()) lines.push_back(io::joined(names) + ": " + std::string(said) + ".");
    }
    return lines;
}

std::string cautions_text(std::span<const Portion> portions, std::span<const std::string> labels) {
    std::string text;
    for (const std::string& line : caution_lines(portions, labels))
        text += wrapped("- " + line, 2, 4);
    return text.empty() ? text : "\nCautions\n" + text;
}

void add_first(std::span<const TakeOut> take_out, std::span<const Portion> portions,
               std::span<const std::string> labels, std::vector<io::ScreenLine>& lines) {
    constexpr std::size_t most_with_reason = 6;
    for (io::ScreenLine& line : io::take_out_lines(take_out, take_out.size() > most_with_reason, 6))
        lines.push_back(std::move(line));
    for (std::size_t i = 0; i < portions.size(); ++i) {
        const Feedstock& f = *portions[i].feedstock;
        if (f.stance_lifted) lines.push_back({io::lifted_text(labels[i], f), 0});
    }
}

void add_portions(std::span<const std::string> portions, std::vector<io::ScreenLine>& lines) {
    constexpr std::size_t lines_for_portions = 5;
    if (portions.size() <= lines_for_portions) {
        for (const std::string& one : portions)
            lines.push_back({"  " + one, 0});
        return;
    }
    std::string line;
    for (const std::string& one : portions)
        line += (line.empty() ? "  " : " ") + one;
    lines.push_back({line, 0});
}

void add_care(std::span<const Portion> portions, std::span<const std::string> labels,
              std::vector<io::ScreenLine>& lines) {
    // What is never fed is said as such already.
    std::vector<Portion> fed;
    std::vector<std::string> names;
    for (std::size_t i = 0; i < portions.size(); ++i) {
        if (portions[i].feedstock->stance == Stance::avoid) continue;
        fed.push_back(portions[i]);
        names.push_back(labels[i]);
    }
    for (const CautionFinding& one : cautions_of(fed, names)) {
        if (hurts_people(one.caution)) lines.push_back({"Take care: " + one.text, 0});
    }
}

std::string assumed_text(std::span<const Assumption> assumed, UnitSystem units,
                         std::span<const Portion> portions, std::span<const std::string> labels) {
    if (assumed.empty()) return "";
    std::string text = "\nAssumed\n";
    for (const auto& one : assumed) {
        std::string line = one.text;
        for (std::size_t i = 0; i < labels.size() && !one.of_words; ++i) {
            const Feedstock& feedstock = *portions[i].feedstock;
            if (const auto at = line.find(feedstock.name); at != std::string::npos)
                line.replace(at, feedstock.name.size(), plain_name(labels[i], feedstock));
        }
        text += wrapped("- " + words::fixed_text(line, units), 2, 4);
    }
    return text;
}

std::string properties_text(const BlendProperties& blend, UnitSystem units) {
    const auto mass = [&](Mass m) { return io::mass_text(m, units); };
    const auto ratio = [](double number) { return significant(number, 2) + ":1"; };
    const auto share = [](double number) { return io::percent_text(number); };
    std::string text = quantity_line("", "typical", "range", "how sure");
    text += estimate_line("moisture, wet basis", blend.moisture,
                          [](Moisture m) { return io::percent_text(m.value()); });
    text += estimate_line("C:N, total", blend.cn_ratio, ratio);
    text += estimate_line("C:N, available carbon", blend.available_cn_ratio, ratio);
    text += estimate_line("dry mass", blend.dry_mass, mass);
    text += estimate_line("water", blend.water, mass);
    text += estimate_line("volume, loose", blend.volume,
                          [&](Volume v) { return io::volume_text(v, units); });
    text += estimate_line("bulk density", blend.bulk_density,
                          [&](Density d) { return io::density_text(d, units); });
    text += estimate_line("free air space", blend.free_air_space, share);
    text += estimate_line("acid, as citric", blend.acid, mass);
    text += estimate_line("salt", blend.salt, mass);
    text += estimate_line("potassium", blend.potassium, mass);
    text += estimate_line("fat", blend.fat, mass);
    text += estimate_line("volatile solids", blend.volatile_solids, mass);
    text += estimate_line("lime, as CaCO3", blend.neutralising, mass);
    return text +
           wrapped("C:N is carbon to nitrogen by mass, not parts of browns to greens.", 2, 2);
}

std::string_view how_sure(Grade grade) noexcept {
    switch (grade) {
        case Grade::a:
            return "read";
        case Grade::b:
            return "worked out";
        case Grade::c:
            return "recalled";
        case Grade::d:
            return "judged";
    }
    return "";
}

Grade worst_grade(const BlendProperties& blend) {
    Grade grade = Grade::a;
    const auto lean = [&](const auto& estimate) {
        if (estimate.has_value()) grade = worst(grade, estimate.grade);
    };
    lean(blend.moisture);
    lean(blend.cn_ratio);
    lean(blend.volume);
    lean(blend.acid);
    lean(blend.salt);
    lean(blend.fat);
    return grade;
}

std::string grade_text(Grade grade) {
    switch (grade) {
        case Grade::a:
            return "How sure: every number was read in its source.";
        case Grade::b:
            return "How sure: some numbers are worked out from read ones.";
        case Grade::c:
            return "How sure: some numbers are from memory, or worked out from such.";
        case Grade::d:
            return "How sure: some numbers are our own judgement, such as a usual range.";
    }
    return "";
}

}  // namespace feed_command
