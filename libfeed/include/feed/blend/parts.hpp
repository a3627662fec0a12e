#pragma once
#include <algorithm>
#include <optional>
#include <span>
#include <vector>

#include "feed/blend/available_carbon.hpp"
#include "feed/blend/interval_sweep.hpp"
#include "feed/blend/portion.hpp"

namespace feed {

namespace detail {

inline bool same_numbers(const Feedstock& a, const Feedstock& b) {
    for (std::size_t i = 0; i < property_count; ++i) {
        if (a.data[i].has_value() != b.data[i].has_value()) return false;
        if (a.data[i] && (a.data[i]->value != b.data[i]->value ||
                          a.data[i]->low != b.data[i]->low || a.data[i]->high != b.data[i]->high))
            return false;
    }
    return true;
}

}  // namespace detail

/// Whether two portions are of one feedstock, prepared alike: then they share their unknown values.
inline bool same_feedstock(const Portion& a, const Portion& b) {
    if (a.feedstock == b.feedstock) return true;
    return a.feedstock->id == b.feedstock->id &&
           a.feedstock->prepared_as == b.feedstock->prepared_as &&
           detail::same_numbers(*a.feedstock, *b.feedstock);
}

/// The portions with each feedstock once, in order of first appearance, without empty ones. Time
/// portions squared.
inline std::vector<Portion> merged(std::span<const Portion> portions) {
    std::vector<Portion> parts;
    for (const auto& portion : portions) {
        if (!(portion.wet_mass.in_kilograms() > 0.0)) continue;
        const auto same = std::find_if(parts.begin(), parts.end(), [&](const Portion& part) {
            return same_feedstock(part, portion);
        });
        if (same == parts.end())
            parts.push_back(portion);
        else
            same->wet_mass = same->wet_mass + portion.wet_mass;
    }
    return parts;
}

/// Carbon and nitrogen of a feedstock's dry mass with nitrogen tied to carbon by the C:N ratio.
struct CarbonNitrogen {
    double carbon = 0.0;    ///< kg/kg dry
    double nitrogen = 0.0;  ///< kg/kg dry
    Range carbon_range;
    Range cn_range;
    bool nitrogen_free = false;
    bool carbon_free = false;
    Grade grade = Grade::a;

    bool is_zero() const noexcept { return nitrogen_free && carbon_free; }
    /// Lowest and highest nitrogen, kg/kg dry.
    Range nitrogen_range() const noexcept {
        if (nitrogen_free) return {0.0, 0.0};
        if (carbon_free) return {nitrogen, nitrogen};
        return {carbon_range.low / cn_range.high, carbon_range.high / cn_range.low};
    }
};

namespace detail {

inline Range range_of(const Datum& datum) {
    return {std::min(datum.low, datum.value), std::max(datum.high, datum.value)};
}

inline CarbonNitrogen tied(double carbon, double nitrogen, Range carbon_range, Range cn_range,
                           Grade grade) {
    CarbonNitrogen both;
    both.carbon = carbon;
    both.nitrogen = nitrogen;
    both.carbon_range = carbon_range;
    both.grade = grade;
    both.nitrogen_free = !(nitrogen > 0.0);
    both.carbon_free = !(carbon > 0.0);
    if (!both.nitrogen_free && !both.carbon_free) {
        const double typical = carbon / nitrogen;
        both.cn_range = {std::min(std::max(cn_range.low, 1e-6), typical),
                         std::max(cn_range.high, typical)};
    }
    return both;
}

}  // namespace detail

/// Carbon and nitrogen of a feedstock from two of carbon, nitrogen and C:N; nothing when fewer are
/// known. The range of the C:N ratio leads; without one it follows from the range of nitrogen.
inline std::optional<CarbonNitrogen> carbon_nitrogen_of(const Feedstock& feedstock) {
    const auto& carbon = feedstock[Property::carbon_dry];
    const auto& nitrogen = feedstock[Property::nitrogen_dry];
    const auto& ratio = feedstock[Property::cn_ratio];
    if (carbon && nitrogen) {
        const Grade grade = worst(carbon->grade, nitrogen->grade);
        Range cn_range;
        if (ratio)
            cn_range = detail::range_of(*ratio);
        else if (nitrogen->value > 0.0)
            cn_range = {
                carbon->value / detail::range_of(*nitrogen).high,
                carbon->value / std::max(detail::range_of(*nitrogen).low, 0.01 * nitrogen->value)};
        return detail::tied(carbon->value, nitrogen->value, detail::range_of(*carbon), cn_range,
                            grade);
    }
    if (ratio && carbon && ratio->value > 0.0)
        return detail::tied(carbon->value, carbon->value / ratio->value, detail::range_of(*carbon),
                            detail::range_of(*ratio), worst(carbon->grade, ratio->grade));
    if (ratio && nitrogen) {
        const Range range = detail::range_of(*nitrogen);
        return detail::tied(nitrogen->value * ratio->value, nitrogen->value,
                            {range.low * ratio->value, range.high * ratio->value},
                            detail::range_of(*ratio), worst(nitrogen->grade, ratio->grade));
    }
    return std::nullopt;
}

}  // namespace feed
