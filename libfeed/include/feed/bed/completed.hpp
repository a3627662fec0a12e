#pragma once
#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "feed/bed/bed.hpp"
#include "feed/bed/limits.hpp"
#include "feed/bed/load.hpp"
#include "feed/bed/ranged.hpp"
#include "feed/bed/usual_bed.hpp"
#include "feed/blend/blend_properties.hpp"
#include "feed/blend/contribution.hpp"
#include "feed/quantity/amount_words.hpp"
#include "feed/quantity/estimate.hpp"
#include "feed/quantity/number_print.hpp"

namespace feed {

/// A bed with nothing left out. Every number that the keeper did not give is assumed, and `assumed`
/// says so.
struct CompletedBed {
    InsideSize inside;
    Area surface = square_metres(0);
    Length depth_of_contents = metres(0);
    Volume contents = litres(0);
    Volume free_room = litres(0);  ///< what the container still holds above the contents
    Drainage drainage = Drainage::none;
    Lid lid = Lid::loose;
    Ventilation ventilation = Ventilation::holes;
    Species species = Species::eisenia_fetida;
    bool worms_given = true;  ///< their weight or number; else they are assumed by the bed's volume
    Estimate<WetMass> worms;
    Temperature temperature = celsius(0);       ///< the middle of what was said
    Temperature temperature_low = celsius(0);   ///< the coldest
    Temperature temperature_high = celsius(0);  ///< the warmest
    bool temperature_given = false;
    Estimate<DryMass> dry_mass;
    Estimate<Mass> water;
    Estimate<Mass> water_capacity;  ///< held after free drainage
    Estimate<Moisture> moisture;
    /// Water over capacity; where the squeeze test gave it, water and capacity move together.
    Estimate<double> saturation;
    bool water_from_saturation = false;
    Estimate<Mass> salt;       ///< NaCl, without the earlier feedings of the diary
    Mass lime = kilograms(0);  ///< CaCO3
    std::optional<double> ph;
    Duration age = days(0);
    bool age_given = false;
    std::vector<Assumption> assumed;
};

/// Evaporation from the surface, kg/m2 and day, by lid and ventilation.
constexpr const Factor& evaporation_of(Lid lid, Ventilation ventilation) noexcept {
    if (ventilation == Ventilation::open_top || lid == Lid::none)
        return limits::evaporation_open_top;
    if (ventilation == Ventilation::closed && lid == Lid::tight) return limits::evaporation_closed;
    return limits::evaporation_holes;
}

namespace detail {

inline void assume(CompletedBed& bed, std::string text, Grade grade = Grade::d) {
    bed.assumed.push_back({std::move(text), grade});
}

/// What bedding that went in since the description brings.
struct AddedToBed {
    Load all;
    Load unseen;  ///< the part of it after the last look at the bed's wetness
};
inline AddedToBed added_to(const Bed& said) noexcept {
    AddedToBed sum;
    for (const AddedBedding& one : said.added) {
        const Load load =
            load_of(*one.portion.feedstock, one.portion.wet_mass.in_kilograms(), DecayedShares{});
        sum.all.add(load, 1.0);
        if (!one.seen) sum.unseen.add(load, 1.0);
    }
    return sum;
}

/// Contents after what was added and taken out, m3; never nothing, never more than fits.
/// @param most_m3  what the container holds.
inline double contents_now(const Bed& said, double described_m3, double most_m3) noexcept {
    if (said.share_kept == 1.0 && said.added.empty()) return described_m3;
    constexpr double least_left = 0.05;
    const double now = said.share_kept * described_m3 + added_to(said).all.settled_m3;
    return std::clamp(now, least_left * described_m3, std::max(described_m3, most_m3));
}

inline void complete_container(const Bed& said, UnitSystem units, CompletedBed& bed) {
    const auto kind = static_cast<std::size_t>(said.container.kind);
    const UsualContainer& usual_size = usual_containers[kind];
    const std::string name(usual_size.name);
    bed.inside = {metres(usual_size.length_m), metres(usual_size.width_m),
                  metres(usual_size.depth_m)};
    if (said.container.inside) {
        bed.inside = *said.container.inside;
    } else if (said.container.volume) {
        const double usual_m3 = usual_size.length_m * usual_size.width_m * usual_size.depth_m;
        const double k = std::cbrt(said.container.volume->value() / usual_m3);
        bed.inside = {metres(k * usual_size.length_m), metres(k * usual_size.width_m),
                      metres(k * usual_size.depth_m)};
        assume(bed, "The " + name + " has the usual shape of its volume: " +
                        words::sides({in_metres(bed.inside.length), in_metres(bed.inside.width)},
                                     units) +
                        ".");
    } else {
        assume(bed, "The " + name + " is of a usual size inside: " +
                        words::sides({usual_size.length_m, usual_size.width_m, usual_size.depth_m},
                                     units) +
                        ".");
    }
    bed.surface = bed.inside.length * bed.inside.width;
    bed.drainage = said.drainage.value_or(usual_size.drainage);
    if (!said.drainage) {
        constexpr std::string_view words[] = {"drains freely", "has a tap", "has no drainage"};
        assume(bed, "The " + name + " " +
                        std::string(words[static_cast<std::size_t>(usual_size.drainage)]) + ".");
    }
    bed.lid = said.lid.value_or(Lid::loose);
    bed.ventilation = said.ventilation.value_or(bed.lid == Lid::none ? Ventilation::open_top
                                                                     : Ventilation::holes);
    if (!said.lid && !said.ventilation) assume(bed, "A loose lid with air holes lies on the bed.");
    const double volume_limit = in_metres(bed.inside.depth);
    const double depth = said.depth_of_contents ? in_metres(*said.depth_of_contents)
                                                : std::min(usual::filled_share.value * volume_limit,
                                                           usual::deepest_contents_m);
    const double stacked = std::max(1, said.container.stacked);
    const double area = stacked * in_square_metres(bed.surface);
    const double now = contents_now(said, area * depth, area * volume_limit) / area;
    bed.depth_of_contents = metres(now);
    bed.contents = cubic_metres(area * now);
    bed.free_room = bed.surface * metres(std::max(0.0, volume_limit - now));
}

inline void complete_worms(const Bed& said, UnitSystem units, CompletedBed& bed) {
    bed.species = said.species.value_or(Species::eisenia_fetida);
    if (!said.species) assume(bed, "The worms are Eisenia fetida or andrei, the usual red worms.");
    Ranged worm_kg;
    const Ranged parcel =
        said.worms.known == WormsKnown::as_bought ? Ranged(usual::bought_share) : Ranged(1.0);
    if (said.worms.wet_mass) {
        worm_kg = (said.worms_kept * said.worms.wet_mass->in_kilograms()) *
                  (parcel * Ranged(usual::scale_error));
        if (said.worms.known == WormsKnown::as_bought)
            assume(bed,
                   "Of the worms as bought about three quarters of the weight is living worm.");
    } else if (said.worms.count) {
        const Factor& each = usual::worm_grams[static_cast<std::size_t>(bed.species)];
        worm_kg = (said.worms_kept * *said.worms.count / 1000.0) * (parcel * Ranged(each));
        assume(bed, "A worm of mixed age weighs about " + words::mass(each.value / 1000.0, units) +
                        " (" + words::mass(each.low / 1000.0, units) + " to " +
                        words::mass(each.high / 1000.0, units) + ").");
    } else {
        bed.worms_given = false;
        worm_kg = bed.contents.value() * Ranged(usual::worms_by_volume);
        assume(bed, "Nothing is said of the worms: about " + words::mass(worm_kg.value, units) +
                        ", the low stocking of a quarter pound a cubic foot.");
    }
    bed.worms = estimate_of(worm_kg, wet_kilograms, Grade::d);
    if (said.worms.wet_mass && said.worms.known == WormsKnown::weighed) bed.worms.grade = Grade::a;
}

inline void complete_temperature(const Bed& said, UnitSystem units, CompletedBed& bed) {
    bed.temperature_given = true;
    if (const auto* one = std::get_if<Temperature>(&said.temperature)) {
        bed.temperature = bed.temperature_low = bed.temperature_high = *one;
        return;
    }
    if (const auto* range = std::get_if<TemperatureRange>(&said.temperature)) {
        bed.temperature_low = range->low;
        bed.temperature_high = range->high;
        bed.temperature = kelvin(0.5 * (in_kelvin(range->low) + in_kelvin(range->high)));
        return;
    }
    if (const auto* daily = std::get_if<DailyTemperatures>(&said.temperature);
        daily != nullptr && !daily->empty()) {
        double sum = 0.0;
        double low = in_kelvin(daily->front());
        double high = low;
        for (const Temperature& t : *daily) {
            sum += in_kelvin(t);
            low = std::min(low, in_kelvin(t));
            high = std::max(high, in_kelvin(t));
        }
        bed.temperature = kelvin(sum / static_cast<double>(daily->size()));
        bed.temperature_low = kelvin(low);
        bed.temperature_high = kelvin(high);
        return;
    }
    bed.temperature_given = false;
    bed.temperature = celsius(usual::room_celsius);
    bed.temperature_low = celsius(usual::room_celsius_low);
    bed.temperature_high = celsius(usual::room_celsius_high);
    assume(bed, words::fixed_text("The bed is at room temperature, 16 to 24 C.", units));
}

/// Dry bulk density of the bed by its age: bedding settles and turns into castings.
inline Ranged dry_density_at(Duration age) {
    const double t = std::clamp(in_days(age) / usual::settling_days.value, 0.0, 1.0);
    return (1.0 - t) * Ranged(usual::dry_density_new) + t * Ranged(usual::dry_density_settled);
}

/// Of the water given since the bed's wetness was seen what it can still hold, kg; the rest drains
/// or stands, which the next look tells.
inline double water_taken_up(const Bed& said, const Ranged& water_kg,
                             const Ranged& capacity_kg) noexcept {
    return std::clamp(in_kilograms(said.water_added), 0.0,
                      std::max(0.0, capacity_kg.value - water_kg.value));
}

/// Water, its share of what the bed holds, and moisture, with the water and bedding that went in
/// since they were seen.
/// @param dry_kg       with the bedding.
/// @param capacity_kg  with the bedding.
/// @param water_kg     as seen; what came since is added.
/// @param unseen       the bedding.
inline void complete_wetness(const Bed& said, const Ranged& dry_kg, const Ranged& capacity_kg,
                             const Load& unseen, Ranged& water_kg, Grade grade, CompletedBed& bed) {
    water_kg += Ranged(unseen.bedding_water_kg.value);
    const double poured_kg = water_taken_up(said, water_kg, capacity_kg);
    const double given_kg = poured_kg + unseen.bedding_water_kg.value;
    water_kg += Ranged(poured_kg);
    bed.water = estimate_of(water_kg, kilograms, grade);
    const auto wetness = [](double water, double dry) {
        return Moisture(water + dry > 0.0 ? water / (water + dry) : 0.0);
    };
    if (given_kg > 0.0 || unseen.dry_kg.value > 0.0) {
        bed.moisture =
            known(wetness(water_kg.value, dry_kg.value), wetness(water_kg.low, dry_kg.high),
                  wetness(water_kg.high, dry_kg.low), Grade::d);
        if (bed.water_from_saturation) {
            const double all_kg = std::max(capacity_kg.value, 1e-9);
            const double seen = std::max(0.0, 1.0 - unseen.capacity_kg.value / all_kg);
            const double more = given_kg / all_kg;
            bed.saturation.value = seen * bed.saturation.value + more;
            bed.saturation.low = seen * bed.saturation.low + more;
            bed.saturation.high = seen * bed.saturation.high + more;
        }
    } else if (said.moisture) {
        bed.moisture = known(*said.moisture, *said.moisture, *said.moisture, Grade::a);
    } else if (bed.water_from_saturation && !said.bedding.empty()) {
        bed.moisture =
            known(wetness(water_kg.value, dry_kg.value), wetness(water_kg.low, dry_kg.low),
                  wetness(water_kg.high, dry_kg.high), grade);
    } else if (bed.water_from_saturation) {
        const Ranged per_dry =
            Ranged(usual::bed_capacity) *
            Ranged(bed.saturation.value, bed.saturation.low, bed.saturation.high);
        bed.moisture = estimate_of(per_dry, moisture_from_dry_basis, grade);
    } else {
        bed.moisture =
            known(wetness(water_kg.value, dry_kg.value), wetness(water_kg.low, dry_kg.high),
                  wetness(water_kg.high, dry_kg.low), grade);
    }
    if (!bed.water_from_saturation) {
        const double most = std::max(capacity_kg.value, 1e-9);
        bed.saturation =
            known(water_kg.value / most, water_kg.low / std::max(capacity_kg.high, 1e-9),
                  water_kg.high / std::max(capacity_kg.low, 1e-9), grade);
    }
}

/// @param wet_kg  of what is left of the contents as described.
/// @param added   bedding since then.
inline void complete_salt(const Bed& said, const Ranged& wet_kg, const Load& added,
                          CompletedBed& bed) {
    Ranged salt_kg;
    bool salt_known = !said.bedding.empty();
    for (const Portion& portion : said.bedding) {
        const auto& sodium = (*portion.feedstock)[Property::sodium_wet];
        salt_known = salt_known && sodium.has_value();
        if (sodium)
            salt_kg += (said.share_kept * portion.wet_mass.in_kilograms() *
                        assumed::salt_of_sodium.value) *
                       Ranged(*sodium);
    }
    if (!salt_known) {
        salt_kg = wet_kg * Ranged(limits::bed_salt);
        assume(bed, "The bed holds about 0.05 % salt (0.02 to 0.15 %) before the feedings listed.");
    }
    salt_kg = said.salt_kept * salt_kg + added.salt_kg;
    bed.salt = estimate_of(salt_kg, kilograms, salt_known ? Grade::b : Grade::d);
}

inline void complete_contents(const Bed& said, UnitSystem units, CompletedBed& bed) {
    const AddedToBed added = added_to(said);
    Ranged dry_kg;
    Ranged capacity_kg;
    Ranged water_kg;
    Grade grade = Grade::b;
    if (said.bedding.empty()) {
        grade = Grade::d;
        constexpr double least_described = 0.05;
        const double described = std::max(bed.contents.value() - added.all.settled_m3,
                                          least_described * bed.contents.value());
        dry_kg = described * dry_density_at(bed.age);
        capacity_kg = dry_kg * Ranged(usual::bed_capacity);
        assume(bed, "The bed weighs " + words::mass(dry_kg.value, units) +
                        " dry and can hold about " + words::mass(capacity_kg.value, units) +
                        " of water, by its volume and age.");
    } else {
        for (const Portion& portion : said.bedding) {
            const Feedstock& f = *portion.feedstock;
            const double wet = portion.wet_mass.in_kilograms();
            const Contribution one = contribution_of(f);
            const Ranged dry = wet * one[Addend::dry_kg];
            dry_kg += dry;
            water_kg += wet * one[Addend::water_kg];
            const auto& holding = f[Property::water_holding_capacity_dry];
            if (one.part == Part::poured_water || one.part == Part::amendment) continue;
            capacity_kg += dry * (holding ? Ranged(*holding) : Ranged(assumed::holding_capacity));
            if (!holding)
                assume(bed, "How much water " + f.name +
                                " holds is not known: 2.5 times its dry weight is taken.");
        }
        if (!said.depth_of_contents) {
            const double by_weight = dry_kg.value / dry_density_at(bed.age).value;
            const double most = in_litres(bed.surface * bed.inside.depth) / 1000.0;
            const double described = std::clamp(by_weight, 1e-6, most);
            bed.contents = cubic_metres(contents_now(said, described, most));
            bed.depth_of_contents = metres(bed.contents.value() / bed.surface.value());
            bed.free_room = cubic_metres(std::max(0.0, most - bed.contents.value()));
        }
    }
    if (!said.bedding.empty()) {
        dry_kg = said.share_kept * dry_kg;
        capacity_kg = said.share_kept * capacity_kg;
        water_kg = said.share_kept * water_kg;
    }
    const double described_share =
        dry_kg.value / std::max(dry_kg.value + added.all.dry_kg.value, 1e-9);
    // Bedding that the last look at the wetness saw is as wet as the rest.
    const auto seen_with = [&](Ranged of_bed, const Ranged& all, const Ranged& unseen) {
        return of_bed + Ranged(all.value - unseen.value);
    };
    dry_kg = seen_with(dry_kg, added.all.dry_kg, added.unseen.dry_kg);
    capacity_kg = seen_with(capacity_kg, added.all.capacity_kg, added.unseen.capacity_kg);
    water_kg = seen_with(water_kg, added.all.bedding_water_kg, added.unseen.bedding_water_kg);
    const Grade contents_grade = grade;
    if (said.moisture) {
        const double ratio = said.moisture->value() / std::max(1e-9, 1.0 - said.moisture->value());
        water_kg = ratio * dry_kg;
    } else if (said.squeeze || said.bedding.empty()) {
        const Squeeze squeeze = said.squeeze.value_or(Squeeze::drops);
        const Factor& share = squeeze_saturation[static_cast<std::size_t>(squeeze)];
        if (!said.squeeze)
            assume(bed, "A handful of the bed gives one or two drops when squeezed.");
        grade = Grade::d;
        bed.water_from_saturation = true;
        bed.saturation = estimate_of(
            Ranged(share), [](double x) { return x; }, Grade::d);
        water_kg = capacity_kg * Ranged(share);
    }
    const Ranged seen_wet_kg = dry_kg + water_kg;
    dry_kg += Ranged(added.unseen.dry_kg.value);
    capacity_kg += Ranged(added.unseen.capacity_kg.value);
    bed.dry_mass = estimate_of(dry_kg, dry_kilograms, contents_grade);
    bed.water_capacity = estimate_of(capacity_kg, kilograms, contents_grade);
    complete_wetness(said, dry_kg, capacity_kg, added.unseen, water_kg, grade, bed);
    complete_salt(said, described_share * seen_wet_kg, added.all, bed);
}

}  // namespace detail

/// Fills in what a keeper left out of a bed and lists each assumption, in a fixed order. Numbers
/// given are taken as they are; ranges are checked where files are read. Threads: pure.
/// @param units  of the sentences; numbers do not depend on it.
/// Linear in the portions of the bedding.
inline CompletedBed completed(const Bed& said, UnitSystem units = UnitSystem::metric) {
    CompletedBed bed;
    detail::complete_container(said, units, bed);
    bed.age_given = said.age.has_value();
    bed.age = said.age.value_or(days(usual::settling_days.value));
    if (!said.age) detail::assume(bed, "The bed is settled, more than three months old.");
    detail::complete_contents(said, units, bed);
    detail::complete_worms(said, units, bed);
    detail::complete_temperature(said, units, bed);
    bed.ph = said.ph;
    bed.lime = said.lime.value_or(kilograms(0));
    if (!said.lime) detail::assume(bed, "No lime or ground shell lies in the bed yet.");
    return bed;
}

}  // namespace feed
