#pragma once
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

// What a keeper notices, what can cause it, and how likely each cause is before anything is known
// of the bed. The weights are judgements (grade D) in the order that keepers' accounts give them:
// overfeeding and wetness are named most often; a list for climbing worms has eight causes, keepers
// found crowding and the first nights besides.
namespace feed {

/// Something noticed by nose, squeeze or sight.
enum class Sign : std::uint8_t {
    worms_climbing,
    worms_balled,
    sour_smell,
    rotten_smell,
    ammonia_smell,
    vinegar_smell,
    swampy_smell,
    streams,
    drops,
    flies,
    gnats,
    mites,
    springtails,
    white_worms,
    mould,
    heat,
    food_left,
    dry,
    wet,
    liquid,
    cold,
    all_well,
    slow_worms,
    dead_worms,
    thin_worms,
    few_worms,
    maggots,
    soldier_flies,
    ants,
    rodents,
    hunters,
    guests,
    roaches,
    wet_lid,
    sprouts,
    cocoons,
};
inline constexpr std::size_t sign_count = 36;
inline constexpr std::array<std::string_view, sign_count> sign_words{
    "worms climbing", "worms balled", "sour smell",    "rotten smell", "ammonia smell",
    "vinegar smell",  "swampy smell", "streams",       "drops",        "flies",
    "gnats",          "mites",        "springtails",   "white worms",  "mould",
    "heat",           "food left",    "dry",           "wet",          "liquid",
    "cold",           "all well",     "slow worms",    "dead worms",   "thin worms",
    "few worms",      "maggots",      "soldier flies", "ants",         "rodents",
    "hunters",        "guests",       "roaches",       "wet lid",      "sprouts",
    "cocoons"};
constexpr std::string_view text(Sign sign) noexcept {
    return sign_words[static_cast<std::size_t>(sign)];
}
/// The sign of its words, or nothing.
constexpr std::optional<Sign> find_sign(std::string_view words) noexcept {
    for (std::size_t i = 0; i < sign_count; ++i) {
        if (sign_words[i] == words) return static_cast<Sign>(i);
    }
    return std::nullopt;
}

/// Why it may be so.
enum class Cause : std::uint8_t {
    too_wet,
    too_dry,
    too_sour,
    packed,
    rotting_food,
    disliked_food,
    too_hot,
    too_cold,
    crowded,
    new_bin,
    ammonia,
    salty,
    uncovered_food,
    slow_food,
    fresh_food,
    normal_life,
    starving,
    animal_in,
    hunter,
};
inline constexpr std::size_t cause_count = 19;

/// The words of a cause: what it is, one quick test, and whether it is harmless.
struct CauseWords {
    Cause cause;
    std::string_view name;
    std::string_view test;
    bool harmless;
};
inline constexpr std::array<CauseWords, cause_count> cause_words{{
    {Cause::too_wet, "too wet",
     "Squeeze a handful: more than a couple of drops is too wet. A wet lid alone is not: wipe it.",
     false},
    {Cause::too_dry, "too dry",
     "Squeeze a handful: if it crumbles it is dry. Worms massed at a damp lid or wall point to it.",
     false},
    {Cause::too_sour, "too sour",
     "Press a pH strip into the damp bed: below 6 is sour. Or sniff: vinegar.", false},
    {Cause::packed, "packed, short of air",
     "Push two fingers in: a bed with air lets them slide, a packed one is like putty.", false},
    {Cause::rotting_food, "more food than they eat, rotting",
     "Lift the cover where you fed last: slimy food older than a week is too much.", false},
    {Cause::disliked_food, "a food they flee",
     "Think of the last feeding: citrus, onion, chilli, much bread, salted or spiced leftovers? Are "
     "the worms far from that corner but well elsewhere?",
     false},
    {Cause::too_hot, "too hot",
     "Hold a hand or a thermometer in the middle. Warmer than your wrist, or above 30 C, is too hot.",
     false},
    {Cause::too_cold, "too cold", "Thermometer in the middle: below 10 C they slow down sharply.",
     false},
    {Cause::crowded, "too many worms for the space",
     "Lift the bedding under one spread hand: more than a handful of worms there is crowded.",
     false},
    {Cause::new_bin, "a new bin",
     "Count the days since they moved in. In the first two weeks wandering at night is normal.",
     true},
    {Cause::ammonia, "ammonia",
     "Sniff close to the food: a sting in the nose is ammonia. Was it meal, manure, grass or meat?",
     false},
    {Cause::salty, "salt",
     "Think back some weeks: brined, pickled, seasoned food, salty manure or unwashed coir?",
     false},
    {Cause::uncovered_food, "food lying open",
     "Look from above: can you see food, or peel with fly eggs from the kitchen?", false},
    {Cause::slow_food, "food that is slow by nature",
     "Look at what is left: stalks, stones, cores, thick peel and whole pieces take weeks.", true},
    {Cause::fresh_food, "food of the last days",
     "Look at the day of the last feeding: in the first days warmth and fluff on food are normal.",
     true},
    {Cause::normal_life, "ordinary life of a healthy bed",
     "Are the worms well and does the bed smell of earth? Then all is as it should be. Many of the "
     "small animals at once mean wet, sour or overfed.",
     true},
    {Cause::starving, "too little food",
     "Look for food: none left for two weeks, and worms all through the bed, mean hunger.", false},
    {Cause::animal_in, "an animal comes for the food",
     "Look for droppings, gnawed edges or a gap wider than a pencil.", false},
    {Cause::hunter, "an animal that eats worms",
     "Lift the lid at night with a light: centipedes and flatworms are flat and quick or slimy.",
     false},
}};
constexpr const CauseWords& words_of(Cause cause) noexcept {
    return cause_words[static_cast<std::size_t>(cause)];
}

/// Weight of a cause for a sign, before the bed is looked at.
struct SignCause {
    Sign sign;
    Cause cause;
    double weight;
};

// clang-format off
inline constexpr SignCause sign_causes[] = {
    {Sign::worms_climbing, Cause::too_wet, 20},
    {Sign::worms_climbing, Cause::rotting_food, 17},
    {Sign::worms_climbing, Cause::too_sour, 14},
    {Sign::worms_climbing, Cause::too_dry, 9},
    {Sign::worms_climbing, Cause::new_bin, 7},
    {Sign::worms_climbing, Cause::disliked_food, 9},
    {Sign::worms_climbing, Cause::too_hot, 8},
    {Sign::worms_climbing, Cause::packed, 6},
    {Sign::worms_climbing, Cause::crowded, 4},
    {Sign::worms_climbing, Cause::ammonia, 6},
    {Sign::worms_climbing, Cause::too_cold, 4},
    {Sign::worms_climbing, Cause::salty, 3},
    {Sign::worms_balled, Cause::too_dry, 16},
    {Sign::worms_balled, Cause::too_hot, 14},
    {Sign::worms_balled, Cause::packed, 12},
    {Sign::worms_balled, Cause::too_sour, 12},
    {Sign::worms_balled, Cause::fresh_food, 12},
    {Sign::worms_balled, Cause::too_cold, 10},
    {Sign::worms_balled, Cause::too_wet, 8},
    {Sign::worms_balled, Cause::new_bin, 8},
    {Sign::worms_balled, Cause::ammonia, 4},
    {Sign::sour_smell, Cause::rotting_food, 35},
    {Sign::sour_smell, Cause::too_sour, 30},
    {Sign::sour_smell, Cause::too_wet, 18},
    {Sign::sour_smell, Cause::packed, 12},
    {Sign::sour_smell, Cause::fresh_food, 5},
    {Sign::rotten_smell, Cause::rotting_food, 45},
    {Sign::rotten_smell, Cause::too_wet, 22},
    {Sign::rotten_smell, Cause::packed, 20},
    {Sign::rotten_smell, Cause::uncovered_food, 8},
    {Sign::rotten_smell, Cause::disliked_food, 5},
    {Sign::ammonia_smell, Cause::ammonia, 70},
    {Sign::ammonia_smell, Cause::rotting_food, 20},
    {Sign::ammonia_smell, Cause::too_hot, 5},
    {Sign::ammonia_smell, Cause::packed, 5},
    {Sign::vinegar_smell, Cause::too_sour, 50},
    {Sign::vinegar_smell, Cause::rotting_food, 28},
    {Sign::vinegar_smell, Cause::packed, 12},
    {Sign::vinegar_smell, Cause::too_wet, 10},
    {Sign::swampy_smell, Cause::too_wet, 40},
    {Sign::swampy_smell, Cause::packed, 35},
    {Sign::swampy_smell, Cause::rotting_food, 25},
    {Sign::streams, Cause::too_wet, 75},
    {Sign::streams, Cause::rotting_food, 25},
    {Sign::drops, Cause::normal_life, 70},
    {Sign::drops, Cause::too_wet, 30},
    {Sign::flies, Cause::uncovered_food, 55},
    {Sign::flies, Cause::rotting_food, 30},
    {Sign::flies, Cause::too_wet, 10},
    {Sign::flies, Cause::disliked_food, 5},
    {Sign::gnats, Cause::uncovered_food, 35},
    {Sign::gnats, Cause::too_wet, 35},
    {Sign::gnats, Cause::rotting_food, 25},
    {Sign::gnats, Cause::normal_life, 5},
    {Sign::mites, Cause::normal_life, 55},
    {Sign::mites, Cause::too_wet, 18},
    {Sign::mites, Cause::rotting_food, 15},
    {Sign::mites, Cause::too_sour, 12},
    {Sign::springtails, Cause::normal_life, 75},
    {Sign::springtails, Cause::too_wet, 15},
    {Sign::springtails, Cause::rotting_food, 10},
    {Sign::white_worms, Cause::normal_life, 55},
    {Sign::white_worms, Cause::too_sour, 18},
    {Sign::white_worms, Cause::too_wet, 15},
    {Sign::white_worms, Cause::rotting_food, 12},
    {Sign::mould, Cause::fresh_food, 50},
    {Sign::mould, Cause::new_bin, 22},
    {Sign::mould, Cause::rotting_food, 20},
    {Sign::mould, Cause::too_dry, 8},
    {Sign::heat, Cause::too_hot, 42},
    {Sign::heat, Cause::rotting_food, 30},
    {Sign::heat, Cause::fresh_food, 28},
    {Sign::food_left, Cause::rotting_food, 40},
    {Sign::food_left, Cause::slow_food, 20},
    {Sign::food_left, Cause::new_bin, 12},
    {Sign::food_left, Cause::too_cold, 10},
    {Sign::food_left, Cause::too_dry, 6},
    {Sign::food_left, Cause::disliked_food, 6},
    {Sign::food_left, Cause::too_sour, 6},
    {Sign::dry, Cause::too_dry, 100},
    {Sign::wet, Cause::too_wet, 70},
    {Sign::wet, Cause::rotting_food, 20},
    {Sign::wet, Cause::packed, 10},
    {Sign::liquid, Cause::too_wet, 65},
    {Sign::liquid, Cause::rotting_food, 35},
    {Sign::cold, Cause::too_cold, 100},
    {Sign::all_well, Cause::normal_life, 100},
    {Sign::slow_worms, Cause::too_cold, 25},
    {Sign::slow_worms, Cause::too_dry, 20},
    {Sign::slow_worms, Cause::too_wet, 20},
    {Sign::slow_worms, Cause::too_sour, 15},
    {Sign::slow_worms, Cause::too_hot, 12},
    {Sign::slow_worms, Cause::starving, 8},
    {Sign::dead_worms, Cause::too_hot, 24},
    {Sign::dead_worms, Cause::too_sour, 22},
    {Sign::dead_worms, Cause::too_wet, 18},
    {Sign::dead_worms, Cause::ammonia, 12},
    {Sign::dead_worms, Cause::too_dry, 10},
    {Sign::dead_worms, Cause::rotting_food, 8},
    {Sign::dead_worms, Cause::too_cold, 6},
    {Sign::thin_worms, Cause::starving, 45},
    {Sign::thin_worms, Cause::crowded, 20},
    {Sign::thin_worms, Cause::too_dry, 20},
    {Sign::thin_worms, Cause::too_sour, 15},
    {Sign::few_worms, Cause::too_hot, 18},
    {Sign::few_worms, Cause::too_dry, 18},
    {Sign::few_worms, Cause::too_wet, 18},
    {Sign::few_worms, Cause::too_sour, 16},
    {Sign::few_worms, Cause::starving, 12},
    {Sign::few_worms, Cause::too_cold, 10},
    {Sign::few_worms, Cause::hunter, 8},
    {Sign::maggots, Cause::uncovered_food, 45},
    {Sign::maggots, Cause::disliked_food, 20},
    {Sign::maggots, Cause::rotting_food, 20},
    {Sign::maggots, Cause::too_wet, 15},
    {Sign::soldier_flies, Cause::uncovered_food, 40},
    {Sign::soldier_flies, Cause::normal_life, 30},
    {Sign::soldier_flies, Cause::rotting_food, 20},
    {Sign::soldier_flies, Cause::too_wet, 10},
    {Sign::ants, Cause::too_dry, 55},
    {Sign::ants, Cause::uncovered_food, 30},
    {Sign::ants, Cause::rotting_food, 15},
    {Sign::rodents, Cause::animal_in, 80},
    {Sign::rodents, Cause::uncovered_food, 20},
    {Sign::hunters, Cause::hunter, 100},
    {Sign::guests, Cause::normal_life, 80},
    {Sign::guests, Cause::uncovered_food, 10},
    {Sign::guests, Cause::too_wet, 10},
    {Sign::roaches, Cause::uncovered_food, 60},
    {Sign::roaches, Cause::too_dry, 25},
    {Sign::roaches, Cause::animal_in, 15},
    {Sign::wet_lid, Cause::normal_life, 70},
    {Sign::wet_lid, Cause::too_wet, 20},
    {Sign::wet_lid, Cause::fresh_food, 10},
    {Sign::sprouts, Cause::normal_life, 100},
    {Sign::cocoons, Cause::normal_life, 100},
};
// clang-format on

/// Weight of a cause for a sign, out of about 100 over all causes; 0 where the table does not list
/// it. Linear in the table.
constexpr double sign_weight(Sign sign, Cause cause) noexcept {
    for (const SignCause& row : sign_causes) {
        if (row.sign == sign && row.cause == cause) return row.weight;
    }
    return 0.0;
}

/// How much a sign tells.
struct SignTells {
    Sign sign;
    double weight;
};

/// Signs that point to few causes or cannot wait, and those that a healthy bin shows too (D).
inline constexpr SignTells sign_tells[] = {
    {Sign::heat, 4.0},           {Sign::dead_worms, 4.0},    {Sign::ammonia_smell, 4.0},
    {Sign::rodents, 4.0},        {Sign::vinegar_smell, 3.0}, {Sign::rotten_smell, 3.0},
    {Sign::swampy_smell, 3.0},   {Sign::streams, 3.0},       {Sign::dry, 3.0},
    {Sign::cold, 3.0},           {Sign::wet, 3.0},           {Sign::sour_smell, 2.0},
    {Sign::liquid, 2.0},         {Sign::hunters, 2.0},       {Sign::ants, 2.0},
    {Sign::worms_climbing, 1.5}, {Sign::worms_balled, 1.5},  {Sign::slow_worms, 1.5},
    {Sign::few_worms, 1.5},      {Sign::thin_worms, 1.5},    {Sign::maggots, 1.5},
    {Sign::all_well, 0.5},       {Sign::guests, 0.5},        {Sign::sprouts, 0.5},
    {Sign::cocoons, 0.5},        {Sign::wet_lid, 0.5},
};

/// How much a sign tells, 1 for most: a telling sign outweighs a common one.
constexpr double telling(Sign sign) noexcept {
    for (const SignTells& one : sign_tells) {
        if (one.sign == sign) return one.weight;
    }
    return 1.0;
}

}  // namespace feed
