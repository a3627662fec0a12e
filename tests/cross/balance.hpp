#pragma once
#include <memory>
#include <utility>

#include "feed/balance/balance.hpp"
#include "feed/balance/target_sets.hpp"

// What both programs ask: how much of each thing at hand.
namespace cross {

inline void add(feed::BalanceProblem& problem, std::shared_ptr<const feed::Feedstock> feedstock,
                double kilograms) {
    feed::Entry entry;
    entry.label = feedstock->name;
    entry.feedstock = std::move(feedstock);
    if (kilograms >= 0.0) {
        entry.least = feed::wet_kilograms(kilograms);
        entry.most = entry.least;
    }
    problem.entries.push_back(std::move(entry));
}

}  // namespace cross
