#pragma once
#include <optional>
#include <span>

namespace feed {

/// A closed range of plain numbers.
struct Range {
    double low = 0.0;
    double high = 0.0;
};

/// One feedstock's part in a ratio of carbon to nitrogen. Nitrogen is tied to carbon through the
/// C:N ratio (N = C / C:N), so the free quantities are the four ranges.
struct RatioPart {
    double wet_mass_kg = 0.0;
    Range moisture_wet;
    Range carbon_dry;
    Range cn_ratio;
    Range counted_share{1.0, 1.0};  ///< share of the carbon that counts: 1, or the degradable share
    bool nitrogen_free = false;     ///< no nitrogen: cn_ratio is not looked at
};

namespace detail {

/// Counted carbon and nitrogen of the best corner of all parts for one trial ratio.
struct Corner {
    double carbon_kg = 0.0;
    double nitrogen_kg = 0.0;
};

/// The corner that makes counted carbon - ratio x nitrogen largest (or smallest). The difference is
/// a sum over the parts, so each part picks its own corner: n steps instead of 2^n.
inline Corner corner_for(std::span<const RatioPart> parts, double ratio, bool largest) {
    Corner corner;
    for (const auto& part : parts) {
        const double share = largest ? part.counted_share.high : part.counted_share.low;
        const double cn = largest ? part.cn_ratio.high : part.cn_ratio.low;
        const double per_carbon = part.nitrogen_free ? 0.0 : 1.0 / cn;
        const bool more = (share - ratio * per_carbon > 0.0) == largest;
        const double dry_kg =
            part.wet_mass_kg * (1.0 - (more ? part.moisture_wet.low : part.moisture_wet.high));
        const double carbon_kg = dry_kg * (more ? part.carbon_dry.high : part.carbon_dry.low);
        corner.carbon_kg += carbon_kg * share;
        corner.nitrogen_kg += carbon_kg * per_carbon;
    }
    return corner;
}

inline std::optional<double> extreme_ratio(std::span<const RatioPart> parts, double start,
                                           bool largest) {
    // Dinkelbach (1967): from the second step on each one moves strictly towards the extreme, and
    // there are finitely many corners; in practice under ten steps. The bound only guards against
    // rounding. The start need not be a ratio that can be reached, so it is never compared.
    double ratio = start;
    for (int step = 0; step < 100; ++step) {
        const Corner corner = corner_for(parts, ratio, largest);
        if (!(corner.nitrogen_kg > 0.0)) return std::nullopt;
        const double next = corner.carbon_kg / corner.nitrogen_kg;
        if (step > 0 && (largest ? next <= ratio : next >= ratio)) break;
        ratio = next;
    }
    return ratio;
}

}  // namespace detail

/// The exact range of total counted carbon over total nitrogen when every part's moisture, carbon,
/// C:N and counted share may lie anywhere in its range. Each feedstock must come once: two portions
/// of one feedstock share its unknown values. `start` is any ratio to start from, best the typical
/// one. Nothing where a corner of the ranges holds no nitrogen at all. Time parts x few; no
/// allocation. Method: Dinkelbach 1967, Management Science 13:492 (recalled).
inline std::optional<Range> ratio_range(std::span<const RatioPart> parts, double start) {
    const auto low = detail::extreme_ratio(parts, start, false);
    const auto high = detail::extreme_ratio(parts, start, true);
    if (!low || !high) return std::nullopt;
    return Range{*low, *high};
}

}  // namespace feed
