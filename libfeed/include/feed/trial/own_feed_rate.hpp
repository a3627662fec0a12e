#pragma once
// What feeds alone in bins teach of how fast each goes there, beside what the table says.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include "feed/bed/pool_rates.hpp"
#include "feed/diary/plot_history.hpp"
#include "feed/feedstock/assumed.hpp"
#include "feed/quantity/normal.hpp"
#include "feed/trial/trial_reading.hpp"

namespace feed {

/// How many times as fast as the table says a feed of a trial goes in this bin.
struct OwnFeedRate {
    std::size_t feed = 0;     ///< of the trial
    double log_factor = 0.0;  ///< natural logarithm, on all rates of the feed
    double log_sd = 0.0;      ///< its standard error
};

namespace detail {

/// No feed is waited for longer than this, days at 25 C (D).
inline constexpr double longest_gone_days = 120.0;

/// Days at 25 C until a feed counts as gone, by the table: its pools decay each at its rate.
inline double table_gone_days(const Feedstock& feed) noexcept {
    const auto shares = pool_shares(feed);
    const auto left = [&](double day) {
        double sum = std::max(0.0, 1.0 - shares[0] - shares[1] - shares[2]);
        for (std::size_t pool = 0; pool < shares.size(); ++pool)
            sum += shares[pool] * std::exp(-pool_rates[pool].rate_per_day.value *
                                           feed.decay_rate_factor.value * day);
        return sum;
    };
    double low = 0.0;
    double high = longest_gone_days;
    if (left(high) > plot_gone_share) return high;
    for (int halving = 0; halving < 50; ++halving) {
        const double middle = 0.5 * (low + high);
        (left(middle) > plot_gone_share ? low : high) = middle;
    }
    return high;
}

}  // namespace detail

/// What the ratios of an *alone* trial say of each feed. The prior of the trial, centred at 1 so
/// that it says nothing before any look, is moved to where the table has the feeds; the feeds move
/// apart about their mean, because a trial knows ratios and not the level of a bin.
/// @return one for each feed; empty for a *choice*, whose feeds share the worms, for a trial that
/// is not over or has a flaw that spoils it, for the question "found", and for one that leaves more
/// than half of what was not known before (D).
/// Threads: pure. Time: that of `feed_ratios`.
inline std::vector<OwnFeedRate> own_feed_rates(const Trial& trial, const TrialReading& reading,
                                               std::span<const FeedRatio> ratios) {
    const bool teaches = trial.design.kind == TrialKind::alone &&
                         trial.question == TrialQuestion::gone && reading.ended && reading.valid;
    if (!teaches || ratios.empty()) return {};
    const auto feeds = static_cast<double>(trial.feeds.size());
    std::vector<double> seen(trial.feeds.size(), 0.0);
    std::vector<double> table(trial.feeds.size(), 0.0);
    double variance = 0.0;
    for (const FeedRatio& pair : ratios) {
        const double log_ratio = std::log(pair.ratio);
        seen[pair.first] += log_ratio / feeds;
        seen[pair.second] -= log_ratio / feeds;
        variance += 0.5 * pair.log_sd * pair.log_sd / static_cast<double>(ratios.size());
    }
    const double before = 0.5 * trial.prior.ratio_log_sd * trial.prior.ratio_log_sd;
    const double unknown = variance / before;
    if (!(unknown <= 0.5)) return {};
    double mean = 0.0;
    for (std::size_t i = 0; i < table.size(); ++i) {
        table[i] = std::log(detail::table_gone_days(*trial.feeds[i].feedstock));
        mean += table[i] / feeds;
    }
    std::vector<OwnFeedRate> rates;
    for (std::size_t i = 0; i < table.size(); ++i)
        rates.push_back({i, (table[i] - mean) * (1.0 - unknown) - seen[i],
                         std::sqrt(variance * (feeds - 1.0) / feeds)});
    return rates;
}

/// A feedstock that goes so many times as fast as it did, with the error of that as its range.
inline Feedstock with_own_rate(Feedstock feed, const OwnFeedRate& rate) noexcept {
    RateFactor& factor = feed.decay_rate_factor;
    factor.value *= std::exp(rate.log_factor);
    factor.low = factor.value * std::exp(-normal_95 * rate.log_sd);
    factor.high = factor.value * std::exp(normal_95 * rate.log_sd);
    return feed;
}

}  // namespace feed
