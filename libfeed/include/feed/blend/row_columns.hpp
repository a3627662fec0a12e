#pragma once
#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "feed/blend/contribution.hpp"
#include "feed/blend/parts.hpp"

namespace feed::detail {

/// Wet mass of a column x factor.
struct RowTerm {
    std::size_t column = 0;
    double factor = 1.0;
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

/// One column's part in a ratio (see RatioPart), of one kilogram.
struct RowRatioPart {
    std::size_t column = 0;
    RatioPart part;
};

/// What a sum over rows of masses needs of the feedstocks in its columns, made once from their
/// contributions.
struct RowColumns {
    std::size_t width = 0;
    std::array<RowSums, addend_count> sums;
    RowSums loose_bedding, loose_other, settled_bedding, settled_other;  ///< m3
    std::array<RowKnown, blend_quantity_count> known;
    std::vector<RowRatioPart> total_ratio, available_ratio;

    const RowSums& operator[](Addend addend) const noexcept {
        return sums[static_cast<std::size_t>(addend)];
    }

    /// Adds the column of one more feedstock.
    void add(const Feedstock& feedstock) {
        const std::size_t column = width++;
        const Contribution one = contribution_of(feedstock);
        const auto put = [column](RowSum& sum, double factor) {
            if (factor != 0.0) sum.push_back({column, factor});
        };
        const auto put_all = [&](RowSums& to, Addend addend) {
            if (!one.is_known(addend)) return;
            put(to.typical, one[addend].value);
            put(to.low, one[addend].low);
            put(to.high, one[addend].high);
        };
        for (std::size_t a = 0; a < addend_count; ++a)
            put_all(sums[a], static_cast<Addend>(a));
        const bool bedding = one.part == Part::bedding;
        put_all(bedding ? loose_bedding : loose_other, Addend::loose_m3);
        put_all(bedding ? settled_bedding : settled_other, Addend::settled_m3);
        for (std::size_t q = 0; q < blend_quantity_count; ++q) {
            put(known[q].concerned, one.concerned[q]);
            put(known[q].missing, one.missing[q]);
        }
        if (one.total_ratio) total_ratio.push_back({column, *one.total_ratio});
        if (one.available_ratio) available_ratio.push_back({column, *one.available_ratio});
    }
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
