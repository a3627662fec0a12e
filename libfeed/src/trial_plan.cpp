#include <algorithm>
#include <string>
#include <utility>

#include "feed/forecast/forecast.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/measure_text.hpp"
#include "feed/io/trial_answer.hpp"
#include "feed/ration/check.hpp"
#include "feed/ration/from_diary.hpp"
#include "feed/trial/look_days.hpp"
#include "plot_notes.hpp"

namespace feed::io {
namespace {

/// Longest time that a feed of a trial is expected to take, days.
constexpr std::size_t longest_expected_days = 120;
/// Shares of a portion that are tried where the bed does not bear it whole.
constexpr double tried_shares[] = {1.0, 0.75, 0.5, 0.375, 0.25, 0.1875, 0.125};

Error trial_error(const FeedFile& file, ErrorCode code, std::string field, std::string allowed,
                  std::string message) {
    return make_error(code, "trial: " + std::move(field), "", std::move(allowed),
                      std::move(message), file.name);
}

/// A seed from what the file says of the trial (FNV-1a, 32 bits of it), five figures.
std::uint64_t own_seed(const Trial& trial) {
    std::uint64_t hash = 0xCBF29CE484222325ULL;
    const auto add = [&](std::string_view text) {
        for (const char c : text)
            hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001B3ULL;
        hash = (hash ^ 0xFFU) * 0x100000001B3ULL;
    };
    for (const auto& feed : trial.feeds)
        add(feed.label);
    for (const auto& bin : trial.bins)
        add(bin);
    for (const Date& start : trial.starts)
        add(text(start));
    add(text(trial.design.kind));
    add(std::to_string(trial.design.portions));
    return 10000 + (hash >> 20U) % 90000;
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

/// What one bin gets at a time: all feeds of a choice at once, or each alone.
std::vector<std::vector<Portion>> feedings_of_bin(const Trial& trial,
                                                  const TrialPortions& portions) {
    std::vector<std::vector<Portion>> feedings(1);
    for (std::size_t i = 0; i < trial.feeds.size(); ++i) {
        if (i > 0 && trial.design.kind == TrialKind::alone) feedings.emplace_back();
        feedings.back().push_back({trial.feeds[i].feedstock,
                                   static_cast<double>(trial.design.portions) * portions.laid[i]});
    }
    return feedings;
}

/// The hazards at the level "act" but those of an empty or dry bed, which no small portion makes.
std::vector<std::string> acute(const CheckResult& result) {
    std::vector<std::string> words;
    for (const HazardFinding& finding : result.hazards) {
        if (finding.level == Level::act && finding.hazard != Hazard::underfed)
            words.emplace_back(text(finding.hazard));
    }
    for (const CautionFinding& caution : result.cautions) {
        if (caution.level == Level::act) words.push_back(caution.text);
    }
    return words;
}

class Planner {
public:
    Planner(const FeedFile& file, UnitSystem units, const TrialProgress& progress)
        : file_(file), units_(units), progress_(progress) {}

    Result<TrialPlan> plan() {
        plan_.trial = *file_.trial;
        Trial& trial = plan_.trial;
        plan_.seed_from_file = trial.seed.has_value();
        if (!trial.seed) trial.seed = own_seed(trial);
        auto layout = draw_layout(trial.design, *trial.seed);
        if (!layout) return layout.errors();
        plan_.layout = std::move(*layout);
        plan_.assumed = file_.assumed;
        // The bin as every verb sees it that day, without what this trial itself laid.
        Diary diary = file_.diary;
        std::erase_if(diary.feedings,
                      [](const DatedFeeding& feeding) { return feeding.note == "trial"; });
        bin_ = ration_input_of(
            diary, trial.starts.empty() ? day_zero(file_) : std::optional(trial.starts.front()),
            units_);
        if (auto error = size_portions()) return *error;
        for (std::size_t i = 0; i < trial.feeds.size(); ++i)
            plan_.measures.push_back(portion_text(plan_.portions.fresh[i], *trial.feeds[i].fresh));
        expect();
        const std::size_t granted = trial.looks.value_or(365);
        if (!trial.last_day) trial.last_day = usual_last_day(trial.question, plan_.expected_days);
        plan_.look_days =
            look_days_of(trial.question, plan_.expected_days, *trial.last_day, granted);
        plan_.smallest = smallest_luck(plan_.layout);
        plan_.power = power_table(plan_.layout, setting(plan_.look_days),
                                  [&](std::size_t done) { tell(done); });
        weigh_changes();
        return std::move(plan_);
    }

private:
    void tell(std::size_t done) const {
        if (progress_) progress_(done, 12);
    }

    /// What is made equal first: the volume with the weight beside it, else the weight.
    std::string portion_text(WetMass fresh, const Feedstock& feed) const {
        if (plan_.portions.rule == PortionRule::volume)
            return measure_and_weight_text(fresh, feed, std::nullopt, units_);
        const std::string weight = mass_text(fresh.mass(), units_);
        const std::string measure = measure_text(fresh, feed, std::nullopt, units_);
        return measure == weight ? weight : weight + " (" + measure + ")";
    }

    std::optional<Error> size_portions() {
        const Trial& trial = plan_.trial;
        const double asked = trial.portion ? trial.portion->in_kilograms() : usual_portion_wet_kg;
        auto whole = portions_of(trial, asked);
        if (!whole) return whole.errors().front();
        plan_.portions = std::move(*whole);
        plan_.notes = plan_.portions.differs;
        if (!file_.has_bed) {
            plan_.notes.push_back(
                "The file describes no bed, so nobody has judged whether the bins bear this: add "
                "bed: to the file, or lay less than a usual feeding in all.");
            return std::nullopt;
        }
        const RationAnswer answer = ration(bin_).answer;
        if (answer == RationAnswer::act_first || answer == RationAnswer::wait) {
            plan_.wait = answer == RationAnswer::wait
                             ? "Wait with the trial: the bin is not ready for food. Lay it when "
                               "feed ration says feed."
                             : "Wait with the trial: the bin needs help first. Do what feed "
                               "ration says. The plan is for later.";
            return std::nullopt;
        }
        for (const double share : tried_shares) {
            auto tried = portions_of(trial, share * asked);
            if (trial.feeds.front().written && share < 1.0) break;
            if (!acute_with(*tried).empty()) continue;
            plan_.asked_share = share;
            plan_.portions = std::move(*tried);
            return std::nullopt;
        }
        const auto why = acute_with(plan_.portions);
        return trial_error(
            file_, ErrorCode::out_of_range, trial.portion ? "portion" : "feeds",
            "portions that the bed bears, or fewer of them",
            "the bed does not bear these portions, nor an eighth of them: " + why.front());
    }

    /// What a bin cannot bear of these portions.
    std::vector<std::string> acute_with(const TrialPortions& portions) const {
        for (const auto& feeding : feedings_of_bin(plan_.trial, portions)) {
            auto words = acute(check(bin_, feeding));
            if (!words.empty()) return words;
        }
        return {};
    }

    /// Days until each feed is gone, from the forecast of the bed with one portion of it.
    void expect() {
        for (std::size_t i = 0; i < plan_.trial.feeds.size(); ++i) {
            const std::vector<Feeding> feedings{
                {days(0.0), {{plan_.trial.feeds[i].feedstock, plan_.portions.laid[i]}}}};
            ForecastOptions options;
            options.days = longest_expected_days;
            options.units = units_;
            options.ranges = bin_.ranges;
            Bed alone = bin_.bed;
            alone.earlier.clear();
            const Forecast ahead = forecast(alone, feedings, options);
            double gone = longest_expected_days;
            for (const ForecastPortion& portion : ahead.portions) {
                if (portion.day != 0) continue;
                for (std::size_t day = 1; day <= ahead.days; ++day) {
                    if (ahead.share_left(portion, day) > plot_gone_share) continue;
                    gone = static_cast<double>(day);
                    break;
                }
            }
            plan_.expected_days.push_back(gone);
        }
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

    void weigh(std::string text, const TrialDesign& design, const std::vector<int>& look_days) {
        const auto layout = draw_layout(design, plan_.layout.seed);
        if (!layout) return;
        plan_.changes.push_back(
            {std::move(text),
             power_of(*layout, setting(look_days), 1.5, power_spreads[1], power_trials(*layout))});
    }

    /// So many bins, at least, that a trial wholly apart can be called clear.
    std::size_t enough_bins(TrialDesign design, std::size_t least) const {
        for (design.bins = least; design.bins < most_trial_bins; ++design.bins) {
            const auto layout = draw_layout(design, plan_.layout.seed);
            if (layout && smallest_luck(*layout).overall <= clear_chance) break;
        }
        return std::min(design.bins, most_trial_bins);
    }

    static std::string more_bins_text(std::size_t count) {
        if (count == 1) return "one more bin";
        return (count == 2 ? std::string("two") : std::to_string(count)) + " more bins";
    }

    void weigh_changes() {
        const TrialDesign& design = plan_.trial.design;
        std::vector<int> daily;
        for (int day = 1; day <= *plan_.trial.last_day; ++day)
            daily.push_back(day);
        if (plan_.look_days.size() < daily.size()) weigh("a look every day", design, daily);
        tell(10);
        TrialDesign more = design;
        if (design.kind == TrialKind::choice) {
            ++more.portions;
            weigh("one more portion of each feed in every bin", more, plan_.look_days);
        }
        tell(11);
        more = design;
        more.bins += design.kind == TrialKind::alone ? 2 : 1;
        if (plan_.smallest.overall > clear_chance) more.bins = enough_bins(design, more.bins);
        if (more.bins > design.bins)
            weigh(more_bins_text(more.bins - design.bins), more, plan_.look_days);
        tell(12);
        // A dearer change must be worth three trials in a hundred more than a cheaper one.
        double best = plan_.power[1][1] + 0.03;
        for (std::size_t i = 0; i < plan_.changes.size(); ++i) {
            if (plan_.changes[i].power < best) continue;
            plan_.helps_most = i;
            best = plan_.changes[i].power + 0.03;
        }
    }

    const FeedFile& file_;
    UnitSystem units_;
    const TrialProgress& progress_;
    TrialPlan plan_;
    RationInput bin_;
};

}  // namespace

Result<TrialPlan> trial_plan_of(const FeedFile& file, UnitSystem units,
                                const TrialProgress& progress) {
    if (!file.trial)
        return missing_section(file, "trial", "{feeds: [watermelon rind, pumpkin], bins: 3}");
    return Planner(file, units, progress).plan();
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
    std::string words =
        "Trial, day " + std::to_string(since) + " of " + std::to_string(*trial.last_day) +
        (trial.design.rounds > 1 ? ", round " + std::to_string(round + 1) : "") + ": " +
        std::to_string(come) + " of " + std::to_string(of) +
        (of == 1 ? " portion is " : " portions are ") + std::string(text(trial.question)) + ".";
    const bool last_round = round + 1 == trial.design.rounds;
    if (last_round && (since >= *trial.last_day || come == of))
        words += " It is over: feed trial read says what it shows.";
    else
        words += " Feed away from its places, and all bins alike.";
    return words;
}

}  // namespace feed::io
