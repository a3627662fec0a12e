#pragma once
// A bin's own rates as a forecast takes them: a face of the course that its looks taught
// (OwnCourse), which is the one learner.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "feed/diary/course_evidence.hpp"
#include "feed/diary/diary.hpp"
#include "feed/diary/own_course.hpp"
#include "feed/forecast/parameters.hpp"
#include "feed/forecast/ranges.hpp"

namespace feed {

/// One rate before and after the looks, with the interval that holds 90 %.
struct RateChange {
    ForecastParameter parameter = ForecastParameter::labile_rate_per_day;
    double before_per_day = 0.0;
    double before_low_per_day = 0.0;
    double before_high_per_day = 0.0;
    double after_per_day = 0.0;
    double after_low_per_day = 0.0;
    double after_high_per_day = 0.0;
    bool outside_published = false;  ///< the whole new interval lies outside the published range
};

/// A look that does not fit, and why.
struct Misfit {
    enum class Kind : std::uint8_t {
        outlier,        ///< far from what all other looks say; it hardly counts
        contradiction,  ///< more left than at an earlier look at the same feeding
    };
    Kind kind = Kind::outlier;
    std::size_t observation = 0;  ///< index into the observations of the diary
    std::size_t rival = 0;        ///< the earlier look of a contradiction
    std::string text;             ///< one sentence
};

/// The bin's own rates.
struct Calibration {
    std::array<RateChange, 3> rates;  ///< labile, cellulosic, lignin-like
    std::size_t used = 0;             ///< looks
    std::vector<Misfit> misfits;
    std::vector<Slip> unused;  ///< looks at leftovers that no feeding explains
};

/// Below this chance a look is said to be an outlier: of a thousand bins that are as all other
/// looks say, fewer than one would show so much, or so little.
inline constexpr double outlier_chance = 0.0005;
/// With fewer looks than this nobody can say which of them is the odd one.
inline constexpr std::size_t least_looks_for_outlier = 4;
/// Older looks than the last so many are not asked whether they are odd.
inline constexpr std::size_t most_looks_doubted = 60;

/// The rates of a bin whose course is known, within what is published for the slow pools, which go
/// on as the labile one does.
inline ParameterRanges own_ranges(const OwnCourse& course) {
    ParameterRanges ranges = published_ranges();
    if (course.looks() == 0) return ranges;
    constexpr auto labile = ForecastParameter::labile_rate_per_day;
    const Ranged rate = course.rate_per_day();
    ranges.value[labile] = rate.value;
    ranges.low[labile] = rate.low;
    ranges.high[labile] = rate.high;
    for (const auto slow : {ForecastParameter::cellulosic_rate_per_day,
                            ForecastParameter::lignin_like_rate_per_day}) {
        const ParameterKind& published = kind(slow);
        ranges.value[slow] = std::clamp(published.value * rate.value / kind(labile).value,
                                        published.low, published.high);
    }
    return ranges;
}

namespace detail {

inline std::string the_look_of(const Diary& diary, std::size_t observation) {
    return "look of " + text(diary.observations[observation].date);
}

/// Looks that lie far from what the others say of that day.
inline void add_outliers(const Diary& diary, const CourseEvidence& evidence,
                         const OwnCourse& course, std::vector<Misfit>& misfits) {
    const std::size_t count = evidence.looks.size();
    if (count < least_looks_for_outlier) return;
    for (std::size_t i = count > most_looks_doubted ? count - most_looks_doubted : 0; i < count;
         ++i) {
        const auto [so_little, so_much] = course.chance_of(evidence.looks[i]);
        if (std::min(so_little, so_much) >= outlier_chance) continue;
        const std::size_t at = evidence.observation[i];
        misfits.push_back({Misfit::Kind::outlier, at, at,
                           "The " + the_look_of(diary, at) + " says far " +
                               (so_much < so_little ? "more" : "less") +
                               " is left than every other look: it hardly counts."});
    }
}

/// The share left that a look stands for, and the usual error of judging it.
struct JudgedShare {
    double share = 0.0;
    double error = 0.0;
};
inline JudgedShare judged_share(const CourseLook& look) noexcept {
    const double error =
        usual_error_of_share(look.weighed ? LeftoverMethod::weighed : LeftoverMethod::by_eye);
    if (look.high > 1.0) return {std::max(0.0, look.low), error};
    return {0.5 * (std::max(0.0, look.low) + look.high), error};
}

/// One contradiction at most for each look: against the earlier look at the same feeding that found
/// least.
inline void add_contradictions(const Diary& diary, const CourseEvidence& evidence,
                               std::vector<Misfit>& misfits) {
    const auto& looks = evidence.looks;
    std::vector<std::size_t> order(looks.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return std::pair(looks[a].feeding, looks[a].days) <
               std::pair(looks[b].feeding, looks[b].days);
    });
    std::size_t least = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
        if (i == 0 || looks[order[i - 1]].feeding != looks[order[i]].feeding) {
            least = order[i];
            continue;
        }
        const JudgedShare before = judged_share(looks[least]);
        const JudgedShare after = judged_share(looks[order[i]]);
        if (after.share - before.share > 2.0 * std::hypot(before.error, after.error)) {
            const std::size_t at = evidence.observation[order[i]];
            const std::size_t rival = evidence.observation[least];
            misfits.push_back({Misfit::Kind::contradiction, at, rival,
                               "The " + the_look_of(diary, at) + " says more is left than the " +
                                   the_look_of(diary, rival) +
                                   " did earlier: one of the two is a slip, or food was added."});
        } else if (after.share < before.share) {
            least = order[i];
        }
    }
}

}  // namespace detail

/// The bin's own rates from all looks of its diary: those of `bed_today`, before and after, and the
/// looks that do not fit. Without looks the published ranges come back. Threads: pure. Time: as
/// OwnCourse, and its points once more for each of the last looks.
inline Calibration calibrate(
    const Diary& diary, decay::TemperatureResponse response = decay::TemperatureResponse::haug) {
    Calibration result;
    ParameterRanges own = published_ranges();
    if (const auto span = span_of(diary)) {
        CourseEvidence evidence =
            course_evidence_of(diary, span->last, detail::EffectiveTime(diary, *span, response));
        const OwnCourse course(evidence.feedings, evidence.looks);
        own = own_ranges(course);
        result.used = evidence.looks.size();
        detail::add_outliers(diary, evidence, course, result.misfits);
        detail::add_contradictions(diary, evidence, result.misfits);
        result.unused = std::move(evidence.unused);
    }
    constexpr std::array<ForecastParameter, 3> rates{ForecastParameter::labile_rate_per_day,
                                                     ForecastParameter::cellulosic_rate_per_day,
                                                     ForecastParameter::lignin_like_rate_per_day};
    for (std::size_t pool = 0; pool < rates.size(); ++pool) {
        const ParameterKind& published = kind(rates[pool]);
        RateChange& change = result.rates[pool];
        change.parameter = rates[pool];
        change.before_per_day = published.value;
        change.before_low_per_day = published.low;
        change.before_high_per_day = published.high;
        change.after_per_day = own.value[rates[pool]];
        change.after_low_per_day = own.low[rates[pool]];
        change.after_high_per_day = own.high[rates[pool]];
        change.outside_published =
            change.after_high_per_day < published.low || change.after_low_per_day > published.high;
    }
    return result;
}

/// The ranges of a forecast with the rates of a calibrated bin.
inline ParameterRanges calibrated(ParameterRanges ranges, const Calibration& calibration) {
    for (const RateChange& change : calibration.rates) {
        ranges.value[change.parameter] = change.after_per_day;
        ranges.low[change.parameter] = change.after_low_per_day;
        ranges.high[change.parameter] = change.after_high_per_day;
    }
    return ranges;
}

}  // namespace feed
