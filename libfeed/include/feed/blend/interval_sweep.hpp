#pragma once
#include <optional>
#include <span>

#include "feed/feedstock/carbon_nitrogen.hpp"
#include "feed/quantity/range.hpp"

namespace feed {

/// One feedstock's part in a ratio of two sums, such as carbon that counts over nitrogen: the
/// corners of its ranges between which its amount may lie, for the largest and for the smallest
/// ratio.
struct RatioPart {
    /// What a corner adds above and below the line.
    struct Corner {
        double above = 0.0;
        double below = 0.0;
    };
    /// The corners with most and with least of the feedstock.
    struct Ends {
        Corner more, less;
    };
    Ends largest, smallest;
};

namespace detail {

constexpr RatioPart::Ends ends(double more, double less, double above, double below) noexcept {
    return {{more * above, more * below}, {less * above, less * below}};
}

}  // namespace detail

/// The part of one kilogram of a feedstock in carbon over nitrogen.
/// @param dry    dry mass, kg/kg wet. @param share  of the carbon that counts: 1, or the degradable
/// share.
constexpr RatioPart ratio_part(const Range& dry, const CarbonNitrogen& both,
                               const Range& share) noexcept {
    if (both.tied)
        return {detail::ends(dry.high * both.carbon.high, dry.low * both.carbon.low, share.high,
                             1.0 / both.cn_ratio.high),
                detail::ends(dry.high * both.carbon.high, dry.low * both.carbon.low, share.low,
                             1.0 / both.cn_ratio.low)};
    return {detail::ends(dry.high, dry.low, both.carbon.high * share.high, both.nitrogen.low),
            detail::ends(dry.high, dry.low, both.carbon.low * share.low, both.nitrogen.high)};
}

/// The part of a wet mass, from that of one kilogram. wet_kg: with its range.
constexpr RatioPart operator*(const Range& wet_kg, const RatioPart& part) noexcept {
    const auto scaled = [&](const RatioPart::Ends& one) {
        return RatioPart::Ends{{wet_kg.high * one.more.above, wet_kg.high * one.more.below},
                               {wet_kg.low * one.less.above, wet_kg.low * one.less.below}};
    };
    return {scaled(part.largest), scaled(part.smallest)};
}

namespace detail {

/// The corner that makes above - ratio x below largest (or smallest). The difference is a sum over
/// the parts, so each part picks its own corner: n steps instead of 2^n.
inline RatioPart::Corner corner_for(std::span<const RatioPart> parts, double ratio,
                                    bool largest) noexcept {
    RatioPart::Corner corner;
    for (const auto& part : parts) {
        const RatioPart::Ends& ends = largest ? part.largest : part.smallest;
        const bool more = (ends.more.above - ratio * ends.more.below > 0.0) == largest;
        const RatioPart::Corner& taken = more ? ends.more : ends.less;
        corner.above += taken.above;
        corner.below += taken.below;
    }
    return corner;
}

inline std::optional<double> extreme_ratio(std::span<const RatioPart> parts, double start,
                                           bool largest) noexcept {
    // Dinkelbach (1967): from the second step on each one moves strictly towards the extreme, and
    // there are finitely many corners; in practice under ten steps. The bound only guards against
    // rounding. The start need not be a ratio that can be reached, so it is never compared.
    double ratio = start;
    for (int step = 0; step < 100; ++step) {
        const RatioPart::Corner corner = corner_for(parts, ratio, largest);
        if (!(corner.below > 0.0)) return std::nullopt;
        const double next = corner.above / corner.below;
        if (step > 0 && (largest ? next <= ratio : next >= ratio)) break;
        ratio = next;
    }
    return ratio;
}

}  // namespace detail

/// The exact range of a ratio of sums when each part may lie anywhere between its corners. Each
/// feedstock must come once: two portions of one feedstock share its unknown values. `start` is any
/// ratio to start from, best the typical one, and the value of the range. Nothing where a corner of
/// the ranges holds nothing below the line. Time parts x few; no allocation. Method: Dinkelbach
/// 1967, Management Science 13:492 (recalled).
inline std::optional<Range> ratio_range(std::span<const RatioPart> parts, double start) noexcept {
    const auto low = detail::extreme_ratio(parts, start, false);
    const auto high = detail::extreme_ratio(parts, start, true);
    if (!low || !high) return std::nullopt;
    return Range{start, *low, *high};
}

}  // namespace feed
