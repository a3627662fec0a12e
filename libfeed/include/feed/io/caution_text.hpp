#pragma once
#include <array>
#include <cstdint>
#include <string_view>

#include "feed/feedstock/classes.hpp"

namespace feed::io {

/// The word of a caution in files and answers, what it warns of, and where that comes from.
struct CautionText {
    Caution caution;
    std::string_view word;
    std::string_view text;
    std::string_view source;
};

inline constexpr std::array<CautionText, 20> caution_texts{{
    {Caution::acidity, "acidity", "Sour: feed little at a time and keep ground shell in the bed.",
     "common practice"},
    {Caution::salt, "salt",
     "Salty: salt stays in the bed and harms worms; rinse or drain it, and feed little.",
     "Kaplan et al. 1980"},
    {Caution::oil, "oil", "Oily: fat coats bedding and keeps air out; feed little or none.",
     "common practice"},
    {Caution::ammonia, "ammonia",
     "Can free ammonia, which harms worms and lungs; mix with dry bedding and keep air moving.",
     "common practice"},
    {Caution::heating, "heating", "Heats in a thick layer; spread it thin or compost it first.",
     "common practice"},
    {Caution::pathogen, "pathogen",
     "May carry germs. A worm bed is not proven to kill them; wash hands, keep it off food crops, "
     "and follow local rules.",
     "common practice"},
    {Caution::sharp, "sharp", "Sharp pieces: crush or grind first and mind your hands.",
     "common practice"},
    {Caution::plastic_film, "plastic film", "May carry plastic: peel off films, tape and labels.",
     "common practice"},
    {Caution::pesticide, "pesticide", "May carry pesticide: wash it, or leave treated ones out.",
     "common practice"},
    {Caution::allium, "onion family",
     "Onion family: feed little at a time, well buried; worms avoid it fresh.", "common practice"},
    {Caution::citrus_oil, "citrus oil",
     "Citrus peel oil drives worms away: feed little at a time, aged or soaked.",
     "common practice"},
    {Caution::dust, "dust",
     "Dusty, and old organic matter carries spores: wet it first and do not breathe the dust.",
     "common practice"},
    {Caution::seeds_sprout, "sprouting seed",
     "Seeds and eyes may sprout; freeze or cook them first.", "common practice"},
    {Caution::matting, "matting", "Mats and keeps air out: shred it and mix it loosely.",
     "common practice"},
    {Caution::caustic, "caustic",
     "Caustic: burns skin and eyes and kills worms. Do not use it; carbonate of lime only.",
     "common practice"},
    {Caution::coated, "coated paper",
     "Glossy, coated or receipt paper may carry plastic and other chemicals; leave it out.",
     "common practice"},
    {Caution::meat_dairy, "meat and dairy",
     "Meat, fish and dairy rot, smell and draw pests; best left out.", "common practice"},
    {Caution::pet_waste, "pet waste",
     "Waste of dogs and cats can carry parasites that a worm bed does not kill; keep it apart and "
     "off food crops.",
     "common practice"},
    {Caution::treated_manure, "treated manure",
     "Manure of animals given worm medicine, or hay treated with weedkiller, can harm worms and "
     "plants; ask, and age it first.",
     "common practice"},
    {Caution::lime_dust, "lime dust",
     "Lime dust irritates eyes and lungs: wear a mask and goggles, and add it damp.",
     "common practice"},
}};

}  // namespace feed::io
