#include "quantity_lines.hpp"

#include <algorithm>

#include "feed/io/caution_text.hpp"
#include "feed/quantity/number_print.hpp"

namespace feed_command {

using namespace feed;
using io::padded;
using io::UnitSystem;
using io::wrapped;

namespace {

constexpr std::size_t name_columns = 27;
constexpr std::size_t value_columns = 17;
constexpr std::size_t range_columns = 25;

/// A computed quantity as value, range and grade; `show` turns a number into text with its unit.
template <class T, class Show>
std::string estimate_line(std::string_view name, const Estimate<T>& estimate, Show show) {
    if (!estimate.has_value()) return quantity_line(name, "cannot tell", "", "");
    if (!estimate.is_known()) {
        return quantity_line(name, "at least " + show(estimate.value),
                             "known for " + io::percent_text(estimate.covered),
                             text(estimate.grade));
    }
    const auto low = show(estimate.low);
    const auto high = show(estimate.high);
    return quantity_line(name, show(estimate.value), low == high ? "" : low + " to " + high,
                         text(estimate.grade));
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

std::string cautions_text(std::span<const Feedstock* const> feedstocks) {
    std::string lines;
    const auto add = [&](Caution caution) {
        std::string names;
        for (const auto* feedstock : feedstocks) {
            if (!feedstock->has(caution) || names.find(feedstock->name) != std::string::npos)
                continue;
            names += (names.empty() ? "" : "; ") + feedstock->name;
        }
        if (!names.empty())
            lines += wrapped("- " + names + ": " + std::string(io::caution_sentence(caution)) + ".",
                             2, 4);
    };
    // Those that can hurt a person first, then the two that concern the bed.
    for (const auto& known : caution_words)
        add(known.caution);
    add(Caution::acidity);
    add(Caution::salt);
    return lines.empty() ? lines : "\nCautions\n" + lines;
}

std::string assumed_text(std::span<const Assumption> assumed, UnitSystem units) {
    if (assumed.empty()) return "";
    std::string text = "\nAssumed\n";
    for (const auto& one : assumed)
        text += wrapped("- " + words::fixed_text(one.text, units), 2, 4);
    return text;
}

std::string properties_text(const BlendProperties& blend, UnitSystem units) {
    const auto mass = [&](Mass m) { return io::mass_text(m, units); };
    const auto ratio = [](double number) { return significant(number, 2) + ":1"; };
    const auto share = [](double number) { return io::percent_text(number); };
    std::string text = quantity_line("", "typical", "range", "grade");
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
            return "Leans on grade A: every number was read in its source.";
        case Grade::b:
            return "Leans on grade B: some numbers are derived from read ones by a named formula.";
        case Grade::c:
            return "Leans on grade C: some numbers are recalled, or derived from recalled ones.";
        case Grade::d:
            return "Leans on grade D: some numbers are judgements, such as a default range.";
    }
    return "";
}

std::string take_out_text(std::span<const TakeOut> take_out) {
    std::string text;
    for (const auto& one : take_out)
        text += wrapped("Take out, never fed: " + one.label + " (" + one.why +
                            "). Instead: " + one.instead + ".",
                        0, 2);
    return text.empty() ? text : text + "\n";
}

std::string lifted_text(std::span<const Feedstock* const> feedstocks) {
    std::string text;
    for (const auto* feedstock : feedstocks) {
        if (feedstock->stance_lifted)
            text +=
                wrapped("Your file feeds " + feedstock->name + ", which is never fed otherwise (" +
                            std::string(why_barred(*feedstock)) + ").",
                        0, 2);
    }
    return text.empty() ? text : text + "\n";
}

}  // namespace feed_command
