// How far a trial is, for whoever looked: without a word of what lies where.
#include <span>
#include <string>

#include "feed/io/trial_answer.hpp"
#include "trial_bins.hpp"

namespace feed::io {
namespace {

/// What to do with a bin of a trial that was just looked at.
std::string then_text(const FeedFile& file, bool over) {
    const bool unlike = has_unlike_bins(file);
    std::string words = over     ? " It is over: feed trial read says what it shows."
                        : unlike ? " Feed away from its places."
                                 : " Feed away from its places, and all bins alike.";
    // What follows is the ration of one bin, and another may not bear it.
    if (unlike)
        words +=
            " What follows is for " + file.trial->bins.front() + " alone: the other bins differ.";
    return words;
}

}  // namespace

std::string trial_progress(const FeedFile& file) {
    if (!file.trial || file.trial->starts.empty() || !file.trial->last_day) return "";
    if (file.diary.observations.empty() || file.diary.observations.back().plots.empty()) return "";
    const Date day = file.diary.observations.back().date;
    const Trial& trial = *file.trial;
    const auto layout = draw_layout(trial.design, trial.seed.value_or(0));
    if (!layout) return "";
    std::size_t round = 0;
    while (round + 1 < trial.starts.size() &&
           day_number(trial.starts[round + 1]) <= day_number(day))
        ++round;
    std::size_t come = 0;
    std::size_t of = 0;
    for (const Plot& plot : layout->plots) {
        if (plot.round != round || !plot.feed) continue;
        const auto start = day_number(trial.starts[round]);
        const PlotRecord record = detail::record_of(file.diary.observations, plot, start);
        if (record.lost) continue;
        ++of;
        come += detail::asked(record, trial.question).by_days ? 1 : 0;
    }
    const auto since = day_number(day) - day_number(trial.starts[round]);
    // Nothing of the feeds: who looks should not learn what lies where.
    std::string words = "Trial, day " + std::to_string(since) + " of " +
                        std::to_string(*trial.last_day) +
                        (trial.design.rounds > 1 ? ", round " + std::to_string(round + 1) : "") +
                        ": " + std::to_string(come) + " of " + std::to_string(of) +
                        (of == 1 ? " portion " : " portions ") + (come == 1 ? "is " : "are ") +
                        std::string(text(trial.question)) + ".";
    // Said at the look, while another may still take the next.
    const std::span<const Observation> newest(&file.diary.observations.back(), 1);
    if (const std::string who = who_laid_looked(trial, newest); !who.empty())
        words += " " + who + " laid it and knows the key: let another look.";
    const bool last_round = round + 1 == trial.design.rounds;
    return words + then_text(file, last_round && (since >= *trial.last_day || come == of));
}

}  // namespace feed::io
