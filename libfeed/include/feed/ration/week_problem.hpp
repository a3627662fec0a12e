#pragma once
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "feed/ration/plan_rows.hpp"
#include "feed/ration/week_trips.hpp"
#include "feed/solver/problem.hpp"

// The week as one linear problem: a block of rows a bin, each opening with the rows of its ration,
// and one row a thing that the bins share.
namespace feed::detail {

/// A column of a block: so much of a thing (or of water, or of offered bedding) at an opening.
struct WeekColumn {
    std::size_t opening = 0;
    std::size_t thing = 0;              ///< of the opening's problem; its count: water
    std::optional<std::size_t> shared;  ///< thing of the week; nothing: as much as is wanted
    bool scraps = false;
};

/// What one bin may be given in the week: columns >= 0 within dense rows.
struct WeekBlock {
    std::vector<WeekColumn> columns;
    std::vector<double> upper;  ///< of the columns
    std::vector<double> rows;
    std::vector<double> row_lower;
    std::vector<double> row_upper;

    [[nodiscard]] std::size_t size() const { return columns.size(); }
    std::span<double> add_row(double low, double high) {
        row_lower.push_back(low);
        row_upper.push_back(high);
        rows.resize(rows.size() + size(), 0.0);
        return std::span<double>(rows).last(size());
    }
};

/// The whole: blocks, how much there is of each thing (infinite: as much as is wanted), and the
/// aims in their order, each a set of things of which most is used.
struct WeekProblem {
    std::vector<WeekBlock> blocks;
    std::vector<double> there_kg;
    std::vector<std::vector<bool>> aims;
};

/// Which thing of an opening's problem a thing of the week is: things listed twice were joined.
inline std::optional<std::size_t> thing_of(const OpeningWork& opening, const Feedstock& f) {
    const auto& things = opening.problem.things;
    for (std::size_t j = 0; j < things.size(); ++j) {
        if (same_material(*things[j].feedstock, f)) return j;
    }
    return std::nullopt;
}

/// Makes the block of a bin.
class WeekBlockMaker {
public:
    WeekBlockMaker(const WeekInput& in, std::span<const std::unique_ptr<OpeningWork>> openings)
        : in_(in), openings_(openings) {}

    WeekBlock make() {
        for (std::size_t o = 0; o < openings_.size(); ++o)
            add_columns(o);
        for (std::size_t o = 0; o < openings_.size(); ++o)
            add_opening(o);
        return std::move(block_);
    }

private:
    void add_columns(std::size_t o) {
        const OpeningWork& opening = *openings_[o];
        std::vector<bool> listed(opening.problem.things.size(), false);
        for (std::size_t i = 0; i < in_.things.size(); ++i) {
            const Feedstock& f = *in_.things[i].thing.feedstock;
            if (barred_in(f, Place::worm_bed)) continue;
            const auto j = thing_of(opening, f);
            if (!j) continue;
            listed[*j] = true;
            if (!is_usable(in_.things[i], opening.day)) continue;
            add_column({o, *j, i, part_of(f) == Part::scraps}, solver::infinity);
        }
        for (std::size_t j = 0; j < listed.size(); ++j) {
            if (!listed[j] && part_of(*opening.problem.things[j].feedstock) == Part::bedding)
                add_column({o, j, std::nullopt, false}, solver::infinity);
        }
        add_column(
            {o, listed.size(), std::nullopt, false},
            limits::step_water_share.value * opening.problem.place.bed->contents_m3 * 1000.0);
    }

    void add_column(WeekColumn column, double upper) {
        block_.columns.push_back(column);
        block_.upper.push_back(upper);
    }

    /// The rows of a ration on that day. What goes in before counts by the share of it that is
    /// then still there; the ration of that day judges again.
    void add_opening(std::size_t o) {
        const OpeningWork& now = *openings_[o];
        const std::size_t things = now.problem.things.size();
        PlanRows rows(now.problem, things + 1);
        rows.restart(0.0, solver::infinity);
        for (std::size_t i = 0; i < rows.count(); ++i) {
            const auto from = rows.row(i);
            const bool of_week = i >= hazard_row_count + PlanRows::sum_rows;             // caps
            const bool of_day = i == hazard_row_count + 3 || i == hazard_row_count + 4;  // bedding
            const bool of_worms = i == hazard_row_count;
            double upper = rows.upper_of(i);
            if (of_worms) upper = std::min(upper, now.most_scraps_kg);
            const auto row = block_.add_row(rows.lower_of(i), upper);
            for (std::size_t c = 0; c < block_.size(); ++c) {
                const WeekColumn& column = block_.columns[c];
                if (column.opening > o || (of_day && column.opening < o)) continue;
                const double share = column.opening == o || of_week ? 1.0
                                     : of_worms ? share_in_week(column.opening, o)
                                                : share_left(column.opening, o);
                row[c] = share * from[column.thing];
            }
        }
        add_caps_of_things(o);
        if (o > 0) add_day_after(o);
    }

    [[nodiscard]] double days_between(std::size_t before, std::size_t o) const {
        return static_cast<double>(openings_[o]->day - openings_[before]->day);
    }
    /// Of the food of an opening on the day of a later one: this bin's own course where it has one.
    [[nodiscard]] double share_left(std::size_t before, std::size_t o) const {
        const auto& course = openings_[before]->in.new_food;
        const auto day = static_cast<std::size_t>(days_between(before, o));
        if (!course.empty()) return course[std::min(day, course.size() - 1)].value;
        return std::exp(-pool_rates[0].rate_per_day.value * days_between(before, o));
    }
    [[nodiscard]] double share_in_week(std::size_t before, std::size_t o) const {
        const BedNumbers& bed = *openings_[o]->problem.place.bed;
        return share_in_window(days_between(before, o), bed.horizon_days, bed.rate_window_days);
    }

    void add_caps_of_things(std::size_t o) {
        const PlanProblem& problem = openings_[o]->problem;
        for (std::size_t j = 0; j < problem.things.size(); ++j) {
            double most = problem.caps[j].left_kg();
            if (part_of(*problem.things[j].feedstock) == Part::amendment)
                most = std::min(most, problem.most_lime_kg);
            if (!(most < solver::infinity)) continue;
            const auto row = block_.add_row(-solver::infinity, most);
            for (std::size_t c = 0; c < block_.size(); ++c) {
                if (block_.columns[c].opening <= o && block_.columns[c].thing == j) row[c] = 1.0;
            }
        }
    }

    /// What lets the ration feed again on that day: a useful portion has room, and the soft food is
    /// at most half a week's.
    void add_day_after(std::size_t o) {
        const RationWork& work = *openings_[o]->work;
        const auto room = block_.add_row(
            -solver::infinity, std::max(0.0, (1.0 - limits::useful_share.value) * work.week_kg -
                                                 work.numbers.recent_scraps_kg));
        fill_before(o, room, true);
        const auto soft = block_.add_row(
            -solver::infinity,
            std::max(0.0, limits::feed_again_share.value * work.week_kg - work.soft_kg));
        fill_before(o, soft, false);
    }

    void fill_before(std::size_t o, std::span<double> row, bool of_week) {
        for (std::size_t c = 0; c < block_.size(); ++c) {
            const WeekColumn& column = block_.columns[c];
            if (column.opening >= o || !column.scraps) continue;
            row[c] = of_week ? share_in_week(column.opening, o) : share_left(column.opening, o);
        }
    }

    const WeekInput& in_;
    std::span<const std::unique_ptr<OpeningWork>> openings_;
    WeekBlock block_;
};

/// First what was asked to be used first, then what spoils first, then all scraps.
inline std::vector<std::vector<bool>> aims_of_week(const WeekInput& in) {
    std::vector<std::vector<bool>> aims;
    const auto add = [&](auto&& belongs) {
        std::vector<bool> aim(in.things.size(), false);
        for (std::size_t i = 0; i < in.things.size(); ++i)
            aim[i] = is_food(in.things[i]) && belongs(in.things[i]);
        const bool any = std::find(aim.begin(), aim.end(), true) != aim.end();
        if (any && (aims.empty() || aims.back() != aim)) aims.push_back(std::move(aim));
    };
    add([](const WeekThing& one) { return one.thing.first; });
    add([](const WeekThing& one) { return one.thing.first || !one.kept; });
    add([](const WeekThing&) { return true; });
    return aims;
}

/// @param openings  those of each bin.
inline WeekProblem week_problem(
    const WeekInput& in, std::span<const std::vector<std::unique_ptr<OpeningWork>>> openings) {
    WeekProblem problem;
    for (const auto& of_bin : openings)
        problem.blocks.push_back(WeekBlockMaker(in, of_bin).make());
    for (const WeekThing& one : in.things) {
        const auto& most = one.thing.most;
        problem.there_kg.push_back(most ? most->in_kilograms() : solver::infinity);
    }
    problem.aims = aims_of_week(in);
    return problem;
}

}  // namespace feed::detail
