#pragma once
#include "feed/bed/factor.hpp"
#include "feed/feedstock/assumed.hpp"

// Every factor and limit that the bed layer uses, by hazard. docs/bed.md shows them as a table;
// tests hold their order (low <= value <= high, watch before act).
namespace feed::limits {

// Wet. What a feedstock brings, where it is not known, stands in feedstock/assumed.hpp.
inline constexpr const Factor& planned_capacity_share = assumed::usable_capacity;

/// Water in the bed over what bed and bedding can hold: one scale for wet, dry, the squeeze test,
/// the aim and the water of a new bed.
inline constexpr Limit wet_share{
    0.80,
    0.95,
    true,
    "kg/kg",
    Grade::d,
    "water over what the bed can hold: more than a couple of drops, and water that runs (judgement; "
    "range 0.75-0.85 and 0.90-1.00; planning at 60-80 % of capacity agrees)"};
inline constexpr Limit dry_share{
    0.45,
    0.30,
    false,
    "kg/kg",
    Grade::d,
    "water over what the bed can hold: barely damp, and crumbly; in a settled bed 67 and 57 % moisture, "
    "the driest at which E. fetida breeds and lives (Reinecke and Venter 1987, abstract; Kaplan et al. "
    "1980) (judgement; range 0.40-0.52 and 0.25-0.35)"};
inline constexpr Factor wetness_aim{0.65,    0.60,     0.70,
                                    "kg/kg", Grade::d, "one or two drops from a fist (judgement)"};

// Evaporation from the surface of the bed, kg/m2 and day; used for wet, dry and going away.
inline constexpr Factor evaporation_open_top{
    1.5,
    0.5,
    3.0,
    "kg/m2/day",
    Grade::d,
    "open damp surface indoors; 3 is a water surface in still air at 20 C (Penman 1948, recalled) "
    "(judgement)"};
inline constexpr Factor evaporation_holes{0.3,         0.1,      0.6,
                                          "kg/m2/day", Grade::d, "lid with air holes (judgement)"};
/// What dries first lies on top and shields the rest, so that a bed loses no more than this of what
/// it can hold between two looks a week apart.
inline constexpr Factor most_dried_share{
    0.14, 0.08, 0.25, "kg/kg", Grade::d, "of what the bed can hold, in a week (judgement)"};
inline constexpr Factor evaporation_closed{0.05,        0.0,      0.15,
                                           "kg/m2/day", Grade::d, "closed lid (judgement)"};

// Dry and the worms' moisture limits stand in species.hpp.

// Sour, in grams of citric acid equivalent.
inline constexpr Factor acid_from_labile{
    0.10,     0.03,
    0.25,     "g citric/g",
    Grade::d, "acid that labile matter forms where air is short, before it is burnt (judgement)"};
inline constexpr Factor bed_buffer{
    0.05,     0.02,
    0.1,      "mol/kg dry/pH",
    Grade::d, "acid that a bed takes up for one step of pH (judgement)"};
inline constexpr double grams_citric_per_mole = 64.04;  // per mole of charge
inline constexpr Limit acid_per_air_litre{
    1.0,
    2.0,
    true,
    "g citric/L air",
    Grade::d,
    "about one step of pH (to 6, where keepers are warned) and two (to 5, the limit of Edwards, "
    "Earthworm Ecology, table 18.3) in a settled bed that takes 0.05 mol of acid a kg dry for a step "
    "(judgement; range 0.5-4)"};
/// A new bed of paper takes up little acid: its air counts only as far as its dry matter would fill
/// a settled bed.
inline constexpr Factor pocket_margin{
    0.05, 0.03,     0.08,
    "m",  Grade::d, "bed around the food that shares its acid, salt and air (judgement)"};
inline constexpr Factor grams_citric_per_gram_lime{
    1.0 / 0.7814,       1.0 / 0.7814, 1.0 / 0.7814,
    "g citric/g CaCO3", Grade::b,     "equivalent masses 64.04 and 50.04 g"};
inline constexpr Factor ground_lime_acting{
    0.8,
    0.5,
    1.0,
    "kg/kg",
    Grade::d,
    "share of ground carbonate that acts within a feeding; ground shell works near lime (Auburn "
    "S-05-05, 2005, recalled) (judgement)"};
inline constexpr Factor coarse_lime_acting{
    0.1,
    0.0,
    0.25,
    "kg/kg",
    Grade::d,
    "share of hand-crushed shell that acts; it did little in three weeks (Auburn S-05-05, 2005, "
    "recalled) (judgement)"};
/// Most ground carbonate the check ever advises at a time, by surface.
inline constexpr Factor most_lime{
    200.0, 100.0, 300.0, "g/m2", Grade::d, "a spoonful or two a bin at a time (common practice)"};
inline constexpr Factor ph_after_lime{
    7.5,
    7.0,
    8.3,
    "pH",
    Grade::d,
    "where carbonate takes the wet film around the food (judgement; 8.3 is calcium carbonate in "
    "water and air)"};

// Hot.
inline constexpr Factor usual_spread_share{
    1.0 / 3.0,
    0.2,
    1.0,
    "m2/m2",
    Grade::d,
    "a feeding laid in a pocket or along one side covers about a third of the surface (common "
    "practice)"};

/// Composting matter does not heat itself further; the model is cut off here.
inline constexpr double hottest_c = 75.0;

// Ammonia.
inline constexpr Limit ammonia_nitrogen{
    0.1,
    0.2,
    true,
    "g N/kg",
    Grade::d,
    "all worms died at 0.1 % ammonium acetate, 0.18 g N/kg (Kaplan et al. 1980); no effect below "
    "0.5 g NH4OH/kg, 0.20 g N/kg (Zeguerrou et al. 2019); under 0.5 g/kg in feed, form not said "
    "(Edwards, Earthworm Ecology, table 18.3)"};
inline constexpr Limit free_ammonia_nitrogen{
    0.005,
    0.01,
    true,
    "g N/kg",
    Grade::d,
    "half of the level worms flee, 0.05 g NH4OH/kg or 0.02 g N/kg (Zeguerrou et al. 2019) "
    "(judgement)"};

inline constexpr Factor unmeasured_ph{
    7.0, 6.0, 8.0, "pH", Grade::d, "a bed whose pH was not measured (judgement)"};

// Salty, as NaCl of the wet mass.
inline constexpr Limit salt{0.002,
                            0.005,
                            true,
                            "kg/kg",
                            Grade::a,
                            "growth suffers above 0.2 % in kitchen waste (Wu et al. 2019); above "
                            "0.5 % lethal (Kaplan et al. "
                            "1980; Edwards, Earthworm Ecology, table 18.3)"};
inline constexpr Factor bed_salt{
    0.0005,  0.0002,   0.0015,
    "kg/kg", Grade::d, "salt of a bed of unknown past, by wet mass (judgement)"};

// Overfed: published feeding rates, wet scraps by worm mass and day or by surface and day.
inline constexpr Factor rate_weekly{1.0 / 7.0,
                                    1.0 / 7.0,
                                    1.0 / 7.0,
                                    "kg/kg/day",
                                    Grade::a,
                                    "the worms' weight a week (extension question column: 1 lb of "
                                    "worms and 1 ft3 of bin for 1 lb of "
                                    "scraps a week)"};
inline constexpr Factor rate_half_daily{
    0.5, 0.5, 0.5, "kg/kg/day", Grade::a, "half the worms' weight a day (extension pages, many)"};
inline constexpr Factor rate_best_castings{
    0.75,     0.75,
    0.75,     "kg/kg/day",
    Grade::a, "best vermicompost in biosolids and paper mulch (Ndegwa, Thompson and Das 2000)"};
inline constexpr Factor rate_most_worms{
    1.25,     1.25,
    1.25,     "kg/kg/day",
    Grade::a, "most worm growth in biosolids and paper mulch (Ndegwa, Thompson and Das 2000)"};
inline constexpr Factor rate_by_surface{0.45359237 / (0.3048 * 0.3048) / 7.0,
                                        0.875 * 0.45359237 / (0.3048 * 0.3048) / 7.0,
                                        0.45359237 / (0.3048 * 0.3048) / 7.0,
                                        "kg/m2/day",
                                        Grade::a,
                                        "1 lb a square foot a week (NC State AG-473-18)"};
inline constexpr Factor rate_by_surface_tested{
    1.2,         1.2,      2.0,
    "kg/m2/day", Grade::b, "0.75 kg/kg/day on 1.6 kg worms/m2 (Ndegwa, Thompson and Das 2000)"};
/// Above its own proven rate a bed is watched, above this multiple it is overfed.
inline constexpr Factor own_rate_margin{
    1.3, 1.1, 1.5, "", Grade::d, "spread of a keeper's own record (judgement)"};
inline constexpr Factor usual_interval{7.0,   3.0,      14.0,
                                       "day", Grade::d, "one feeding a week (common practice)"};

// First weeks of a new bin.
inline constexpr Factor ramp_start_share{0.25,
                                         0.1,
                                         0.5,
                                         "",
                                         Grade::d,
                                         "share of the full ration in the first two weeks: a "
                                         "handful, then wait a week (common practice)"};
inline constexpr Factor ramp_start_days{14.0, 7.0, 21.0, "day", Grade::d, "common practice"};
inline constexpr Factor ramp_full_days{
    84.0, 42.0, 90.0, "day", Grade::d, "settled after about three months (common practice)"};

/// Nothing in the first days of a new bin (common practice).
inline constexpr Factor first_feeding_day{3.0, 2.0, 7.0, "day", Grade::d, "common practice"};

// When to feed again, as shares of a week's ration.
inline constexpr Factor feed_again_share{
    0.5,
    0.25,
    0.6,
    "kg/kg",
    Grade::d,
    "soft food left of a week's ration when the next feeding is due: half gone to almost gone (common "
    "practice)"};
inline constexpr Factor useful_share{
    0.25,    0.15,     0.35,
    "kg/kg", Grade::d, "a portion worth opening the bin for, of a week's ration (judgement)"};
inline constexpr Factor most_soft_share{
    1.5,
    1.25,
    2.0,
    "kg/kg",
    Grade::d,
    "soft food in the bed at most, of a week's ration: a full ration on what is left of the last "
    "(judgement)"};
inline constexpr Factor watched_ration_share{
    0.5, 0.33, 0.67, "kg/kg", Grade::d, "of the ration, while the bed is watched (judgement)"};

// Cold.
inline constexpr Factor cold_watch{10.0,    7.0,      13.0,
                                   "deg C", Grade::d, "sharp slowing below 50 F (common practice)"};

// Heat that no bed around the food gives a refuge from.
inline constexpr Factor pocket_act{45.0,    40.0,     50.0,
                                   "deg C", Grade::d, "no bed around it is a refuge (judgement)"};
inline constexpr Factor large_pocket_act{35.0,    33.0,     40.0,
                                         "deg C", Grade::d, "what kills red worms (judgement)"};
inline constexpr Factor large_pocket_share{
    0.5, 0.33, 0.67, "L/L", Grade::d, "pocket and the bed around it (judgement)"};

// What is not worth the trouble.
inline constexpr Factor least_portion{0.02, 0.01, 0.05, "kg", Grade::d, "worth laying (judgement)"};
inline constexpr Factor least_ration{0.03, 0.02,     0.1,
                                     "kg", Grade::d, "worth opening the bin for (judgement)"};

// What one day's step may add to a bed that is not well.
inline constexpr Factor step_bedding_share{
    0.1, 0.05, 0.15, "L/L", Grade::d, "loose bedding by the volume of the bed (judgement)"};
inline constexpr Factor step_water_share{
    0.05, 0.03, 0.08, "kg/L", Grade::d, "water by the volume of the bed (judgement)"};

// Bedding with the food.
inline constexpr Factor least_bedding_by_volume{
    0.5, 0.25, 1.0, "L/L", Grade::d, "loose bedding a litre of scraps, at least (common practice)"};
inline constexpr Factor most_bedding_by_volume{
    2.0, 1.0, 4.0, "L/L", Grade::d, "loose bedding a litre of scraps, at most (common practice)"};

// Underfed.
inline constexpr Limit underfed_rate{
    0.03,
    0.0,
    false,
    "kg/kg/day",
    Grade::d,
    "a fifth of the slowest published rate; hunger is slow, worms live on bedding for weeks "
    "(judgement; common practice says 3-6 weeks away are fine)"};
inline constexpr Factor underfed_days{21.0, 14.0, 28.0, "day", Grade::d, "judgement"};

// Airless.
inline constexpr Limit free_air_space{
    0.30,
    0.20,
    false,
    "L/L",
    Grade::c,
    "above 20 % needed, 35-60 % best (state technical note 24); about 30 % least (Haug 1993, "
    "recalled)"};
inline constexpr Limit layer_depth{0.10,
                                   0.15,
                                   true,
                                   "m",
                                   Grade::a,
                                   "windrow practice: first layer 10-15 cm, then 7-10 cm; thick "
                                   "layers block air and drive worms up "
                                   "(Sreenivasan, Handbook of Vermicomposting, ch. 6)"};
inline constexpr Factor collapsed_scraps_volume{
    0.5,      0.3,
    0.8,      "L/L",
    Grade::d, "volume that settled scraps still hold open once their cells collapse (judgement)"};
inline constexpr Factor bed_ash{
    0.25, 0.1, 0.5, "kg/kg dry", Grade::d, "ash of a bed of castings and bedding (judgement)"};
inline constexpr Factor mixed_bed_depth{0.10,
                                        0.05,
                                        0.15,
                                        "m",
                                        Grade::d,
                                        "depth of bed that shares air and water with a feeding "
                                        "(judgement)"};

// Greasy: fat of the feeding by its wet mass.
inline constexpr Limit fat{
    0.03,
    0.06,
    true,
    "kg/kg",
    Grade::d,
    "no grease in the bin (common practice); the number, of a week's ration, is a judgement: coffee "
    "grounds hold about 5 %, avocado 15 %, crisps 35 %"};

}  // namespace feed::limits
