#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "feed/feedstock/amount.hpp"
#include "feed/feedstock/amount_units.hpp"
#include "feed/feedstock/feedstock.hpp"
#include "feed/quantity/number_print.hpp"

namespace feed {

/// The wet mass an amount stands for, and how it was found.
struct MassFromAmount {
    WetMass wet_mass;
    std::string how;  ///< "3 L at 94 kg/m3, loose"; empty when the amount was a weight
    Grade grade = Grade::a;
    WetMass low;   ///< equal to wet_mass for a weight
    WetMass high;  ///< equal to wet_mass for a weight

    /// The ends as shares of wet_mass.
    double low_share() const noexcept { return low.in_kilograms() / wet_mass.in_kilograms(); }
    double high_share() const noexcept { return high.in_kilograms() / wet_mass.in_kilograms(); }
};

/// Volume of a handful where the feedstock has none of its own: 0.12 L, 0.06 to 0.25 L. A judgement
/// (grade D), the middle of the handfuls of paper, leaves, shavings and grit in the table.
inline constexpr double default_handful_litres = 0.12;
inline constexpr double default_handful_litres_low = 0.06;
inline constexpr double default_handful_litres_high = 0.25;

/// What a small and a large piece weigh where only the medium one is known, as shares of it: the
/// middle of the fruits that have all three in the table (grade D).
inline constexpr double small_piece_share = 0.8;
inline constexpr double large_piece_share = 1.4;

namespace detail {

inline const MeasuredMass* measured(const Feedstock& feedstock, Measure measure) {
    for (const auto& entry : feedstock.measures) {
        if (entry.measure == measure) return &entry;
    }
    return nullptr;
}

inline std::string weight_text(WetMass mass) {
    const double kilograms = mass.in_kilograms();
    return kilograms < 1.0 ? significant(kilograms * 1000.0, 2) + " g"
                           : significant(kilograms, 2) + " kg";
}

inline MassFromAmount from_measured(const MeasuredMass& entry, double count) {
    MassFromAmount answer;
    answer.wet_mass = count * entry.wet_mass;
    answer.low = entry.low_factor * answer.wet_mass;
    answer.high = entry.high_factor * answer.wet_mass;
    answer.grade = entry.grade;
    std::string measure(text(entry.measure));
    if (entry.measure == Measure::leaf && count > 1.0) measure = "leave";
    if (count > 1.0) measure += entry.measure == Measure::bunch ? "es" : "s";
    answer.how =
        significant(count, 3) + " " + measure + " at " + weight_text(entry.wet_mass) + " each";
    return answer;
}

inline MassFromAmount from_volume(const Datum& density, double litres_typical, double litres_low,
                                  double litres_high) {
    MassFromAmount answer;
    answer.wet_mass = wet_kilograms(litres_typical / 1000.0 * density.value);
    answer.low = wet_kilograms(litres_low / 1000.0 * density.low);
    answer.high = wet_kilograms(litres_high / 1000.0 * density.high);
    answer.grade = density.grade;
    answer.how =
        significant(litres_typical, 3) + " L at " + significant(density.value, 3) + " kg/m3, loose";
    return answer;
}

/// The measures a feedstock can be counted in, for errors: "cup, handful, piece (about 180 g)".
inline std::string measures_text(const Feedstock& feedstock) {
    std::string list = "a weight (kg, g, lb, oz)";
    if (feedstock[Property::bulk_density_loose]) list += ", a volume (L, gallon, cup ...), handful";
    for (const auto& entry : feedstock.measures)
        list += ", " + std::string(text(entry.measure)) + " (about " + weight_text(entry.wet_mass) +
                ")";
    return list;
}

/// The words of an amount, as short as they were written.
inline std::string amount_text(const Amount& amount) {
    return significant(amount.count, 6) + (amount.unit.empty() ? "" : " " + amount.unit);
}

inline Error no_mass(const Amount& amount, const Feedstock& feedstock, const std::string& what) {
    return offered(
        make_error(ErrorCode::missing_value, "amount of " + feedstock.name, amount_text(amount),
                   measures_text(feedstock), what + " of " + feedstock.name + " is not known"),
        "; write for instance ", {"500 g " + feedstock.name});
}

/// What one is when people count it ("a lettuce" is a head, "5 newspapers" sheets), or nothing.
inline std::optional<Measure> counted_measure(const Feedstock& feedstock) {
    for (const auto measure : {Measure::head, Measure::piece, Measure::sheet, Measure::slice,
                               Measure::stalk, Measure::leaf, Measure::bunch}) {
        if (measured(feedstock, measure) != nullptr) return measure;
    }
    return std::nullopt;
}

/// What a vessel or pack usually holds of one feedstock by its weight, in grams, or null: a packet
/// of crisps is small, a box of crackers no box of ten litres (`held` in data/names/en.yaml).
inline const table::NumberWord* usually_held(std::string_view unit, const Feedstock& feedstock) {
    std::string key(unit);
    key += ' ';
    key += feedstock.id;
    return number_of(table::en::held_grams, key);
}

inline std::string held_text(std::string_view unit, const Feedstock& feedstock, double kilograms,
                             double low, double high) {
    const bool vowel = std::string_view("aeiou").find(unit.front()) != std::string_view::npos;
    std::string said = vowel ? "an " : "a ";
    said += unit;
    return said + " of " + feedstock.name + " is taken as " +
           weight_text(wet_kilograms(kilograms)) + " (" +
           weight_text(wet_kilograms(low * kilograms)) + " to " +
           weight_text(wet_kilograms(high * kilograms)) + ")";
}

/// A vessel, bag or pack of a feedstock that it holds a known weight of. Nothing where the amount
/// is anything else.
inline std::optional<Amount> own_pack(const Amount& amount, const Feedstock& feedstock) {
    if (amount.kind == AmountKind::measure) return std::nullopt;
    const AmountUnit* unit = unit_named(amount.unit);
    if (unit == nullptr || !unit->is_vessel()) return std::nullopt;
    const auto* held = usually_held(unit->name, feedstock);
    const auto* own = amount.measure == Measure::bag ? measured(feedstock, Measure::bag) : nullptr;
    if (held == nullptr && own == nullptr) return std::nullopt;
    Amount one = amount;
    if (held != nullptr) {
        one.kind = AmountKind::mass;
        one.mass = kilograms(0.001 * held->value * amount.count);
        one.low_share *= held->low / held->value;
        one.high_share *= held->high / held->value;
        one.said = held_text(unit->name, feedstock, 0.001 * held->value, held->low / held->value,
                             held->high / held->value);
    } else {
        one.kind = AmountKind::measure;
        one.mass = kilograms(0.0);
        one.unit = text(Measure::bag);
        one.said = held_text(one.unit, feedstock, own->wet_mass.in_kilograms(), own->low_factor,
                             own->high_factor);
    }
    // What was read so already stays.
    if (one.said == amount.said) return std::nullopt;
    // The range is that of this pack, not of any.
    one.low_share /= unit->low;
    one.high_share /= unit->high;
    one.volume = litres(0.0);
    return one;
}

/// The mass in a measure; a head that nobody weighed is sold as a bunch (broccoli) or as a piece
/// (fennel).
inline const MeasuredMass* measured_as(const Feedstock& feedstock, Measure measure) {
    const auto* own = measured(feedstock, measure);
    if (measure != Measure::head) return own;
    if (own == nullptr) own = measured(feedstock, Measure::bunch);
    return own != nullptr ? own : measured(feedstock, Measure::piece);
}

/// A small or large piece where only the medium one, or a head, was weighed.
inline std::optional<MassFromAmount> from_sized_piece(const Amount& amount,
                                                      const Feedstock& feedstock) {
    const bool small = amount.measure == Measure::piece_small;
    if (!small && amount.measure != Measure::piece_large) return std::nullopt;
    const auto* medium = measured(feedstock, Measure::piece);
    if (medium == nullptr) medium = measured(feedstock, Measure::head);
    if (medium == nullptr) return std::nullopt;
    auto answer =
        from_measured(*medium, amount.count * (small ? small_piece_share : large_piece_share));
    answer.grade = Grade::d;
    return answer;
}

/// The wet mass of an amount as if it were one number, without the range of what was said.
inline Result<MassFromAmount> mass_of_measure(const Amount& amount, const Feedstock& feedstock) {
    if (amount.kind == AmountKind::mass) {
        const WetMass mass{amount.mass};
        return MassFromAmount{mass, "", Grade::a, mass, mass};
    }
    const auto& density = feedstock[Property::bulk_density_loose];
    const double volume = in_litres(amount.volume);
    if (amount.kind == AmountKind::measure) {
        // The weighed cups and spoons of food tables are US ones; others go by volume.
        constexpr double cup_litres = litres_per_us_gallon / 16.0;
        const auto* own = measured_as(feedstock, amount.measure);
        if (own == nullptr)
            if (auto sized = from_sized_piece(amount, feedstock)) return *std::move(sized);
        if (own != nullptr && volume == 0.0) return from_measured(*own, amount.count);
        if (own != nullptr) {
            const double one = amount.measure == Measure::cup          ? cup_litres
                               : amount.measure == Measure::tablespoon ? cup_litres / 16.0
                                                                       : cup_litres / 48.0;
            return from_measured(*own, volume / one);
        }
        if (const auto* cup = measured(feedstock, Measure::cup); cup != nullptr && volume > 0.0)
            return from_measured(*cup, volume / cup_litres);
        if (amount.measure == Measure::handful && density) {
            auto answer = from_volume(*density, amount.count * default_handful_litres,
                                      amount.count * default_handful_litres_low,
                                      amount.count * default_handful_litres_high);
            answer.grade = Grade::d;
            answer.how = significant(amount.count, 3) + " handful of " +
                         significant(default_handful_litres, 2) + " L at " +
                         significant(density->value, 3) + " kg/m3, loose";
            return answer;
        }
        if (volume == 0.0)
            return no_mass(amount, feedstock,
                           "the weight of a " + std::string(text(amount.measure)));
    }
    constexpr double litres_a_cup = litres_per_us_gallon / 16.0;
    const auto* cup = measured(feedstock, Measure::cup);
    if (!density && cup != nullptr) return from_measured(*cup, volume / litres_a_cup);
    if (!density) return no_mass(amount, feedstock, "the bulk density");
    return from_volume(*density, volume, volume, volume);
}

/// What is never fed is taken out whatever it weighs; where the table knows no weight for it, this
/// is taken: a litre a kilogram, a piece 0.1 kg, both within a factor of ten (grade D).
inline MassFromAmount mass_of_barred(const Amount& amount) {
    const double litres = in_litres(amount.volume);
    const double kilograms = litres > 0.0 ? litres : 0.1 * amount.count;
    MassFromAmount answer;
    answer.wet_mass = wet_kilograms(kilograms);
    answer.low = 0.1 * answer.wet_mass;
    answer.high = 10.0 * answer.wet_mass;
    answer.grade = Grade::d;
    answer.how = "weight not known; it is taken out whatever it weighs";
    return answer;
}

}  // namespace detail

/// The wet mass of an amount of one feedstock. A weight is taken as it is; a household measure by
/// the feedstock's own weighed measure; a volume through its loose bulk density; a bare count by
/// what people count of it (head, piece, sheet ...). Cups and spoons prefer the feedstock's own cup
/// or spoon; a handful without one counts as `default_handful_litres`. The range holds that of the
/// amount as said. Errors: missing_value, listing the measures that exist. Threads: pure.
inline Result<MassFromAmount> wet_mass_of(const Amount& amount, const Feedstock& feedstock) {
    Amount one = detail::own_pack(amount, feedstock).value_or(amount);
    const auto what_is_counted =
        amount.counted ? detail::counted_measure(feedstock) : std::optional<Measure>();
    if (what_is_counted) {
        one.measure = *what_is_counted;
        one.unit = text(*what_is_counted);
    }
    auto mass = detail::mass_of_measure(one, feedstock);
    if (!mass && feedstock.stance == Stance::avoid) mass = detail::mass_of_barred(amount);
    if (!mass) return mass;
    // A pack or bale is no weight that was weighed.
    if (const auto* unit = detail::unit_named(one.unit);
        one.kind == AmountKind::mass && unit != nullptr && unit->is_vessel())
        mass.value().grade = Grade::d;
    mass.value().low = one.low_share * mass->low;
    mass.value().high = one.high_share * mass->high;
    return mass;
}

}  // namespace feed
