#pragma once
// What the looks at a trial say: counts, the chance by luck, the ratio, and the one word.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "feed/trial/power.hpp"
#include "feed/trial/trial_flaws.hpp"

namespace feed {

namespace detail {

inline LuckTest luck_of(const TrialLayout& layout, std::span<const PlotRecord> plots,
                        TrialQuestion question) {
    std::vector<std::optional<double>> scores;
    for (const PlotRecord& plot : plots)
        scores.push_back(log_middle(asked(plot, question)));
    return luck_test(exchange_of(layout, scores, Alike{}), layout.seed);
}

/// Bins that would show a ratio in four of five trials at one in twenty by luck: the usual normal
/// formula for pairs, two more for small numbers, and never fewer than can reach the limit.
inline std::size_t bins_for(const TrialDesign& design, double ratio, double spread) {
    const double variance = 2.0 * spread * spread / static_cast<double>(design.portions);
    const double log_ratio = std::log(ratio);
    const double pairs = 2.8 * 2.8 * variance / (log_ratio * log_ratio) + 2.0;
    auto bins = static_cast<std::size_t>(std::ceil(pairs));
    TrialDesign least = design;
    if (design.kind == TrialKind::choice) {
        bins = (bins + design.rounds - 1) / design.rounds;
        least.bins = 1;
    }
    for (; least.bins < most_trial_bins; ++least.bins) {
        const auto layout = draw_layout(least, 1);
        if (layout && smallest_luck(*layout).pair <= clear_chance) break;
    }
    return std::max(bins, least.bins);
}

inline void count_feeds(const Trial& trial, TrialReading& reading) {
    std::vector<double> days;
    std::size_t watched = 0;
    for (std::size_t i = 0; i < reading.plots.size(); ++i) {
        if (!is_laid(trial, reading.layout.plots[i]) || reading.plots[i].lost) continue;
        ++watched;
        const auto& seen = asked(reading.plots[i], trial.question);
        if (seen.by_days) days.push_back(*seen.by_days);
    }
    std::sort(days.begin(), days.end());
    const std::size_t half = (watched + 1) / 2;
    reading.telling_day = days.empty()         ? reading.last_look
                          : days.size() < half ? static_cast<int>(std::lround(days.back()))
                                               : static_cast<int>(std::lround(days[half - 1]));
    reading.counts.assign(trial.design.feeds, {});
    for (std::size_t i = 0; i < reading.plots.size(); ++i) {
        const Plot& plot = reading.layout.plots[i];
        if (!is_laid(trial, plot) || reading.plots[i].lost) continue;
        FeedCount& count = reading.counts[*plot.feed];
        const auto& seen = asked(reading.plots[i], trial.question);
        ++count.of;
        if (!seen.by_days) continue;
        ++count.by_end;
        count.by_day += *seen.by_days <= reading.telling_day + 0.5 ? 1 : 0;
    }
}

/// The day of the last look at a plot of a round, 0 where nobody looked.
inline int last_look_of(const Trial& trial, const TrialLayout& layout, std::size_t round,
                        std::span<const Observation> observations) {
    int last = 0;
    for (const Observation& seen : observations) {
        const bool here =
            std::any_of(seen.plots.begin(), seen.plots.end(), [&](const PlotLook& look) {
                return look.plot <= layout.plots.size() &&
                       layout.plots[look.plot - 1].round == round;
            });
        if (here)
            last = std::max(
                last, static_cast<int>(day_number(seen.date) - day_number(trial.starts[round])));
    }
    return last;
}

/// Whether a round was watched to the planned end, or until nothing was left to see.
inline bool round_ended(const Trial& trial, const TrialReading& reading, std::size_t round,
                        int last_look) {
    if (last_look >= reading.last_day) return true;
    std::size_t watched = 0;
    for (std::size_t i = 0; i < reading.plots.size(); ++i) {
        const Plot& plot = reading.layout.plots[i];
        if (plot.round != round || !plot.feed || reading.plots[i].lost) continue;
        ++watched;
        if (!asked(reading.plots[i], trial.question).by_days) return false;
    }
    return watched > 0;
}

/// The last look, whether the trial is over, and rounds that were broken off before.
inline void see_rounds(const Trial& trial, std::span<const Observation> observations,
                       TrialReading& reading) {
    for (std::size_t round = 0; round < trial.starts.size(); ++round) {
        reading.round = round;
        reading.last_look = last_look_of(trial, reading.layout, round, observations);
        reading.ended = round_ended(trial, reading, round, reading.last_look);
        if (reading.ended || round + 1 == trial.starts.size()) continue;
        say_flaw(reading,
                 "Round " + std::to_string(round + 1) + " was last looked at on day " +
                     std::to_string(reading.last_look) + ", before its end on day " +
                     std::to_string(reading.last_day) + ": nothing is clear.",
                 Flaw::not_clear);
    }
    if (trial.starts.size() < trial.design.rounds) reading.ended = false;
}

inline void judge(const Trial& trial, PairReading& pair, const TrialReading& reading) {
    const FeedRatio& ratio = pair.ratio;
    pair.first_quicker = ratio.surety_first_quicker >= 0.5;
    pair.surety = std::max(ratio.surety_first_quicker, 1.0 - ratio.surety_first_quicker);
    pair.next_quicker =
        pair.first_quicker ? ratio.next_first_quicker : 1.0 - ratio.next_first_quicker;
    pair.at_most_fold = std::max(ratio.high, 1.0 / ratio.low);
    pair.bins_for_1_5 = bins_for(trial.design, 1.5, ratio.spread);
    pair.bins_for_2 = bins_for(trial.design, 2.0, ratio.spread);
    if (pair.test.luck.p <= clear_chance && reading.ended && reading.valid)
        pair.verdict = TrialVerdict::clear;
    else if (reading.fair && (reading.blind || beyond_hope(ratio)) &&
             pair.surety >= probable_surety(trial.design.feeds))
        pair.verdict = TrialVerdict::probably;
}

}  // namespace detail

namespace detail {

/// The looks up to the planned end: of each plot up to the first look on its last day or later.
/// What is seen after that was no part of the plan: who goes on until it is clear finds it too
/// often. `late` says whether there was any.
inline std::vector<Observation> looks_of_plan(const Trial& trial, const TrialLayout& layout,
                                              std::span<const Observation> observations,
                                              bool& late) {
    std::vector<Observation> counted(observations.begin(), observations.end());
    if (!trial.last_day) return counted;
    const auto end_of = [&](const Plot& plot) {
        return day_number(trial.starts[plot.round]) + *trial.last_day;
    };
    const auto known = [&](const PlotLook& look) {
        return look.plot >= 1 && look.plot <= layout.plots.size() &&
               layout.plots[look.plot - 1].round < trial.starts.size();
    };
    std::vector<std::int64_t> closed(layout.plots.size(), std::numeric_limits<std::int64_t>::max());
    for (const Observation& seen : counted) {
        const std::int64_t day = day_number(seen.date);
        for (const PlotLook& look : seen.plots) {
            if (!known(look) || day < end_of(layout.plots[look.plot - 1])) continue;
            closed[look.plot - 1] = std::min(closed[look.plot - 1], day);
        }
    }
    for (Observation& seen : counted) {
        const std::int64_t day = day_number(seen.date);
        const auto gone = std::erase_if(seen.plots, [&](const PlotLook& look) {
            return known(look) && day > closed[look.plot - 1];
        });
        late = late || gone > 0;
    }
    return counted;
}

}  // namespace detail

/// What was seen at each plot, the counts, whether the trial is over, and what weakens it: a
/// reading without its tests and ratios. Arguments as for `read_trial`. Threads: pure. Linear time.
inline TrialReading see_trial(const Trial& trial, const TrialLayout& layout,
                              const TrialPortions& portions,
                              std::span<const Observation> all_observations) {
    bool late = false;
    const auto observations = detail::looks_of_plan(trial, layout, all_observations, late);
    TrialReading reading;
    reading.layout = layout;
    reading.last_day = trial.last_day.value_or(0);
    for (const Plot& plot : layout.plots) {
        if (plot.round >= trial.starts.size()) {
            reading.plots.push_back({});
            continue;
        }
        reading.plots.push_back(
            detail::record_of(observations, plot, day_number(trial.starts[plot.round])));
    }
    detail::note_flaws(trial, observations, portions, reading);
    detail::see_rounds(trial, observations, reading);
    if (late)
        detail::say_flaw(reading, "Looks after the planned end do not count.",
                         detail::Flaw::says_little);
    detail::count_feeds(trial, reading);
    return reading;
}

/// What is asked of each plot, one interval each.
inline std::vector<PlotInterval> intervals_of(const Trial& trial, const TrialReading& reading) {
    std::vector<PlotInterval> intervals;
    for (const PlotRecord& plot : reading.plots)
        intervals.push_back(detail::asked(plot, trial.question));
    return intervals;
}

/// Reads a trial: counts, one exact test, one ratio for each pair, one of three verdicts. "Clear"
/// needs the exact test, the planned end and a trial without a flaw that spoils it; where something
/// else may have made the difference nothing is told, not even "probably".
/// @param trial         with seed, a start for each round that was looked at, and last day.
/// @param observations  of the diary.
/// Threads: pure. Time: tens of milliseconds for 12 bins of 4 feeds.
inline TrialReading read_trial(const Trial& trial, const TrialLayout& layout,
                               const TrialPortions& portions,
                               std::span<const Observation> observations) {
    TrialReading reading = see_trial(trial, layout, portions, observations);
    const std::vector<PlotInterval> intervals = intervals_of(trial, reading);
    std::vector<std::optional<double>> scores;
    scores.reserve(intervals.size());
    for (const PlotInterval& interval : intervals)
        scores.push_back(log_middle(interval));
    const FeedTests tests = test_feeds(layout, scores, layout.seed);
    reading.overall = tests.overall;
    const auto ratios = feed_ratios(layout, intervals, trial.prior);
    for (std::size_t i = 0; i < tests.pairs.size(); ++i) {
        PairReading pair;
        pair.test = tests.pairs[i];
        pair.ratio = ratios[i];
        detail::judge(trial, pair, reading);
        reading.pairs.push_back(pair);
    }
    const bool gone = trial.question == TrialQuestion::gone;
    reading.order_found =
        detail::luck_of(layout, reading.plots, gone ? TrialQuestion::found : TrialQuestion::gone);
    return reading;
}

}  // namespace feed
