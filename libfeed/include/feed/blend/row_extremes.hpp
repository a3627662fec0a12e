#pragma once
#include <bit>
#include <cstdint>
#include <vector>

#include "feed/blend/row_work.hpp"

namespace feed::detail {

/// The two corners of a part that an extreme chooses between.
template <bool largest>
constexpr const RatioPart::Ends& ends_of(const RowRatioPart& part) noexcept {
    return largest ? part.part.largest : part.part.smallest;
}

/// What each corner of each part adds, ahead of the search.
template <bool largest>
void corners_into(RowWork& work, const std::vector<RowRatioPart>& parts) {
    for (std::size_t p = 0; p < parts.size(); ++p) {
        const RatioPart::Ends& ends = ends_of<largest>(parts[p]);
        const RowBlock& wet = work.wet[parts[p].column];
        RowWork::Corner& more = work.more[p];
        RowWork::Corner& less = work.less[p];
        for (std::size_t i = 0; i < block_rows; ++i) {
            more.above[i] = wet[i] * ends.more.above;
            more.below[i] = wet[i] * ends.more.below;
            less.above[i] = wet[i] * ends.less.above;
            less.below[i] = wet[i] * ends.less.below;
        }
    }
}

/// first ? a : b without a branch, in bits: a compiler may not turn a branch round a sum, which
/// could trap, into both of its sides.
inline double either(bool first, double a, double b) noexcept {
    const std::uint64_t mask = first ? ~std::uint64_t{0} : std::uint64_t{0};
    return std::bit_cast<double>((std::bit_cast<std::uint64_t>(a) & mask) |
                                 (std::bit_cast<std::uint64_t>(b) & ~mask));
}

/// The extreme of a ratio of sums of each row (see extreme_ratio), from `ratio` on. Rows with
/// nothing below the line in a corner are marked in `none`. Loops over all rows of the block
/// without a branch, so that a compiler can take several rows at once.
template <bool largest>
void extreme_into(RowBlock& ratio, RowBlock& none, const std::vector<RowRatioPart>& parts,
                  RowWork& work) {
    corners_into<largest>(work, parts);
    RowBlock above;
    RowBlock below;
    for (int step = 0; step < 100; ++step) {
        above.fill(0.0);
        below.fill(0.0);
        for (std::size_t p = 0; p < parts.size(); ++p) {
            const RowWork::Corner& more = work.more[p];
            const RowWork::Corner& less = work.less[p];
            for (std::size_t i = 0; i < block_rows; ++i) {
                const double more_above = more.above[i];
                const double more_below = more.below[i];
                const double less_above = less.above[i];
                const double less_below = less.below[i];
                const bool takes_more = (more_above - ratio[i] * more_below > 0.0) == largest;
                above[i] += either(takes_more, more_above, less_above);
                below[i] += either(takes_more, more_below, less_below);
            }
        }
        for (std::size_t i = 0; i < block_rows; ++i) {
            none[i] = below[i] > 0.0 ? none[i] : 1.0;
            above[i] /= below[i];
        }
        // The first step always moves. A row that has arrived has the same corner again and stays.
        if (step == 0) {
            ratio = above;
            continue;
        }
        std::int64_t moved = 0;
        for (std::size_t i = 0; i < block_rows; ++i) {
            const double from = ratio[i];
            const double next = above[i];
            const bool better = largest ? next > from : next < from;
            moved += better ? std::int64_t{1} : std::int64_t{0};
            ratio[i] = better ? next : from;
        }
        if (moved == 0) break;
    }
}

}  // namespace feed::detail
