#pragma once
// Log-normal times of plots with an effect of each bin, of which only the looks on both sides are
// known: the most likely effects for a given spread.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <vector>

#include "feed/trial/design.hpp"
#include "feed/trial/exact_test.hpp"
#include "feed/trial/normal_interval.hpp"

namespace feed {

/// What is held likely before a trial (D; changeable).
struct RatioPrior {
    /// Log sd of the ratio of any two feeds about 1: half of all true ratios between 0.62 and 1.6.
    double ratio_log_sd = 0.7;
    double spread_median = 0.35;  ///< of the log sd between like portions
    double spread_log_sd = 0.5;
    double level_median_days = 10.0;  ///< of a bin's own time
    double level_log_sd = 2.0;
    double round_log_sd = 1.0;  ///< of a round against the first (`alone`)
};

namespace detail {

/// One plot that was looked at, on a log scale.
struct TimedPlot {
    double low = 0.0;   ///< minus infinity: seen at the first look
    double high = 0.0;  ///< infinity: not yet at the last look
    std::size_t feed = 0;
    std::size_t block = 0;
    std::size_t round = 0;  ///< 0: none of its own
};

/// Everything the model knows of a trial.
struct TimeData {
    std::vector<TimedPlot> plots;
    std::size_t feeds = 0;
    std::size_t blocks = 0;
    std::size_t rounds = 1;  ///< with effects of their own, the first as the base
};

inline TimeData time_data(const TrialLayout& layout, std::span<const PlotInterval> intervals) {
    const TrialDesign& design = layout.design;
    const bool alone = design.kind == TrialKind::alone;
    TimeData data;
    data.feeds = design.feeds;
    data.blocks = alone ? design.bins : design.bins * design.rounds;
    data.rounds = alone ? design.rounds : 1;
    for (std::size_t i = 0; i < layout.plots.size(); ++i) {
        const Plot& plot = layout.plots[i];
        const PlotInterval& seen = intervals[i];
        if (!plot.feed || (!seen.by_days && !(seen.after_days > 0.0))) continue;
        TimedPlot timed;
        timed.low = seen.after_days > 0.0 ? std::log(seen.after_days)
                                          : -std::numeric_limits<double>::infinity();
        timed.high =
            seen.by_days ? std::log(*seen.by_days) : std::numeric_limits<double>::infinity();
        timed.feed = *plot.feed;
        timed.block = alone ? plot.bin : plot.round * design.bins + plot.bin;
        timed.round = alone ? plot.round : 0;
        data.plots.push_back(timed);
    }
    return data;
}

/// Feeds and rounds that are few and meet every block.
inline constexpr std::size_t most_shared = most_trial_feeds + most_trial_feeds;
using SharedRow = std::array<double, most_shared>;

/// Which parameter carries each feed, and what is added to it: with the difference of two feeds
/// held at d both share one parameter, plus and minus d/2.
struct FeedMap {
    std::array<std::size_t, most_trial_feeds> parameter{0, 1, 2, 3};
    std::array<double, most_trial_feeds> offset{};
    std::size_t parameters = 0;
};

/// The maximum of the posterior at a given spread.
struct Peak {
    double log_height = 0.0;
    /// Logarithm of the determinant of the negative second derivatives.
    double log_determinant = 0.0;
    SharedRow shared{};
    /// Their covariance, the blocks integrated out.
    std::array<SharedRow, most_shared> covariance{};
};

/// Newton's method on the effects of feeds, rounds and blocks. The blocks are eliminated first, so
/// that a step costs as much as the plots are many. The posterior is log-concave, so the peak is
/// the only one.
class PeakFinder {
public:
    PeakFinder(const TimeData& data, const RatioPrior& prior)
        : data_(data),
          prior_(prior),
          blocks_(data.blocks),
          moved_(data.blocks),
          block_bend_(data.blocks),
          block_slope_(data.blocks),
          cross_(data.blocks) {
        reset();
    }

    /// Starts again from the prior's middle.
    void reset() {
        shared_.fill(0.0);
        std::fill(blocks_.begin(), blocks_.end(), std::log(prior_.level_median_days));
    }

    Peak find(double sigma, const FeedMap& map) {
        rounds_at_ = map.parameters;
        size_ = map.parameters + data_.rounds - 1;
        double height = evaluate(sigma, map, shared_, blocks_, true);
        for (int step = 0; step < 60; ++step) {
            if (!solve()) break;
            double length = 2.0;
            bool better = false;
            SharedRow next{};
            for (int halving = 0; halving < 30; ++halving) {
                length *= 0.5;
                for (std::size_t i = 0; i < size_; ++i)
                    next[i] = shared_[i] + length * shared_step_[i];
                for (std::size_t b = 0; b < blocks_.size(); ++b)
                    moved_[b] = blocks_[b] + length * block_step_at(b);
                const double reached = evaluate(sigma, map, next, moved_, false);
                if (reached >= height - 1e-13 * std::fabs(height)) {
                    better = true;
                    break;
                }
            }
            if (!better) break;
            double largest = 0.0;
            for (std::size_t i = 0; i < size_; ++i)
                largest = std::fmax(largest, std::fabs(next[i] - shared_[i]));
            for (std::size_t b = 0; b < blocks_.size(); ++b)
                largest = std::fmax(largest, std::fabs(moved_[b] - blocks_[b]));
            shared_ = next;
            blocks_.swap(moved_);
            height = evaluate(sigma, map, shared_, blocks_, true);
            if (largest < 1e-7) break;
        }
        solve();
        Peak peak;
        peak.log_height = height;
        peak.log_determinant = log_determinant_;
        peak.shared = shared_;
        peak.covariance = inverse_;
        return peak;
    }

private:
    double block_step_at(std::size_t b) const noexcept {
        double step = block_slope_[b];
        for (std::size_t i = 0; i < size_; ++i)
            step -= cross_[b][i] * shared_step_[i];
        return step / block_bend_[b];
    }

    /// The log posterior up to a constant, and with `derivatives` its slopes and bends.
    double evaluate(double sigma, const FeedMap& map, const SharedRow& shared,
                    const std::vector<double>& blocks, bool derivatives) {
        const double feed_precision = 2.0 / (prior_.ratio_log_sd * prior_.ratio_log_sd);
        const double block_precision = 1.0 / (prior_.level_log_sd * prior_.level_log_sd);
        const double round_precision = 1.0 / (prior_.round_log_sd * prior_.round_log_sd);
        double height = 0.0;
        if (derivatives) {
            slope_.fill(0.0);
            for (auto& row : bend_)
                row.fill(0.0);
            for (auto& row : cross_)
                row.fill(0.0);
        }
        for (std::size_t feed = 0; feed < data_.feeds; ++feed) {
            const std::size_t at = map.parameter[feed];
            const double effect = shared[at] + map.offset[feed];
            height -= 0.5 * feed_precision * effect * effect;
            if (!derivatives) continue;
            slope_[at] -= feed_precision * effect;
            bend_[at][at] += feed_precision;
        }
        for (std::size_t i = rounds_at_; i < size_; ++i) {
            height -= 0.5 * round_precision * shared[i] * shared[i];
            if (!derivatives) continue;
            slope_[i] -= round_precision * shared[i];
            bend_[i][i] += round_precision;
        }
        const double level = std::log(prior_.level_median_days);
        for (std::size_t b = 0; b < blocks.size(); ++b) {
            const double off = blocks[b] - level;
            height -= 0.5 * block_precision * off * off;
            if (!derivatives) continue;
            block_slope_[b] = -block_precision * off;
            block_bend_[b] = block_precision;
        }
        for (const TimedPlot& plot : data_.plots) {
            const std::size_t at = map.parameter[plot.feed];
            const std::size_t round = rounds_at_ + plot.round - 1;
            double mean = shared[at] + map.offset[plot.feed] + blocks[plot.block];
            if (plot.round > 0) mean += shared[round];
            const LogChance chance = log_chance_in(plot.low, plot.high, mean, sigma);
            height += chance.value;
            if (!derivatives) continue;
            block_slope_[plot.block] += chance.slope;
            block_bend_[plot.block] -= chance.bend;
            slope_[at] += chance.slope;
            bend_[at][at] -= chance.bend;
            cross_[plot.block][at] -= chance.bend;
            if (plot.round == 0) continue;
            slope_[round] += chance.slope;
            bend_[round][round] -= chance.bend;
            bend_[at][round] -= chance.bend;
            bend_[round][at] -= chance.bend;
            cross_[plot.block][round] -= chance.bend;
        }
        return height;
    }

    /// The Newton step from the derivatives last evaluated, and the inverse of the bends of the
    /// shared parameters with the blocks eliminated (Gauss-Jordan on at most 8 rows).
    bool solve() {
        std::array<SharedRow, most_shared> left = bend_;
        SharedRow right = slope_;
        log_determinant_ = 0.0;
        for (std::size_t b = 0; b < blocks_.size(); ++b) {
            log_determinant_ += std::log(block_bend_[b]);
            for (std::size_t i = 0; i < size_; ++i) {
                const double share = cross_[b][i] / block_bend_[b];
                right[i] -= share * block_slope_[b];
                for (std::size_t j = 0; j < size_; ++j)
                    left[i][j] -= share * cross_[b][j];
            }
        }
        for (std::size_t i = 0; i < size_; ++i) {
            inverse_[i].fill(0.0);
            inverse_[i][i] = 1.0;
        }
        for (std::size_t i = 0; i < size_; ++i) {
            const double pivot = left[i][i];
            if (!(pivot > 0.0)) return false;
            log_determinant_ += std::log(pivot);
            for (std::size_t j = 0; j < size_; ++j) {
                left[i][j] /= pivot;
                inverse_[i][j] /= pivot;
            }
            for (std::size_t row = 0; row < size_; ++row) {
                if (row == i) continue;
                const double factor = left[row][i];
                for (std::size_t j = 0; j < size_; ++j) {
                    left[row][j] -= factor * left[i][j];
                    inverse_[row][j] -= factor * inverse_[i][j];
                }
            }
        }
        for (std::size_t i = 0; i < size_; ++i) {
            shared_step_[i] = 0.0;
            for (std::size_t j = 0; j < size_; ++j)
                shared_step_[i] += inverse_[i][j] * right[j];
        }
        return true;
    }

    const TimeData& data_;
    const RatioPrior& prior_;
    SharedRow shared_{};
    std::vector<double> blocks_;
    std::vector<double> moved_;
    std::vector<double> block_bend_;
    std::vector<double> block_slope_;
    std::vector<SharedRow> cross_;
    std::array<SharedRow, most_shared> bend_{};
    std::array<SharedRow, most_shared> inverse_{};
    SharedRow slope_{};
    SharedRow shared_step_{};
    double log_determinant_ = 0.0;
    std::size_t rounds_at_ = 0;
    std::size_t size_ = 0;
};

}  // namespace detail
}  // namespace feed
