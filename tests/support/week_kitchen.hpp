#pragma once
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include <ration_kitchen.hpp>

#include "feed/ration/week.hpp"

// Weeks of several bins, as the tests draw them (invented).
namespace kitchen {

inline constexpr feed::Date week_today{2026, 5, 4};

/// A bin whose earlier feedings stand in its diary.
inline feed::WeekBin week_bin(std::string name, feed::Bed bed) {
    feed::WeekBin bin;
    bin.name = std::move(name);
    for (const feed::Feeding& earlier : bed.earlier) {
        const auto day = static_cast<std::int64_t>(feed::in_days(earlier.day));
        bin.diary.feedings.push_back(
            {feed::date_of(feed::day_number(week_today) + day), earlier.portions, "", ""});
    }
    bed.earlier.clear();
    bin.diary.bed = std::move(bed);
    bin.diary.bed_date = week_today;
    return bin;
}

/// Some bins, and the caddies of some households together, part of them expected later.
inline feed::WeekInput random_week(Dice& dice,
                                   const std::vector<std::shared_ptr<const feed::Feedstock>>& table,
                                   std::size_t bins, std::size_t things) {
    feed::WeekInput in;
    in.today = week_today;
    in.most_openings = 1 + static_cast<int>(dice.below(3));
    while (in.bins.size() < bins) {
        Case one = random_case(dice, table);
        in.bins.push_back(week_bin("bin " + std::to_string(in.bins.size() + 1), one.bed));
        for (feed::ThingAtHand& thing : one.things) {
            if (in.things.size() == things) break;
            const int from = dice.below(3) == 0 ? static_cast<int>(dice.below(7)) : 0;
            in.things.push_back(feed::week_thing(std::move(thing), from));
        }
    }
    return in;
}

}  // namespace kitchen
