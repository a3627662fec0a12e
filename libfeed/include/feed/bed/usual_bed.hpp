#pragma once
#include <array>
#include <string_view>

#include "feed/bed/bed.hpp"
#include "feed/bed/factor.hpp"

// What is taken for a bed that was not described; every use is said as an assumption.
namespace feed {

/// Usual inside size and drainage of a kind of container (common practice).
struct UsualContainer {
    std::string_view name;
    double length_m;
    double width_m;
    double depth_m;
    Drainage drainage;
};
inline constexpr std::array<UsualContainer, 7> usual_containers{{
    {"tray", 0.40, 0.40, 0.15, Drainage::tap},
    {"tote", 0.55, 0.38, 0.30, Drainage::none},
    {"bucket", 0.25, 0.25, 0.33, Drainage::none},
    {"bath", 1.40, 0.50, 0.35, Drainage::tap},
    {"flow-through bin", 0.60, 0.60, 0.45, Drainage::open},
    {"windrow", 2.00, 1.00, 0.40, Drainage::open},
    {"box", 0.55, 0.38, 0.30, Drainage::none},
}};

/// Water in the bed as a share of what it can hold, by the squeeze test: the one scale of wetness,
/// on which the limits of dry and wet and the aim stand too (see limits::bed_wetness). With the
/// usual capacity of a settled bed the classes stand for about 53, 67, 75, 79, 81 and 83 % moisture
/// (judgement, after keepers' figures of 70-75 % for one or two drops).
inline constexpr std::array<Factor, 6> squeeze_saturation{{
    {0.25, 0.10, 0.35, "kg/kg", Grade::d, "crumbles (judgement)"},
    {0.46, 0.35, 0.55, "kg/kg", Grade::d, "damp, gives no water (judgement)"},
    {0.65, 0.55, 0.78, "kg/kg", Grade::d, "one or two drops (judgement)"},
    {0.84, 0.78, 0.90, "kg/kg", Grade::d, "more than a couple of drops (judgement)"},
    {0.96, 0.90, 1.02, "kg/kg", Grade::d, "water runs (judgement)"},
    {1.10, 1.02, 1.30, "kg/kg", Grade::d, "water stands in the bed (judgement)"},
}};
inline constexpr std::array<std::string_view, 6> squeeze_words{
    "dry and crumbly", "damp",   "one or two drops", "more than a couple of drops",
    "streams",         "pooling"};

namespace usual {

inline constexpr Factor bed_capacity{4.5,
                                     3.0,
                                     6.0,
                                     "kg/kg dry",
                                     Grade::d,
                                     "water-holding capacity of a settled bed: between straw 2-3.6 "
                                     "and coir 7.5-11 (judgement)"};
inline constexpr Factor dry_density_new{
    40.0,    25.0,     60.0,
    "kg/m3", Grade::b, "2.5 lb of newspaper a cubic foot (county extension page, Michigan)"};
inline constexpr Factor dry_density_settled{
    150.0, 100.0, 200.0, "kg/m3", Grade::a, "dry bulk density 100-200 (Richard et al. 2004)"};
inline constexpr Factor settling_days{180.0, 90.0, 365.0, "day", Grade::d, "judgement"};
inline constexpr Factor filled_share{2.0 / 3.0, 0.33, 0.8, "m/m", Grade::d, "common practice"};
inline constexpr double deepest_contents_m = 0.30;  // common practice: 8-18 in

/// Worms in a bed where nothing is said of them, by volume: the lower of the usual stockings.
inline constexpr Factor worms_by_volume{
    0.25 * 0.45359237 / 0.0283168466,
    0.1 * 0.45359237 / 0.0283168466,
    1.0 * 0.45359237 / 0.0283168466,
    "kg/m3",
    Grade::d,
    "1/4 lb a cubic foot (county extension page, Michigan); 1 lb a square foot in other texts"};
/// Of the weight on the parcel, what is living worm.
inline constexpr Factor bought_share{
    0.75, 0.5, 1.0, "kg/kg", Grade::d, "bedding and casting water in the parcel (judgement)"};
/// Grams of one worm of mixed age: about 1000 a pound in one trade, 1000 mixed for 250 g in
/// another (common practice); other species scaled by their adult mass (Edwards 1988 type table).
inline constexpr std::array<Factor, 4> worm_grams{{
    {0.35, 0.25, 0.45, "g", Grade::d, "1000 a pound to 1000 for 250 g (common practice)"},
    {0.60, 0.35, 1.00, "g", Grade::d, "scaled by adult size (judgement)"},
    {0.50, 0.30, 0.80, "g", Grade::d, "adult 1.3 g (secondary table), mixed ages (judgement)"},
    {1.50, 0.80, 2.50, "g", Grade::d, "adult 4.3 g (secondary table), mixed ages (judgement)"},
}};
inline constexpr Factor scale_error{1.0, 0.95, 1.05, "", Grade::d, "kitchen scale (judgement)"};
inline constexpr double room_celsius = 20.0;
inline constexpr double room_celsius_low = 16.0;
inline constexpr double room_celsius_high = 24.0;

}  // namespace usual
}  // namespace feed
