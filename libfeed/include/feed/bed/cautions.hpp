#pragma once
#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "feed/bed/hazard.hpp"
#include "feed/blend/portion.hpp"

namespace feed {

/// The words of one caution, said once however many portions carry it.
struct CautionWords {
    Caution caution;
    std::string_view text;
    std::string_view source;
};

/// Cautions in the order they are said: those that can hurt a person first.
inline constexpr std::array<CautionWords, 18> caution_words{{
    {Caution::caustic,
     "caustic: burns skin, eyes and worms; hydrated and quick lime never belong in a bed, ash only "
     "in pinches",
     "county extension page, California; common practice"},
    {Caution::lime_dust,
     "keep the dust out of eyes and lungs and wash your hands; moisten it before spreading",
     "common practice"},
    {Caution::pet_waste,
     "Toxoplasma and Toxocara may outlive home composting: keep it out of compost for food gardens",
     "wormsandgermsblog, March 2010"},
    {Caution::pathogen,
     "may carry germs; a worm bed does not kill them, so wash your hands and keep the compost off "
     "salad beds",
     "Hill and Baldwin type study 2013: Ascaris eggs survived 90 days; common practice"},
    {Caution::treated_manure,
     "worming drugs and hay herbicides pass through the animal: hold back manure of recently dosed "
     "animals, ask about aminopyralid or clopyralid, and test the compost with beans in a pot",
     "Oregon State; UF/IFAS AG416; NPIC; abamectin study (cocoons fewer above 0.25 mg/kg)"},
    {Caution::pesticide, "may be sprayed: rinse it, or use it sparingly where the spray is unknown",
     "UF/IFAS AG416; common practice"},
    {Caution::dust, "dusty: moisten it before handling, do not breathe the dust or spores",
     "Legionella longbeachae case-control study, New Zealand; common practice"},
    {Caution::sharp, "sharp: crush or grind it, and use a tool rather than the hand",
     "common practice"},
    {Caution::coated, "coated or greaseproof paper can carry plastic or PFAS: leave it out",
     "Goossen et al. 2023: 209-455 ug/kg PFAS with compostable serviceware, at most 9.6 without"},
    {Caution::plastic_film, "pull off tape, labels and film; what stays will not rot",
     "common practice"},
    {Caution::meat_dairy, "meat and dairy rot, smell and draw flies and rats: leave them out",
     "common practice"},
    {Caution::citrus_oil,
     "peel oil drives worms off and slows rot: little at a time, soaked or aged a day or two",
     "common practice; no primary study of limonene and worms was seen"},
    {Caution::allium, "onion family: strong sulphur oils and smell, little at a time under bedding",
     "common practice"},
    {Caution::seeds_sprout, "seeds or stones can sprout: harmless, pull them or freeze them first",
     "common practice"},
    {Caution::matting, "mats when wet: mix it with something coarse, never in a layer",
     "common practice"},
    {Caution::heating, "heats in a heap: lay it thin or mix it well", "common practice"},
    {Caution::ammonia, "frees ammonia: under plenty of bedding, never with lime or ash",
     "Cornell, ammonia odors: lime raises ammonia"},
    {Caution::oil, "greasy: seals out air and goes rancid; a spoonful or two at most",
     "common practice"},
}};

/// What holds for every bed, said once with each check.
inline constexpr std::string_view caution_for_all =
    "A worm bed does not heat and kills no germs for certain (studies disagree: Eastman et al. 2001; "
    "Hill and Baldwin 2013, where Ascaris eggs survived 90 days): wash your hands and cover cuts. "
    "Tetanus lives in soil, manure and compost: keep the booster up to date (public health advice). "
    "Local rules for food scraps, and those of your school or site, come first.";

/// Cautions of a feeding, each kind once with the names of what it is of; those that can hurt a
/// person first. Linear in portions times cautions.
inline std::vector<CautionFinding> cautions_of(std::span<const Portion> portions) {
    std::vector<CautionFinding> findings;
    for (const CautionWords& caution : caution_words) {
        std::string names;
        bool sold_as_food = true;
        for (const Portion& portion : portions) {
            const Feedstock& f = *portion.feedstock;
            if (!f.has(caution.caution) || portion.wet_mass.in_kilograms() <= 0.0) continue;
            // The lime words already speak of dust.
            if (caution.caution == Caution::dust && f.has(Caution::lime_dust)) continue;
            if (names.find(f.name) != std::string::npos) continue;
            if (!names.empty()) names += "; ";
            names += f.name;
            sold_as_food = sold_as_food && f.stance != Stance::avoid;
        }
        if (names.empty()) continue;
        const bool serious = caution.caution == Caution::caustic ||
                             caution.caution == Caution::pet_waste ||
                             caution.caution == Caution::coated ||
                             caution.caution == Caution::meat_dairy || !sold_as_food;
        findings.push_back({caution.caution, serious ? Level::act : Level::watch, names,
                            names + ": " + std::string(caution.text) + ".",
                            std::string(caution.source)});
    }
    return findings;
}

}  // namespace feed
