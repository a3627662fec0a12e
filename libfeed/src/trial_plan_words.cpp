#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/io/screen.hpp"
#include "feed/io/trial_answer.hpp"
#include "feed/quantity/number_print.hpp"
#include "trial_words.hpp"

namespace feed::io {
namespace {

/// "64 of 100".
std::string of_hundred(double share) {
    return std::to_string(std::lround(100.0 * share)) + " of 100";
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
    // Its reading will say the same, however far apart the feeds lie.
    if (plan.portions.unequal)
        return "With this you can tell nothing: the portions are unequal. Leave the amounts out, "
               "and the plan makes them equal.";
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
    const std::string where = design.bins == 1 ? "the bin"
                              : design.rounds > 1
                                  ? "each bin"
                                  : "each of " + std::to_string(design.bins) + " bins";
    return "Lay " + counted(plots_of(design) / design.bins / design.rounds, "plot") + " in " +
           where + (design.rounds > 1 ? " and round" : "") +
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
           (rounds ? " in each round. On day " + last + " lay the next."
                   : "; the trial ends on day " + last + ".");
}

/// Where the words do not suffice for all feeds, so many have their amounts told.
constexpr std::size_t least_listed_feeds = 1;
/// So many words may stand in a sentence with the amounts of the portions.
constexpr std::size_t most_portion_words = 18;
/// "A portion is melon rind 60 g (120 ml) or pumpkin 36 g (120 ml).", in as many sentences as keep
/// them short.
std::string portions_text(const TrialPlan& plan, std::size_t feeds) {
    std::string text;
    std::string sentence = "A portion is ";
    for (std::size_t i = 0; i < feeds; ++i) {
        const std::string each = plan.trial.feeds[i].label + " " + plan.measures[i];
        if (i > 0 && words_in(sentence) + 1 + words_in(each) > most_portion_words) {
            text += sentence + ". ";
            sentence = "Or it is " + each;
        } else {
            sentence += (i > 0 ? " or " : "") + each;
        }
    }
    return text + sentence + ".";
}

/// What a portion is, what is made equal and why.
/// feeds: so many of them have their amounts here, the others on the sheet. why: with the reason.
std::string portion_line(const TrialPlan& plan, std::size_t feeds, bool why) {
    const auto& measures = plan.measures;
    const bool alike = std::count(measures.begin(), measures.end(), measures.front()) ==
                       std::ptrdiff_t(measures.size());
    const std::string which =
        alike ? "A portion of each is " + measures.front() + ", "
              : portions_text(plan, feeds) +
                    (feeds < measures.size() ? " The others have " : " That is ");
    const std::string equal = equal_and_why(plan.portions.rule);
    return which + (why ? equal : equal.substr(0, equal.find(','))) + "." +
           weigh_fresh_text(plan.trial) + (plan.asked_share < 1.0 ? " One bin bears no more." : "");
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
    text += wrapped("- " + portions_text(plan, trial.feeds.size()) + " That is " +
                        equal_and_why(plan.portions.rule) + ".",
                    0, 2);
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

}  // namespace

std::string weigh_fresh_text(const Trial& trial) {
    const bool prepared =
        std::any_of(trial.feeds.begin(), trial.feeds.end(),
                    [](const TrialFeed& feed) { return feed.feedstock != feed.fresh; });
    return prepared ? " Weigh it fresh; its drip goes in too." : "";
}

namespace {

/// The first screen: its lines in order, and what there was no room for.
struct PlanScreen {
    std::vector<std::string> lines;
    std::vector<std::string> left;
};

/// What to write into the file; on a line of its own where it is long.
std::vector<std::string> write_lines(const TrialPlan& plan, UnitSystem units) {
    const std::string keys =
        (plan.portions_chosen ? "portions: " + std::to_string(plan.trial.design.portions) + "   "
                              : std::string()) +
        (plan.asked_share < 1.0
             ? "portion: " + mass_text(plan.portions.fresh.front().mass(), units) + "   "
             : std::string()) +
        "seed: " + std::to_string(plan.layout.seed) +
        "   last_day: " + std::to_string(*plan.trial.last_day) + "   start: DATE";
    const std::string what = "Write under trial:";
    constexpr std::size_t width = 80;
    if (what.size() + 2 + keys.size() > width) return {what, "  " + keys};
    return {what + "  " + keys};
}

/// What a screen says in any case, and what it says where there is room, the first first.
struct PlanLines {
    std::vector<std::string> must;
    std::vector<std::string> may;
};

/// feeds: so many have their amounts told; why: with the reason of what is made equal.
PlanLines lines_of(const TrialPlan& plan, std::size_t feeds, bool why,
                   std::vector<std::string>& left) {
    const TrialDesign& design = plan.trial.design;
    const bool alone = design.kind == TrialKind::alone;
    const bool waits = !plan.wait.empty();
    PlanLines lines;
    if (waits) lines.must.push_back(plan.wait);
    lines.must.push_back((alone ? "Alone: one feed a bin, swapped over " +
                                      std::to_string(design.rounds) + " rounds. "
                                : "Choice: all feeds side by side in each bin. ") +
                         "Which is " + std::string(past(plan.trial.question)) + " first?");
    for (std::string& line : std::vector<std::string>{
             lay_text(design), portion_line(plan, feeds, why), look_text(plan)})
        (waits ? left : lines.must).push_back(std::move(line));
    lines.must.push_back(what_it_tells(plan));
    // What can do harm or spoils all goes before what helps, and that before what blurs.
    std::size_t told = waits ? 0 : std::min<std::size_t>(plan.grave_notes, 1);
    if (told > 0) lines.must.push_back(plan.notes.front());
    if (plan.helps_most && !plan.portions.unequal)
        lines.may.push_back("What helps most: " + plan.changes[*plan.helps_most].text + ".");
    if (told == 0 && !waits && !plan.notes.empty()) lines.may.push_back(plan.notes[told++]);
    left.insert(left.end(), plan.notes.begin() + static_cast<std::ptrdiff_t>(told),
                plan.notes.end());
    return lines;
}

PlanScreen plan_screen(const TrialPlan& plan, UnitSystem units) {
    PlanScreen screen;
    const std::vector<std::string> write =
        plan.wait.empty() ? write_lines(plan, units) : std::vector<std::string>();
    const std::size_t room = first_screen.words - taken_by(write).words;
    PlanLines lines;
    const std::pair<std::size_t, bool> ways[] = {
        {plan.trial.feeds.size(), true}, {least_listed_feeds, true}, {least_listed_feeds, false}};
    for (const auto& [feeds, why] : ways) {
        screen.left.clear();
        lines = lines_of(plan, feeds, why, screen.left);
        if (taken_by(lines.must).words <= room) break;
    }
    screen.lines = std::move(lines.must);
    for (std::string& line : lines.may) {
        const bool fits = taken_by(screen.lines).words + words_in(line) <= room;
        (fits ? screen.lines : screen.left).push_back(std::move(line));
    }
    screen.lines.insert(screen.lines.end(), write.begin(), write.end());
    return screen;
}

}  // namespace

std::vector<std::string> trial_plan_lines(const TrialPlan& plan, UnitSystem units) {
    return plan_screen(plan, units).lines;
}

std::string trial_plan_text(const TrialPlan& plan, UnitSystem units, bool why) {
    const PlanScreen screen = plan_screen(plan, units);
    std::string text;
    for (const std::string& line : screen.lines) {
        // What is to be written is copied as it stands.
        const bool as_it_stands = plan.wait.empty() && &line == &screen.lines.back();
        text += as_it_stands ? line + "\n" : wrapped(line, 0, 2);
    }
    if (!why) return text;
    for (std::size_t i = 0; i < screen.left.size(); ++i)
        text += (i == 0 ? "\n" : "") + wrapped("- " + screen.left[i], 0, 2);
    return text + plan_why(plan);
}

}  // namespace feed::io
