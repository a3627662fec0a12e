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

    Range at(std::size_t row) const noexcept { return {value[row], low[row], high[row]}; }
};

/// Room for one block; reused from block to block.
struct RowWork {
    explicit RowWork(std::size_t width) : wet(width), more(width), less(width) {}

    /// What a part adds above and below the line of a ratio in one of its corners.
    struct Corner {
        RowBlock above, below;
    };
    std::vector<RowBlock> wet;  ///< wet mass of each column
    std::vector<Corner> more, less;
    RowBlock wet_mass{};
};

/// Sums of wet mass x factor, in the order of the terms.
inline void sum_into(RowBlock& sum, const RowSum& terms, const RowWork& work) {
    for (std::size_t begin = 0; begin < block_rows; begin += lanes) {
        std::array<double, lanes> lane{};
        for (const RowTerm& term : terms) {
            const double* wet = work.wet[term.column].data() + begin;
            for (std::size_t k = 0; k < lanes; ++k)
                lane[k] += wet[k] * term.factor;
        }
        for (std::size_t k = 0; k < lanes; ++k)
            sum[begin + k] = lane[k];
    }
}

inline void sums_into(BlockRange& sums, const RowSums& terms, const RowWork& work) {
    sum_into(sums.value, terms.typical, work);
    sum_into(sums.low, terms.low, work);
    sum_into(sums.high, terms.high, work);
}

}  // namespace feed::detail
