#include "feed/io/measure_text.hpp"

#include <cmath>

#include "feed/feedstock/amount_mass.hpp"
#include "feed/quantity/amount_words.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/quantity/pinch.hpp"

namespace feed::io {
namespace {

std::string plural(const std::string& unit) {
    const auto ends = [&](std::string_view tail) {
        return unit.size() >= tail.size() &&
               std::string_view(unit).substr(unit.size() - tail.size()) == tail;
    };
    if (ends("leaf")) return unit.substr(0, unit.size() - 1) + "ves";
    if (ends("ch") || ends("sh") || ends("s") || ends("x")) return unit + "es";
    return unit + "s";
}

/// A count as a keeper measures it: the plainest of whole, halves, quarters, thirds and eighths
/// that is within a twentieth (common practice), otherwise nothing: nobody measures 0.41 of a cup.
std::optional<std::string> count_text(double count, const std::string& unit) {
    static constexpr double near = 0.05;
    for (const int steps : {1, 2, 4, 3, 8}) {
        const double parts = std::floor(count * steps + 0.5);
        if (parts < 1.0 || std::abs(parts / steps - count) > near * count) continue;
        if (steps == 8 && count > 1.0) break;
        const double whole = std::floor(parts / steps);
        const double rest = parts - whole * steps;
        std::string text = whole > 0.0 ? significant(whole, 9) : "";
        if (rest > 0.0) {
            if (!text.empty()) text += ' ';
            text += significant(rest, 1) + "/" + significant(steps, 1);
        }
        return text + " " + (parts > steps ? plural(unit) : unit);
    }
    if (count > 9.5) return significant(count, 2) + " " + plural(unit);
    return std::nullopt;
}

bool is_symbol(const std::string& unit) {
    for (const auto* symbol : {"L", "ml", "cl", "dl", "m3", "ft3", "yd3"}) {
        if (unit == symbol) return true;
    }
    return false;
}

/// The amount in the keeper's own unit, or nothing where it was a weight.
std::optional<std::string> in_given_unit(WetMass wet_mass, const Feedstock& feedstock,
                                         const Amount& given) {
    if (given.kind == AmountKind::mass || given.count <= 0.0) return std::nullopt;
    const auto mass = wet_mass_of(given, feedstock);
    if (!mass || mass->wet_mass.in_kilograms() <= 0.0) return std::nullopt;
    const double count = given.count * (wet_mass.in_kilograms() / mass->wet_mass.in_kilograms());
    constexpr double least_shown_in_litres = 0.995;  // a hundredth of a litre nobody measures
    if (given.unit == "L" && count < least_shown_in_litres)
        return significant(1000.0 * count, 2) + " ml";
    if (is_symbol(given.unit)) return significant(count, 2) + " " + given.unit;
    // Nobody measures a hundredth of a bucket.
    constexpr double least_share = 0.1;
    if (count < least_share) return std::nullopt;
    return count_text(count, given.unit);
}

/// What is bought by the piece is counted, not poured: up to twenty pieces, from a quarter of one.
/// Bedding is torn up and poured: "a piece of newspaper" is a scrap of it to most people.
std::optional<std::string> in_pieces(WetMass wet_mass, const Feedstock& feedstock) {
    if (part_of(feedstock) == Part::bedding) return std::nullopt;
    const MeasuredMass* piece = detail::measured(feedstock, Measure::piece);
    if (piece == nullptr || !(piece->wet_mass.in_kilograms() > 0.0)) return std::nullopt;
    const double count = wet_mass.in_kilograms() / piece->wet_mass.in_kilograms();
    if (count < 0.25 || count > 20.0) return std::nullopt;
    return count_text(count, std::string(text(Measure::piece)));
}

/// A measure as it is printed, and whether it was counted ("2 pieces"), poured or only weighed.
struct PrintedMeasure {
    enum class Kind { counted, poured, weighed };
    std::string text;
    Kind kind = Kind::weighed;
};

PrintedMeasure printed_measure(WetMass wet_mass, const Feedstock& feedstock,
                               const std::optional<Amount>& as_given, UnitSystem units) {
    using Kind = PrintedMeasure::Kind;
    PrintedMeasure weighed{mass_text(wet_mass.mass(), units), Kind::weighed};
    if (as_given) {
        const bool poured = as_given->kind == AmountKind::volume && is_symbol(as_given->unit);
        if (auto text = in_given_unit(wet_mass, feedstock, *as_given))
            return {*std::move(text), poured ? Kind::poured : Kind::counted};
        if (!poured) return weighed;
    } else if (auto pieces = in_pieces(wet_mass, feedstock)) {
        return {*std::move(pieces), Kind::counted};
    }
    const auto& density = feedstock[Property::bulk_density_loose];
    if (!density) return weighed;
    const Volume volume = cubic_metres(wet_mass.in_kilograms() / density->value);
    return {volume_text(volume, units), Kind::poured};
}

}  // namespace

std::string measure_text(WetMass wet_mass, const Feedstock& feedstock,
                         const std::optional<Amount>& as_given, UnitSystem units) {
    return printed_measure(wet_mass, feedstock, as_given, units).text;
}

std::string measure_and_weight_text(WetMass wet_mass, const Feedstock& feedstock,
                                    const std::optional<Amount>& as_given, UnitSystem units) {
    using Kind = PrintedMeasure::Kind;
    const double kg = wet_mass.in_kilograms();
    const PrintedMeasure measure = printed_measure(wet_mass, feedstock, as_given, units);
    const bool counted = measure.kind == Kind::counted;
    if (pinch::holds(kg) && !counted && !feedstock.has(Role::water))
        return words::pinch_or_mass(kg, units);
    const bool weight_says_nothing =
        measure.kind == Kind::weighed || kg < words::scale_step_kg(units);
    if (weight_says_nothing) return measure.text;
    return measure.text + ", about " + mass_text(wet_mass.mass(), units);
}

}  // namespace feed::io
