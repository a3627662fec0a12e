#pragma once
#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>

#include "feed/feedstock/assumed.hpp"
#include "feed/feedstock/feedstock.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed {

/// What is done to a feedstock before it goes in.
enum class Preparation : std::uint8_t {
    whole,          ///< not cut
    chopped,        ///< as the table describes it
    blended,        ///< to a pulp
    frozen_thawed,  ///< frozen and thawed, the juice kept
    drained,        ///< left to drip; after thawing more comes out
    soaked,         ///< under water, then dripped off
    dried,          ///< in air
    pre_composted,  ///< two to three weeks in a heap or bucket first
    damped,         ///< with water until it feels damp and gives none
};
inline constexpr std::size_t preparation_count = 9;

/// The word of each preparation in files and answers, in the order of the enumeration.
inline constexpr std::array<std::string_view, preparation_count> preparation_words{
    "whole", "chopped",       "blended", "frozen and thawed", "drained", "soaked",
    "dried", "pre-composted", "damped"};

/// The word of a preparation.
constexpr std::string_view text(Preparation preparation) noexcept {
    return preparation_words[static_cast<std::size_t>(preparation)];
}

/// The preparation a word means, any case and hyphens; "frozen", "thawed", "pureed" and "cut" too.
/// Nothing when unknown. Threads: pure.
inline std::optional<Preparation> parse_preparation(std::string_view word) {
    const std::string plain = plain_text(word);
    for (std::size_t i = 0; i < preparation_count; ++i) {
        if (plain == plain_text(preparation_words[i])) return static_cast<Preparation>(i);
    }
    constexpr std::pair<std::string_view, Preparation> others[] = {
        {"uncut", Preparation::whole},
        {"cut", Preparation::chopped},
        {"diced", Preparation::chopped},
        {"sliced", Preparation::chopped},
        {"shredded", Preparation::chopped},
        {"torn", Preparation::chopped},
        {"pureed", Preparation::blended},
        {"pulped", Preparation::blended},
        {"frozen", Preparation::frozen_thawed},
        {"thawed", Preparation::frozen_thawed},
        {"frozen thawed", Preparation::frozen_thawed},
        {"soak", Preparation::soaked},
        {"damp", Preparation::damped},
        {"dampened", Preparation::damped},
        {"moist", Preparation::damped},
        {"moistened", Preparation::damped},
        {"precomposted", Preparation::pre_composted},
        {"composted", Preparation::pre_composted},
    };
    for (const auto& [other, preparation] : others) {
        if (plain == other) return preparation;
    }
    return std::nullopt;
}

/// A stated factor with its range (grade D: a judgement, to be moved by evidence).
struct PreparationFactor {
    double value, low, high;
};

/// The factors of one preparation. Densities and rates are those of the material cut as the table
/// describes it, times these.
struct PreparationFactors {
    PreparationFactor density;
    PreparationFactor decay_rate;
};

/// By preparation, in the order of the enumeration. Whole pieces trap air and open slowly; pulp has
/// no gaps and much surface; thawing bursts the cells (common practice, the sizes are judgements).
/// Where moisture changes, density follows from the water and from `dried_shrinkage`.
inline constexpr std::array<PreparationFactors, preparation_count> preparation_factors{{
    {{0.85, 0.70, 1.00}, {0.5, 0.3, 0.8}},  // whole
    {{1.00, 1.00, 1.00}, {1.0, 1.0, 1.0}},  // chopped
    {{1.60, 1.30, 2.00}, {1.5, 1.2, 2.0}},  // blended
    {{1.20, 1.05, 1.50}, {1.3, 1.0, 1.6}},  // frozen and thawed
    {{1.00, 0.90, 1.10}, {1.0, 1.0, 1.0}},  // drained
    {{1.00, 1.00, 1.00}, {1.0, 1.0, 1.1}},  // soaked
    {{1.00, 1.00, 1.00}, {1.0, 0.8, 1.0}},  // dried
    {{1.30, 1.00, 1.60}, {0.8, 0.6, 1.0}},  // pre-composted
    {{1.00, 1.00, 1.00}, {1.0, 1.0, 1.1}},  // damped
}};

/// Whether a material comes from the freezer.
inline bool is_frozen(const Feedstock& feedstock) {
    return feedstock.prepared_as.find("frozen") != std::string::npos;
}
/// Whether it may lie in a kitchen's freezer until the next feeding: dung may not, nor bedding with
/// dung in it (common practice: its germs stay away from food).
inline bool may_be_frozen(const Feedstock& feedstock) noexcept {
    return feedstock.group != Group::manures && !feedstock.has(Caution::treated_manure);
}

/// Share of its own water that drips off fresh cut scraps; and after freezing and thawing.
inline constexpr PreparationFactor drained_share{0.08, 0.03, 0.15};
inline constexpr PreparationFactor drained_share_after_thawing{0.25, 0.15, 0.40};
/// Share of the water-holding capacity that is filled after soaking and dripping off.
inline constexpr PreparationFactor soaked_share{0.90, 0.70, 1.00};
/// The same of what feels damp and gives no water: the class of the squeeze test in
/// bed/usual_bed.hpp; upwards to the wrung-out sponge that others call damp.
inline constexpr PreparationFactor damped_share{0.46, 0.35, 0.65};
/// Moisture of what has dried in air.
inline constexpr PreparationFactor dried_moisture{0.10, 0.05, 0.15};
/// Volume left after drying, of what it was, for soft wet tissue.
inline constexpr PreparationFactor dried_shrinkage{0.40, 0.25, 0.70};
/// What pre-composting leaves of the acid, of the labile share, and of the C:N ratio (nitrogen
/// stays while carbon is breathed off).
inline constexpr PreparationFactor pre_composted_acid{0.3, 0.1, 0.6};
inline constexpr PreparationFactor pre_composted_labile{0.6, 0.4, 0.8};
inline constexpr PreparationFactor pre_composted_cn{0.85, 0.7, 1.0};

namespace detail {

inline constexpr std::string_view preparation_sources = "RULE-PREPARATION";
inline constexpr std::string_view preparation_method = "preparation factor, judgement";

inline void mark(Datum& datum) {
    datum.grade = Grade::d;
    datum.range_grade = Grade::d;
    datum.sources = preparation_sources;
    datum.method = preparation_method;
}

/// Multiplies a stored number; nothing where it is unknown or the factor is exactly one.
inline void scale(Feedstock& feedstock, Property property, PreparationFactor factor) {
    auto& datum = feedstock[property];
    if (!datum || (factor.value == 1.0 && factor.low == 1.0 && factor.high == 1.0)) return;
    datum->value *= factor.value;
    datum->low *= factor.low;
    datum->high *= factor.high;
    const auto& limits = kind(property);
    datum->value = std::clamp(datum->value, limits.lowest, limits.highest);
    datum->low = std::clamp(datum->low, limits.lowest, datum->value);
    datum->high = std::clamp(datum->high, datum->value, limits.highest);
    mark(*datum);
}

inline void scale_densities(Feedstock& feedstock, PreparationFactor factor) {
    scale(feedstock, Property::bulk_density_loose, factor);
    scale(feedstock, Property::bulk_density_settled, factor);
}

/// Gives the material another moisture by water alone: everything stored per wet mass follows, and
/// the volume becomes `volume_left` of what it was.
inline void change_water(Feedstock& feedstock, PreparationFactor moisture,
                         PreparationFactor volume_left) {
    auto& datum = feedstock[Property::moisture_wet];
    if (!datum || datum->value >= 1.0) return;
    const double dry_before = 1.0 - datum->value;
    const double dry_after = 1.0 - moisture.value;
    if (dry_after <= 0.0) return;
    datum->value = moisture.value;
    datum->low = std::min(moisture.low, moisture.value);
    datum->high = std::max(moisture.high, moisture.value);
    mark(*datum);
    const double content = dry_after / dry_before;
    for (const auto property :
         {Property::protein_wet, Property::fat_wet, Property::carbohydrate_wet, Property::fibre_wet,
          Property::titratable_acidity_wet, Property::organic_acids_wet,
          Property::neutralising_value_wet, Property::sodium_wet, Property::potassium_wet})
        scale(feedstock, property, {content, content, content});
    // The wet mass of one piece grows or shrinks with its water.
    const double mass = dry_before / dry_after;
    for (auto& measure : feedstock.measures) {
        const bool by_volume =
            measure.measure == Measure::cup || measure.measure == Measure::tablespoon ||
            measure.measure == Measure::teaspoon || measure.measure == Measure::handful;
        measure.wet_mass = (by_volume ? mass / volume_left.value : mass) * measure.wet_mass;
        measure.grade = Grade::d;
    }
    scale_densities(feedstock,
                    {mass / volume_left.value, mass / volume_left.high, mass / volume_left.low});
}

inline void drain(Feedstock& feedstock, PreparationFactor share) {
    const auto& moisture = feedstock[Property::moisture_wet];
    if (!moisture) return;
    const auto left = [](double wet, double lost) {
        return wet >= 1.0 ? wet : wet * (1.0 - lost) / (1.0 - wet * lost);
    };
    // Dissolved salt and acid are counted as staying: the keeper is warned rather than surprised.
    change_water(feedstock,
                 {left(moisture->value, share.value), left(moisture->low, share.high),
                  left(moisture->high, share.low)},
                 {1.0, 1.0, 1.0});
}

/// Fills a share of the water-holding capacity; what is wetter already stays so.
inline void soak(Feedstock& feedstock, PreparationFactor share) {
    const auto& moisture = feedstock[Property::moisture_wet];
    if (!moisture) return;
    const auto& own = feedstock[Property::water_holding_capacity_dry];
    const PreparationFactor capacity =
        own ? PreparationFactor{own->value, own->low, own->high}
            : PreparationFactor{assumed::holding_capacity.value, assumed::holding_capacity.low,
                                assumed::holding_capacity.high};
    const auto wet = [](double held) { return held / (1.0 + held); };
    const double now = moisture->value;
    change_water(feedstock,
                 {std::max(now, wet(share.value * capacity.value)),
                  std::max(now, wet(share.low * capacity.low)),
                  std::max(now, wet(share.high * capacity.high))},
                 {1.0, 1.0, 1.0});
}

inline void dry_in_air(Feedstock& feedstock) {
    const auto& moisture = feedstock[Property::moisture_wet];
    if (!moisture || moisture->value <= dried_moisture.value) return;
    // What is nearly dry already hardly shrinks.
    const bool soft = moisture->value > 0.5;
    change_water(feedstock, dried_moisture,
                 soft ? dried_shrinkage : PreparationFactor{1.0, 0.9, 1.0});
}

inline void pre_compost(Feedstock& feedstock) {
    // Raw poultry manure is barred; two to three weeks in a heap let its ammonia go.
    if (feedstock.stance_pre_composted && feedstock.stance == Stance::avoid)
        feedstock.stance = *feedstock.stance_pre_composted;
    scale(feedstock, Property::titratable_acidity_wet, pre_composted_acid);
    scale(feedstock, Property::organic_acids_wet, pre_composted_acid);
    const auto& carbon = feedstock[Property::carbon_dry];
    const auto& ratio = feedstock[Property::cn_ratio];
    auto& nitrogen = feedstock[Property::nitrogen_dry];
    // Below a C:N of about 10 nitrogen leaves as ammonia about as fast as carbon is breathed off.
    if (carbon && ratio && nitrogen && ratio->value >= 10.0 && ratio->low > 0.0) {
        scale(feedstock, Property::cn_ratio, pre_composted_cn);
        nitrogen->value = carbon->value / ratio->value;
        nitrogen->low = std::min(nitrogen->value, carbon->low / ratio->high);
        nitrogen->high = std::max(nitrogen->value, carbon->high / ratio->low);
        mark(*nitrogen);
    }
    auto& labile = feedstock[Property::labile_share];
    auto& cellulosic = feedstock[Property::cellulosic_share];
    auto& lignin_like = feedstock[Property::lignin_like_share];
    if (!labile || !cellulosic || !lignin_like) return;
    scale(feedstock, Property::labile_share, pre_composted_labile);
    const double sum = labile->value + cellulosic->value + lignin_like->value;
    if (sum <= 0.0) return;
    for (const auto property :
         {Property::labile_share, Property::cellulosic_share, Property::lignin_like_share})
        scale(feedstock, property, {1.0 / sum, 1.0 / sum, 1.0 / sum});
}

}  // namespace detail

/// The feedstock after a preparation: moisture, density and rate of decay (and what hangs on them)
/// changed by the stated factors of this header, each marked grade D. Preparations add up in the
/// order they are done; draining after thawing loses more. A changed value keeps its unit and
/// basis. Threads: pure.
inline Feedstock prepared(const Feedstock& feedstock, Preparation preparation) {
    Feedstock after = feedstock;
    const auto& factors = preparation_factors[static_cast<std::size_t>(preparation)];
    const bool thawed =
        feedstock.prepared_as.find(text(Preparation::frozen_thawed)) != std::string::npos;
    switch (preparation) {
        case Preparation::drained:
            detail::drain(after, thawed ? drained_share_after_thawing : drained_share);
            break;
        case Preparation::soaked:
            detail::soak(after, soaked_share);
            break;
        case Preparation::damped:
            detail::soak(after, damped_share);
            break;
        case Preparation::dried:
            detail::dry_in_air(after);
            break;
        case Preparation::pre_composted:
            detail::pre_compost(after);
            break;
        case Preparation::whole:
        case Preparation::chopped:
        case Preparation::blended:
        case Preparation::frozen_thawed:
            break;
    }
    detail::scale_densities(after, factors.density);
    after.decay_rate_factor.value *= factors.decay_rate.value;
    after.decay_rate_factor.low *= factors.decay_rate.low;
    after.decay_rate_factor.high *= factors.decay_rate.high;
    after.prepared_as += (after.prepared_as.empty() ? "" : ", ") + std::string(text(preparation));
    return after;
}

/// The feedstock after several preparations, in their order.
inline Feedstock prepared(const Feedstock& feedstock, std::span<const Preparation> preparations) {
    Feedstock after = feedstock;
    for (const auto preparation : preparations)
        after = prepared(after, preparation);
    return after;
}

}  // namespace feed
