#pragma once
// What was seen at the plots of a trial, and the answer made of it.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "feed/diary/plot_history.hpp"
#include "feed/trial/closed_test.hpp"
#include "feed/trial/feed_ratio.hpp"
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
    bool fair = true;               ///< the looks agree, and nothing but the feeds differed
    bool blind = true;              ///< nobody wrote that who laid the portions also looked
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

/// Whether a feed lies at a plot by now: it is no blank, and its round has started.
inline bool is_laid(const Trial& trial, const Plot& plot) noexcept {
    return plot.feed && plot.round < trial.starts.size();
}

}  // namespace detail

}  // namespace feed
