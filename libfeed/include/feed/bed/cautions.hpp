#pragma once
#include <algorithm>
#include <array>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/bed/hazard.hpp"
#include "feed/blend/portion.hpp"
#include "feed/feedstock/plain_name.hpp"

namespace feed {

/// The words of one caution, said once however many portions carry it: "FACT, so ADVICE".
struct CautionWords {
    Caution caution;
    std::string_view text;
    bool advice_is_on_feeding;  ///< of what is never fed only the fact is said
    std::string_view source;
};

/// Cautions in the order they are said: those that can hurt a person first.
inline constexpr std::array<CautionWords, 18> caution_words{{
    {Caution::caustic, "burns skin, eyes and worms, so only a pinch, and wear gloves", true,
     "county extension page, California; common practice"},
    {Caution::lime_dust, "its dust hurts eyes and lungs, so damp it first and wash your hands",
     true, "common practice"},
    {Caution::pet_waste, "its germs outlive home compost, so keep it away from food gardens", false,
     "wormsandgermsblog, March 2010 (Toxoplasma and Toxocara)"},
    {Caution::pathogen, "may carry germs, so wash your hands and keep the compost off salad beds",
     false, "Hill and Baldwin type study 2013: Ascaris eggs survived 90 days; common practice"},
    {Caution::treated_manure,
     "may hold drugs or weedkiller, so ask first and test the compost on beans", false,
     "Oregon State; UF/IFAS AG416; NPIC (aminopyralid, clopyralid); abamectin study (cocoons fewer "
     "above 0.25 mg/kg)"},
    {Caution::pesticide, "may be sprayed, so rinse it or use little", true,
     "UF/IFAS AG416; common practice"},
    {Caution::dust, "dusty, so damp it first and do not breathe it in", true,
     "Legionella longbeachae case-control study, New Zealand; common practice"},
    {Caution::sharp, "sharp, so use a tool or gloves", false, "common practice"},
    {Caution::coated, "may be coated with plastic or PFAS, so leave coated parts out", true,
     "Goossen et al. 2023: 209-455 ug/kg PFAS with compostable serviceware, at most 9.6 without"},
    {Caution::plastic_film, "may hold what never rots, so pull off tape, labels and film", true,
     "common practice"},
    {Caution::meat_dairy, "smells and draws flies and rats, so very little, buried deep", true,
     "common practice"},
    {Caution::citrus_oil,
     "its peel oil drives worms off, so little at a time, soaked for a day or two", true,
     "common practice; no primary study of limonene and worms was seen"},
    {Caution::allium, "smells strong, so little at a time, under bedding", true, "common practice"},
    {Caution::seeds_sprout, "may sprout, so pull the seedlings or freeze it first", true,
     "common practice"},
    {Caution::matting, "mats when wet, so mix it with something coarse, never in a layer", true,
     "common practice"},
    {Caution::heating, "heats in a heap, so lay it thin or mix it well", true, "common practice"},
    {Caution::ammonia, "gives off ammonia, so under plenty of bedding, never with lime or ash",
     true, "Cornell, ammonia odors: lime raises ammonia"},
    {Caution::oil, "greasy and shuts out air, so a spoonful or two at most", true,
     "common practice"},
}};

/// What a caution says of a feedstock, or nothing where it would be nonsense: of what is never fed
/// no advice on feeding it; lime and ash free the ammonia of others and have none.
constexpr std::string_view caution_text(const CautionWords& words, const Feedstock& f) noexcept {
    if (!f.has(words.caution)) return {};
    // The lime words already speak of dust.
    if (words.caution == Caution::dust && f.has(Caution::lime_dust)) return {};
    const bool frees_ammonia = words.caution == Caution::ammonia && f.has(Caution::caustic);
    const std::string_view text =
        frees_ammonia ? "sets ammonia free, so keep it off manure, meal and grass" : words.text;
    const bool fact_only = words.advice_is_on_feeding && f.stance == Stance::avoid;
    return text.substr(0, fact_only ? text.find(", so ") : std::string_view::npos);
}

/// Whether a caution can hurt the person who feeds, so that it is said on the first screen.
constexpr bool hurts_people(Caution caution) noexcept {
    return caution == Caution::caustic || caution == Caution::lime_dust ||
           caution == Caution::pet_waste || caution == Caution::pathogen ||
           caution == Caution::treated_manure || caution == Caution::dust ||
           caution == Caution::coated;
}

/// What holds for every bed, said once with each check.
inline constexpr std::string_view caution_for_all =
    "Wash your hands and cover cuts. "
    "A worm bed does not heat, and kills no germs for certain. "
    "(Studies disagree: Eastman et al. 2001; Hill and Baldwin 2013, Ascaris eggs survived 90 days.) "
    "Tetanus lives in soil, manure and compost: keep your booster up to date. "
    "Local rules for food scraps, and those of your school or site, come first.";

/// Cautions of a feeding, each kind once with the names of what it is of; those that can hurt a
/// person first. Linear in portions times cautions.
/// @param labels  what the keeper calls each portion, in their order; empty: the names.
inline std::vector<CautionFinding> cautions_of(std::span<const Portion> portions,
                                               std::span<const std::string> labels = {}) {
    std::vector<CautionFinding> findings;
    for (const CautionWords& caution : caution_words) {
        // What is never fed gets the fact alone, so one caution may take two sentences.
        std::vector<CautionFinding> of_this;
        for (std::size_t i = 0; i < portions.size(); ++i) {
            const Feedstock& f = *portions[i].feedstock;
            const std::string_view said = caution_text(caution, f);
            if (said.empty() || portions[i].wet_mass.in_kilograms() <= 0.0) continue;
            const std::string name = plain_name(i < labels.size() ? labels[i] : "", f);
            const bool serious = f.stance == Stance::avoid || caution.caution == Caution::caustic ||
                                 caution.caution == Caution::pet_waste ||
                                 caution.caution == Caution::coated;
            auto same = std::find_if(of_this.begin(), of_this.end(),
                                     [&](const CautionFinding& one) { return one.text == said; });
            if (same == of_this.end()) {
                of_this.push_back({caution.caution, Level::watch, "", std::string(said),
                                   std::string(caution.source)});
                same = of_this.end() - 1;
            }
            if (serious) same->level = Level::act;
            if (("; " + same->feedstock + "; ").find("; " + name + "; ") != std::string::npos)
                continue;
            same->feedstock += (same->feedstock.empty() ? "" : "; ") + name;
        }
        for (CautionFinding& one : of_this) {
            std::string names = one.feedstock;
            for (std::size_t at = names.find("; "); at != std::string::npos; at = names.find("; "))
                names.replace(at, 2, ", ");
            one.text = names + ": " + one.text + ".";
            findings.push_back(std::move(one));
        }
    }
    return findings;
}

}  // namespace feed
