#pragma once
// What the seed of a trial could have drawn, and what each draw would have made of the scores.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <vector>

#include "feed/trial/design.hpp"

namespace feed {

/// Which feeds a hypothesis calls alike: feeds with the same number are. "All alike" is {0, 0, 0}.
using Alike = std::array<std::uint8_t, most_trial_feeds>;

/// A number for each feed.
using FeedSums = std::array<double, most_trial_feeds>;

/// Slots among which cards may be dealt anew if a hypothesis holds: the places of a bin and round
/// and the feeds (`choice`), or bins with one pattern and the orders that fit it (`alone`).
struct ExchangeStratum {
    std::size_t slots = 0;
    std::size_t cards = 0;
    std::vector<FeedSums> adds;       ///< slot after slot: what each card adds to the feeds' sums
    std::vector<std::uint8_t> dealt;  ///< the card in each slot
};

/// All that may be dealt anew: the strata are independent.
struct Exchange {
    std::size_t feeds = 0;
    std::vector<ExchangeStratum> strata;
};

namespace detail {

/// Takes the means of every block, and of every round when there are several, out of the scores.
/// One pass each is exact when every block meets every round; else the passes are repeated.
struct CentredScore {
    std::size_t plot;
    std::size_t block;
    std::size_t round;
    double score;
};
inline void centre(std::vector<CentredScore>& scores, bool rounds_too) {
    std::map<std::size_t, std::pair<double, double>> sums;
    const auto take_out = [&](std::size_t CentredScore::*by) {
        sums.clear();
        for (const CentredScore& one : scores) {
            auto& sum = sums[one.*by];
            sum.first += one.score;
            sum.second += 1.0;
        }
        double largest = 0.0;
        for (CentredScore& one : scores) {
            const auto& sum = sums[one.*by];
            one.score -= sum.first / sum.second;
            largest = std::max(largest, std::fabs(sum.first / sum.second));
        }
        return largest;
    };
    take_out(&CentredScore::block);
    if (!rounds_too) return;
    for (int pass = 0; pass < 200; ++pass) {
        const double moved = take_out(&CentredScore::round);
        take_out(&CentredScore::block);
        if (moved < 1e-13) break;
    }
}

/// Whether a hypothesis says anything of a feed, that is, calls another feed like it.
inline bool has_twin(const Alike& alike, std::size_t feed, std::size_t feeds) noexcept {
    for (std::size_t other = 0; other < feeds; ++other) {
        if (other != feed && alike[other] == alike[feed]) return true;
    }
    return false;
}

inline void add_choice_strata(const TrialLayout& layout, const std::vector<double>& score,
                              const Alike& alike, Exchange& exchange) {
    const TrialDesign& design = layout.design;
    for (std::size_t group = 0; group < design.feeds; ++group) {
        std::vector<std::size_t> feeds;
        for (std::size_t feed = 0; feed < design.feeds; ++feed) {
            if (alike[feed] == group) feeds.push_back(feed);
        }
        if (feeds.size() < 2) continue;
        ExchangeStratum stratum;
        const auto close = [&] {
            if (stratum.slots > 0) exchange.strata.push_back(std::move(stratum));
            stratum = ExchangeStratum();
            stratum.cards = feeds.size();
        };
        close();
        for (std::size_t i = 0; i < layout.plots.size(); ++i) {
            const Plot& plot = layout.plots[i];
            if (plot.place == 0) close();
            if (!plot.feed || alike[*plot.feed] != group) continue;
            ++stratum.slots;
            for (std::size_t card = 0; card < feeds.size(); ++card) {
                FeedSums adds{};
                adds[feeds[card]] = score[i];
                stratum.adds.push_back(adds);
                if (feeds[card] == *plot.feed)
                    stratum.dealt.push_back(static_cast<std::uint8_t>(card));
            }
        }
        close();
    }
}

inline void add_alone_strata(const TrialLayout& layout, const std::vector<double>& score,
                             const Alike& alike, Exchange& exchange) {
    const TrialDesign& design = layout.design;
    const auto orders = feed_orders(design.feeds);
    const auto pattern_of = [&](const FeedOrder& order) {
        std::size_t pattern = 0;
        for (std::size_t round = 0; round < design.feeds; ++round)
            pattern = pattern * most_trial_feeds + alike[order[round]];
        return pattern;
    };
    std::map<std::size_t, ExchangeStratum> by_pattern;
    std::map<std::size_t, std::vector<FeedOrder>> fitting;
    for (const FeedOrder& order : orders)
        fitting[pattern_of(order)].push_back(order);
    for (std::size_t bin = 0; bin < design.bins; ++bin) {
        FeedOrder actual{0, 1, 2, 3};
        for (std::size_t round = 0; round < design.feeds; ++round)
            actual[round] =
                static_cast<std::uint8_t>(*layout.plots[round * design.bins + bin].feed);
        const std::size_t pattern = pattern_of(actual);
        ExchangeStratum& stratum = by_pattern[pattern];
        const auto& cards = fitting[pattern];
        stratum.cards = cards.size();
        ++stratum.slots;
        for (std::size_t card = 0; card < cards.size(); ++card) {
            FeedSums adds{};
            bool same = true;
            for (std::size_t round = 0; round < design.feeds; ++round) {
                const std::size_t feed = cards[card][round];
                if (has_twin(alike, feed, design.feeds))
                    adds[feed] += score[round * design.bins + bin];
                same = same && cards[card][round] == actual[round];
            }
            stratum.adds.push_back(adds);
            if (same) stratum.dealt.push_back(static_cast<std::uint8_t>(card));
        }
    }
    for (auto& [pattern, stratum] : by_pattern)
        exchange.strata.push_back(std::move(stratum));
}

}  // namespace detail

/// What may be dealt anew if some feeds are alike, with the scores made free of the level of each
/// bin and round (and, in `alone`, of each round). A hypothesis on some feeds leaves the others
/// where they lie.
/// @param scores  one for each plot of the layout; nothing where none is known: it then counts as
/// the middle of its block.
/// @param alike   groups numbered from 0, below the number of feeds.
inline Exchange exchange_of(const TrialLayout& layout,
                            std::span<const std::optional<double>> scores, const Alike& alike) {
    const TrialDesign& design = layout.design;
    const bool alone = design.kind == TrialKind::alone;
    std::vector<double> centred(layout.plots.size(), 0.0);
    for (std::size_t group = 0; group < design.feeds; ++group) {
        std::vector<detail::CentredScore> known;
        for (std::size_t i = 0; i < layout.plots.size(); ++i) {
            const Plot& plot = layout.plots[i];
            if (!plot.feed || alike[*plot.feed] != group || !scores[i]) continue;
            const std::size_t block = alone ? plot.bin : plot.round * design.bins + plot.bin;
            known.push_back({i, block, plot.round, *scores[i]});
        }
        detail::centre(known, alone);
        for (const auto& one : known)
            centred[one.plot] = one.score;
    }
    Exchange exchange;
    exchange.feeds = design.feeds;
    if (alone)
        detail::add_alone_strata(layout, centred, alike, exchange);
    else
        detail::add_choice_strata(layout, centred, alike, exchange);
    return exchange;
}

/// How many arrangements the seed could have drawn, the others of a hypothesis staying in place.
inline double arrangements_of(const Exchange& exchange) {
    double logarithm = 0.0;
    const auto log_factorial = [](std::size_t n) {
        // A sum, because lgamma of the C library writes a global sign.
        double sum = 0.0;
        for (std::size_t i = 2; i <= n; ++i)
            sum += std::log(static_cast<double>(i));
        return sum;
    };
    for (const ExchangeStratum& stratum : exchange.strata) {
        const std::size_t each = stratum.slots / stratum.cards;
        const std::size_t extra = stratum.slots % stratum.cards;
        logarithm += log_factorial(stratum.cards) - log_factorial(extra) -
                     log_factorial(stratum.cards - extra) + log_factorial(stratum.slots) -
                     static_cast<double>(stratum.cards - extra) * log_factorial(each) -
                     static_cast<double>(extra) * log_factorial(each + 1);
    }
    const double count = std::exp(logarithm);
    return count < 1e9 ? std::round(count) : count;
}

/// How far the feeds lie apart: the squares of their sums, added.
inline double spread_of(const FeedSums& sums) noexcept {
    double spread = 0.0;
    for (const double one : sums)
        spread += one * one;
    return spread;
}

/// The spread of the arrangement that was drawn.
inline double observed_spread(const Exchange& exchange) noexcept {
    FeedSums sums{};
    for (const ExchangeStratum& stratum : exchange.strata) {
        for (std::size_t slot = 0; slot < stratum.slots; ++slot) {
            const FeedSums& adds = stratum.adds[slot * stratum.cards + stratum.dealt[slot]];
            for (std::size_t feed = 0; feed < most_trial_feeds; ++feed)
                sums[feed] += adds[feed];
        }
    }
    return spread_of(sums);
}

}  // namespace feed
