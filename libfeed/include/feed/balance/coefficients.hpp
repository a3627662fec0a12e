#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/balance/sums.hpp"
#include "feed/blend/blend_properties.hpp"
#include "feed/blend/contribution.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/number_print.hpp"

namespace feed {

/// Volume left when scraps and bedding lie in one another, at the tightest: the packed volume of a
/// blend is not linear, so free air space is held to this bound and never comes out lower.
inline constexpr double tightest_packing = 1.0 - assumed::packing_loss.value;

/// What was taken for granted, and what was missing, while numbers were read off an entry.
struct ReadingNotes {
    std::vector<Assumption> assumed;
    Errors errors;
};

/// Reads numbers off the feedstock of one entry, in wet kilograms; says what it had to assume and
/// what is missing. Each property is mentioned once.
class EntryReader {
public:
    EntryReader(const Entry& entry, ReadingNotes& notes)
        : entry_(entry), notes_(notes), one_(contribution_of(*entry.feedstock)) {}

    /// What one wet kilogram of the entry adds to a sum. 0 where something is missing; then the
    /// notes hold the error.
    double per_wet_kg(Sum sum) {
        switch (sum) {
            case Sum::wet_kg:
                return 1.0;
            case Sum::water_kg:
                return known(Addend::water_kg, Property::moisture_wet);
            case Sum::carbon_kg:
                return element(Addend::carbon_kg, Property::carbon_dry);
            case Sum::nitrogen_kg:
                return element(Addend::nitrogen_kg, Property::nitrogen_dry);
            case Sum::acid_g:
                return 1000.0 * or_taken(Addend::acid_kg, Property::titratable_acidity_wet);
            case Sum::salt_kg:
                return or_taken(Addend::salt_kg, Property::sodium_wet);
            case Sum::fat_kg:
                return or_taken(Addend::fat_kg, Property::fat_dry);
            case Sum::air_l:
                return settled_l() - solids_and_water_l();
            case Sum::settled_l:
                return settled_l();
            case Sum::loose_l:
                return loose_l();
            case Sum::bedding_l:
                return one_.part == Part::bedding ? loose_l() : 0.0;
            case Sum::scraps_l:
                return one_.part == Part::scraps ? loose_l() : 0.0;
            case Sum::poured_kg:
                return is_plain_water(feedstock()) ? 1.0 : 0.0;
            case Sum::room_kg:
                return room_kg();
        }
        return 0.0;
    }

private:
    const Feedstock& feedstock() const { return *entry_.feedstock; }

    /// A number that is never guessed.
    double known(Addend addend, Property property) {
        if (!one_.is_known(addend)) return missing(property);
        return one_[addend].value;
    }

    /// Carbon or nitrogen; of what is all water there is neither.
    double element(Addend addend, Property property) {
        if (!one_.is_known(Addend::dry_kg)) return missing(Property::moisture_wet);
        if (!(one_[Addend::dry_kg].value > 0.0) || one_.is_known(addend)) return one_[addend].value;
        // Of the two that are needed the one that is there is not asked for.
        const bool there = feedstock()[property].has_value();
        const bool carbon = property == Property::carbon_dry;
        return missing(!there ? property : carbon ? Property::nitrogen_dry : Property::carbon_dry);
    }

    /// A number, or what is taken for it, which is said.
    double or_taken(Addend addend, Property property) {
        if (one_.is_known(addend)) return one_[addend].value;
        const auto content = taken(feedstock(), property);
        if (!content) return missing(property);
        if (kind(property).basis == Basis::dry && !one_.is_known(Addend::dry_kg))
            return missing(Property::moisture_wet);
        if (content->is_assumed)
            assume("the " + std::string(kind(property).key) + " of " + entry_.label +
                   " is not known: " + significant(content->range.value, 2) + " " +
                   std::string(kind(property).unit) + " is taken");
        return one_[addend].value;
    }

    double loose_l() {
        if (one_.part == Part::poured_water) return 0.0;
        return 1000.0 * or_taken(Addend::loose_m3, Property::bulk_density_loose);
    }

    double settled_l() {
        if (one_.part == Part::poured_water) return 0.0;
        if (!feedstock()[Property::bulk_density_settled]) {
            loose_l();
            assume("how densely " + entry_.label + " settles is not known: " +
                   significant(assumed::settling[static_cast<std::size_t>(one_.part)].value, 3) +
                   " times its loose density is taken");
        }
        return 1000.0 * tightest_packing * one_[Addend::settled_m3].value;
    }

    double solids_and_water_l() {
        if (!one_.is_known(Addend::water_kg)) return missing(Property::moisture_wet);
        const auto ash = taken(feedstock(), Property::ash_dry);
        if (ash->is_assumed && one_[Addend::dry_kg].value > 0.0)
            assume("the ash of " + entry_.label + " is taken as " +
                   significant(100.0 * ash->range.value, 2) + " % of its dry mass");
        return 1000.0 * one_[Addend::phases_m3].value;
    }

    /// Water that the entry takes up until it is moist; below 0 where it gives some off.
    double room_kg() {
        if (is_plain_water(feedstock()) || one_.part == Part::amendment) return 0.0;
        const double water = known(Addend::water_kg, Property::moisture_wet);
        if (one_.part == Part::bedding)
            return assumed::aimed_wetness.value *
                       or_taken(Addend::capacity_kg, Property::water_holding_capacity_dry) -
                   water;
        if (water >= assumed::released_from) return -one_[Addend::set_free_kg].value;
        return (assumed::released_from - water) / (1.0 - assumed::released_from);
    }

    double missing(Property property) {
        const std::string key(kind(property).key);
        const std::string field = key + " of " + entry_.label;
        for (const auto& known : notes_.errors) {
            if (known.field == field) return 0.0;
        }
        notes_.errors.push_back(make_error(
            ErrorCode::missing_value, field, "unknown",
            std::string(kind(property).unit) + ", " + said_basis(property),
            "the " + field + " is not known and is needed for the targets: state it or leave " +
                entry_.label + " out"));
        return 0.0;
    }

    static std::string said_basis(Property property) {
        switch (kind(property).basis) {
            case Basis::wet:
                return "of the wet mass";
            case Basis::dry:
                return "of the dry mass";
            case Basis::volatile_solids:
                return "of the volatile solids";
            case Basis::none:
                break;
        }
        return "by mass";
    }

    void assume(std::string text) {
        for (const auto& known : notes_.assumed) {
            if (known.text == text) return;
        }
        notes_.assumed.push_back({std::move(text), Grade::d});
    }

    const Entry& entry_;
    ReadingNotes& notes_;
    Contribution one_;
};

}  // namespace feed
