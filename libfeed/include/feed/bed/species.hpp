#pragma once
#include <cstdint>
#include <string_view>

#include "feed/quantity/basis.hpp"
#include "feed/quantity/units.hpp"

namespace feed {

/// Composting worms. E. fetida stands for E. andrei too: the literature rarely tells them apart.
enum class Species : std::uint8_t {
    eisenia_fetida,
    eisenia_hortensis,  ///< also Dendrobaena veneta
    perionyx_excavatus,
    eudrilus_eugeniae,
};

/// What a species likes and what it survives, with the places the numbers come from. Where sources
/// disagree the optimum is their common ground and the source text says so.
struct SpeciesLimits {
    Species species;
    std::string_view name;
    Temperature coldest;       ///< below: harm
    Temperature optimum_low;   ///< growth and feeding at their best from here ...
    Temperature optimum_high;  ///< ... to here
    Temperature warmest;       ///< above: harm
    Temperature deadly;        ///< even a short time kills
    std::string_view temperature_source;
    Moisture driest;
    Moisture moisture_low;
    Moisture moisture_high;
    Moisture wettest;
    std::string_view moisture_source;
};

/// The limits of a species. Constant time, no allocation. Sources: see the fields.
inline const SpeciesLimits& limits_of(Species species) noexcept {
    static constexpr SpeciesLimits table[] = {
        {Species::eisenia_fetida, "Eisenia fetida or andrei", celsius(4), celsius(15), celsius(25),
         celsius(30), celsius(35),
         "4-30 C, best 15-20 C (Edwards, Earthworm Ecology, 2nd ed., table 18.3); best growth "
         "20-29 C "
         "(Kaplan et al. 1980) or 25-30 C (Edwards 1988, in FAO 2011); fastest 15-25 C and never "
         "above 35 C (TU Hamburg course after Edwards 1995); survived 43 C in beds (Reinecke et "
         "al. "
         "1992)",
         Moisture(0.60), Moisture(0.70), Moisture(0.85), Moisture(0.90),
         "60-90 %, best 80-90 % (Edwards, Earthworm Ecology, table 18.3); best 70-85 % (Kaplan et "
         "al. 1980)"},
        {Species::eisenia_hortensis, "Eisenia hortensis (Dendrobaena veneta)", celsius(4),
         celsius(15), celsius(25), celsius(30), celsius(35),
         "studied at 15 C (Muyima et al. 1994) and 25 C (cocoons and growth, Viljoen et al.); "
         "outer "
         "limits taken from E. fetida (judgement)",
         Moisture(0.674), Moisture(0.731), Moisture(0.799), Moisture(0.843),
         "found at 67.4-84.3 %, most at 77.9-78.7 %, cocoons at 73.1-79.9 % (Muyima, Reinecke and "
         "Viljoen 1994)"},
        {Species::perionyx_excavatus, "Perionyx excavatus", celsius(9), celsius(20), celsius(27),
         celsius(30), celsius(35),
         "best near 25 C, dies below about 9 C and above 30 C (secondary source; the same is said "
         "of "
         "E. eugeniae); winter limits tropical species (Reinecke et al. 1992); deadly value taken "
         "from E. fetida (judgement)",
         Moisture(0.70), Moisture(0.752), Moisture(0.832), Moisture(0.90),
         "best 75.2-83.2 %, prefers about 81 % (Hallatt, Viljoen and Reinecke 1992); outer limits "
         "(judgement)"},
        {Species::eudrilus_eugeniae, "Eudrilus eugeniae", celsius(9), celsius(20), celsius(27),
         celsius(30), celsius(35),
         "best about 25 C, dies below about 9 C and above 30 C (secondary source); winter limits "
         "tropical species (Reinecke et al. 1992); deadly value taken from E. fetida (judgement)",
         Moisture(0.70), Moisture(0.775), Moisture(0.82), Moisture(0.90),
         "adults prefer 80-82 %, young 77.5-79 %, cocoons at 79-80.5 % (Viljoen and Reinecke); "
         "outer "
         "limits (judgement)"}};
    return table[static_cast<std::size_t>(species)];
}

}  // namespace feed
