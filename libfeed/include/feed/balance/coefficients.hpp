#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/balance/group_default.hpp"
#include "feed/balance/sums.hpp"
#include "feed/blend/blend_properties.hpp"
#include "feed/blend/free_air_space.hpp"
#include "feed/blend/mix.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/number_print.hpp"

namespace feed {

/// Volume left when scraps and bedding lie in one another, at the tightest: the packed volume of a
/// blend is not linear, so free air space is held to this bound and never comes out lower.
inline constexpr double tightest_packing = 1.0 - packing_loss.value;

/// What was taken for granted, and what was missing, while numbers were read off an entry.
struct ReadingNotes {
    std::vector<Assumption> assumed;
    Errors errors;
};

/// Reads numbers off the feedstock of one entry, in wet kilograms; says what it had to assume and
/// what is missing. Each property is mentioned once.
class EntryReader {
public:
    EntryReader(const Entry& entry, ReadingNotes& notes) : entry_(entry), notes_(notes) {}

    /// What one wet kilogram of the entry adds to a sum. 0 where something is missing; then the
    /// notes hold the error.
    double per_wet_kg(Sum sum) {
        switch (sum) {
            case Sum::wet_kg:
                return 1.0;
            case Sum::water_kg:
                return needed(Property::moisture_wet);
            case Sum::carbon_kg:
                return dry_share() > 0.0 ? dry_share() * carbon_dry() : 0.0;
            case Sum::nitrogen_kg:
                return dry_share() > 0.0 ? dry_share() * nitrogen_dry() : 0.0;
            case Sum::acid_g:
                return 1000.0 * or_default(Property::titratable_acidity_wet);
            case Sum::salt_kg:
                return salt_per_sodium * or_default(Property::sodium_wet);
            case Sum::fat_kg:
                return fat_wet();
            case Sum::air_l:
                return settled_l() - solids_and_water_l();
            case Sum::settled_l:
                return settled_l();
            case Sum::loose_l:
                return loose_l();
            case Sum::bedding_l:
                return part_of(feedstock()) == Part::bedding ? loose_l() : 0.0;
            case Sum::scraps_l:
                return part_of(feedstock()) == Part::scraps ? loose_l() : 0.0;
            case Sum::poured_kg:
                return is_plain_water(feedstock()) ? 1.0 : 0.0;
        }
        return 0.0;
    }

private:
    const Feedstock& feedstock() const { return *entry_.feedstock; }

    double dry_share() { return 1.0 - needed(Property::moisture_wet); }

    /// Carbon and nitrogen as they stand; either from the other and their ratio where it is not
    /// given, as in mix().
    double carbon_dry() {
        const auto& ratio = feedstock()[Property::cn_ratio];
        const auto& nitrogen = feedstock()[Property::nitrogen_dry];
        if (!feedstock()[Property::carbon_dry] && ratio && nitrogen)
            return nitrogen->value * ratio->value;
        return needed(Property::carbon_dry);
    }
    double nitrogen_dry() {
        const auto& ratio = feedstock()[Property::cn_ratio];
        const auto& carbon = feedstock()[Property::carbon_dry];
        if (!feedstock()[Property::nitrogen_dry] && ratio && carbon && ratio->value > 0.0)
            return carbon->value / ratio->value;
        return needed(Property::nitrogen_dry);
    }

    double fat_wet() {
        const auto& wet = feedstock()[Property::fat_wet];
        if (!feedstock()[Property::fat_dry] && wet) return wet->value;
        const double dry = dry_share();
        return dry > 0.0 ? dry * or_default(Property::fat_dry) : 0.0;
    }

    /// Free water fills the pores of the rest and adds no volume.
    double loose_l() {
        if (fills_pores(feedstock())) return 0.0;
        return 1000.0 / or_default(Property::bulk_density_loose);
    }

    double settled_l() {
        if (fills_pores(feedstock())) return 0.0;
        if (const auto& settled = feedstock()[Property::bulk_density_settled])
            return tightest_packing * 1000.0 / settled->value;
        assume("the settled density of " + entry_.label + " is taken as " +
               significant(settling_factor.value, 3) + " times its loose density");
        return tightest_packing * loose_l() / settling_factor.value;
    }

    double solids_and_water_l() {
        const double moisture = needed(Property::moisture_wet);
        const auto ash = ash_share(feedstock());
        if (ash.assumed && moisture < 1.0)
            assume("the ash of " + entry_.label + " is taken as " +
                   significant(100.0 * ash.value, 2) + " % of its dry mass");
        return 1000.0 *
               phase_volume_per_kilogram(Moisture(moisture), DryFraction(ash.value)).value();
    }

    double needed(Property property) {
        if (const auto& datum = feedstock()[property]) return datum->value;
        Error error;
        error.code = ErrorCode::missing_value;
        error.field = std::string(kind(property).key) + " of " + entry_.label;
        error.value = "unknown";
        error.allowed = std::string(kind(property).unit) + ", " + said_basis(property);
        error.message = "the " + std::string(kind(property).key) + " of " + entry_.label +
                        " is not known and is needed for the targets: state it or leave " +
                        entry_.label + " out";
        for (const auto& known : notes_.errors) {
            if (known.field == error.field) return 0.0;
        }
        notes_.errors.push_back(std::move(error));
        return 0.0;
    }

    double or_default(Property property) {
        if (const auto& datum = feedstock()[property]) return datum->value;
        const auto taken = group_default(property, feedstock().group);
        if (!taken) return needed(property);
        assume("the " + std::string(kind(property).key) + " of " + entry_.label +
               " is not known: " + significant(*taken, 2) + " " + std::string(kind(property).unit) +
               " is taken, a default of its group");
        return *taken;
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
};

}  // namespace feed
