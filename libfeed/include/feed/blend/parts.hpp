#pragma once
#include <algorithm>
#include <span>
#include <vector>

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

/// Two portions of one feedstock as one. Their densities are the same unknown, so the ends add up.
inline Portion together(const Portion& a, const Portion& b) {
    Portion sum = a;
    sum.wet_mass = a.wet_mass + b.wet_mass;
    const double first = a.wet_mass.in_kilograms();
    const double second = b.wet_mass.in_kilograms();
    if (a.low_share != b.low_share)
        sum.low_share = (first * a.low_share + second * b.low_share) / (first + second);
    if (a.high_share != b.high_share)
        sum.high_share = (first * a.high_share + second * b.high_share) / (first + second);
    return sum;
}

}  // namespace detail

/// Whether two portions are of one feedstock, prepared alike: then they share their unknown values.
inline bool same_feedstock(const Portion& a, const Portion& b) {
    if (a.feedstock == b.feedstock) return true;
    return same_material(*a.feedstock, *b.feedstock) &&
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
            *same = detail::together(*same, portion);
    }
    return parts;
}

}  // namespace feed
