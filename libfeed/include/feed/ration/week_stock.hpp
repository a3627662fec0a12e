#pragma once
#include <algorithm>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "feed/ration/stock.hpp"
#include "feed/ration/week.hpp"

// The stocks of the bins in a week: what they add to it, and what it takes from each.
namespace feed {

/// The things of a bin's stock that a week may draw on: what is past its days stays out.
/// @param bin  its place among the bins of the week. Threads: pure.
inline std::vector<WeekThing> week_things_of(std::span<const StockEntry> stock, const Diary& diary,
                                             Date today, std::size_t bin) {
    std::vector<WeekThing> things;
    for (StockItem& item : stock_on(stock, diary, today)) {
        if (item.keep == StockKeep::fresh && item.good_days < 0) continue;
        WeekThing one;
        one.kept = item.keep != StockKeep::fresh;
        one.until = one.kept ? week_days - 1 : std::min(week_days - 1, item.good_days);
        one.stock_of = bin;
        one.container = std::move(item.container);
        one.thing = std::move(item.thing);
        things.push_back(std::move(one));
    }
    return things;
}

namespace detail {

/// What a bin is fed of a material in the week.
inline double fed_in_week_kg(const WeekOfBin& bin, const ThingAtHand& thing) {
    double kg = 0.0;
    for (const WeekOpening& opening : bin.openings) {
        for (const PutIn& put : opening.ration.put_in)
            if (same_material(*put.thing.feedstock, *thing.feedstock))
                kg += put.wet_mass.in_kilograms();
    }
    return kg;
}

}  // namespace detail

/// What a plan takes out of each stock. What a bin is fed of a material that its own stock has
/// comes from there: so the notes of its feedings will have it (`stock_on`). The rest that the plan
/// took from stocks went to other bins; it is named from the stocks that still have it, in their
/// order. Each thing is counted once. Threads: pure. Time: bins times things.
/// @param taken_kg  of each thing of the week, what the plan takes.
inline std::vector<WeekFromStock> from_stock(const WeekPlan& plan,
                                             std::span<const WeekThing> things,
                                             std::span<const double> taken_kg) {
    std::vector<WeekFromStock> taken;
    std::vector<double> there_kg;  // of each of `taken`
    std::vector<double> elsewhere_kg(things.size(), 0.0);
    for (std::size_t i = 0; i < things.size(); ++i) {
        const WeekThing& one = things[i];
        if (!one.stock_of || !one.thing.most) continue;
        std::size_t at = 0;
        while (at < taken.size() &&
               !(taken[at].bin == *one.stock_of &&
                 same_material(*taken[at].thing.feedstock, *one.thing.feedstock)))
            ++at;
        if (at == taken.size()) {
            taken.push_back({*one.stock_of, one.thing, one.container, {}, {}});
            there_kg.push_back(0.0);
        }
        there_kg[at] += one.thing.most->in_kilograms();
        elsewhere_kg[at] += taken_kg[i];
    }
    // By material: what the plan took of it, less what goes to the bins that have it themselves.
    std::vector<double> own_kg(taken.size(), 0.0);
    for (std::size_t a = 0; a < taken.size(); ++a)
        own_kg[a] =
            std::min(there_kg[a], detail::fed_in_week_kg(plan.bins[taken[a].bin], taken[a].thing));
    for (std::size_t a = 0; a < taken.size(); ++a) {
        double open_kg = 0.0;
        for (std::size_t b = 0; b < taken.size(); ++b)
            if (same_material(*taken[a].thing.feedstock, *taken[b].thing.feedstock))
                open_kg += elsewhere_kg[b] - own_kg[b] - taken[b].to_others.in_kilograms();
        const double kg = std::clamp(open_kg, 0.0, there_kg[a] - own_kg[a]);
        taken[a].to_others = wet_kilograms(kg);
        taken[a].wet_mass = wet_kilograms(own_kg[a] + kg);
    }
    taken.erase(std::remove_if(
                    taken.begin(), taken.end(),
                    [](const WeekFromStock& one) { return one.wet_mass.in_kilograms() < 0.001; }),
                taken.end());
    return taken;
}

}  // namespace feed
