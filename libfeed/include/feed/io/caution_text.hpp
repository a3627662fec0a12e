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

/// What the two cautions warn of that belong to the bed rather than to the person who feeds it, and
/// that a check judges as hazards; nothing for the others and for what is never fed.
constexpr std::string_view bed_caution_text(Caution caution, const Feedstock& f) noexcept {
    if (!f.has(caution) || f.stance == Stance::avoid) return {};
    if (caution == Caution::acidity)
        return "sour, so little at a time, with ground shell in the bed";
    if (caution == Caution::salt) return "salty, and salt stays in the bed, so feed little";
    return {};
}

}  // namespace feed::io
