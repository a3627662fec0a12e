#pragma once
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "feed/blend/blend_intervals.hpp"
#include "feed/blend/mix.hpp"
#include "feed/blend/parts.hpp"

namespace feed::detail {

/// What a term of a sum multiplies: the wet mass of its column, or the dry mass where the moisture
/// is typical, highest or lowest.
enum class RowBase : std::uint8_t { wet, dry, least_dry, most_dry };
inline constexpr std::size_t row_base_count = 4;

/// Place of a base among those of all columns.
constexpr std::size_t place_of(std::size_t column, RowBase base) noexcept {
    return column * row_base_count + static_cast<std::size_t>(base);
}

/// base x factor, base x factor x second in a sum of products, base / factor in one of quotients.
struct RowTerm {
    std::size_t base = 0;  ///< its place
    double factor = 1.0;
    double second = 1.0;
};

/// Terms in the order of the columns.
using RowSum = std::vector<RowTerm>;

/// Typical value and range of one sum.
struct RowSums {
    RowSum typical, low, high;
};

/// How much of a quantity is known: mass that it concerns and part of it that is missing.
struct RowKnown {
    RowSum concerned, missing;
};

/// One column's part in a ratio of carbon to nitrogen (see RatioPart): the two masses of carbon
/// between which a corner chooses, and what each counts.
struct RowRatioPart {
    std::size_t column = 0;
    Range carbon_dry;
    Range per_carbon;  ///< nitrogen for each carbon, at the lowest and highest C:N
    Range share;       ///< of the carbon that counts
};

/// What a sum over rows of masses needs of the feedstocks in its columns, made once.
struct RowColumns {
    std::size_t width = 0;
    std::vector<double> dry, least_dry, most_dry;  ///< of 1 kg wet, a column each
    RowSum wet_mass;
    RowSums dry_mass, water, carbon, nitrogen, acid, sodium, potassium, fat, volatile_solids,
        neutralising, phases;
    RowSum available;                                        ///< products: degradable carbon
    RowSum ash;                                              ///< typical, with its default
    RowSums bedding, other, settled_bedding, settled_other;  ///< quotients, m3
    std::array<RowKnown, blend_quantity_count> known;
    std::vector<RowRatioPart> total_ratio, available_ratio;
};

/// Adds the columns of feedstocks one by one.
class RowColumnsBuilder {
public:
    explicit RowColumnsBuilder(RowColumns& columns) : to_(columns) {}

    void add(const Feedstock& feedstock) {
        column_ = to_.width++;
        const auto& moisture = feedstock[Property::moisture_wet];
        const Range wetness = moisture ? range_of(*moisture) : Range{};
        to_.dry.push_back(moisture ? 1.0 - moisture->value : 0.0);
        to_.least_dry.push_back(moisture ? 1.0 - wetness.high : 0.0);
        to_.most_dry.push_back(moisture ? 1.0 - wetness.low : 0.0);
        put(to_.wet_mass, RowBase::wet, 1.0);
        if (moisture) {
            add_solids(feedstock, *moisture, wetness);
            if (to_.dry.back() > 0.0) add_typical_dry(feedstock);
            add_dry_ranges(feedstock);
        } else {
            for (const auto quantity : {BlendQuantity::moisture, BlendQuantity::carbon_nitrogen,
                                        BlendQuantity::volatile_solids, BlendQuantity::fat})
                miss(quantity, RowBase::wet);
        }
        add_wet(to_.acid, BlendQuantity::acid, feedstock[Property::titratable_acidity_wet]);
        add_wet(to_.sodium, BlendQuantity::salt, feedstock[Property::sodium_wet]);
        add_wet(to_.potassium, BlendQuantity::potassium, feedstock[Property::potassium_wet]);
        if (concerns_neutralising(feedstock))
            add_wet(to_.neutralising, BlendQuantity::neutralising,
                    feedstock[Property::neutralising_value_wet]);
        add_volume(feedstock);
    }

private:
    void put(RowSum& sum, RowBase base, double factor, double second = 1.0) const {
        if (factor != 0.0 && second != 0.0)
            sum.push_back({place_of(column_, base), factor, second});
    }
    void put(RowSums& sums, RowBase base, double value, Range range) const {
        put(sums.typical, base, value);
        put(sums.low, base, range.low);
        put(sums.high, base, range.high);
    }
    RowKnown& known(BlendQuantity quantity) const {
        return to_.known[static_cast<std::size_t>(quantity)];
    }
    void concern(BlendQuantity quantity, RowBase base) const {
        put(known(quantity).concerned, base, 1.0);
    }
    void miss(BlendQuantity quantity, RowBase base) const {
        concern(quantity, base);
        put(known(quantity).missing, base, 1.0);
    }
    void count(BlendQuantity quantity, const std::optional<Datum>& datum, RowBase base) const {
        if (!datum)
            miss(quantity, base);
        else if (datum->high != 0.0)
            concern(quantity, base);
    }

    void add_wet(RowSums& sums, BlendQuantity quantity, const std::optional<Datum>& datum) const {
        count(quantity, datum, RowBase::wet);
        if (datum) put(sums, RowBase::wet, datum->value, range_of(*datum));
    }

    void add_solids(const Feedstock& feedstock, const Datum& moisture, Range wetness) const {
        concern(BlendQuantity::moisture, RowBase::wet);
        put(to_.water, RowBase::wet, moisture.value, wetness);
        put(to_.dry_mass.typical, RowBase::dry, 1.0);
        put(to_.dry_mass.low, RowBase::least_dry, 1.0);
        put(to_.dry_mass.high, RowBase::most_dry, 1.0);
        const ShareRange ash = ash_share(feedstock);
        const auto phases = [](double wet_share, double ash_share_of_dry) {
            return phase_volume_per_kilogram(Moisture(wet_share), DryFraction(ash_share_of_dry))
                .value();
        };
        put(to_.phases, RowBase::wet, phases(moisture.value, ash.value),
            {phases(wetness.low, ash.high), phases(wetness.high, ash.low)});
    }

    void add_typical_dry(const Feedstock& feedstock) const {
        if (const auto both = typical_carbon_nitrogen(feedstock); !both) {
            miss(BlendQuantity::carbon_nitrogen, RowBase::dry);
        } else if (!both->is_zero()) {
            concern(BlendQuantity::carbon_nitrogen, RowBase::dry);
            put(to_.carbon.typical, RowBase::dry, both->carbon_dry);
            put(to_.nitrogen.typical, RowBase::dry, both->nitrogen_dry);
            put(to_.available, RowBase::dry, both->carbon_dry, degradable_share_of(feedstock));
        }
        const auto& ash = feedstock[Property::ash_dry];
        put(to_.ash, RowBase::dry, ash ? ash->value : default_ash.value);
        if (ash) {
            put(to_.volatile_solids.typical, RowBase::dry, 1.0 - ash->value);
            concern(BlendQuantity::volatile_solids, RowBase::dry);
        } else {
            miss(BlendQuantity::volatile_solids, RowBase::dry);
        }
        const auto& fat = feedstock[Property::fat_dry];
        const auto& wet_fat = feedstock[Property::fat_wet];
        const bool by_dry = fat || !wet_fat;
        const RowBase base = by_dry ? RowBase::dry : RowBase::wet;
        const auto& datum = by_dry ? fat : wet_fat;
        count(BlendQuantity::fat, datum, base);
        if (datum) put(to_.fat.typical, base, datum->value);
    }

    void add_dry_ranges(const Feedstock& feedstock) const {
        if (const ShareRange ash = ash_share(feedstock); !ash.assumed) {
            put(to_.volatile_solids.low, RowBase::least_dry, 1.0 - ash.high);
            put(to_.volatile_solids.high, RowBase::most_dry, 1.0 - ash.low);
        }
        if (const auto& fat = feedstock[Property::fat_dry]) {
            put(to_.fat.low, RowBase::least_dry, range_of(*fat).low);
            put(to_.fat.high, RowBase::most_dry, range_of(*fat).high);
        } else if (const auto& wet_fat = feedstock[Property::fat_wet]) {
            put(to_.fat.low, RowBase::wet, range_of(*wet_fat).low);
            put(to_.fat.high, RowBase::wet, range_of(*wet_fat).high);
        }
        add_ratio_part(feedstock);
    }

    void add_ratio_part(const Feedstock& feedstock) const {
        const auto both = carbon_nitrogen_of(feedstock);
        if (!both || both->is_zero()) return;
        const Range nitrogen = both->nitrogen_range();
        put(to_.carbon.low, RowBase::least_dry, both->carbon_range.low);
        put(to_.carbon.high, RowBase::most_dry, both->carbon_range.high);
        put(to_.nitrogen.low, RowBase::least_dry, nitrogen.low);
        put(to_.nitrogen.high, RowBase::most_dry, nitrogen.high);
        RowRatioPart part{column_, both->carbon_range, {0.0, 0.0}, {1.0, 1.0}};
        if (!both->nitrogen_free)
            part.per_carbon = {1.0 / both->cn_range.low, 1.0 / both->cn_range.high};
        RowRatioPart available = part;
        if (both->carbon_free) {
            part.carbon_dry = nitrogen;
            part.per_carbon = {1.0, 1.0};
            part.share = {0.0, 0.0};
            available = part;
        } else {
            const ShareRange share = degradable_range_of(feedstock);
            available.share = {share.low, share.high};
        }
        to_.total_ratio.push_back(part);
        to_.available_ratio.push_back(available);
    }

    void add_volume(const Feedstock& feedstock) const {
        if (fills_pores(feedstock)) return;
        const auto& loose = feedstock[Property::bulk_density_loose];
        if (!loose) {
            miss(BlendQuantity::volume, RowBase::wet);
            return;
        }
        concern(BlendQuantity::volume, RowBase::wet);
        const bool bedding = packs_as_bedding(feedstock);
        const Range range = range_of(*loose);
        put(bedding ? to_.bedding : to_.other, RowBase::wet, loose->value, {range.high, range.low});
        const auto& moisture = feedstock[Property::moisture_wet];
        if (!moisture) return;
        const double compact =
            compact_density(Moisture(moisture->value), DryFraction(ash_share(feedstock).value))
                .value();
        const auto settled = settled_density(feedstock, compact);
        put(bedding ? to_.settled_bedding : to_.settled_other, RowBase::wet, settled->value,
            {settled->high, settled->low});
    }

    RowColumns& to_;
    std::size_t column_ = 0;
};

/// Whether no two columns are of one feedstock: two would share their unknown values.
inline bool all_differ(std::span<const Portion> columns) {
    for (std::size_t i = 0; i < columns.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            if (same_feedstock(columns[i], columns[j])) return false;
        }
    }
    return true;
}

}  // namespace feed::detail
