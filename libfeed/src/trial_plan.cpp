#include <algorithm>
#include <string>
#include <utility>

#include "feed/io/answers.hpp"
#include "feed/io/measure_text.hpp"
#include "feed/io/trial_answer.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/trial/look_days.hpp"
#include "plot_notes.hpp"
#include "trial_bins.hpp"

namespace feed::io {
namespace {

/// Shares of a portion that are tried where the bed does not bear it whole.
constexpr double tried_shares[] = {1.0, 0.75, 0.5, 0.375, 0.25, 0.1875, 0.125};
/// More plots than this are not chosen by the plan itself: a look at all takes a quarter of an hour
/// (D).
constexpr std::size_t most_chosen_plots = 48;
/// So much power at a difference is called telling it (common practice).
constexpr double told_share = 0.8;
/// A change that brings less power than this is not worth saying; a bin more costs as much effort
/// as a tenth more power is worth (D).
constexpr double worth_saying = 0.03;
constexpr double worth_a_bin = 0.10;

/// A problem with a key of the section; stands at the key, or where it is missing at the section.
Error trial_error(const FeedFile& file, ErrorCode code, const std::string& field,
                  std::string allowed, std::string message, std::string value = "") {
    Error error = make_error(code, "trial: " + field, std::move(value), std::move(allowed),
                             std::move(message), file.name);
    const FeedFile::KeyPlace place = file.place_in_trial(field);
    error.line = place.line;
    error.column = place.column;
    return error;
}

/// A plot that was looked at without a day on which it was laid.
std::optional<std::size_t> unlaid_plot(const Trial& trial, const Diary& diary) {
    for (const Observation& seen : diary.observations) {
        for (const PlotLook& look : seen.plots) {
            if (!laid_on(trial, look.plot)) return look.plot;
        }
    }
    return std::nullopt;
}

/// The same portions, each so many times as large.
TrialPortions scaled(TrialPortions portions, double share) {
    for (std::size_t i = 0; i < portions.laid.size(); ++i) {
        portions.fresh[i] = share * portions.fresh[i];
        portions.laid[i] = share * portions.laid[i];
    }
    return portions;
}

/// "one more portion", "three more portions".
std::string more_text(std::size_t count, const std::string& what) {
    constexpr std::string_view words[] = {"", "one", "two", "three", "four", "five"};
    return (count < std::size(words) ? std::string(words[count]) : std::to_string(count)) +
           " more " + what + (count == 1 ? "" : "s");
}

class Planner {
public:
    Planner(const FeedFile& file, UnitSystem units, const TrialProgress& progress,
            std::size_t draws)
        : file_(file), units_(units), progress_(progress), draws_(draws) {}

    Result<TrialPlan> plan() {
        plan_.trial = *file_.trial;
        Trial& trial = plan_.trial;
        plan_.seed_from_file = trial.seed.has_value();
        plan_.assumed = file_.assumed;
        if (Errors wrong = design_errors(trial.design); !wrong.empty()) return wrong;
        bins_ = described_bins(file_, trial, units_);
        if (auto error = size_portions()) return *error;
        for (std::size_t i = 0; i < trial.feeds.size(); ++i)
            plan_.measures.push_back(portion_text(plan_.portions.fresh[i], *trial.feeds[i].fresh));
        expect();
        set_days();
        choose_portions();
        plan_.layout = *draw_layout(trial.design, trial.seed.value_or(proposed_seed(trial)));
        trial.seed = plan_.layout.seed;
        note_room();
        plan_.smallest = smallest_luck(plan_.layout);
        plan_.power = power_table(
            plan_.layout, setting(plan_.look_days), [&](std::size_t done) { tell(done); }, draws_);
        weigh_changes();
        return std::move(plan_);
    }

private:
    void tell(std::size_t done) const {
        if (progress_) progress_(done, 12);
    }

    /// What is made equal first: the volume with the weight beside it, else the weight.
    std::string portion_text(WetMass fresh, const Feedstock& feed) const {
        const std::string weight = mass_text(fresh.mass(), units_);
        const std::string measure = measure_text(fresh, feed, std::nullopt, units_);
        // A portion of a trial is as small as it was planned: no pinch.
        if (plan_.portions.rule == PortionRule::volume && measure != weight)
            return measure + ", about " + weight;
        return measure == weight ? weight : weight + " (" + measure + ")";
    }

    std::optional<Error> size_portions() {
        const Trial& trial = plan_.trial;
        const auto whole = portions_of(
            trial, trial.portion ? trial.portion->in_kilograms() : usual_portion_wet_kg);
        if (!whole) return whole.errors().front();
        plan_.portions = *whole;
        plan_.notes = whole->differs;
        if (bins_.empty()) {
            say_first("No bed is described and judged: add bed:, or lay little.");
            return std::nullopt;
        }
        plan_.wait = why_wait(bins_);
        if (!plan_.wait.empty()) return std::nullopt;
        for (const double share : tried_shares) {
            if (!too_much(scaled(*whole, share), trial.design.portions).empty()) continue;
            if (trial.feeds.front().written && share < 1.0)
                return too_large("about " + significant(100.0 * share, 2) +
                                     " % of the amounts written at the feeds",
                                 "the bed does not bear these portions", *whole);
            plan_.asked_share = share;
            if (share < 1.0) plan_.why_smaller = too_much(*whole, trial.design.portions);
            plan_.portions = scaled(*whole, share);
            return std::nullopt;
        }
        return too_large("portions that the bed bears, or fewer of them",
                         "the bed does not bear these portions, nor an eighth of them", *whole);
    }

    std::string too_much(const TrialPortions& portions, std::size_t of_each) const {
        return what_is_too_much(bins_, plan_.trial, portions, of_each);
    }

    Error too_large(std::string allowed, const std::string& message,
                    const TrialPortions& portions) const {
        return trial_error(
            file_, ErrorCode::out_of_range, plan_.trial.portion ? "portion" : "feeds",
            std::move(allowed), message + ": " + too_much(portions, plan_.trial.design.portions),
            plan_.trial.portion ? mass_text(plan_.trial.portion->mass(), units_) : "");
    }

    /// Days until each feed is gone, from the forecast of each bed with one portion of it.
    void expect() {
        auto bins = bins_;
        if (bins.empty())
            bins.push_back({"the bin", ration_input_of(file_.diary, day_zero(file_))});
        for (std::size_t i = 0; i < plan_.trial.feeds.size(); ++i)
            plan_.expected_days.push_back(
                slowest_gone_days(bins, {plan_.trial.feeds[i].feedstock, plan_.portions.laid[i]}));
    }

    void set_days() {
        Trial& trial = plan_.trial;
        if (!trial.last_day) trial.last_day = usual_last_day(trial.question, plan_.expected_days);
        const auto days = [&](std::size_t granted) {
            return look_days_of(trial.question, plan_.expected_days, *trial.last_day, granted);
        };
        all_days_ = days(365);
        plan_.look_days = days(trial.looks.value_or(365));
    }

    /// Whether so many portions of each feed lie apart in every bin, are borne whole, and are few
    /// enough to look at; the reason where not.
    std::string no_room_for(std::size_t of_each) const {
        TrialDesign more = plan_.trial.design;
        more.portions = of_each;
        if (bins_.empty()) return "no bed is described, so nobody knows whether there is room";
        const std::size_t in_bin = plots_of(more) / more.bins / more.rounds;
        const std::size_t places = places_in(bins_, plan_.trial, plan_.portions);
        if (in_bin > places)
            return "a bin has room for about " + counted(places, "such portion") + " apart";
        if (const std::string words = too_much(plan_.portions, of_each); !words.empty())
            return "more is too much for " + words;
        if (plots_of(more) / more.rounds > most_chosen_plots)
            return "more than " + std::to_string(most_chosen_plots) +
                   " plots take too long to look at in one go";
        return "";
    }

    /// Two portions of each feed in a bin where there is room, three where two would not show a
    /// twofold difference; as the file says where it says, and 1 where its seed is drawn already.
    void choose_portions() {
        Trial& trial = plan_.trial;
        if (trial.portions_said || trial.seed || trial.design.kind == TrialKind::alone) return;
        trial.portions_said = plan_.portions_chosen = true;
        std::string full = no_room_for(2);
        if (full.empty()) {
            trial.design.portions = 2;
            const auto two = draw_layout(trial.design, proposed_seed(trial));
            const double shown = power_of(*two, setting(plan_.look_days), power_ratios.back(),
                                          power_spreads[1], draws_);
            if (shown >= told_share) {
                plan_.why_portions = "two show a 2-fold difference well enough";
                return;
            }
            full = no_room_for(most_chosen_portions);
            if (full.empty()) trial.design.portions = most_chosen_portions;
        }
        plan_.why_portions = full.empty() ? "every bin has room for them and bears them" : full;
    }

    /// Places that lie too near one another are said, not refused.
    void note_room() {
        if (bins_.empty()) return;
        const TrialDesign& design = plan_.trial.design;
        const std::size_t places = places_in(bins_, plan_.trial, plan_.portions);
        if (plots_of(design) / design.bins / design.rounds <= places) return;
        say_first(places == 0 ? "The smallest bin is too narrow for such a portion: lay less."
                              : "The smallest bin has room for about " +
                                    counted(places, "portion") + " well apart.");
    }

    /// A note that goes before what only blurs the answer: it can do harm, or spoils all.
    void say_first(std::string note) {
        plan_.notes.insert(plan_.notes.begin(), std::move(note));
        ++plan_.grave_notes;
    }

    PowerSetting setting(const std::vector<int>& look_days) const {
        PowerSetting setting;
        // Two days to be found: common practice (D).
        setting.median_days = 2.0;
        if (plan_.trial.question == TrialQuestion::gone)
            setting.median_days =
                *std::min_element(plan_.expected_days.begin(), plan_.expected_days.end());
        setting.look_days.assign(look_days.begin(), look_days.end());
        return setting;
    }

    /// @param price  how much more power it must bring than a cheaper change that helps.
    void weigh(std::string text, const TrialDesign& design, const std::vector<int>& look_days,
               double price) {
        const auto layout = draw_layout(design, plan_.layout.seed);
        if (!layout) return;
        const double power = power_of(*layout, setting(look_days), 1.5, power_spreads[1], draws_);
        const double least = plan_.helps_most ? plan_.changes[*plan_.helps_most].power + price
                                              : plan_.power[1][1] + worth_saying;
        if (power >= least) plan_.helps_most = plan_.changes.size();
        plan_.changes.push_back({std::move(text), power});
    }

    /// So many more of `count`, at least, that a trial wholly apart can be called clear; where it
    /// can already, `least` more. 0 where there are not so many.
    std::size_t more_needed(std::size_t TrialDesign::*count, std::size_t least,
                            std::size_t most) const {
        TrialDesign design = plan_.trial.design;
        const std::size_t now = design.*count;
        for (std::size_t more = least; now + more <= most; ++more) {
            design.*count = now + more;
            const auto layout = draw_layout(design, plan_.layout.seed);
            if (layout && smallest_luck(*layout).overall <= clear_chance) return more;
        }
        return 0;
    }

    void weigh_more_portions() {
        TrialDesign more = plan_.trial.design;
        if (more.kind == TrialKind::alone) return;
        const std::size_t count = more_needed(&TrialDesign::portions, 1, most_trial_portions);
        more.portions += count;
        if (count == 0 || (!bins_.empty() && !no_room_for(more.portions).empty())) return;
        weigh(more_text(count, "portion") + " of each feed in every bin", more, plan_.look_days,
              worth_saying * static_cast<double>(count));
    }

    void weigh_more_bins() {
        TrialDesign more = plan_.trial.design;
        const std::size_t least = more.kind == TrialKind::alone ? 2 : 1;
        const std::size_t count = more_needed(&TrialDesign::bins, least, most_trial_bins);
        if (count == 0) return;
        more.bins += count;
        weigh(more_text(count, "bin"), more, plan_.look_days,
              worth_a_bin * static_cast<double>(count));
    }

    /// Cheapest first; a dearer change must be worth more than a cheaper one by its price.
    void weigh_changes() {
        const TrialDesign& design = plan_.trial.design;
        if (plan_.look_days.size() < all_days_.size())
            weigh(std::to_string(all_days_.size()) + " looks instead of " +
                      std::to_string(plan_.look_days.size()),
                  design, all_days_, worth_saying);
        std::vector<int> daily;
        for (int day = 1; day <= *plan_.trial.last_day; ++day)
            daily.push_back(day);
        if (all_days_.size() < daily.size()) weigh("a look every day", design, daily, worth_saying);
        tell(10);
        weigh_more_portions();
        tell(11);
        weigh_more_bins();
        tell(12);
    }

    const FeedFile& file_;
    UnitSystem units_;
    const TrialProgress& progress_;
    std::size_t draws_;
    TrialPlan plan_;
    std::vector<TrialBin> bins_;
    std::vector<int> all_days_;  ///< on which to look if the keeper granted every look
};

}  // namespace

Result<TrialPlan> trial_plan_of(const FeedFile& file, UnitSystem units,
                                const TrialProgress& progress, std::size_t draws) {
    if (!file.trial)
        return missing_section(file, "trial", "{feeds: [watermelon rind, pumpkin], bins: 3}");
    return Planner(file, units, progress, draws).plan();
}

Result<TrialReading> trial_reading_of(const FeedFile& file) {
    if (!file.trial)
        return missing_section(file, "trial", "{feeds: [watermelon rind, pumpkin], bins: 3}");
    const Trial& trial = *file.trial;
    Errors errors;
    const auto missing = [&](std::string_view key, std::string_view example, std::string_view why) {
        errors.push_back(trial_error(file, ErrorCode::missing_value, std::string(key),
                                     std::string(key) + ": " + std::string(example),
                                     std::string(why)));
    };
    if (!trial.seed)
        missing("seed", "the number that feed trial plan prints",
                "the places were drawn from a seed; without it nobody knows what lies where");
    if (!trial.last_day)
        missing("last_day", "the day that feed trial plan prints",
                "the end of a trial is fixed before it starts");
    if (trial.starts.empty()) {
        missing("start", "2026-03-14", "the day on which the portions were laid");
    } else if (const auto plot = unlaid_plot(trial, file.diary)) {
        missing("start", "[2026-03-14, 2026-04-11], a day for each round",
                "plot " + std::to_string(*plot) +
                    " was looked at, but nobody wrote when its round "
                    "was laid");
    }
    if (!errors.empty()) return errors;
    const auto layout = draw_layout(trial.design, *trial.seed);
    if (!layout) return layout.errors();
    const auto portions =
        portions_of(trial, trial.portion ? trial.portion->in_kilograms() : usual_portion_wet_kg);
    if (!portions) return portions.errors();
    return read_trial(trial, *layout, *portions, file.diary.observations);
}

}  // namespace feed::io
