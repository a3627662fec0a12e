#pragma once
// How often a planned trial would tell a true difference from luck.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <iterator>
#include <optional>
#include <span>
#include <vector>

#include "feed/trial/exact_test.hpp"

namespace feed {

/// A difference is called clear at or below this chance of seeing it by luck (common practice).
inline constexpr double clear_chance = 0.05;

/// What a trial is tried against on paper.
struct PowerSetting {
    double median_days = 14.0;      ///< of the quicker feeds; above 0
    std::vector<double> look_days;  ///< rising, above 0
    double bin_spread = 0.35;       ///< log sd between bins (D)
};

/// The ratios and the spreads between like portions (log sd) of the table (D).
inline constexpr std::array<double, 3> power_ratios{1.3, 1.5, 2.0};
inline constexpr std::array<double, 3> power_spreads{0.2, 0.35, 0.5};
/// By spread, then by ratio.
using PowerTable = std::array<std::array<double, 3>, 3>;

/// How many trials are drawn for a cell of the table: its standard error is at most 1.1 in 100.
inline constexpr std::size_t power_trials = 2000;

namespace detail {

/// A normal number (Box & Muller 1958).
inline double normal(SeededStream& stream) {
    const double radius = std::sqrt(-2.0 * std::log(stream.fraction()));
    return radius * std::cos(6.283185307179586 * stream.fraction());
}

/// What the looks would show of something that happens on a day.
inline PlotInterval seen_on(double day, std::span<const double> look_days) {
    PlotInterval seen;
    for (const double look : look_days) {
        if (look >= day) {
            seen.by_days = look;
            break;
        }
        seen.after_days = look;
    }
    return seen;
}

/// A drawn trial in which the last feed takes `ratio` times as long as the others.
inline void draw_trial(const TrialLayout& layout, const PowerSetting& setting, double ratio,
                       double spread, SeededStream& stream,
                       std::vector<std::optional<double>>& scores) {
    std::array<double, most_trial_bins> bins{};
    for (std::size_t bin = 0; bin < layout.design.bins; ++bin)
        bins[bin] = setting.bin_spread * normal(stream);
    for (std::size_t i = 0; i < layout.plots.size(); ++i) {
        const Plot& plot = layout.plots[i];
        scores[i].reset();
        if (!plot.feed) continue;
        const double slower = *plot.feed + 1 == layout.design.feeds ? std::log(ratio) : 0.0;
        const double day =
            setting.median_days * std::exp(slower + bins[plot.bin] + spread * normal(stream));
        scores[i] = log_middle(seen_on(day, setting.look_days));
    }
}

/// Arrangements drawn once and used for many trials of one layout.
class DrawnArrangements {
public:
    static constexpr std::size_t count = 2000;
    /// Up to so many the exact count is as quick.
    static constexpr double worth_drawing = 4096;
    /// After so many of them, at most so many as far apart settle it: of a chance above 5 in 100
    /// that few would be seen less than once in 10 000 trials (binomial).
    static constexpr std::size_t early[][2]{{250, 1}, {500, 8}, {1000, 26}};

    DrawnArrangements(const Exchange& exchange, std::uint64_t seed)
        : few_(arrangements_of(exchange) <= worth_drawing) {
        if (few_) return;
        SeededStream stream(seed);
        std::vector<std::uint8_t> dealt;
        std::vector<std::uint8_t> kinds;
        for (std::size_t i = 0; i < count; ++i) {
            std::size_t base = 0;
            for (const auto& stratum : exchange.strata) {
                dealt.resize(stratum.slots);
                kinds.resize(stratum.cards);
                deal(dealt, kinds, stream);
                for (std::size_t slot = 0; slot < stratum.slots; ++slot)
                    at_.push_back(
                        static_cast<std::uint16_t>(base + slot * stratum.cards + dealt[slot]));
                base += stratum.slots * stratum.cards;
            }
        }
        slots_ = at_.size() / count;
    }

    /// Whether the chance by luck is at most 5 in 100.
    bool is_clear(const Exchange& exchange) {
        const double at_least = tie_limit(observed_spread(exchange));
        if (few_) {
            const auto as_far = ArrangementWalk(exchange, at_least).count();
            return static_cast<double>(as_far) <= clear_chance * arrangements_of(exchange);
        }
        adds_.clear();
        for (const auto& stratum : exchange.strata) {
            for (const FeedSums& adds : stratum.adds) {
                for (const double add : adds)
                    adds_.push_back(add);
            }
        }
        constexpr auto most = static_cast<std::size_t>(clear_chance * (count + 1));
        std::size_t as_far = 1;
        const double* adds = adds_.data();
        const std::uint16_t* at = at_.data();
        const auto* next_early = std::begin(early);
        for (std::size_t i = 0; i < count; ++i, at += slots_) {
            if (next_early != std::end(early) && i == (*next_early)[0]) {
                if (as_far - 1 <= (*next_early)[1]) return true;
                ++next_early;
            }
            // Four numbers, not a loop over feeds: a build for tests is much quicker so.
            static_assert(most_trial_feeds == 4);
            double a = 0.0;
            double b = 0.0;
            double c = 0.0;
            double d = 0.0;
            for (std::size_t slot = 0; slot < slots_; ++slot) {
                const double* add = adds + most_trial_feeds * at[slot];
                a += add[0];
                b += add[1];
                c += add[2];
                d += add[3];
            }
            if (spread_of({a, b, c, d}) >= at_least && ++as_far > most) return false;
        }
        return true;
    }

private:
    bool few_;
    std::size_t slots_ = 0;
    std::vector<std::uint16_t> at_;
    std::vector<double> adds_;  ///< as many for each as there may be feeds
};

}  // namespace detail

/// The share of trials in which the exact test would call a difference clear, if one feed takes
/// `ratio` times as long as the others and times of like portions are log-normal.
/// @param ratio   above 0; 1 gives the share of false alarms.
/// @param spread  log sd between like portions, above 0.
/// @param trials  drawn from the seed of the layout.
inline double power_of(const TrialLayout& layout, const PowerSetting& setting, double ratio,
                       double spread, std::size_t trials) {
    std::vector<std::optional<double>> scores(layout.plots.size());
    const Alike all{};
    detail::DrawnArrangements drawn(exchange_of(layout, scores, all), layout.seed ^ 0x5EEDULL);
    SeededStream stream(layout.seed + 1);
    std::size_t clear = 0;
    for (std::size_t i = 0; i < trials; ++i) {
        detail::draw_trial(layout, setting, ratio, spread, stream, scores);
        clear += drawn.is_clear(exchange_of(layout, scores, all)) ? 1 : 0;
    }
    return static_cast<double>(clear) / static_cast<double>(trials);
}

/// The table of power for the three ratios and the three spreads.
/// @param progress  called with how many of the nine cells are done.
/// @param trials    drawn for each cell.
template <class Progress>
PowerTable power_table(const TrialLayout& layout, const PowerSetting& setting, Progress&& progress,
                       std::size_t trials = power_trials) {
    PowerTable table{};
    for (std::size_t i = 0; i < power_spreads.size(); ++i) {
        for (std::size_t j = 0; j < power_ratios.size(); ++j) {
            table[i][j] = power_of(layout, setting, power_ratios[j], power_spreads[i], trials);
            progress(i * power_ratios.size() + j + 1);
        }
    }
    return table;
}

}  // namespace feed
