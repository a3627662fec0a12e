#pragma once
// Balances for benchmarks: feedstocks of the table, the worm-bed windows (six limits), a usual
// recipe that mostly misses a window.
#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "feed/balance/balance.hpp"
#include "kitchen_caddies.hpp"

namespace feed_bench {

/// Feedstocks of the table that a worm bed takes and whose numbers are known.
inline std::vector<feed::Feedstock> usable_feedstocks() {
    std::vector<feed::Feedstock> usable;
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i) {
        auto feedstock = feed::feedstock_at(i);
        bool known =
            feedstock.group == feed::Group::scraps || feedstock.group == feed::Group::beddings;
        for (const auto property :
             {feed::Property::moisture_wet, feed::Property::carbon_dry,
              feed::Property::nitrogen_dry, feed::Property::bulk_density_loose})
            known = known && feedstock[property].has_value();
        if (known) usable.push_back(std::move(feedstock));
    }
    return usable;
}

/// One balance: a third of the entries exact scraps, the rest free with a usual amount.
inline feed::BalanceProblem random_balance(const std::vector<feed::Feedstock>& usable,
                                           std::size_t entries, feed::Objective objective,
                                           feed_test::RandomNumbers& random) {
    feed::BalanceProblem problem;
    problem.objective = objective;
    while (problem.entries.size() < entries) {
        feed::Entry entry;
        entry.feedstock =
            std::make_shared<const feed::Feedstock>(usable[random.below(usable.size())]);
        entry.label = "entry " + std::to_string(problem.entries.size());
        const bool scraps = entry.feedstock->group == feed::Group::scraps;
        const double usual = scraps ? random.between(0.1, 0.6) : random.between(0.02, 0.3);
        entry.usual = feed::wet_kilograms(usual);
        if (scraps && random.below(2) == 0) {
            entry.least = feed::wet_kilograms(usual * random.between(0.7, 1.4));
            entry.most = entry.least;
        }
        problem.entries.push_back(std::move(entry));
    }
    problem.targets = feed::worm_bed_targets();
    std::erase_if(problem.targets, [](const feed::Target& target) {
        return target.property == feed::TargetProperty::water_over_room;
    });
    return problem;
}

/// Window edges that an answer stands at: what makes the problem work.
inline std::size_t edges_reached(const feed::PreparedBalance& prepared,
                                 std::span<const double> wet_kg) {
    std::size_t reached = 0;
    for (std::size_t r = 0; r < prepared.row_count(); ++r) {
        double value = 0.0;
        double size = 0.0;
        for (std::size_t i = 0; i < wet_kg.size(); ++i) {
            const double term = prepared.rows[r * wet_kg.size() + i] * wet_kg[i];
            value += term;
            size += term < 0.0 ? -term : term;
        }
        if (value <= 1e-9 * size && value >= -1e-9 * size) ++reached;
    }
    return reached;
}

/// `count` balances that have an answer; for the usual recipe only such as it does not fit as it
/// is.
inline std::vector<feed::PreparedBalance> solvable_balances(
    const std::vector<feed::Feedstock>& usable, std::size_t entries, feed::Objective objective,
    std::size_t count, std::uint64_t seed) {
    feed_test::RandomNumbers random(seed);
    std::vector<feed::PreparedBalance> made;
    for (int tries = 0; made.size() < count && tries < 100000; ++tries) {
        auto prepared = feed::prepare(random_balance(usable, entries, objective, random));
        if (!prepared) continue;
        feed::BalanceWorkspace workspace(*prepared);
        const auto answer = feed::solve(*prepared, workspace);
        if (answer.status != feed::BalanceStatus::solved) continue;
        if (objective == feed::Objective::closest_to_usual &&
            edges_reached(*prepared, answer.wet_kg) == 0)
            continue;
        made.push_back(std::move(*prepared));
    }
    return made;
}

}  // namespace feed_bench
