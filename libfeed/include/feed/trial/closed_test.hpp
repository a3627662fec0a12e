#pragma once
// Which feeds differ, when there are more than two.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "feed/trial/exact_test.hpp"

namespace feed {

/// The chance by luck for two feeds, made safe against looking at many pairs.
struct PairTest {
    std::size_t first = 0;
    std::size_t second = 1;
    LuckTest luck;
};

/// The tests of a trial: whether any feed differs, and which pairs do.
struct FeedTests {
    LuckTest overall;
    std::vector<PairTest> pairs;  ///< by first, then second feed
};

namespace detail {

/// Every way of calling some feeds alike, each group numbered by its first feed in order.
inline std::vector<Alike> hypotheses(std::size_t feeds) {
    std::vector<Alike> all;
    Alike alike{};
    const auto grow = [&](auto&& self, std::size_t feed, std::size_t groups) -> void {
        if (feed == feeds) {
            if (groups < feeds) all.push_back(alike);
            return;
        }
        for (std::size_t group = 0; group <= groups; ++group) {
            alike[feed] = static_cast<std::uint8_t>(group);
            self(self, feed + 1, std::max(groups, group + 1));
        }
    };
    grow(grow, 0, 0);
    return all;
}

}  // namespace detail

/// Tests every hypothesis and closes over them: a pair's p is the largest p of any hypothesis that
/// calls the two alike, so the chance of calling any like pair unlike stays at the limit.
/// @param scores  one for each plot, as for `exchange_of`.
/// Source: Marcus, Peritz & Gabriel 1976 (Biometrika 63:655).
inline FeedTests test_feeds(const TrialLayout& layout,
                            std::span<const std::optional<double>> scores, std::uint64_t seed) {
    const std::size_t feeds = layout.design.feeds;
    FeedTests tests;
    for (std::size_t first = 0; first < feeds; ++first) {
        for (std::size_t second = first + 1; second < feeds; ++second) {
            PairTest pair{first, second, {}};
            pair.luck.p = 0.0;
            tests.pairs.push_back(pair);
        }
    }
    for (const Alike& alike : detail::hypotheses(feeds)) {
        const LuckTest luck = luck_test(exchange_of(layout, scores, alike), seed);
        const bool all = std::all_of(alike.begin(), alike.begin() + static_cast<int>(feeds),
                                     [](std::uint8_t group) { return group == 0; });
        if (all) tests.overall = luck;
        for (PairTest& pair : tests.pairs) {
            if (alike[pair.first] == alike[pair.second] && luck.p > pair.luck.p) pair.luck = luck;
        }
    }
    return tests;
}

/// The smallest chance by luck that a design can reach at all.
struct SmallestLuck {
    double overall = 1.0;  ///< that the feeds differ
    double pair = 1.0;     ///< that two named feeds differ; the same with two feeds
};

/// The smallest p of a layout: every renaming of the feeds lies as far apart as the one seen, so it
/// is their number over that of the arrangements. For a pair: the largest such number of all
/// hypotheses that call the two alike.
inline SmallestLuck smallest_luck(const TrialLayout& layout) {
    SmallestLuck smallest;
    smallest.pair = 0.0;
    const std::size_t feeds = layout.design.feeds;
    const std::vector<std::optional<double>> nothing(layout.plots.size());
    for (const Alike& alike : detail::hypotheses(feeds)) {
        double renamings = 1.0;
        for (std::size_t group = 0; group < feeds; ++group) {
            const auto size = std::count(alike.begin(), alike.begin() + static_cast<int>(feeds),
                                         static_cast<std::uint8_t>(group));
            for (std::ptrdiff_t i = 2; i <= size; ++i)
                renamings *= static_cast<double>(i);
        }
        const double p =
            std::min(1.0, renamings / arrangements_of(exchange_of(layout, nothing, alike)));
        if (std::count(alike.begin(), alike.begin() + static_cast<int>(feeds), std::uint8_t{0}) ==
            static_cast<std::ptrdiff_t>(feeds))
            smallest.overall = p;
        if (alike[0] == alike[1]) smallest.pair = std::max(smallest.pair, p);
    }
    return smallest;
}

}  // namespace feed
