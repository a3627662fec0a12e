#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "feed/blend/portion.hpp"
#include "feed/blend/take_out.hpp"
#include "feed/quantity/estimate.hpp"

namespace feed {

/// Something the answer took for granted, said to the keeper.
struct Assumption {
    std::string text;  ///< one sentence
    Grade grade = Grade::d;
    bool of_words = false;  ///< what a word of the keeper's was taken for: it names the table's row
};

/// The forward properties of a blend; keys of the JSON form in the comments.
struct BlendProperties {
    WetMass wet_mass;                     ///< wet_mass_kg
    Estimate<Mass> dry_mass;              ///< dry_mass_kg
    Estimate<Mass> water;                 ///< water_kg
    Estimate<Moisture> moisture;          ///< moisture
    Estimate<double> cn_ratio;            ///< cn_ratio: total C over total N
    Estimate<double> available_cn_ratio;  ///< available_cn_ratio: lignin-limited C over N
    Estimate<Mass> carbon;                ///< carbon_kg
    Estimate<Mass> nitrogen;              ///< nitrogen_kg
    Estimate<Volume> volume;              ///< volume_l
    Estimate<Density> bulk_density;       ///< bulk_density_kg_m3
    Estimate<double> free_air_space;      ///< free_air_space, share of the volume
    Estimate<Mass> acid;                  ///< acid_g_citric
    Estimate<Mass> salt;                  ///< salt_g, sodium as NaCl
    Estimate<Mass> potassium;             ///< potassium_g
    Estimate<Mass> fat;                   ///< fat_kg
    Estimate<Mass> volatile_solids;       ///< volatile_solids_kg
    Estimate<Mass> neutralising;          ///< neutralising_g_caco3
    std::uint32_t cautions = 0;           ///< union of the bits of Caution
    std::vector<TakeOut> take_out;        ///< what is never fed to a worm bed, before all else
    std::vector<Assumption> assumed;
    std::vector<std::string> unknown;  ///< JSON keys of the quantities without a number
};

}  // namespace feed
