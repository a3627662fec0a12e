#pragma once
// The chance by luck of a difference as large as the one seen.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "feed/trial/exchange.hpp"

namespace feed {

/// The days between which something happened to a plot: the last look before it and the first after
/// it. `before` 0: none before the first; `by` nothing: not yet at the last look, which is
/// `before`.
struct PlotInterval {
    double after_days = 0.0;
    std::optional<double> by_days;
};

/// The score of an interval: the logarithm of its middle. What had not happened by the last look
/// counts as if it had halfway to twice that day; nothing for a plot that was never looked at.
inline std::optional<double> log_middle(const PlotInterval& interval) noexcept {
    const double middle = interval.by_days ? 0.5 * (interval.after_days + *interval.by_days)
                                           : 1.5 * interval.after_days;
    if (!(middle > 0.0)) return std::nullopt;
    return std::log(middle);
}

/// A chance by luck.
struct LuckTest {
    double p = 1.0;
    double error = 0.0;         ///< standard error of p; 0 when all arrangements were counted
    double arrangements = 1.0;  ///< how many the seed could have drawn
    bool all_counted = true;
};

/// All arrangements are counted up to so many; above, so many are drawn.
inline constexpr double most_counted_arrangements = 1e6;
inline constexpr std::size_t drawn_arrangements = 20000;

namespace detail {

/// Sums within so small a part of the observed one are equal: their addends are the same.
inline double tie_limit(double observed) noexcept {
    return observed - 1e-9 * (observed + 1e-6);
}

/// Walks through all arrangements and counts those at least as far apart.
class ArrangementWalk {
public:
    ArrangementWalk(const Exchange& exchange, double at_least)
        : exchange_(exchange), at_least_(at_least) {
        std::size_t most_cards = 1;
        for (const auto& stratum : exchange.strata)
            most_cards = std::max(most_cards, stratum.cards);
        stride_ = most_cards;
        used_.assign(exchange.strata.size() * most_cards, 0);
        extra_.assign(exchange.strata.size(), 0);
        for (std::size_t i = 0; i < exchange.strata.size(); ++i)
            extra_[i] = exchange.strata[i].slots % exchange.strata[i].cards;
    }

    std::uint64_t count() {
        walk(0, 0, FeedSums{});
        return count_;
    }

private:
    void walk(std::size_t at, std::size_t slot, const FeedSums& sums) {
        if (at == exchange_.strata.size()) {
            if (spread_of(sums) >= at_least_) ++count_;
            return;
        }
        const ExchangeStratum& stratum = exchange_.strata[at];
        if (slot == stratum.slots) return walk(at + 1, 0, sums);
        const std::size_t each = stratum.slots / stratum.cards;
        std::size_t* used = &used_[at * stride_];
        for (std::size_t card = 0; card < stratum.cards; ++card) {
            const bool takes_extra = used[card] == each;
            if (used[card] > each || (takes_extra && extra_[at] == 0)) continue;
            FeedSums next = sums;
            const FeedSums& adds = stratum.adds[slot * stratum.cards + card];
            for (std::size_t feed = 0; feed < most_trial_feeds; ++feed)
                next[feed] += adds[feed];
            ++used[card];
            extra_[at] -= takes_extra ? 1 : 0;
            walk(at, slot + 1, next);
            extra_[at] += takes_extra ? 1 : 0;
            --used[card];
        }
    }

    const Exchange& exchange_;
    double at_least_;
    std::size_t stride_ = 1;
    std::vector<std::size_t> used_;
    std::vector<std::size_t> extra_;
    std::uint64_t count_ = 0;
};

/// The spread of one arrangement drawn at random.
class ArrangementDraw {
public:
    explicit ArrangementDraw(const Exchange& exchange) : exchange_(exchange) {
        std::size_t slots = 0;
        std::size_t cards = 0;
        for (const auto& stratum : exchange.strata) {
            slots = std::max(slots, stratum.slots);
            cards = std::max(cards, stratum.cards);
        }
        dealt_.resize(slots);
        kinds_.resize(cards);
    }

    double spread(SeededStream& stream) {
        FeedSums sums{};
        for (const ExchangeStratum& stratum : exchange_.strata) {
            const std::span<std::uint8_t> dealt(dealt_.data(), stratum.slots);
            deal(dealt, {kinds_.data(), stratum.cards}, stream);
            for (std::size_t slot = 0; slot < stratum.slots; ++slot) {
                const FeedSums& adds = stratum.adds[slot * stratum.cards + dealt[slot]];
                for (std::size_t feed = 0; feed < most_trial_feeds; ++feed)
                    sums[feed] += adds[feed];
            }
        }
        return spread_of(sums);
    }

private:
    const Exchange& exchange_;
    std::vector<std::uint8_t> dealt_;
    std::vector<std::uint8_t> kinds_;
};

}  // namespace detail

/// The share of the arrangements that the seed could have drawn in which the feeds lie at least as
/// far apart as seen. All are counted up to a million; above that 20 000 are drawn from the seed
/// and p is (1 + those) / (1 + drawn), which keeps the test valid. Source: Fisher 1935, The Design
/// of Experiments, section 21; Phipson & Smyth 2010 for drawn ones.
inline LuckTest luck_test(const Exchange& exchange, std::uint64_t seed) {
    LuckTest test;
    test.arrangements = arrangements_of(exchange);
    const double at_least = detail::tie_limit(observed_spread(exchange));
    if (test.arrangements <= most_counted_arrangements) {
        const auto as_far = detail::ArrangementWalk(exchange, at_least).count();
        test.p = static_cast<double>(as_far) / test.arrangements;
        return test;
    }
    SeededStream stream(seed);
    detail::ArrangementDraw draw(exchange);
    std::size_t as_far = 1;
    for (std::size_t i = 0; i < drawn_arrangements; ++i)
        as_far += draw.spread(stream) >= at_least ? 1 : 0;
    const auto of = static_cast<double>(drawn_arrangements + 1);
    test.p = static_cast<double>(as_far) / of;
    test.error = std::sqrt(test.p * (1.0 - test.p) / of);
    test.all_counted = false;
    return test;
}

}  // namespace feed
