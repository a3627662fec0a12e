#pragma once
#include <algorithm>
#include <array>
#include <limits>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "feed/blend/blend.hpp"
#include "feed/blend/row_extremes.hpp"
#include "feed/blend/row_quantity.hpp"
#include "feed/blend/row_work.hpp"

// Many blends of the same feedstocks, to the bits of `blend` of each.
namespace feed {

/// Where one quantity of many rows goes, an element a row. Where it is only a lower bound, `known`
/// is false and `value` is the bound; where it is unknown the numbers are NaN.
struct RowArrays {
    double* value = nullptr;  ///< null: the quantity is not wanted
    double* low = nullptr;
    double* high = nullptr;
    bool* known = nullptr;
};

/// A place for each RowQuantity, in their order.
using RowOutput = std::array<RowArrays, row_quantity_count>;

namespace detail {

/// How much of a quantity the rows of a block know.
struct BlockKnown {
    std::array<bool, block_rows> has_value{};
    std::array<bool, block_rows> is_known{};
    bool all_known = true;  ///< every row

    void set(std::size_t row, Knowledge knowledge) noexcept {
        has_value[row] = knowledge != Knowledge::unknown;
        is_known[row] = knowledge == Knowledge::known;
        all_known = all_known && is_known[row];
    }
};

/// What the rows know of a quantity that is missing in some columns.
inline BlockKnown known_of(const RowKnown& terms, const RowWork& work) {
    RowBlock concerned;
    RowBlock missing;
    sum_into(concerned, terms.concerned, work);
    sum_into(missing, terms.missing, work);
    BlockKnown known;
    for (std::size_t i = 0; i < block_rows; ++i) {
        const Known of_row = known_from(concerned[i], missing[i]);
        known.set(i, work.wet_mass[i] > 0.0 ? of_row.knowledge : Knowledge::unknown);
    }
    return known;
}

/// Rows `first` to `first + count` of the output, from a block; factor: unit of the output.
inline void write_block(const RowArrays& to, std::size_t first, std::size_t count,
                        BlockRange& range, const BlockKnown& known, double factor) {
    constexpr double not_known = std::numeric_limits<double>::quiet_NaN();
    for (std::size_t i = 0; i < block_rows; ++i) {
        range.low[i] = range.low[i] < range.value[i] ? range.low[i] : range.value[i];
        range.high[i] = range.high[i] > range.value[i] ? range.high[i] : range.value[i];
    }
    if (!known.all_known) {
        for (std::size_t i = 0; i < block_rows; ++i) {
            if (!known.has_value[i]) range.value[i] = range.low[i] = range.high[i] = not_known;
        }
    }
    const auto put = [&](double* place, const RowBlock& numbers) {
        if (count == block_rows) {  // most blocks: a length that the compiler knows
            for (std::size_t i = 0; i < block_rows; ++i)
                place[first + i] = numbers[i] * factor;
        } else {
            for (std::size_t i = 0; i < count; ++i)
                place[first + i] = numbers[i] * factor;
        }
    };
    put(to.value, range.value);
    put(to.low, range.low);
    put(to.high, range.high);
    std::copy_n(known.is_known.begin(), count, to.known + first);
}

/// One block of rows on its way from masses to the output.
class BlockOfRows {
public:
    BlockOfRows(const RowColumns& columns, RowWork& work, const RowOutput& to)
        : columns_(columns), work_(work), to_(to) {}

    /// Rows `first` to `first + count`, at most a block. wet_kg: row after row.
    void run(const double* wet_kg, std::size_t first, std::size_t count) {
        first_ = first;
        count_ = count;
        load(wet_kg + first * columns_.width);
        simple(RowQuantity::dry_mass_kg, BlendQuantity::moisture, Addend::dry_kg, 1.0);
        simple(RowQuantity::carbon_kg, BlendQuantity::carbon_nitrogen, Addend::carbon_kg, 1.0);
        simple(RowQuantity::nitrogen_kg, BlendQuantity::carbon_nitrogen, Addend::nitrogen_kg, 1.0);
        simple(RowQuantity::acid_g_citric, BlendQuantity::acid, Addend::acid_kg, 1000.0);
        simple(RowQuantity::salt_g, BlendQuantity::salt, Addend::salt_kg, 1000.0);
        simple(RowQuantity::potassium_g, BlendQuantity::potassium, Addend::potassium_kg, 1000.0);
        simple(RowQuantity::fat_kg, BlendQuantity::fat, Addend::fat_kg, 1.0);
        simple(RowQuantity::volatile_solids_kg, BlendQuantity::volatile_solids,
               Addend::volatile_solids_kg, 1.0);
        simple(RowQuantity::neutralising_g_caco3, BlendQuantity::neutralising,
               Addend::neutralising_kg, 1000.0);
        water_and_moisture();
        ratios();
        volumes();
    }

private:
    bool wanted(RowQuantity quantity) const noexcept { return at(quantity).value != nullptr; }
    const RowArrays& at(RowQuantity quantity) const noexcept {
        return to_[static_cast<std::size_t>(quantity)];
    }
    /// Spoils the range.
    void write(RowQuantity quantity, BlockRange& range, const BlockKnown& known,
               double factor) const {
        write_block(at(quantity), first_, count_, range, known, factor);
    }
    const BlockKnown& known_of_quantity(BlendQuantity quantity) {
        const RowKnown& terms = columns_.known[static_cast<std::size_t>(quantity)];
        if (terms.missing.empty()) return there_;
        known_ = known_of(terms, work_);
        return known_;
    }

    void load(const double* wet_kg) {
        const std::size_t width = columns_.width;
        for (std::size_t c = 0; c < width; ++c) {
            RowBlock& wet = work_.wet[c];
            for (std::size_t i = 0; i < count_; ++i)
                wet[i] = wet_kg[i * width + c];
            for (std::size_t i = count_; i < block_rows; ++i)
                wet[i] = 0.0;
        }
        sum_into(work_.wet_mass, columns_[Addend::wet_kg].typical, work_);
        there_ = BlockKnown();
        for (std::size_t i = 0; i < block_rows; ++i)
            there_.set(i, work_.wet_mass[i] > 0.0 ? Knowledge::known : Knowledge::unknown);
    }

    void simple(RowQuantity quantity, BlendQuantity concerned, Addend addend, double factor) {
        if (!wanted(quantity)) return;
        sums_into(sums_, columns_[addend], work_);
        write(quantity, sums_, known_of_quantity(concerned), factor);
    }

    void water_and_moisture() {
        if (!wanted(RowQuantity::water_kg) && !wanted(RowQuantity::moisture)) return;
        const BlockKnown& known = known_of_quantity(BlendQuantity::moisture);
        sums_into(sums_, columns_[Addend::water_kg], work_);
        if (wanted(RowQuantity::moisture)) {
            BlockRange share;
            for (std::size_t i = 0; i < block_rows; ++i) {
                share.value[i] = sums_.value[i] / work_.wet_mass[i];
                share.low[i] = sums_.low[i] / work_.wet_mass[i];
                share.high[i] = sums_.high[i] / work_.wet_mass[i];
            }
            write(RowQuantity::moisture, share, known, 1.0);
        }
        if (wanted(RowQuantity::water_kg)) write(RowQuantity::water_kg, sums_, known, 1.0);
    }

    void ratios() {
        const bool total = wanted(RowQuantity::cn_ratio);
        const bool available = wanted(RowQuantity::available_cn_ratio);
        if (!total && !available) return;
        BlockKnown known = known_of_quantity(BlendQuantity::carbon_nitrogen);
        RowBlock nitrogen;
        sum_into(nitrogen, columns_[Addend::nitrogen_kg].typical, work_);
        for (std::size_t i = 0; i < block_rows; ++i) {
            if (!(nitrogen[i] > 0.0)) known.set(i, Knowledge::unknown);
        }
        if (total) {
            sum_into(sums_.value, columns_[Addend::carbon_kg].typical, work_);
            ratio(RowQuantity::cn_ratio, columns_.total_ratio, nitrogen, known);
        }
        if (available) {
            sum_into(sums_.value, columns_[Addend::available_carbon_kg].typical, work_);
            ratio(RowQuantity::available_cn_ratio, columns_.available_ratio, nitrogen, known);
        }
    }

    /// Of the carbon in `sums_.value`.
    void ratio(RowQuantity quantity, const std::vector<RowRatioPart>& parts,
               const RowBlock& nitrogen, const BlockKnown& known) {
        for (std::size_t i = 0; i < block_rows; ++i)
            sums_.value[i] /= nitrogen[i];
        RowBlock none{};
        sums_.low = sums_.value;
        sums_.high = sums_.value;
        extreme_into<false>(sums_.low, none, parts, work_);
        extreme_into<true>(sums_.high, none, parts, work_);
        for (std::size_t i = 0; i < block_rows; ++i) {
            sums_.low[i] = none[i] > 0.0 ? sums_.value[i] : sums_.low[i];
            sums_.high[i] = none[i] > 0.0 ? sums_.value[i] : sums_.high[i];
        }
        const RowSum& missing =
            columns_.known[static_cast<std::size_t>(BlendQuantity::carbon_nitrogen)].missing;
        if (!missing.empty()) bound_from_below(missing, nitrogen, known);
        write(quantity, sums_, known, 1.0);
    }

    void bound_from_below(const RowSum& missing, const RowBlock& nitrogen,
                          const BlockKnown& known) {
        RowBlock missing_dry;
        sum_into(missing_dry, missing, work_);
        for (std::size_t i = 0; i < block_rows; ++i) {
            if (known.is_known[i]) continue;
            put(sums_, i,
                bounded_ratio({sums_.value[i], sums_.low[i], sums_.high[i]}, nitrogen[i],
                              missing_dry[i]));
        }
    }

    void volumes() {
        const bool air = wanted(RowQuantity::free_air_space);
        if (!wanted(RowQuantity::volume_l) && !wanted(RowQuantity::bulk_density_kg_m3) && !air)
            return;
        BlockRange bedding;
        BlockRange other;
        BlockRange phases;
        BlockRange settled_bedding;
        BlockRange settled_other;
        sums_into(bedding, columns_.loose_bedding, work_);
        sums_into(other, columns_.loose_other, work_);
        sums_into(phases, columns_[Addend::phases_m3], work_);
        sums_into(settled_bedding, columns_.settled_bedding, work_);
        sums_into(settled_other, columns_.settled_other, work_);
        const BlockKnown moisture = known_of_quantity(BlendQuantity::moisture);
        const BlockKnown known = known_of_quantity(BlendQuantity::volume);
        BlockKnown density_known;
        BlockKnown air_known;
        BlockRange density;
        BlockRange air_space;
        for (std::size_t i = 0; i < block_rows; ++i) {
            const VolumeSums sums{
                Range(work_.wet_mass[i]), bedding.at(i),      other.at(i), phases.at(i),
                settled_bedding.at(i),    settled_other.at(i)};
            const VolumeNumbers numbers = volume_numbers(sums);
            put(sums_, i, numbers.volume);
            put(density, i, numbers.density);
            put(air_space, i, numbers.air);
            Known of_row;
            of_row.knowledge = known.is_known[i] ? Knowledge::known : Knowledge::unknown;
            of_row = known_density(of_row, numbers.volume.value);
            density_known.set(i, of_row.knowledge);
            air_known.set(i, known_air(of_row, moisture.is_known[i], sums).knowledge);
        }
        if (wanted(RowQuantity::volume_l)) write(RowQuantity::volume_l, sums_, known, 1000.0);
        if (wanted(RowQuantity::bulk_density_kg_m3))
            write(RowQuantity::bulk_density_kg_m3, density, density_known, 1.0);
        if (air) write(RowQuantity::free_air_space, air_space, air_known, 1.0);
    }

    static void put(BlockRange& block, std::size_t row, const Range& range) {
        block.value[row] = range.value;
        block.low[row] = range.low;
        block.high[row] = range.high;
    }

    const RowColumns& columns_;
    RowWork& work_;
    const RowOutput& to_;
    BlockRange sums_;
    BlockKnown there_;  ///< of what no column lacks: every row of some mass
    BlockKnown known_;
    std::size_t first_ = 0;
    std::size_t count_ = 0;
};

}  // namespace detail

/// Feedstocks prepared for many blends of them, one a column. A value; time and memory proportional
/// to the columns (their square for the look at each pair).
class BlendRows {
public:
    /// feedstocks: one a column, none null, no two of them one feedstock. Nothing where two are:
    /// they share their unknown values, and such rows are for `blend_numbers` one by one.
    static std::optional<BlendRows> of(
        std::span<const std::shared_ptr<const Feedstock>> feedstocks) {
        std::vector<Portion> portions;
        portions.reserve(feedstocks.size());
        for (const auto& feedstock : feedstocks)
            portions.push_back({feedstock, WetMass()});
        if (!detail::all_differ(portions)) return std::nullopt;
        BlendRows rows;
        for (const auto& feedstock : feedstocks)
            rows.columns_.add(*feedstock);
        return rows;
    }

    /// The quantities of rows `first` to `last`, to the bits of `blend` of each. Those that are not
    /// wanted cost nothing.
    /// @param wet_kg  wet masses in kg, 0 to 1e9, row after row from row 0 on.
    /// @param to      arrays that reach to row `last`.
    /// Allocates once for the call, nothing for a row. Threads: pure; calls for other rows may run
    /// beside it. Time rows x columns x (wanted quantities + steps of the two ratios, under ten).
    void operator()(const double* wet_kg, std::size_t first, std::size_t last,
                    const RowOutput& to) const {
        detail::RowWork work(columns_.width);
        detail::BlockOfRows block(columns_, work, to);
        for (; first < last; first += detail::block_rows)
            block.run(wet_kg, first, std::min(detail::block_rows, last - first));
    }

private:
    detail::RowColumns columns_;
};

}  // namespace feed
