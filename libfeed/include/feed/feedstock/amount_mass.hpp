#pragma once
#include <optional>
#include <string>

#include "feed/feedstock/amount.hpp"
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
};

/// Volume of a handful where the feedstock has none of its own: 0.12 L, 0.06 to 0.25 L. A judgement
/// (grade D), the middle of the handfuls of paper, leaves, shavings and grit in the table.
inline constexpr double default_handful_litres = 0.12;
inline constexpr double default_handful_litres_low = 0.06;
inline constexpr double default_handful_litres_high = 0.25;

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
    answer.how = significant(count, 3) + " " + std::string(text(entry.measure)) + " at " +
                 weight_text(entry.wet_mass) + " each";
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

inline Error no_mass(const Amount& amount, const Feedstock& feedstock, const std::string& what) {
    Error error;
    error.code = ErrorCode::missing_value;
    error.field = "amount of " + feedstock.name;
    error.value = significant(amount.count, 6) + " " + amount.unit;
    error.allowed = measures_text(feedstock);
    error.message = what + " of " + feedstock.name + " is not known; give " + error.allowed;
    return error;
}

}  // namespace detail

/// The wet mass of an amount of one feedstock. A weight is taken as it is; a household measure by
/// the feedstock's own weighed measure; a volume through its loose bulk density. Cups and spoons
/// prefer the feedstock's own cup or spoon; a handful without one counts as
/// `default_handful_litres`. Errors: missing_value, listing the measures that exist.
/// Threads: pure.
inline Result<MassFromAmount> wet_mass_of(const Amount& amount, const Feedstock& feedstock) {
    if (amount.kind == AmountKind::mass) {
        const WetMass mass{amount.mass};
        return MassFromAmount{mass, "", Grade::a, mass, mass};
    }
    const auto& density = feedstock[Property::bulk_density_loose];
    const double volume = in_litres(amount.volume);
    if (amount.kind == AmountKind::measure) {
        // The weighed cups and spoons of food tables are US ones; others go by volume.
        constexpr double cup_litres = litres_per_us_gallon / 16.0;
        const auto* own = detail::measured(feedstock, amount.measure);
        if (own != nullptr && volume == 0.0) return detail::from_measured(*own, amount.count);
        if (own != nullptr) {
            const double one = amount.measure == Measure::cup          ? cup_litres
                               : amount.measure == Measure::tablespoon ? cup_litres / 16.0
                                                                       : cup_litres / 48.0;
            return detail::from_measured(*own, volume / one);
        }
        if (const auto* cup = detail::measured(feedstock, Measure::cup);
            cup != nullptr && volume > 0.0)
            return detail::from_measured(*cup, volume / cup_litres);
        if (amount.measure == Measure::handful && density) {
            auto answer = detail::from_volume(*density, amount.count * default_handful_litres,
                                              amount.count * default_handful_litres_low,
                                              amount.count * default_handful_litres_high);
            answer.grade = Grade::d;
            answer.how = significant(amount.count, 3) + " handful of " +
                         significant(default_handful_litres, 2) + " L at " +
                         significant(density->value, 3) + " kg/m3, loose";
            return answer;
        }
        if (volume == 0.0)
            return detail::no_mass(amount, feedstock,
                                   "the weight of a " + std::string(text(amount.measure)));
    }
    if (!density) return detail::no_mass(amount, feedstock, "the bulk density");
    return detail::from_volume(*density, volume, volume, volume);
}

}  // namespace feed
