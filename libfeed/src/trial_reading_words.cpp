#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/io/human_text.hpp"
#include "feed/io/screen.hpp"
#include "feed/io/trial_answer.hpp"
#include "feed/quantity/number_print.hpp"
#include "trial_words.hpp"

namespace feed::io {
namespace {

/// More surety than this is told as "more than 99 in 100".
constexpr double all_but_certain = 0.995;

/// "97 in 100"; never certain.
std::string surety_text(double surety) {
    return surety >= all_but_certain ? "more than 99 in 100" : in_hundred(surety);
}

/// The pairs, those that say most first; of those that are all but certain the largest ratio.
std::vector<PairReading> most_telling(const TrialReading& reading) {
    std::vector<PairReading> pairs = reading.pairs;
    std::stable_sort(pairs.begin(), pairs.end(), [](const PairReading& a, const PairReading& b) {
        if (a.verdict != b.verdict) return a.verdict > b.verdict;
        const double sure = std::min(a.surety, all_but_certain);
        const double as_sure = std::min(b.surety, all_but_certain);
        if (sure != as_sure) return sure > as_sure;
        return std::fabs(std::log(a.ratio.ratio)) > std::fabs(std::log(b.ratio.ratio));
    });
    return pairs;
}

std::string ratio_sentence(const Trial& trial, const PairReading& pair) {
    const std::size_t quick = pair.first_quicker ? pair.ratio.first : pair.ratio.second;
    const std::size_t slow = pair.first_quicker ? pair.ratio.second : pair.ratio.first;
    const double ratio = pair.first_quicker ? 1.0 / pair.ratio.ratio : pair.ratio.ratio;
    const double low = pair.first_quicker ? 1.0 / pair.ratio.high : pair.ratio.low;
    const double high = pair.first_quicker ? 1.0 / pair.ratio.low : pair.ratio.high;
    const std::string next =
        pair.next_quicker >= 0.95
            ? "more than 9 in 10"
            : "about " + std::to_string(std::lround(10.0 * pair.next_quicker)) + " in 10";
    return capital(trial.feeds[slow].label) + " takes about " + fold_text(ratio) +
           " times as long as " + trial.feeds[quick].label + " (" + fold_text(low) + " to " +
           fold_text(high) + ", nine times in ten). In the next pair " + trial.feeds[quick].label +
           " goes first with a chance of " + next + ".";
}

/// What the bin's own rates take from a trial.
std::string lessons(const Trial& trial, const TrialReading& reading) {
    if (trial.design.kind == TrialKind::choice)
        return wrapped(
            "- Feeds that lie side by side share the worms: this teaches order and preference, and "
            "never changes the bin's own rates.",
            0, 2);
    std::string text = wrapped(
        "- The looks at this bin's portions count as looks at its feedings: feed observe says what "
        "they teach of its rates.",
        0, 2);
    std::vector<FeedRatio> ratios;
    for (const PairReading& pair : reading.pairs)
        ratios.push_back(pair.ratio);
    const auto rates = own_feed_rates(trial, reading, ratios);
    for (const OwnFeedRate& rate : rates)
        text += wrapped("- " + own_feed_text({trial.feeds[rate.feed].label, rate}), 0, 2);
    if (rates.empty())
        text += wrapped(
            "- Its ratios change no rate: they do so when the trial is over, without a flaw, and "
            "tells more than was held likely before.",
            0, 2);
    return text;
}

std::string reading_why(const Trial& trial, const TrialReading& reading) {
    std::string text = "\nBy pairs\n";
    if (!reading.fair || !reading.blind)
        text +=
            wrapped("- As it was written down: no number here counts what is wrong above.", 0, 2);
    for (const PairReading& pair : reading.pairs) {
        text += wrapped("- " + pair_sentence(trial, reading, pair), 0, 2);
        text += wrapped(ratio_sentence(trial, pair), 2, 2);
        text += wrapped(
            "Surety " + surety_text(pair.surety) + "; " + luck_text(pair.test.luck.p) +
                (trial.feeds.size() > 2 ? ", made safe against looking at many pairs" : "") + ".",
            2, 2);
    }
    text += "\nHow it was worked out\n";
    text += wrapped("- By luck: " +
                        (reading.overall.all_counted
                             ? "all " + significant(reading.overall.arrangements, 7) +
                                   " arrangements that the seed could have drawn were counted"
                             : std::to_string(drawn_arrangements) + " of " +
                                   significant(reading.overall.arrangements, 2) +
                                   " arrangements were drawn, so p is known to " +
                                   significant(reading.overall.error, 1)) +
                        "; that the feeds differ at all: " + luck_text(reading.overall.p) + ".",
                    0, 2);
    text +=
        wrapped("- By luck, for being " +
                    std::string(past(trial.question == TrialQuestion::gone ? TrialQuestion::found
                                                                           : TrialQuestion::gone)) +
                    ": " + luck_text(reading.order_found.p) + ".",
                0, 2);
    text += wrapped(
        "- Ratios: log-normal times with an effect of each bin, known to the looks on "
        "both sides; held likely before: a ratio of 1, log sd " +
            significant(trial.prior.ratio_log_sd, 2) +
            " (prior: changes it). Times of like portions differ by a log sd of about " +
            significant(reading.pairs.front().ratio.spread, 2) + ".",
        0, 2);
    if (trial.laid_by.empty())
        text += wrapped(
            "- Nobody wrote who laid it (laid_by): whoever looked is taken not to know the key.", 0,
            2);
    return text + lessons(trial, reading);
}

}  // namespace

std::string count_sentence(const Trial& trial, const TrialReading& reading) {
    std::vector<std::string> counts;
    for (std::size_t i = 0; i < trial.feeds.size(); ++i)
        counts.push_back(std::to_string(reading.counts[i].by_day) + " of " +
                         std::to_string(reading.counts[i].of) + " " + trial.feeds[i].label);
    const bool rounds = trial.design.rounds > 1;
    // Of three or four feeds in two sentences: one would be too long to take in.
    constexpr std::size_t in_one = 2;
    const auto cut = counts.begin() + static_cast<std::ptrdiff_t>(std::min(in_one, counts.size()));
    const std::vector<std::string> rest(cut, counts.end());
    counts.erase(cut, counts.end());
    std::string text = "By day " + std::to_string(reading.telling_day) +
                       (rounds ? " of their round, " : ", ") + joined(counts, "and") +
                       " portions were " + std::string(past(trial.question));
    if (!rest.empty()) text += ". So were " + joined(rest, "and") + " portions";
    counts.clear();
    bool more = false;
    for (const FeedCount& count : reading.counts) {
        counts.push_back(std::to_string(count.by_end));
        more = more || count.by_end > count.by_day;
    }
    if (rounds ? !more : reading.last_look <= reading.telling_day) return text + ".";
    return text +
           (rounds ? ". Now it is "
                   : ". By day " + std::to_string(reading.last_look) + " it was ") +
           joined(counts, "and") + ".";
}

std::string pair_sentence(const Trial& trial, const TrialReading& reading,
                          const PairReading& pair) {
    const std::string& quick =
        trial.feeds[pair.first_quicker ? pair.ratio.first : pair.ratio.second].label;
    const std::string& slow =
        trial.feeds[pair.first_quicker ? pair.ratio.second : pair.ratio.first].label;
    const std::string is = " is " + std::string(past(trial.question)) + " before ";
    if (pair.verdict == TrialVerdict::clear)
        return "Clear: " + quick + is + slow + "; " + luck_text(pair.test.luck.p) + ".";
    const std::string so_far = reading.ended ? "" : "So far: ";
    if (pair.verdict == TrialVerdict::probably) {
        const std::string probably =
            so_far + (reading.ended ? "Probably " : "probably ") + quick + is + slow;
        // Hope is no luck: neither number counts it.
        if (!reading.blind) return probably + ". It is not clear, as who looked knew the key.";
        return probably + " (" + surety_text(pair.surety) + " sure); " +
               luck_text(pair.test.luck.p) + ".";
    }
    const std::string cannot = so_far + (reading.ended ? "You" : "you") +
                               " cannot tell yet whether " + quick + " or " + slow + " is " +
                               std::string(past(trial.question)) + " first";
    if (!reading.fair) return cannot + ": it was no fair trial.";
    if (pair.surety >= probable_surety(trial.design.feeds))
        return cannot + ": hope alone could make so small a difference.";
    return cannot + ". If they differ, it is by less than " + fold_text(pair.at_most_fold) +
           "-fold. About " + std::to_string(pair.bins_for_2) +
           " bins like these would settle a ratio of 2, about " +
           std::to_string(pair.bins_for_1_5) + " one of 1.5.";
}

namespace {

/// When a trial ends that is not over: "The trial ends on day 30; the last look was on day 18."
std::string end_text(const Trial& trial, const TrialReading& reading) {
    const std::string last = std::to_string(reading.last_day);
    const std::string look = reading.last_look == 0 ? "nobody has looked yet."
                                                    : "the last look was on day " +
                                                          std::to_string(reading.last_look) + ".";
    const std::size_t rounds = trial.design.rounds;
    if (rounds == 1) return "The trial ends on day " + last + "; " + look;
    const std::string round = "Round " + std::to_string(reading.round + 1);
    const bool here = reading.last_look < reading.last_day;
    if (here && reading.round + 1 == rounds)
        return round + ", the last, ends on its day " + last + "; " + look;
    return (here ? round + " ends on its day " + last + "; " + look + " " : "") + "Round " +
           std::to_string(reading.round + 2) + " of " + std::to_string(rounds) +
           " is not laid yet.";
}

}  // namespace

std::vector<std::string> trial_reading_lines(const Trial& trial, const TrialReading& reading) {
    const bool looked = std::any_of(reading.plots.begin(), reading.plots.end(),
                                    [](const PlotRecord& plot) { return plot.looks > 0; });
    if (!looked)
        return {"Nobody has looked yet; the trial ends on day " + std::to_string(reading.last_day) +
                "."};
    std::vector<std::string> lines{count_sentence(trial, reading)};
    const std::vector<PairReading> pairs = most_telling(reading);
    const auto open = static_cast<std::size_t>(std::count_if(
        pairs.begin(), pairs.end(),
        [](const PairReading& pair) { return pair.verdict == TrialVerdict::cannot_tell; }));
    const std::size_t apart = pairs.size() - open;
    for (std::size_t i = 0; i < std::clamp<std::size_t>(apart, 1, 2); ++i)
        lines.push_back(pair_sentence(trial, reading, pairs[i]));
    // A number would look sure of what hope may have made.
    if (apart > 0 && reading.blind) lines.push_back(ratio_sentence(trial, pairs.front()));
    const bool spoilt = !reading.valid && !reading.flaws.empty();
    if (spoilt) lines.push_back(reading.flaws.front());
    const std::string number = std::to_string(pairs.size());
    if (open == 0 && apart > 2)
        lines.push_back("All " + number + " pairs can be told apart; --why lists them.");
    else if (pairs.size() > 1 && apart == 0)
        lines.push_back("None of " + number + " pairs can be told apart" +
                        (reading.ended ? "" : " yet") + "; --why lists them.");
    else if (pairs.size() > std::max<std::size_t>(apart, 1))
        lines.push_back("Of " + number + " pairs, " + std::to_string(open) +
                        " cannot be told apart" + (reading.ended ? "" : " yet") + "; --why lists " +
                        (apart > 2 ? "all." : "them."));
    if (!spoilt && !reading.flaws.empty()) lines.push_back(reading.flaws.front());
    if (!reading.ended) lines.push_back(end_text(trial, reading));
    // A second flaw where there is room; --why has all.
    if (reading.flaws.size() > 1) {
        std::vector<std::string> more = lines;
        more.push_back(reading.flaws[1]);
        if (taken_by(more).words <= first_screen.words) lines = std::move(more);
    }
    return lines;
}

std::string trial_reading_text(const Trial& trial, const TrialReading& reading, bool why) {
    std::string text;
    const std::vector<std::string> lines = trial_reading_lines(trial, reading);
    for (const std::string& line : lines)
        text += wrapped(line, 0, 2);
    if (!why) return text;
    std::string more;
    for (const std::string& flaw : reading.flaws) {
        if (std::find(lines.begin(), lines.end(), flaw) == lines.end())
            more += wrapped("- " + flaw, 0, 2);
    }
    return text + (more.empty() ? "" : "\n") + more + reading_why(trial, reading);
}

}  // namespace feed::io
