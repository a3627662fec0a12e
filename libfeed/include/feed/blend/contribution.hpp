#pragma once
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>

#include "feed/blend/available_carbon.hpp"
#include "feed/blend/interval_sweep.hpp"
#include "feed/feedstock/assumed.hpp"
#include "feed/feedstock/carbon_nitrogen.hpp"
#include "feed/feedstock/part.hpp"

namespace feed {

/// What adds up when portions come together. Blends, balances, beds and forecasts are sums of
/// these.
enum class Addend : std::uint8_t {
    wet_kg,
    dry_kg,
    water_kg,
    carbon_kg,
    nitrogen_kg,
    available_carbon_kg,  ///< the degradable share of the carbon
    acid_kg,              ///< titratable, as citric acid
    salt_kg,              ///< sodium as NaCl
    potassium_kg,
    fat_kg,
    volatile_solids_kg,
    neutralising_kg,  ///< as CaCO3
    loose_m3,         ///< as filled; none of a liquid, which fills pores
    settled_m3,
    phases_m3,    ///< water, organic matter and ash without air
    solids_m3,    ///< organic matter and ash without air
    capacity_kg,  ///< water that bedding holds
    set_free_kg,  ///< water poured, or leaving the scraps as they collapse
    labile_kg,    ///< labile volatile solids
};
inline constexpr std::size_t addend_count = 19;

/// What a blend total is about, for the share of it that is known.
enum class BlendQuantity : std::uint8_t {
    moisture,
    carbon_nitrogen,
    acid,
    salt,
    potassium,
    fat,
    volatile_solids,
    neutralising,
    volume,
};
inline constexpr std::size_t blend_quantity_count = 9;

/// What one wet kilogram of a feedstock adds to each sum.
struct Contribution {
    Part part = Part::scraps;
    std::array<Range, addend_count> per_kg{};
    std::array<Grade, addend_count> grades{};
    std::uint32_t unknown = 0;  ///< bits of the addends whose number is only assumed
    /// Mass (wet, or dry for dry-basis properties) that has something of each quantity: a
    /// definitional zero, such as the acid of paper, does not concern it.
    std::array<double, blend_quantity_count> concerned{};
    /// Part of `concerned` whose property is not known.
    std::array<double, blend_quantity_count> missing{};
    /// In total and in available carbon over nitrogen; nothing without either or unknown.
    std::optional<RatioPart> total_ratio, available_ratio;
    Grade ratio_grade = Grade::a;
    Grade degradable_grade = Grade::a;

    constexpr const Range& operator[](Addend addend) const noexcept {
        return per_kg[static_cast<std::size_t>(addend)];
    }
    constexpr bool is_known(Addend addend) const noexcept {
        return (unknown >> static_cast<unsigned>(addend) & 1u) == 0;
    }
};

namespace detail {

/// Fills in a contribution property by property.
class ContributionMaker {
public:
    constexpr explicit ContributionMaker(const Feedstock& f) noexcept : f_(f) {
        to_.part = part_of(f);
        to_.grades.fill(Grade::a);
    }

    constexpr Contribution made() noexcept {
        put(Addend::wet_kg, Range(1.0), Grade::a, true);
        solids_and_water();
        carbon_and_nitrogen();
        fat();
        by_wet_mass(Addend::acid_kg, BlendQuantity::acid, Property::titratable_acidity_wet, 1.0);
        by_wet_mass(Addend::salt_kg, BlendQuantity::salt, Property::sodium_wet,
                    assumed::salt_of_sodium.value);
        by_wet_mass(Addend::potassium_kg, BlendQuantity::potassium, Property::potassium_wet, 1.0);
        // Only minerals are asked for a neutralising value; what lives has none to speak of.
        if (f_[Property::neutralising_value_wet] ||
            (f_.decay_class == DecayClass::inert && to_.part == Part::amendment))
            by_wet_mass(Addend::neutralising_kg, BlendQuantity::neutralising,
                        Property::neutralising_value_wet, 1.0);
        volumes();
        return to_;
    }

private:
    constexpr void put(Addend addend, const Range& per_kg, Grade grade, bool known) noexcept {
        const auto at = static_cast<std::size_t>(addend);
        to_.per_kg[at] = per_kg;
        to_.grades[at] = grade;
        if (!known) to_.unknown |= 1u << at;
    }
    constexpr void concern(BlendQuantity quantity, double mass, bool known) noexcept {
        const auto at = static_cast<std::size_t>(quantity);
        to_.concerned[at] = mass;
        if (!known) to_.missing[at] = mass;
    }

    constexpr void solids_and_water() noexcept {
        const Taken moisture = *taken(f_, Property::moisture_wet);
        const Taken ash = *taken(f_, Property::ash_dry);
        wet_ = moisture.range;
        dry_ = wet_.rest();
        moisture_known_ = !moisture.is_assumed;
        moisture_grade_ = moisture.grade;
        concern(BlendQuantity::moisture, 1.0, moisture_known_);
        put(Addend::water_kg, wet_, moisture.grade, moisture_known_);
        put(Addend::dry_kg, dry_, moisture.grade, moisture_known_);
        const Range organic = dry_ * ash.range.rest();
        put(Addend::volatile_solids_kg, organic, worst(moisture.grade, ash.grade),
            moisture_known_ && !ash.is_assumed);
        concern(BlendQuantity::volatile_solids, concerned_dry(),
                moisture_known_ && !ash.is_assumed);
        const Range phases{phases_m3_per_kg(wet_.value, ash.range.value),
                           phases_m3_per_kg(wet_.low, ash.range.high),
                           phases_m3_per_kg(wet_.high, ash.range.low)};
        put(Addend::phases_m3, phases, moisture.grade, moisture_known_);
        const auto solids = [](double dry, double ash_share) {
            return dry * ((1.0 - ash_share) / assumed::organic_density.value +
                          ash_share / assumed::ash_density.value);
        };
        put(Addend::solids_m3,
            {solids(dry_.value, ash.range.value), solids(dry_.low, ash.range.high),
             solids(dry_.high, ash.range.low)},
            moisture.grade, moisture_known_);
        compact_m3_ = phases.value;
        const Taken labile = *taken(f_, Property::labile_share);
        put(Addend::labile_kg, organic * labile.range, labile.grade, !labile.is_assumed);
        if (to_.part == Part::bedding) {
            const Taken holding = *taken(f_, Property::water_holding_capacity_dry);
            put(Addend::capacity_kg, dry_ * holding.range, holding.grade, !holding.is_assumed);
        }
        if (to_.part == Part::poured_water) {
            put(Addend::set_free_kg, wet_, moisture.grade, moisture_known_);
        } else if (to_.part == Part::scraps) {
            put(Addend::set_free_kg,
                {wet_.value * released_share(wet_.value).value,
                 wet_.low * released_share(wet_.low).low,
                 wet_.high * released_share(wet_.high).high},
                Grade::d, moisture_known_);
        }
    }

    /// Mass that a dry-basis property concerns: the dry mass, or all where that is not known.
    constexpr double concerned_dry() const noexcept { return moisture_known_ ? dry_.value : 1.0; }

    constexpr void carbon_and_nitrogen() noexcept {
        const auto both = carbon_nitrogen_of(f_);
        const bool known = moisture_known_ && both;
        if (!known) {
            concern(BlendQuantity::carbon_nitrogen, concerned_dry(), false);
            for (const Addend addend :
                 {Addend::carbon_kg, Addend::nitrogen_kg, Addend::available_carbon_kg})
                put(addend, {}, Grade::d, false);
        }
        const Range carbon = both ? both->carbon : taken(f_, Property::carbon_dry)->range;
        const Grade grade = both ? worst(both->grade, moisture_grade_) : Grade::d;
        put(Addend::carbon_kg, dry_ * carbon, grade, known);
        if (!both || both->is_zero()) return;
        put(Addend::nitrogen_kg, dry_ * both->nitrogen, grade, known);
        const Taken share = degradable_share_of(f_);
        put(Addend::available_carbon_kg, dry_ * both->carbon * share.range,
            worst(grade, share.grade), known);
        if (!known) return;
        concern(BlendQuantity::carbon_nitrogen, dry_.value, true);
        to_.total_ratio = ratio_part(dry_, *both, Range(1.0));
        to_.available_ratio = ratio_part(dry_, *both, share.range);
        to_.ratio_grade = grade;
        if (!both->carbon_free()) to_.degradable_grade = share.grade;
    }

    constexpr void fat() noexcept {
        const auto& fresh = f_[Property::fat_wet];
        if (!f_[Property::fat_dry] && fresh) {
            put(Addend::fat_kg, Range(*fresh).around_value(), fresh->grade, true);
            if (fresh->high != 0.0) concern(BlendQuantity::fat, 1.0, true);
            return;
        }
        const auto fat = taken(f_, Property::fat_dry);
        const bool known = moisture_known_ && fat && !fat->is_assumed;
        const Range share = fat ? fat->range : Range();
        put(Addend::fat_kg, dry_ * share, fat ? worst(fat->grade, moisture_grade_) : Grade::d,
            known);
        if (!known || share.high != 0.0) concern(BlendQuantity::fat, concerned_dry(), known);
    }

    constexpr void by_wet_mass(Addend addend, BlendQuantity quantity, Property property,
                               double factor) noexcept {
        const auto content = taken(f_, property);
        const bool known = content && !content->is_assumed;
        const Range share = content ? content->range : Range();
        put(addend, factor * share, content ? content->grade : Grade::d, known);
        if (!known || share.high != 0.0) concern(quantity, 1.0, known);
    }

    constexpr void volumes() noexcept {
        if (to_.part == Part::poured_water) return;
        const Taken loose = *taken(f_, Property::bulk_density_loose);
        const Taken settled = *taken(f_, Property::bulk_density_settled);
        const auto volume = [](const Range& density) {
            return Range{1.0 / density.value, 1.0 / density.high, 1.0 / density.low};
        };
        put(Addend::loose_m3, volume(loose.range), loose.grade, !loose.is_assumed);
        concern(BlendQuantity::volume, 1.0, !loose.is_assumed);
        const Range lies = volume(settled.range);
        put(Addend::settled_m3,
            {std::max(lies.value, compact_m3_), std::max(lies.low, compact_m3_),
             std::max(lies.high, compact_m3_)},
            settled.grade, (!loose.is_assumed || !settled.is_assumed) && moisture_known_);
    }

    const Feedstock& f_;
    Contribution to_;
    Range wet_, dry_;
    bool moisture_known_ = false;
    Grade moisture_grade_ = Grade::d;
    double compact_m3_ = 0.0;  ///< without air
};

}  // namespace detail

/// What one wet kilogram of a feedstock adds to each sum, with range and grade; where a property is
/// not known, what is taken for it, marked. Constant time, no allocation. Threads: pure.
constexpr Contribution contribution_of(const Feedstock& feedstock) noexcept {
    return detail::ContributionMaker(feedstock).made();
}

}  // namespace feed
