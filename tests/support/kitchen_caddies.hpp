#pragma once
// Random kitchen caddies, the same ones on every machine, with card, paper, leaves and water at
// hand. The mixes are invented; the materials are those of the table.
#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <string_view>
#include <vector>

#include "feed/balance/balance_problem.hpp"
#include "feed/balance/target_sets.hpp"
#include "feed/feedstock/table.hpp"

namespace feed_test {

/// splitmix64 (Steele, Lea and Flood 2014): small, and the same everywhere.
class RandomNumbers {
public:
    explicit RandomNumbers(std::uint64_t seed) : state_(seed) {}
    std::uint64_t next() {
        state_ += 0x9E3779B97F4A7C15ULL;
        std::uint64_t z = state_;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
        return z ^ (z >> 31);
    }
    /// 0 up to but not including 1.
    double share() { return static_cast<double>(next() >> 11) * 0x1.0p-53; }
    double between(double low, double high) { return low + (high - low) * share(); }
    std::size_t below(std::size_t count) { return static_cast<std::size_t>(next() % count); }

private:
    std::uint64_t state_;
};

struct CaddyKind {
    std::string_view name;
    std::vector<std::string_view> mostly;  ///< about three quarters of the mass
    std::vector<std::string_view> beside;
};

inline std::vector<CaddyKind> caddy_kinds() {
    return {
        {"vegetable-rich",
         {"carrot", "potato-peel", "cabbage-green", "tomato", "cucumber", "broccoli-stalk",
          "cauliflower-leaves", "celery", "zucchini", "pepper-bell", "onion", "leek"},
         {"banana-peel", "coffee-grounds", "tea-leaves", "apple-pomace", "bread-white"}},
        {"fruit-rich",
         {"banana-peel", "apple-pomace", "orange-peel", "melon-peel", "watermelon-rind",
          "pineapple-peel", "mango-peel", "pear-core", "strawberry", "grape"},
         {"lettuce-leaf", "coffee-grounds", "tea-leaves", "potato-peel", "carrot"}},
        {"coffee-rich",
         {"coffee-grounds", "coffee-grounds", "coffee-grounds", "tea-leaves"},
         {"banana-peel", "apple-pomace", "potato-peel", "lettuce-leaf", "orange-peel", "carrot"}},
        {"salad",
         {"lettuce-iceberg", "lettuce-leaf", "cucumber", "tomato", "spinach", "radish-leaves",
          "celery", "cabbage-red"},
         {"carrot", "apple-pomace", "onion", "bread-white", "coffee-grounds"}},
    };
}

inline constexpr std::array<std::string_view, 4> caddy_beddings{
    "cardboard-corrugated", "paper-office", "leaves-dry-shredded", "water-tap"};

inline feed::Entry entry_of(std::string_view id, double least_kg, bool exact) {
    feed::Entry entry;
    entry.feedstock =
        std::make_shared<const feed::Feedstock>(feed::feedstock_at(feed::find_id(id).value()));
    entry.label = entry.feedstock->name;
    entry.least = feed::wet_kilograms(least_kg);
    if (exact) entry.most = entry.least;
    return entry;
}

/// Adds mass to the entry of a feedstock, or makes one.
inline void add_scraps(std::vector<feed::Entry>& entries, std::string_view id, double kilograms) {
    for (auto& entry : entries) {
        if (entry.feedstock->id != id) continue;
        entry.least = entry.least + feed::wet_kilograms(kilograms);
        entry.most = entry.least;
        return;
    }
    entries.push_back(entry_of(id, kilograms, true));
}

/// One caddy of 0.5 to 3 kg: two to five of the main materials, up to three others.
inline feed::BalanceProblem random_caddy(const CaddyKind& kind, RandomNumbers& random) {
    feed::BalanceProblem problem;
    const double whole = random.between(0.5, 3.0);
    const double main_share = random.between(0.6, 0.9);
    const std::size_t main_count = 2 + random.below(4);
    const std::size_t other_count = 1 + random.below(3);
    // One draw a statement: compilers differ in the order of a call's arguments.
    const auto add = [&](const std::vector<std::string_view>& materials, double usual_kg) {
        const auto id = materials[random.below(materials.size())];
        const double kilograms = usual_kg * random.between(0.5, 1.5);
        add_scraps(problem.entries, id, kilograms);
    };
    for (std::size_t i = 0; i < main_count; ++i)
        add(kind.mostly, whole * main_share / static_cast<double>(main_count));
    for (std::size_t i = 0; i < other_count; ++i)
        add(kind.beside, whole * (1.0 - main_share) / static_cast<double>(other_count));
    for (const auto id : caddy_beddings)
        problem.entries.push_back(entry_of(id, 0.0, false));
    problem.targets = feed::worm_bed_targets();
    return problem;
}

}  // namespace feed_test
