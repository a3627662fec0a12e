#pragma once
#include <cstdint>

namespace feed {

/// Groups of the table; each is one file in data/.
enum class Group : std::uint8_t { scraps, beddings, manures, amendments, water, guarded };

/// What a feedstock may be in a feeding; a bit each, a feedstock may have several.
enum class Role : std::uint8_t { scraps = 1, bedding = 2, amendment = 4, water = 8 };

/// May it be fed to a worm bin?
enum class Stance : std::uint8_t { feed, feed_little, avoid };

/// How fast a material decays in a warm moist bin after cutting; a judgement (grade D).
enum class DecayClass : std::uint8_t { inert, fast, medium, slow, very_slow };

/// A warning that belongs to a feedstock; a bit each.
enum class Caution : std::uint32_t {
    acidity = 1u << 0,
    salt = 1u << 1,
    oil = 1u << 2,
    ammonia = 1u << 3,
    heating = 1u << 4,
    pathogen = 1u << 5,
    sharp = 1u << 6,
    plastic_film = 1u << 7,
    pesticide = 1u << 8,
    allium = 1u << 9,
    citrus_oil = 1u << 10,
    dust = 1u << 11,
    seeds_sprout = 1u << 12,
    matting = 1u << 13,
    caustic = 1u << 14,
    coated = 1u << 15,
    meat_dairy = 1u << 16,
    pet_waste = 1u << 17,
    treated_manure = 1u << 18,
    lime_dust = 1u << 19,
};

}  // namespace feed
