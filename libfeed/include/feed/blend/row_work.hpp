#pragma once
#include <array>
#include <cstddef>
#include <vector>

#include "feed/blend/row_columns.hpp"

// Blocks of rows side by side: loops of a fixed length without a branch, so that a compiler can
// work on several rows with one instruction. Each row takes the same steps in the same order as in
// `blend`, so its bits are the same.
namespace feed::detail {

inline constexpr std::size_t block_rows = 32;
using RowBlock = std::array<double, block_rows>;
/// Rows whose sums run side by side in registers.
inline constexpr std::size_t lanes = 8;

/// Typical value and range of one sum in a block.
struct BlockRange {
    RowBlock value, low, high;
};

/// Room for one block; reused from block to block.
struct RowWork {
    explicit RowWork(std::size_t width) : bases(width * row_base_count), more(width), less(width) {}

    RowBlock& of(std::size_t column, RowBase base) { return bases[place_of(column, base)]; }

    /// Counted carbon and nitrogen of a part in one of its corners.
    struct Corner {
        RowBlock carbon, nitrogen;
    };
    std::vector<RowBlock> bases;
    std::vector<Corner> more, less;
    RowBlock wet_mass{};
};

/// Sums what `of` makes of each term and its base, in the order of the terms.
template <class Of>
void sum_of(RowBlock& sum, const RowSum& terms, const RowWork& work, Of of) {
    for (std::size_t begin = 0; begin < block_rows; begin += lanes) {
        std::array<double, lanes> lane{};
        for (const RowTerm& term : terms) {
            const double* base = work.bases[term.base].data() + begin;
            for (std::size_t k = 0; k < lanes; ++k)
                lane[k] += of(base[k], term);
        }
        for (std::size_t k = 0; k < lanes; ++k)
            sum[begin + k] = lane[k];
    }
}

inline void sum_into(RowBlock& sum, const RowSum& terms, const RowWork& work) {
    sum_of(sum, terms, work, [](double base, const RowTerm& term) { return base * term.factor; });
}

inline void products_into(RowBlock& sum, const RowSum& terms, const RowWork& work) {
    sum_of(sum, terms, work,
           [](double base, const RowTerm& term) { return base * term.factor * term.second; });
}

inline void quotients_into(RowBlock& sum, const RowSum& terms, const RowWork& work) {
    sum_of(sum, terms, work, [](double base, const RowTerm& term) { return base / term.factor; });
}

inline void sums_into(BlockRange& sums, const RowSums& terms, const RowWork& work) {
    sum_into(sums.value, terms.typical, work);
    sum_into(sums.low, terms.low, work);
    sum_into(sums.high, terms.high, work);
}

inline void quotients_into(BlockRange& sums, const RowSums& terms, const RowWork& work) {
    quotients_into(sums.value, terms.typical, work);
    quotients_into(sums.low, terms.low, work);
    quotients_into(sums.high, terms.high, work);
}

}  // namespace feed::detail
