#pragma once
// Two or more feeds side by side: which is gone sooner, and can one tell?
#include <algorithm>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "feed/diary/diary.hpp"
#include "feed/diary/evidence.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/trial/survival.hpp"

namespace feed {

/// A feed of a trial and how long each of its portions was watched.
struct TrialArm {
    std::string label;
    std::vector<TimeToGone> times;
};

/// The result of a trial.
struct TrialComparison {
    std::vector<std::vector<SurvivalStep>> curves;   ///< for each arm
    std::vector<std::optional<double>> median_days;  ///< for each arm
    LogRank test;
    std::string text;  ///< what it says, and what it cannot say
};

/// A difference is called clear below this chance of seeing it by luck (common practice).
inline constexpr double clear_difference = 0.05;
/// With fewer feedings gone than this in all, even a large difference may be luck (D).
inline constexpr double least_gone_in_all = 6.0;

/// Compares the arms of a trial. Errors: fewer than two arms, an arm without a portion, a time that
/// is negative or not finite. Source: see `kaplan_meier` and `log_rank`.
inline Result<TrialComparison> compare_arms(std::span<const TrialArm> arms) {
    Errors errors;
    if (arms.size() < 2) {
        Error error;
        error.code = ErrorCode::empty;
        error.field = "trial";
        error.allowed = "two or more feeds";
        error.message = "A comparison needs at least two feeds.";
        errors.push_back(error);
    }
    for (const TrialArm& arm : arms) {
        const bool bad = std::any_of(
            arm.times.begin(), arm.times.end(),
            [](const TimeToGone& time) { return !(time.days >= 0.0 && time.days < 1e6); });
        if (!arm.times.empty() && !bad) continue;
        Error error;
        error.code = bad ? ErrorCode::out_of_range : ErrorCode::empty;
        error.field = "times of " + arm.label;
        error.allowed = bad ? "0 to a million days" : "at least one feeding";
        error.message = bad ? "A time to gone of " + arm.label + " is negative or no number."
                            : "No feeding of " + arm.label + " was watched.";
        errors.push_back(error);
    }
    if (!errors.empty()) return errors;

    TrialComparison result;
    std::vector<std::span<const TimeToGone>> groups;
    double gone = 0.0;
    for (const TrialArm& arm : arms) {
        result.curves.push_back(kaplan_meier(arm.times));
        result.median_days.push_back(median_days(result.curves.back()));
        groups.push_back(arm.times);
    }
    result.test = log_rank(groups);
    for (const double one : result.test.observed)
        gone += one;
    for (std::size_t i = 0; i < arms.size(); ++i) {
        const auto& median = result.median_days[i];
        result.text += (i > 0 ? "; " : "") + arms[i].label +
                       (median ? ": half of the feedings gone by day " + significant(*median, 2)
                               : ": less than half of the feedings seen gone");
    }
    result.text += ". ";
    if (result.test.degrees == 0) {
        result.text += "Nothing can be told yet: keep watching.";
    } else if (result.test.p_value >= clear_difference) {
        result.text += "A difference like this comes by luck about " +
                       significant(100.0 * result.test.p_value, 2) +
                       " times in 100: it cannot be told from luck yet.";
    } else if (gone < least_gone_in_all) {
        result.text += "The difference looks clear, but only " + significant(gone, 2) +
                       " feedings were seen gone: repeat it.";
    } else {
        result.text += "A difference like this would come by luck less than once in " +
                       significant(1.0 / result.test.p_value, 1) + " times.";
    }
    result.text +=
        " Feeds in one bin share its worms, and bins differ: swap sides or bins and "
        "keep a box without worms beside it.";
    return result;
}

/// How long each feeding of a diary that holds a feedstock was watched, for one arm of a trial:
/// gone on the first look that says so (gone, or at least 85 % gone by eye or scale), else still
/// there at the last look at its leftovers. Feedings without such a look are left out.
/// @param feedstock_id  exact id; the feeding may hold other scraps too.
inline TrialArm arm_of(const Diary& diary, std::string_view feedstock_id, std::string label) {
    TrialArm arm{std::move(label), {}};
    const std::vector<std::size_t> by_day = detail::feedings_by_day(diary);
    std::vector<std::optional<TimeToGone>> watched(diary.feedings.size());
    for (const Observation& look : diary.observations) {
        if (!look.left && !look.share_gone && look.gone == FoodGone::unsaid) continue;
        const auto feeding = detail::feeding_of(diary, by_day, look);
        if (!feeding) continue;
        const DatedFeeding& fed = diary.feedings[*feeding];
        const double scraps_kg = scraps_of(fed.portions).in_kilograms();
        const bool gone =
            look.gone == FoodGone::yes ||
            (look.share_gone && *look.share_gone >= 1.0 - gone_share) ||
            (look.left && scraps_kg > 0.0 && look.left->in_kilograms() <= gone_share * scraps_kg);
        const auto after = static_cast<double>(day_number(look.date) - day_number(fed.date));
        auto& time = watched[*feeding];
        if (!time)
            time = TimeToGone{after, gone};
        else if (gone)
            time = TimeToGone{time->gone ? std::min(time->days, after) : after, true};
        else if (!time->gone)
            time->days = std::max(time->days, after);
    }
    for (std::size_t i = 0; i < watched.size(); ++i) {
        if (!watched[i]) continue;
        const auto& portions = diary.feedings[i].portions;
        const bool holds = std::any_of(portions.begin(), portions.end(), [&](const Portion& one) {
            return one.feedstock->id == feedstock_id;
        });
        if (holds) arm.times.push_back(*watched[i]);
    }
    return arm;
}

}  // namespace feed
