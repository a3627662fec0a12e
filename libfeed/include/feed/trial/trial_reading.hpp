#pragma once
// What the looks at a trial say: counts, the chance by luck, the ratio, and the one word.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "feed/diary/plot_history.hpp"
#include "feed/trial/closed_test.hpp"
#include "feed/trial/feed_ratio.hpp"
#include "feed/trial/heavy_look.hpp"
#include "feed/trial/power.hpp"
#include "feed/trial/trial.hpp"

namespace feed {

/// How far two feeds can be told apart.
enum class TrialVerdict : std::uint8_t { cannot_tell, probably, clear };
inline constexpr std::array<std::string_view, 3> trial_verdict_words{"you cannot tell yet",
                                                                     "probably", "clear"};
constexpr std::string_view text(TrialVerdict verdict) noexcept {
    return trial_verdict_words[static_cast<std::size_t>(verdict)];
}

/// From so much surety on a difference is called probable: with more feeds there are more pairs to
/// be wrong about. By simulation false for at most 10 of 100 trials of like feeds (docs/trials.md);
/// 0.95 and 0.975 gave just above 10.
constexpr double probable_surety(std::size_t feeds) noexcept {
    return feeds <= 2 ? 0.96 : feeds == 3 ? 0.98 : 0.99;
}

/// What was seen at one plot.
struct PlotRecord {
    PlotInterval gone;  ///< days from the start of its round
    PlotInterval found;
    std::size_t looks = 0;
    bool lost = false;
};

/// How many portions of a feed had come so far by a day.
struct FeedCount {
    std::size_t by_day = 0;
    std::size_t by_end = 0;
    std::size_t of = 0;
};

/// Two feeds of a trial.
struct PairReading {
    PairTest test;
    FeedRatio ratio;
    TrialVerdict verdict = TrialVerdict::cannot_tell;
    bool first_quicker = true;
    double surety = 0.5;        ///< that the quicker one is quicker
    double next_quicker = 0.5;  ///< chance that it goes first in the next pair
    double at_most_fold = 1.0;  ///< if they differ, by less than this (90 % interval)
    /// Bins like these that would settle a ratio of 1.5 and of 2, about.
    std::size_t bins_for_1_5 = 0;
    std::size_t bins_for_2 = 0;
};

/// The answer to a trial.
struct TrialReading {
    TrialLayout layout;
    std::vector<PlotRecord> plots;
    std::size_t round = 0;          ///< the last one that was laid, from 0
    int last_look = 0;              ///< day of the last look at a plot of that round
    int last_day = 0;               ///< as planned
    int telling_day = 0;            ///< the day by which half of all portions had come so far
    bool ended = false;             ///< the planned end is reached, or nothing is left to see
    bool valid = true;              ///< nothing speaks against a clear answer
    std::vector<FeedCount> counts;  ///< for each feed
    LuckTest overall;
    std::vector<PairReading> pairs;
    LuckTest order_found;            ///< the same test for the other question
    std::vector<std::string> flaws;  ///< sentences: what weakens the trial
};

namespace detail {

inline void narrow(PlotInterval& interval, bool happened, double day) noexcept {
    if (happened && (!interval.by_days || day < *interval.by_days)) interval.by_days = day;
    if (!happened) interval.after_days = std::max(interval.after_days, day);
}

inline PlotRecord record_of(std::span<const Observation> observations, const Plot& plot,
                            std::int64_t start) {
    PlotRecord record;
    for (const DatedPlotLook& dated : looks_at(observations, plot.number)) {
        const auto day = static_cast<double>(day_number(dated.date) - start);
        if (record.lost || day < 0.0) continue;
        // What is seen on the day it was laid counts as half a day later.
        const double at = std::max(day, 0.5);
        if (dated.look.lost) {
            record.lost = true;
            continue;
        }
        ++record.looks;
        if (const auto gone = gone_at(dated.look)) narrow(record.gone, *gone, at);
        if (const auto found = found_at(dated.look)) narrow(record.found, *found, at);
    }
    for (PlotInterval* interval : {&record.gone, &record.found}) {
        if (interval->by_days && interval->after_days >= *interval->by_days)
            interval->after_days = 0.0;  // asked back elsewhere; the first sight of it counts
    }
    return record;
}

inline const PlotInterval& asked(const PlotRecord& record, TrialQuestion question) noexcept {
    return question == TrialQuestion::gone ? record.gone : record.found;
}

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

/// Whether a feed lies at a plot by now: it is no blank, and its round has started.
inline bool is_laid(const Trial& trial, const Plot& plot) noexcept {
    return plot.feed && plot.round < trial.starts.size();
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
        reading.valid = false;
        reading.flaws.push_back("Round " + std::to_string(round + 1) +
                                " was last looked at on day " + std::to_string(reading.last_look) +
                                ", before its end on day " + std::to_string(reading.last_day) +
                                ": nothing is clear.");
    }
    if (trial.starts.size() < trial.design.rounds) reading.ended = false;
}

/// Plots whose looks say little.
struct LookFaults {
    std::size_t lost = 0;
    std::size_t unseen = 0;    ///< nobody looked for what is asked
    std::size_t happened = 0;  ///< found or gone between two looks
    std::size_t wide = 0;      ///< of those, with the looks far apart
};

inline LookFaults look_faults(const Trial& trial, const TrialReading& reading) {
    LookFaults faults;
    for (std::size_t i = 0; i < reading.plots.size(); ++i) {
        if (!is_laid(trial, reading.layout.plots[i])) continue;
        const PlotRecord& plot = reading.plots[i];
        const PlotInterval& seen = asked(plot, trial.question);
        if (plot.lost) ++faults.lost;
        if (!plot.lost && !seen.by_days && !(seen.after_days > 0.0)) ++faults.unseen;
        if (!seen.by_days) continue;
        ++faults.happened;
        if (*seen.by_days > 2.0 * std::max(seen.after_days, 1.0)) ++faults.wide;
    }
    return faults;
}

inline void note_flaws(const Trial& trial, std::span<const Observation> observations,
                       const TrialPortions& portions, TrialReading& reading) {
    const auto say = [&](std::string sentence, bool spoils) {
        reading.flaws.push_back(std::move(sentence));
        reading.valid = reading.valid && !spoils;
    };
    for (const PlotQuestion& question : plot_questions(observations))
        say(text(question), true);
    for (const DatedPlotLook& look : heavy_looks(trial, reading.layout, portions, observations))
        say(heavy_look_text(look), true);
    if (portions.unequal)
        say("The portions were unequal from the start, so a difference may be theirs.", true);
    if (!trial.changed.empty() && trial.design.rounds > 1)
        say("Between rounds something changed (" + trial.changed + "): the rounds do not compare.",
            trial.design.kind == TrialKind::alone);
    const LookFaults faults = look_faults(trial, reading);
    if (faults.lost > 0)
        say(std::to_string(faults.lost) + (faults.lost == 1 ? " portion was" : " portions were") +
                " lost and tell nothing after that.",
            5 * faults.lost > reading.plots.size());
    if (faults.unseen > 0)
        say("At " + std::to_string(faults.unseen) +
                (faults.unseen == 1 ? " portion" : " portions") + " nobody looked for this.",
            5 * faults.unseen > reading.plots.size());
    if (faults.happened > 0 && 2 * faults.wide > faults.happened)
        say("The looks were too far apart: most portions went from untouched to " +
                std::string(text(trial.question)) + " between two of them.",
            false);
    if (trial.laid_by.empty()) return;
    const bool known = std::any_of(observations.begin(), observations.end(), [&](const auto& seen) {
        return !seen.plots.empty() && seen.by == trial.laid_by;
    });
    if (known)
        say(trial.laid_by +
                " laid the portions and also looked: who knows the key sees what "
                "was hoped for.",
            false);
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
    else if (pair.surety >= probable_surety(trial.design.feeds))
        pair.verdict = TrialVerdict::probably;
}

}  // namespace detail

/// What was seen at each plot, the counts, whether the trial is over, and what weakens it: a
/// reading without its tests and ratios. Arguments as for `read_trial`. Threads: pure. Linear time.
inline TrialReading see_trial(const Trial& trial, const TrialLayout& layout,
                              const TrialPortions& portions,
                              std::span<const Observation> observations) {
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
/// needs the exact test, the planned end and a trial without a flaw that spoils it.
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
