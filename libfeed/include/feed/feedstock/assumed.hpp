#pragma once
#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

#include "feed/feedstock/default_range.hpp"
#include "feed/feedstock/feedstock.hpp"
#include "feed/feedstock/part.hpp"
#include "feed/quantity/factor.hpp"
#include "feed/quantity/range.hpp"

// What is taken where nothing is known: each number once, with range, unit, grade and source. All
// verbs take the same.
namespace feed {

namespace assumed {

inline constexpr Factor moisture{
    0.5, 0.05, 0.95, "kg/kg", Grade::d, "moisture of a material without a figure (judgement)"};
inline constexpr Factor liquid_moisture{1.0,     0.9,      1.0,
                                        "kg/kg", Grade::d, "moisture of a liquid (judgement)"};
inline constexpr Factor carbon{
    0.45,        0.41,     0.49,
    "kg/kg dry", Grade::d, "carbon in the dry mass of plant matter and paper (judgement)"};
inline constexpr Factor ash{0.08,        0.02,     0.15,
                            "kg/kg dry", Grade::d, "ash of plant matter and paper (judgement)"};
inline constexpr Factor mineral_ash{1.0,         0.9,      1.0,
                                    "kg/kg dry", Grade::d, "ash of minerals (judgement)"};
/// A material that neutralises at least so much of its own mass is a mineral.
inline constexpr double mineral_neutralising = 0.3;

/// Lignin over volatile solids by decay class, in the order of DecayClass.
inline constexpr std::array<Factor, 5> lignin{{
    {0.00, 0.00, 0.00, "kg/kg", Grade::d, "minerals have none (definition)"},
    {0.02, 0.00, 0.05, "kg/kg", Grade::d, "soft tissue (judgement)"},
    {0.06, 0.02, 0.12, "kg/kg", Grade::d, "roots and peel (judgement)"},
    {0.15, 0.08, 0.22, "kg/kg", Grade::d, "straw and leaves (judgement)"},
    {0.25, 0.18, 0.32, "kg/kg", Grade::d, "wood and shell (judgement)"},
}};

/// Labile, cellulosic and lignin-like share of the volatile solids by decay class, in the order of
/// DecayClass. Ranges as `default_spread` says.
inline constexpr std::array<std::array<double, 3>, 5> pools{{
    {0.0, 0.0, 1.0},     // inert
    {0.78, 0.20, 0.02},  // fast
    {0.55, 0.40, 0.05},  // medium
    {0.17, 0.65, 0.18},  // slow
    {0.04, 0.66, 0.30},  // very slow
}};

/// Loose bulk density, in the order of Part.
inline constexpr std::array<Factor, 4> loose_density{{
    {500.0, 250.0, 700.0, "kg/m3", Grade::d, "chopped scraps (judgement)"},
    {100.0, 40.0, 250.0, "kg/m3", Grade::d, "loose bedding (judgement)"},
    {1000.0, 500.0, 1500.0, "kg/m3", Grade::d, "meal, grit and powder (judgement)"},
    {1000.0, 950.0, 1050.0, "kg/m3", Grade::d, "liquids (judgement)"},
}};
inline constexpr Factor manure_density{600.0,   400.0,    900.0,
                                       "kg/m3", Grade::d, "manures (judgement)"};
/// Settled over loose bulk density, in the order of Part: as in data/properties.yaml.
inline constexpr std::array<Factor, 4> settling{{
    {1.35, 1.1, 1.8, "", Grade::d, "soft wet scraps collapse (judgement)"},
    {1.5, 1.15, 2.2, "", Grade::d, "bedding (judgement)"},
    {1.15, 1.05, 1.3, "", Grade::d, "meal, grit and powder (judgement)"},
    {1.0, 1.0, 1.0, "", Grade::d, "liquids (definition)"},
}};
inline constexpr Factor packing_loss{
    0.15,
    0.05,
    0.25,
    "L/L",
    Grade::d,
    "volume that goes where scraps and bedding meet half and half, because one fills the gaps of "
    "the other (judgement)"};

inline constexpr Factor acid_of_sour{0.008,          0.002,    0.025,
                                     "kg citric/kg", Grade::d, "what is marked acid (judgement)"};
inline constexpr Factor acid_of_scraps{0.002,          0.0,      0.006,
                                       "kg citric/kg", Grade::d, "other scraps (judgement)"};
inline constexpr Factor acid_of_the_rest{
    0.0,      0.0,
    0.0,      "kg citric/kg",
    Grade::d, "bedding, minerals and water without a mark (judgement)"};
/// In the order of Part.
inline constexpr std::array<Factor, 4> sodium{{
    {0.0002, 0.0, 0.002, "kg/kg", Grade::d, "raw plant scraps (judgement)"},
    {0.0005, 0.0, 0.002, "kg/kg", Grade::d, "bedding (judgement)"},
    {0.0005, 0.0, 0.005, "kg/kg", Grade::d, "amendments (judgement)"},
    {0.0, 0.0, 0.0005, "kg/kg", Grade::d, "liquids (judgement)"},
}};
inline constexpr Factor manure_sodium{0.0015,  0.0005,   0.005,
                                      "kg/kg", Grade::d, "manures (judgement)"};
/// In the order of Part.
inline constexpr std::array<Factor, 4> fat{{
    {0.03, 0.0, 0.10, "kg/kg dry", Grade::d, "plant scraps (judgement)"},
    {0.02, 0.0, 0.04, "kg/kg dry", Grade::d, "bedding (judgement)"},
    {0.0, 0.0, 0.03, "kg/kg dry", Grade::d, "amendments (judgement)"},
    {0.0, 0.0, 0.0, "kg/kg dry", Grade::d, "liquids (judgement)"},
}};

inline constexpr Factor holding_capacity{
    2.5,
    1.0,
    4.0,
    "kg/kg dry",
    Grade::d,
    "water-holding capacity of a bedding without a figure: within straw 2.0-3.6 (Ward et al. 2000; "
    "Spiehs et al. 2013) (judgement)"};
inline constexpr Factor usable_capacity{
    0.7,
    0.6,
    0.8,
    "kg/kg",
    Grade::d,
    "plan at 60-80 % of the water-holding capacity; at all of it the pores are full (judgement, "
    "after a recalled figure)"};
inline constexpr Factor aimed_wetness{
    0.65,
    0.60,
    0.70,
    "kg/kg",
    Grade::d,
    "share of its water-holding capacity at which bedding stands well: one or two drops when "
    "squeezed (judgement)"};
inline constexpr Factor water_released{
    0.8,
    0.6,
    0.95,
    "kg/kg",
    Grade::d,
    "share of its own water that a wet scrap sets free as its cells collapse (judgement)"};
/// Moisture from which on a scrap sets free all of that share, and at which it holds all of its
/// water (judgement).
inline constexpr double released_in_full_at = 0.80;
inline constexpr double released_from = 0.60;

inline constexpr Factor water_density{1000.0,  1000.0,   1000.0,
                                      "kg/m3", Grade::b, "water, rounded (definition)"};
inline constexpr Factor organic_density{
    1600.0,
    1000.0,
    1600.0,
    "kg/m3",
    Grade::c,
    "Richard et al. 2004 (recalled); 1000 in Haug 1993, 1421 measured by "
    "McNulty and Kennedy 1982"};
inline constexpr Factor ash_density{2500.0,  2500.0,   2500.0,
                                    "kg/m3", Grade::c, "Richard et al. 2004; Haug 1993 (recalled)"};
inline constexpr Factor salt_of_sodium{2.54,    2.54,     2.54,
                                       "kg/kg", Grade::b, "molar masses 58.44 and 22.99"};

/// An assumed value with the words of the documentation for it.
struct Named {
    std::string_view name;
    const Factor* factor;
};

/// Every assumed value, for tables and tests; a new one belongs in here.
inline constexpr auto all = std::to_array<Named>({
    {"moisture", &moisture},
    {"moisture of a liquid", &liquid_moisture},
    {"carbon", &carbon},
    {"ash", &ash},
    {"ash of a mineral", &mineral_ash},
    {"lignin, inert", &lignin[0]},
    {"lignin, fast", &lignin[1]},
    {"lignin, medium", &lignin[2]},
    {"lignin, slow", &lignin[3]},
    {"lignin, very slow", &lignin[4]},
    {"loose density of scraps", &loose_density[0]},
    {"loose density of bedding", &loose_density[1]},
    {"loose density of an amendment", &loose_density[2]},
    {"loose density of a liquid", &loose_density[3]},
    {"loose density of manure", &manure_density},
    {"settled over loose, scraps", &settling[0]},
    {"settled over loose, bedding", &settling[1]},
    {"settled over loose, amendment", &settling[2]},
    {"settled over loose, liquid", &settling[3]},
    {"packing of scraps and bedding", &packing_loss},
    {"acid of what is sour", &acid_of_sour},
    {"acid of other scraps", &acid_of_scraps},
    {"acid of the rest", &acid_of_the_rest},
    {"sodium of scraps", &sodium[0]},
    {"sodium of bedding", &sodium[1]},
    {"sodium of an amendment", &sodium[2]},
    {"sodium of a liquid", &sodium[3]},
    {"sodium of manure", &manure_sodium},
    {"fat of scraps", &fat[0]},
    {"fat of bedding", &fat[1]},
    {"fat of an amendment", &fat[2]},
    {"fat of a liquid", &fat[3]},
    {"water-holding capacity of bedding", &holding_capacity},
    {"share of capacity planned", &usable_capacity},
    {"share of capacity aimed at", &aimed_wetness},
    {"share of the scraps' water released", &water_released},
    {"density of water", &water_density},
    {"density of organic matter", &organic_density},
    {"density of ash", &ash_density},
    {"salt of sodium", &salt_of_sodium},
});

}  // namespace assumed

/// A property of a feedstock, or what is taken for it.
struct Taken {
    Range range;
    Grade grade = Grade::d;
    bool is_assumed = true;
};

/// Share of its own water that a scrap sets free as it softens: all of `water_released` from 80 %
/// moisture on, falling to none at 60 % (grounds, bread and rice hold theirs); linear, grade D.
/// @param moisture  wet basis, 0 to 1.
constexpr Range released_share(double moisture) noexcept {
    const double part = std::clamp((moisture - assumed::released_from) /
                                       (assumed::released_in_full_at - assumed::released_from),
                                   0.0, 1.0);
    return part * Range(assumed::water_released);
}

/// Whether a feedstock is mineral: inert, or largely lime. Constant time.
constexpr bool is_mineral(const Feedstock& f) noexcept {
    const auto& lime = f[Property::neutralising_value_wet];
    return f.decay_class == DecayClass::inert ||
           (lime && lime->value >= assumed::mineral_neutralising);
}

/// Volume of the water, organic matter and ash in one kilogram as it is, without air, m3.
/// @param moisture  wet basis. @param ash  of the dry mass. Threads: pure.
constexpr double phases_m3_per_kg(double moisture, double ash) noexcept {
    const double dry = 1.0 - moisture;
    return moisture / assumed::water_density.value +
           dry * (1.0 - ash) / assumed::organic_density.value +
           dry * ash / assumed::ash_density.value;
}

namespace detail {

constexpr Taken taken_from(const Factor& factor) noexcept {
    return {Range(factor), Grade::d, true};
}

constexpr const Factor& assumed_acid(const Feedstock& f, Part part) noexcept {
    if (f.has(Caution::acidity)) return assumed::acid_of_sour;
    return part == Part::scraps ? assumed::acid_of_scraps : assumed::acid_of_the_rest;
}

inline constexpr std::array<Property, 3> pool_properties{
    Property::labile_share, Property::cellulosic_share, Property::lignin_like_share};

constexpr Datum assumed_pool(DecayClass decay_class, std::size_t pool) noexcept {
    Datum datum;
    datum.value = assumed::pools[static_cast<std::size_t>(decay_class)][pool];
    datum.sources = "RULE-POOL";
    datum.method = "judgement by decay class";
    set_default_range(datum, pool_properties[pool]);
    return datum;
}

}  // namespace detail

constexpr std::optional<Taken> taken(const Feedstock& f, Property property) noexcept;

namespace detail {

/// Settled density: the loose one x the settling factor, never denser than the material without
/// air.
constexpr Taken assumed_settled(const Feedstock& f, Part part) noexcept {
    const Range moisture = taken(f, Property::moisture_wet)->range;
    const Range ash = taken(f, Property::ash_dry)->range;
    const double compact = 1.0 / phases_m3_per_kg(moisture.value, ash.value);
    const Taken loose = *taken(f, Property::bulk_density_loose);
    const Range settled = loose.range * Range(assumed::settling[static_cast<std::size_t>(part)]);
    return {{std::min(settled.value, compact), std::min(settled.low, compact),
             std::min(settled.high, compact)},
            Grade::d,
            true};
}

constexpr std::optional<Taken> assumed_for(const Feedstock& f, Property property) noexcept {
    const Part part = part_of(f);
    const auto at = static_cast<std::size_t>(part);
    const bool manure = f.group == Group::manures;
    switch (property) {
        case Property::moisture_wet:
            return taken_from(part == Part::poured_water ? assumed::liquid_moisture
                                                         : assumed::moisture);
        case Property::carbon_dry:
            if (is_mineral(f)) return Taken{Range(0.0), Grade::d, true};
            return taken_from(assumed::carbon);
        case Property::ash_dry:
            return taken_from(is_mineral(f) ? assumed::mineral_ash : assumed::ash);
        case Property::lignin_dry: {
            const Range organic = taken(f, Property::ash_dry)->range.rest();
            return Taken{organic * Range(assumed::lignin[static_cast<std::size_t>(f.decay_class)]),
                         Grade::d, true};
        }
        case Property::labile_share:
            return Taken{Range(assumed_pool(f.decay_class, 0)), Grade::d, true};
        case Property::cellulosic_share:
            return Taken{Range(assumed_pool(f.decay_class, 1)), Grade::d, true};
        case Property::lignin_like_share:
            return Taken{Range(assumed_pool(f.decay_class, 2)), Grade::d, true};
        case Property::bulk_density_loose:
            return taken_from(manure ? assumed::manure_density : assumed::loose_density[at]);
        case Property::bulk_density_settled:
            return assumed_settled(f, part);
        case Property::titratable_acidity_wet:
            return taken_from(assumed_acid(f, part));
        case Property::sodium_wet:
            // Of what is guarded (meat, oil, salt) a guess could do harm.
            if (f.group == Group::guarded) return std::nullopt;
            return taken_from(manure ? assumed::manure_sodium : assumed::sodium[at]);
        case Property::fat_dry:
            if (f.group == Group::guarded) return std::nullopt;
            return taken_from(assumed::fat[at]);
        case Property::water_holding_capacity_dry:
            if (part != Part::bedding) return std::nullopt;
            return taken_from(assumed::holding_capacity);
        default:
            return std::nullopt;
    }
}

}  // namespace detail

/// A property of a feedstock with its range, or what every verb takes where it is not known;
/// nothing where no verb takes anything: nitrogen, C:N, pH, potassium and the like. Constant time,
/// no allocation.
constexpr std::optional<Taken> taken(const Feedstock& f, Property property) noexcept {
    if (const auto& datum = f[property])
        return Taken{Range(*datum).around_value(), datum->grade, false};
    return detail::assumed_for(f, property);
}

/// Labile, cellulosic and lignin-like share of the volatile solids, typical, summing to at most 1;
/// what is left does not decay. Constant time.
constexpr std::array<double, 3> pool_shares(const Feedstock& f) noexcept {
    std::array<double, 3> shares{};
    double sum = 0.0;
    for (std::size_t p = 0; p < shares.size(); ++p) {
        shares[p] = taken(f, detail::pool_properties[p])->range.value;
        sum += shares[p];
    }
    if (sum > 1.0) {
        for (double& share : shares)
            share /= sum;
    }
    return shares;
}

/// Gives a feedstock without any pool share those of its decay class. Threads: pure.
inline void set_default_pools(Feedstock& feedstock) {
    for (const auto property : detail::pool_properties) {
        if (feedstock[property]) return;
    }
    for (std::size_t i = 0; i < detail::pool_properties.size(); ++i)
        feedstock[detail::pool_properties[i]] = detail::assumed_pool(feedstock.decay_class, i);
}

}  // namespace feed
