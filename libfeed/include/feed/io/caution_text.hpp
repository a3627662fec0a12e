#pragma once
#include <array>
#include <cstdint>
#include <string_view>

#include "feed/bed/cautions.hpp"
#include "feed/feedstock/classes.hpp"

namespace feed::io {

/// The word of a caution in files and JSON.
struct CautionName {
    Caution caution;
    std::string_view word;
};

/// Every caution in the order of the enumeration.
inline constexpr std::array<CautionName, 20> caution_names{{
    {Caution::acidity, "acidity"},
    {Caution::salt, "salt"},
    {Caution::oil, "oil"},
    {Caution::ammonia, "ammonia"},
    {Caution::heating, "heating"},
    {Caution::pathogen, "pathogen"},
    {Caution::sharp, "sharp"},
    {Caution::plastic_film, "plastic film"},
    {Caution::pesticide, "pesticide"},
    {Caution::allium, "allium"},
    {Caution::citrus_oil, "citrus oil"},
    {Caution::dust, "dust"},
    {Caution::seeds_sprout, "seeds sprout"},
    {Caution::matting, "matting"},
    {Caution::caustic, "caustic"},
    {Caution::coated, "coated"},
    {Caution::meat_dairy, "meat dairy"},
    {Caution::pet_waste, "pet waste"},
    {Caution::treated_manure, "treated manure"},
    {Caution::lime_dust, "lime dust"},
}};

/// What a caution warns of. Two belong to the bed rather than to the person who feeds it, and a
/// check judges them as hazards: their sentences stand here.
constexpr std::string_view caution_sentence(Caution caution) noexcept {
    for (const auto& known : caution_words) {
        if (known.caution == caution) return known.text;
    }
    if (caution == Caution::acidity) return "sour: little at a time, with ground shell in the bed";
    if (caution == Caution::salt)
        return "salty: salt stays in the bed and harms worms; rinse it, and feed little";
    return "";
}

}  // namespace feed::io
