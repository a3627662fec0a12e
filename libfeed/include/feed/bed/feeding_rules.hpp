#pragma once
#include <algorithm>
#include <array>
#include <string_view>

#include "feed/bed/bed_numbers.hpp"
#include "feed/bed/limits.hpp"

namespace feed {

/// One published rule for how much to feed, worked out for a bed.
struct FeedingRule {
    std::string_view name;
    double wet_kg_per_day;  ///< scraps without bedding, at full strength
    std::string_view source;
};

/// The published feeding rules side by side, and which one is the start.
struct FeedingRules {
    std::array<FeedingRule, 5> rules;
    std::size_t lowest = 0;             ///< index of the lower one: the start
    double start_wet_kg_per_day = 0.0;  ///< the lowest, with cold and the first weeks counted in
    double most_wet_kg_per_day = 0.0;   ///< above: overfed
    bool own_record = false;            ///< the keeper's own record decides

    /// Where the start comes from.
    std::string_view source() const noexcept {
        return own_record ? std::string_view("this bed's own record") : rules[lowest].source;
    }
};

/// The rules for a bed. The start is the lower of the weekly and the surface rule; above half the
/// worms' weight a day, or above the load of the surface that was tested, a bed is overfed. The
/// keeper's own record, where there is one, takes the place of both. Constant time, no allocation.
inline FeedingRules feeding_rules(const BedNumbers& bed) noexcept {
    FeedingRules answer;
    const double worms = bed.worms_kg.value;
    const double surface = bed.surface_m2;
    answer.rules = {{
        {"the worms' weight a week", limits::rate_weekly.value * worms, limits::rate_weekly.source},
        {"1 lb a square foot a week", limits::rate_by_surface.value * surface,
         limits::rate_by_surface.source},
        {"half the worms' weight a day", limits::rate_half_daily.value * worms,
         limits::rate_half_daily.source},
        {"three quarters of the worms' weight a day", limits::rate_best_castings.value * worms,
         limits::rate_best_castings.source},
        {"one and a quarter of the worms' weight a day", limits::rate_most_worms.value * worms,
         limits::rate_most_worms.source},
    }};
    for (std::size_t i = 1; i < answer.rules.size(); ++i) {
        if (answer.rules[i].wet_kg_per_day < answer.rules[answer.lowest].wet_kg_per_day)
            answer.lowest = i;
    }
    double start = answer.rules[answer.lowest].wet_kg_per_day;
    double most =
        std::min(answer.rules[2].wet_kg_per_day, limits::rate_by_surface_tested.value * surface);
    most = std::max(most, start);
    if (bed.own_rate) {
        answer.own_record = true;
        // What a bin has cleared is no leave to feed past what is published.
        start = std::min({*bed.own_rate * worms, answer.rules[2].wet_kg_per_day,
                          limits::rate_by_surface_tested.value * surface});
        most = limits::own_rate_margin.value * start;
    }
    // A record of one's own already holds the state of the bed, but not a cold spell to come.
    const double factor = answer.own_record ? bed.cold_factor : bed.rate_factor;
    answer.start_wet_kg_per_day = factor * start;
    answer.most_wet_kg_per_day = factor * most;
    return answer;
}

}  // namespace feed
