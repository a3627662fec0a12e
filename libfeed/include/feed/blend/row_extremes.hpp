#pragma once
#include <bit>
#include <cstdint>
#include <vector>

#include "feed/blend/row_work.hpp"

namespace feed::detail {

/// What each corner of each part counts, ahead of the search.
template <bool largest>
void corners_into(RowWork& work, const std::vector<RowRatioPart>& parts) {
    for (std::size_t p = 0; p < parts.size(); ++p) {
        const RowRatioPart& part = parts[p];
        const double share = largest ? part.share.high : part.share.low;
        const double per_carbon = largest ? part.per_carbon.high : part.per_carbon.low;
        const RowBlock& most_dry = work.of(part.column, RowBase::most_dry);
        const RowBlock& least_dry = work.of(part.column, RowBase::least_dry);
        RowWork::Corner& more = work.more[p];
        RowWork::Corner& less = work.less[p];
        for (std::size_t i = 0; i < block_rows; ++i) {
            const double most = most_dry[i] * part.carbon_dry.high;
            const double least = least_dry[i] * part.carbon_dry.low;
            more.carbon[i] = most * share;
            more.nitrogen[i] = most * per_carbon;
            less.carbon[i] = least * share;
            less.nitrogen[i] = least * per_carbon;
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

/// The extreme of total counted carbon over total nitrogen of each row (see extreme_ratio), from
/// `ratio` on. Rows without nitrogen in a corner are marked in `none`. Loops over all rows of the
/// block without a branch, so that a compiler can take several rows at once.
template <bool largest>
void extreme_into(RowBlock& ratio, RowBlock& none, const std::vector<RowRatioPart>& parts,
                  RowWork& work) {
    corners_into<largest>(work, parts);
    RowBlock carbon;
    RowBlock nitrogen;
    for (int step = 0; step < 100; ++step) {
        carbon.fill(0.0);
        nitrogen.fill(0.0);
        for (std::size_t p = 0; p < parts.size(); ++p) {
            const double share = largest ? parts[p].share.high : parts[p].share.low;
            const double per_carbon = largest ? parts[p].per_carbon.high : parts[p].per_carbon.low;
            const RowWork::Corner& above = largest ? work.more[p] : work.less[p];
            const RowWork::Corner& rest = largest ? work.less[p] : work.more[p];
            for (std::size_t i = 0; i < block_rows; ++i) {
                const double above_carbon = above.carbon[i];
                const double above_nitrogen = above.nitrogen[i];
                const double rest_carbon = rest.carbon[i];
                const double rest_nitrogen = rest.nitrogen[i];
                const bool first = share - ratio[i] * per_carbon > 0.0;
                carbon[i] += either(first, above_carbon, rest_carbon);
                nitrogen[i] += either(first, above_nitrogen, rest_nitrogen);
            }
        }
        for (std::size_t i = 0; i < block_rows; ++i) {
            none[i] = nitrogen[i] > 0.0 ? none[i] : 1.0;
            carbon[i] /= nitrogen[i];
        }
        // The first step always moves. A row that has arrived has the same corner again and stays.
        if (step == 0) {
            ratio = carbon;
            continue;
        }
        std::int64_t moved = 0;
        for (std::size_t i = 0; i < block_rows; ++i) {
            const double from = ratio[i];
            const double next = carbon[i];
            const bool better = largest ? next > from : next < from;
            moved += better ? std::int64_t{1} : std::int64_t{0};
            ratio[i] = better ? next : from;
        }
        if (moved == 0) break;
    }
}

}  // namespace feed::detail
