#pragma once
#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "feed/balance/prepared_balance.hpp"
#include "feed/balance/reached.hpp"

namespace feed {

namespace detail {

/// The entries of a role with the most of a sum per wet kilogram, as "lettuce" or "lettuce and 2
/// more".
inline std::string wettest_scraps(const PreparedBalance& prepared, double above_moisture) {
    const auto& water = prepared.sum(Sum::water_kg);
    std::size_t wettest = water.size();
    std::size_t others = 0;
    for (std::size_t i = 0; i < water.size(); ++i) {
        const auto& entry = prepared.problem.entries[i];
        if (!(prepared.lower[i] > 0.0) || water[i] <= above_moisture) continue;
        if (is_plain_water(*entry.feedstock)) continue;
        if (wettest == water.size()) {
            wettest = i;
        } else {
            ++others;
            if (water[i] > water[wettest]) wettest = i;
        }
    }
    if (wettest == water.size()) return "";
    std::string words = prepared.problem.entries[wettest].label;
    if (others > 0) words += " and " + std::to_string(others) + " more";
    return words;
}

inline void advise_too_wet(const PreparedBalance& prepared, double limit,
                           std::vector<std::string>& advice) {
    const std::string scraps = wettest_scraps(prepared, limit);
    if (prepared.problem.place == Place::heap) {
        if (!scraps.empty()) advice.push_back("let " + scraps + " wilt or drain first");
        advice.push_back("take something drier and coarse, such as straw or dry leaves");
        advice.push_back("turn the heap, and cover it against rain");
        return;
    }
    if (!scraps.empty()) {
        advice.push_back("let " + scraps + " drain before feeding, and leave the liquid out");
        advice.push_back("freeze, thaw and drain " + scraps +
                         ": thawed scraps give up much of their water");
    }
    advice.push_back("take a drier bedding, or let the bedding dry before use");
    advice.push_back("feed less at a time, or feed a bed that is dry enough to take the water up");
}

inline bool water_is_at_hand(const PreparedBalance& prepared) {
    for (const auto& entry : prepared.problem.entries) {
        if (is_plain_water(*entry.feedstock) && !entry.most) return true;
    }
    return false;
}

/// Against too much, or too little, carbon for the nitrogen there is.
constexpr std::string_view carbon_advice(Place place, bool too_much) noexcept {
    if (!too_much)
        return "add something rich in carbon and poor in nitrogen, such as cardboard, paper or dry "
               "leaves";
    return place == Place::heap
               ? "add something rich in nitrogen, such as grass, coffee grounds or manure, or take "
                 "less of the dry part"
               : "feed something richer in nitrogen with it, such as coffee grounds or green "
                 "leaves, or less of the carbon-rich part";
}

inline void advise(const PreparedBalance& prepared, const Target& target, bool too_high,
                   std::vector<std::string>& advice) {
    switch (target.property) {
        case TargetProperty::moisture:
            if (too_high) {
                advise_too_wet(prepared, *target.high, advice);
            } else if (!water_is_at_hand(prepared)) {
                advice.push_back(prepared.problem.place == Place::heap
                                     ? "moisten the heap: add water"
                                     : "moisten the bedding: add water");
            }
            break;
        case TargetProperty::cn_ratio:
            advice.emplace_back(carbon_advice(prepared.problem.place, too_high));
            break;
        case TargetProperty::acid_g_citric_per_wet_kg:
        case TargetProperty::salt_wet_fraction:
        case TargetProperty::fat_wet_fraction:
            if (too_high)
                advice.push_back("feed less of what brings the " +
                                 std::string(kind(target.property).name) +
                                 ", or spread it over several feedings");
            break;
        case TargetProperty::free_air_space:
            if (!too_high) advice.push_back("add something coarse that keeps gaps open");
            break;
        case TargetProperty::bedding_l_per_scraps_l:
            advice.push_back(too_high ? "take less bedding, or feed more scraps with it"
                                      : "add more loose bedding, or feed fewer scraps");
            break;
        case TargetProperty::total_wet_kg:
        case TargetProperty::total_volume_l:
        case TargetProperty::water_over_least:
        case TargetProperty::water_over_room:
            break;
    }
}

}  // namespace detail

/// What helps when targets cannot be met, judged by where the closest blend misses them; best
/// first, no sentence twice. Nothing here is a number: the mend carries that.
/// Threads: pure.
inline std::vector<std::string> advice_for(const PreparedBalance& prepared,
                                           std::span<const double> wet_kg) {
    std::vector<std::string> advice;
    for (const auto& target : prepared.problem.targets) {
        if (limits_water(target.property)) continue;
        const auto sides = detail::compared(prepared, target, wet_kg);
        const bool too_high = target.high && !sides.at_most(*target.high);
        const bool too_low = target.low && !sides.at_least(*target.low);
        if (too_high || too_low) detail::advise(prepared, target, too_high, advice);
    }
    return advice;
}

}  // namespace feed
