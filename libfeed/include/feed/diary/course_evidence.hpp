#pragma once
// From the looks of a diary to what the course of its food is learned from.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "feed/diary/diary.hpp"
#include "feed/diary/evidence.hpp"
#include "feed/diary/own_course.hpp"

namespace feed {

/// What a diary says of the course of its food up to a day. Feedings keep their index in the diary;
/// one without scraps has no pools and no looks.
struct CourseEvidence {
    std::vector<CourseFeeding> feedings;
    std::vector<CourseLook> looks;
    std::vector<std::size_t> observation;  ///< for each look the index of its observation
    std::vector<Slip> unused;              ///< looks at leftovers that no feeding explains
};

namespace detail {

/// The interval of shares left that a look stands for; nothing where it does not speak of them.
struct SeenShare {
    double low = -1.0;
    double high = 2.0;
    bool weighed = false;
};
inline std::optional<SeenShare> seen_share(const Observation& look, WetMass scraps) noexcept {
    constexpr double tenth = 0.05;
    if (look.left && scraps.in_kilograms() > 0.0) {
        const double share = look.left->in_kilograms() / scraps.in_kilograms();
        if (share > 1.2) return std::nullopt;
        return SeenShare{share < 0.02 ? -1.0 : share - 0.02, share > 0.98 ? 2.0 : share + 0.02,
                         true};
    }
    if (look.share_gone) {
        const double share = 1.0 - *look.share_gone;
        return SeenShare{share < tenth ? -1.0 : share - tenth,
                         share > 1.0 - tenth ? 2.0 : share + tenth, false};
    }
    if (look.gone == FoodGone::yes) return SeenShare{-1.0, gone_share, false};
    if (look.gone == FoodGone::no) return SeenShare{gone_share, 2.0, false};
    return std::nullopt;
}

inline double mean_log_preparation(const DatedFeeding& feeding) noexcept {
    double sum = 0.0;
    double wet_kg = 0.0;
    for (const Portion& portion : feeding.portions) {
        if (part_of(*portion.feedstock) != Part::scraps) continue;
        const double kg = portion.wet_mass.in_kilograms();
        sum += kg * std::log(portion.feedstock->decay_rate_factor.value);
        wet_kg += kg;
    }
    return wet_kg > 0.0 ? sum / wet_kg : 0.0;
}

}  // namespace detail

namespace detail {

/// Why a look says nothing of the feeding it is ascribed to; nothing where it does.
inline std::optional<std::string> why_unused(const Diary& diary, const Observation& look,
                                             const std::optional<std::size_t>& feeding) {
    const std::string day = text(look.date);
    if (!feeding)
        return "The look of " + day + " speaks of leftovers, but " +
               (look.of_feeding ? "there is no feeding of " + text(*look.of_feeding)
                                : std::string("there is no feeding before it")) +
               ".";
    const DatedFeeding& fed = diary.feedings[*feeding];
    const double scraps_kg = scraps_of(fed.portions).in_kilograms();
    const std::int64_t days = day_number(look.date) - day_number(fed.date);
    if (!(scraps_kg > 0.0) || days <= 0 || days > longest_watch_days)
        return "The look of " + day + " says nothing of the feeding of " + text(fed.date) +
               (scraps_kg > 0.0 ? ": the time between does not fit." : ": it had no scraps.");
    if (look.left && !seen_share(look, wet_kilograms(scraps_kg)))
        return "On " + day + " more was weighed than was fed on " + text(fed.date) +
               ": bed matter, or a slip.";
    return std::nullopt;
}

}  // namespace detail

/// The looks at leftovers up to and on a day. Time: n log n plus the days the diary spans.
/// @param time  of the diary, reaching at least to `day`.
inline CourseEvidence course_evidence_of(const Diary& diary, std::int64_t day,
                                         const detail::EffectiveTime& time) {
    CourseEvidence found;
    for (const DatedFeeding& feeding : diary.feedings)
        found.feedings.push_back({detail::scraps_pools(feeding).value_or(std::array<double, 3>{}),
                                  detail::mean_log_preparation(feeding)});
    const std::vector<std::size_t> by_day = detail::feedings_by_day(diary);
    for (std::size_t i = 0; i < diary.observations.size(); ++i) {
        const Observation& look = diary.observations[i];
        const std::int64_t seen_on = day_number(look.date);
        if (seen_on > day) continue;
        if (!look.left && !look.share_gone && look.gone == FoodGone::unsaid) continue;
        const auto feeding = detail::feeding_of(diary, by_day, look);
        if (auto why = detail::why_unused(diary, look, feeding)) {
            found.unused.push_back({false, i, *std::move(why)});
            continue;
        }
        const DatedFeeding& fed = diary.feedings[*feeding];
        const std::int64_t from = day_number(fed.date);
        const auto seen = detail::seen_share(look, scraps_of(fed.portions));
        if (!seen) continue;
        const double effective = time.between(from, seen_on);
        if (!(effective > 0.0)) continue;
        found.looks.push_back({*feeding, static_cast<double>(seen_on - from), effective, seen->low,
                               seen->high, seen->weighed});
        found.observation.push_back(i);
    }
    return found;
}

}  // namespace feed
