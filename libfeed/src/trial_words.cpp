#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>

#include "feed/io/trial_answer.hpp"
#include "feed/quantity/number_print.hpp"

namespace feed::io {
namespace {

/// "12 in 100", "4 in 1000".
std::string in_hundred(double chance) {
    if (chance >= 0.0095) return std::to_string(std::lround(100.0 * chance)) + " in 100";
    if (chance >= 0.0005) return std::to_string(std::lround(1000.0 * chance)) + " in 1000";
    return "less than 1 in 1000";
}

/// "64 of 100".
std::string of_hundred(double share) {
    return std::to_string(std::lround(100.0 * share)) + " of 100";
}

/// More surety than this is told as "more than 99 in 100".
constexpr double all_but_certain = 0.995;

/// "97 in 100"; never certain.
std::string surety_text(double surety) {
    return surety >= all_but_certain ? "more than 99 in 100" : in_hundred(surety);
}

/// "luck alone would do this 12 times in 100".
std::string luck_text(double p) {
    if (p >= 0.9995) return "luck alone does this every time";
    const std::string share = in_hundred(p);
    const std::size_t in = share.find(" in ");
    if (p < 0.0005) return "luck alone would do this less than once in 1000 times";
    const std::string count = share.substr(0, in);
    return "luck alone would do this " + (count == "1" ? "once" : count + " times") +
           share.substr(in);
}

/// The keeper's words at the start of a sentence.
std::string sentence_start(std::string words) {
    if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
        words[0] = static_cast<char>(words[0] - 'a' + 'A');
    return words;
}

std::string fold_text(double ratio) {
    return significant(ratio, 2);
}

std::string days_text(const std::vector<int>& days) {
    std::string text;
    for (std::size_t i = 0; i < days.size();) {
        std::size_t end = i;
        while (end + 1 < days.size() && days[end + 1] == days[end] + 1)
            ++end;
        text += (i > 0 ? ", " : "") + std::to_string(days[i]);
        if (end > i + 1)
            text += " to " + std::to_string(days[end]);
        else if (end == i + 1)
            text += ", " + std::to_string(days[end]);
        i = end + 1;
    }
    return text;
}

std::string what_it_tells(const TrialPlan& plan) {
    const double smallest = plan.smallest.overall;
    if (smallest > clear_chance)
        return "With this you can tell nothing for certain. Even wholly apart, " +
               luck_text(smallest) + ".";
    const auto& middle = plan.power[1];
    for (std::size_t i = 0; i < power_ratios.size(); ++i) {
        if (middle[i] < 0.8) continue;
        return "With this you can tell only a difference of " + fold_text(power_ratios[i]) +
               "-fold or more: " + of_hundred(middle[i]) + " trials would show it.";
    }
    return "With this you can hardly tell: a 2-fold difference shows in only " +
           of_hundred(middle[2]) + " trials.";
}

std::string power_text(const PowerTable& power) {
    std::string text = padded("like portions differ", 24);
    for (const double ratio : power_ratios)
        text += padded(fold_text(ratio) + "-fold", ratio < power_ratios.back() ? 10 : 0);
    text += "\n";
    constexpr std::string_view names[] = {"little (log sd 0.2)", "usually (0.35)", "a lot (0.5)"};
    for (std::size_t i = 0; i < power.size(); ++i) {
        text += padded(names[i], 24);
        for (const double share : power[i])
            text += padded(std::to_string(std::lround(100.0 * share)), 10);
        while (text.back() == ' ')
            text.pop_back();
        text += "\n";
    }
    return text;
}

constexpr std::string_view past(TrialQuestion question) {
    return question == TrialQuestion::gone ? "gone" : "found";
}

/// "With a look every day, a 1.5-fold difference would show in 35 of 100 (now 28)."
std::string change_text(const TrialChange& change, double now) {
    const std::string what = "With " + change.text + ", a 1.5-fold difference would ";
    if (change.power < 0.0005) return what + "still never show.";
    return what + "show in " + of_hundred(change.power) + " (now " +
           std::to_string(std::lround(100.0 * now)) + ").";
}

/// More days than this are told by their number; the sheet and `--why` list them.
constexpr auto most_listed_days = 9;

/// What is made equal between the portions, and why.
std::string equal_and_why(PortionRule rule) {
    switch (rule) {
        case PortionRule::fresh_weight:
            return "equal fresh weight, as it is one food";
        case PortionRule::volume:
            return "equal volume, as a larger heap is met sooner";
        case PortionRule::dry_matter:
            return "equal dry matter, as much to eat";
        case PortionRule::as_written:
            return "as written";
    }
    return "";
}

/// "Lay 4 plots in each of 3 bins, 2 of each feed, as the sheet says."
std::string lay_text(const TrialDesign& design) {
    const std::string plots = counted(plots_of(design) / design.bins / design.rounds, "plot");
    return "Lay " + plots + " in " +
           (design.bins == 1 ? "the bin" : "each of " + std::to_string(design.bins) + " bins") +
           (design.rounds > 1 ? " in each round" : "") +
           (design.portions > 1 ? ", " + std::to_string(design.portions) + " of each feed" : "") +
           ", as the sheet says.";
}

/// The days to look, or how many where they would fill the screen.
std::string look_text(const TrialPlan& plan) {
    const std::string days = days_text(plan.look_days);
    const std::string last = std::to_string(*plan.trial.last_day);
    const bool few = std::count(days.begin(), days.end(), ',') < most_listed_days;
    const bool rounds = plan.trial.design.rounds > 1;
    return "Look on " +
           (few ? "day " + days
                : "the " + std::to_string(plan.look_days.size()) + " days of the sheet") +
           (rounds ? " in each round. It" : ". The trial") + " ends on day " + last +
           (rounds ? "; lay the next then." : ".");
}

std::string plan_why(const TrialPlan& plan) {
    const Trial& trial = plan.trial;
    std::string text =
        "\nOf 100 trials like this, so many would be clear, by how far the feeds differ\n";
    text += power_text(plan.power);
    text += wrapped(
        "The smallest chance by luck that this plan can reach: " +
            in_hundred(plan.smallest.overall) +
            (trial.feeds.size() > 2 ? "; for two named feeds " + in_hundred(plan.smallest.pair)
                                    : "") +
            ".",
        0, 2);
    for (const auto& change : plan.changes)
        text += wrapped(change_text(change, plan.power[1][1]), 0, 2);
    text += wrapped("Days to look: " + days_text(plan.look_days) + ".", 0, 2);
    text += "\nHow much\n";
    if (!plan.why_smaller.empty())
        text += wrapped("- Smaller than asked; whole it is too much for " + plan.why_smaller + ".",
                        0, 2);
    if (plan.portions_chosen)
        text += wrapped("- " + counted(trial.design.portions, "portion") +
                            " of each feed in a bin: " + plan.why_portions + ".",
                        0, 2);
    text += "\nExpected to be gone\n";
    for (std::size_t i = 0; i < trial.feeds.size(); ++i)
        text += wrapped("- " + trial.feeds[i].label + ": about day " +
                            significant(plan.expected_days[i], 2) + ", by the forecast",
                        0, 2);
    text += "\nWorth adding\n";
    text += wrapped(
        "- A blank (blank: yes), a place with bedding only: worms that come to it come "
        "to the digging, not to food.",
        0, 2);
    text += wrapped(
        "- A box without worms beside the bins with the same portions: what goes there "
        "goes by itself.",
        0, 2);
    text += wrapped(
        "- The usual cautions: hands washed, no dust breathed, nothing mouldy stirred "
        "in a closed room with children.",
        0, 2);
    if (trial.design.kind == TrialKind::choice)
        text += wrapped(
            "- A choice teaches what worms go to first, not how fast a bin eats: it "
            "never changes the bin's own rates.",
            0, 2);
    return text;
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
    return sentence_start(trial.feeds[slow].label) + " takes about " + fold_text(ratio) +
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
    return text + lessons(trial, reading);
}

}  // namespace

std::string weigh_fresh_text(const Trial& trial) {
    const bool prepared =
        std::any_of(trial.feeds.begin(), trial.feeds.end(),
                    [](const TrialFeed& feed) { return feed.feedstock != feed.fresh; });
    return prepared ? " Weigh it fresh; its drip goes in too." : "";
}

std::vector<std::string> trial_plan_lines(const TrialPlan& plan, UnitSystem units) {
    const Trial& trial = plan.trial;
    const TrialDesign& design = trial.design;
    const bool alone = design.kind == TrialKind::alone;
    std::vector<std::string> lines;
    if (!plan.wait.empty()) lines.push_back(plan.wait);
    lines.push_back((alone ? "Alone: one feed in a bin at a time, swapped over " +
                                 std::to_string(design.rounds) + " rounds. "
                           : "Choice: all feeds side by side in each bin. ") +
                    "Which is " + std::string(past(trial.question)) + " first?");
    lines.push_back(lay_text(design));
    std::vector<std::string> each;
    for (std::size_t i = 0; i < trial.feeds.size(); ++i)
        each.push_back(trial.feeds[i].label + " " + plan.measures[i]);
    lines.push_back("A portion is " + joined(each, "or") + ". That is " +
                    equal_and_why(plan.portions.rule) + "." + weigh_fresh_text(trial));
    if (plan.asked_share < 1.0) lines.push_back("That is less than asked: one bin bears no more.");
    lines.push_back(look_text(plan));
    lines.push_back(what_it_tells(plan));
    if (plan.helps_most) {
        const TrialChange& change = plan.changes[*plan.helps_most];
        lines.push_back("What helps most: " + change.text + ".");
    }
    if (!plan.notes.empty()) lines.push_back(plan.notes.front());
    lines.push_back(
        "Write under trial:  " +
        (plan.portions_chosen ? "portions: " + std::to_string(design.portions) + "   "
                              : std::string()) +
        (plan.asked_share < 1.0
             ? "portion: " + mass_text(plan.portions.fresh.front().mass(), units) + "   "
             : std::string()) +
        "seed: " + std::to_string(plan.layout.seed) +
        "   last_day: " + std::to_string(*trial.last_day) + "   start: DATE");
    return lines;
}

std::string trial_plan_text(const TrialPlan& plan, UnitSystem units, bool why) {
    const std::vector<std::string> lines = trial_plan_lines(plan, units);
    std::string text;
    for (std::size_t i = 0; i + 1 < lines.size(); ++i)
        text += wrapped(lines[i], 0, 2);
    text += lines.back() + "\n";  // to be copied as it stands
    if (!why) return text;
    for (std::size_t i = 1; i < plan.notes.size(); ++i)
        text += (i == 1 ? "\n" : "") + wrapped("- " + plan.notes[i], 0, 2);
    return text + plan_why(plan);
}

std::string count_sentence(const Trial& trial, const TrialReading& reading) {
    std::vector<std::string> counts;
    for (std::size_t i = 0; i < trial.feeds.size(); ++i)
        counts.push_back(std::to_string(reading.counts[i].by_day) + " of " +
                         std::to_string(reading.counts[i].of) + " " + trial.feeds[i].label);
    const bool rounds = trial.design.rounds > 1;
    std::string text = "By day " + std::to_string(reading.telling_day) +
                       (rounds ? " of their round, " : ", ") + joined(counts, "and") +
                       " portions were " + std::string(past(trial.question));
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
    if (pair.verdict == TrialVerdict::probably)
        return so_far + (reading.ended ? "Probably " : "probably ") + quick + is + slow + " (" +
               surety_text(pair.surety) + " sure); " + luck_text(pair.test.luck.p) + ".";
    return so_far + (reading.ended ? "You" : "you") + " cannot tell yet whether " + quick + " or " +
           slow + " is " + std::string(past(trial.question)) +
           " first. If they differ, it is by less than " + fold_text(pair.at_most_fold) +
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
    std::vector<std::string> lines{count_sentence(trial, reading)};
    const std::vector<PairReading> pairs = most_telling(reading);
    const auto open = static_cast<std::size_t>(std::count_if(
        pairs.begin(), pairs.end(),
        [](const PairReading& pair) { return pair.verdict == TrialVerdict::cannot_tell; }));
    const std::size_t apart = pairs.size() - open;
    for (std::size_t i = 0; i < std::clamp<std::size_t>(apart, 1, 2); ++i)
        lines.push_back(pair_sentence(trial, reading, pairs[i]));
    if (apart > 0) lines.push_back(ratio_sentence(trial, pairs.front()));
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
    if (!reading.flaws.empty()) lines.push_back(reading.flaws.front());
    if (!reading.ended) lines.push_back(end_text(trial, reading));
    return lines;
}

std::string trial_reading_text(const Trial& trial, const TrialReading& reading, bool why) {
    std::string text;
    for (const std::string& line : trial_reading_lines(trial, reading))
        text += wrapped(line, 0, 2);
    if (!why) return text;
    for (std::size_t i = 1; i < reading.flaws.size(); ++i)
        text += (i == 1 ? "\n" : "") + wrapped("- " + reading.flaws[i], 0, 2);
    return text + reading_why(trial, reading);
}

}  // namespace feed::io
