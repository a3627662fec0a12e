#pragma once
#include <algorithm>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "feed/ration/decide.hpp"
#include "feed/ration/from_diary.hpp"
#include "feed/ration/week.hpp"

// On which days each bin is opened, by a stated rule: the first day on which its own ration feeds
// and there is something for it; then, evenly over the week, up to as many more as are asked for,
// the last of them not before what is expected has come. What turns out to be of no use is dropped.
namespace feed::detail {

/// One opening of a bin in the making: its ration's problem, with all things of the week.
struct OpeningWork {
    int day = 0;
    RationInput in;
    Ration asked;  ///< what the work was made with
    std::unique_ptr<RationWork> work;
    PlanProblem problem;
    double most_scraps_kg = solver::infinity;  ///< drawn in where the ration took less
};

/// The bed of a bin some days from now, with what is to be fed before.
inline RationInput bed_of_week(const WeekInput& in, const WeekBin& bin,
                               std::span<const WeekOpening> before, int day) {
    Diary diary = bin.diary;
    for (const WeekOpening& opening : before) {
        DatedFeeding feeding;
        feeding.date = date_of(day_number(in.today) + opening.day);
        feeding.portions = portions_of(opening.ration.put_in);
        if (!feeding.portions.empty()) diary.feedings.push_back(std::move(feeding));
    }
    return ration_input_of(diary, date_of(day_number(in.today) + day), in.units);
}

/// The beds of all bins, each learned once for a day on which nothing is fed before: learning from
/// the looks is most of what a week costs.
class BedsOfWeek {
public:
    explicit BedsOfWeek(const WeekInput& in) : in_(&in), unfed_(in.bins.size()) {}

    /// The bed of a bin some days from now, with what is to be fed before.
    RationInput on(std::size_t bin, std::span<const WeekOpening> before, int day) {
        if (!before.empty()) return bed_of_week(*in_, in_->bins[bin], before, day);
        std::map<int, RationInput>& known = unfed_[bin];
        const auto found = known.find(day);
        if (found != known.end()) return found->second;
        return known.emplace(day, bed_of_week(*in_, in_->bins[bin], {}, day)).first->second;
    }

private:
    const WeekInput* in_;
    std::vector<std::map<int, RationInput>> unfed_;  ///< of each bin, by day
};

/// The problem of a ration on a day with all things of the week; nothing where that ration says
/// act first or wait.
inline std::unique_ptr<OpeningWork> opening_on(const WeekInput& in, BedsOfWeek& beds,
                                               std::size_t bin, int day) {
    auto opening = std::make_unique<OpeningWork>();
    opening->day = day;
    opening->in = beds.on(bin, {}, day);
    for (const WeekThing& one : in.things)
        opening->in.things.push_back(one.thing);
    opening->work = std::make_unique<RationWork>(work_of(opening->in, opening->asked));
    opening->work->place.bed = &opening->work->numbers;  // it may have moved
    Ration idle;
    if (act_first(*opening->work, idle) || must_wait(*opening->work, idle)) return nullptr;
    opening->problem = plan_problem(*opening->work, opening->asked);
    return opening;
}

inline bool is_usable(const WeekThing& one, int day) noexcept {
    return one.from <= day && day <= one.until;
}

inline bool is_food(const WeekThing& one) {
    const Feedstock& f = *one.thing.feedstock;
    return part_of(f) == Part::scraps && !barred_in(f, Place::worm_bed);
}

/// The openings of a bin by the rule.
/// @param today  what its ration says today.
inline std::vector<std::unique_ptr<OpeningWork>> openings_of(const WeekInput& in, BedsOfWeek& beds,
                                                             std::size_t bin, const Ration& today) {
    std::vector<std::unique_ptr<OpeningWork>> openings;
    // What has to be acted on is looked at again before anybody plans food.
    if (today.answer == RationAnswer::act_first) return openings;
    int first = 0;
    if (today.answer == RationAnswer::wait)
        first = today.next_feeding ? std::max(1, today.next_feeding->day) : week_days;
    int last_to_come = 0;
    for (const WeekThing& one : in.things) {
        if (is_food(one)) last_to_come = std::max(last_to_come, one.from);
    }
    const int most = std::clamp(in.most_openings, 1, 3);
    const int apart = week_days / most;
    for (int day = first; day < week_days; ++day) {
        const bool any = std::any_of(in.things.begin(), in.things.end(), [&](const WeekThing& one) {
            return is_food(one) && is_usable(one, day);
        });
        if (!any) continue;
        auto opening = opening_on(in, beds, bin, day);
        if (!opening) continue;
        openings.push_back(std::move(opening));
        const auto done = static_cast<int>(openings.size());
        if (done == most) break;
        int next = day + apart;
        if (done == most - 1) next = std::max(next, std::min(last_to_come, week_days - 1));
        day = next - 1;
    }
    return openings;
}

}  // namespace feed::detail
