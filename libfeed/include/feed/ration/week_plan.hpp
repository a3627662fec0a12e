#pragma once
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "feed/ration/week.hpp"
#include "feed/ration/week_problem.hpp"
#include "feed/ration/week_solver.hpp"
#include "feed/ration/week_stock.hpp"
#include "feed/ration/week_trips.hpp"

namespace feed {
namespace detail {

using Openings = std::vector<std::unique_ptr<OpeningWork>>;

/// Makes the week of several bins.
class WeekPlanner {
public:
    explicit WeekPlanner(const WeekInput& in) : in_(in), beds_(in) {}

    WeekPlan plan() {
        start();
        find_openings();
        share();
        confirm();
        // Where a ration took less than its share (heat is no line), the others may have it.
        if (draw_in()) {
            WeekPlan first = plan_;
            std::vector<double> left_kg = left_kg_;
            share();
            confirm();
            if (plan_.used < first.used) {
                plan_ = std::move(first);
                left_kg_ = std::move(left_kg);
            }
        }
        add_rest();
        return std::move(plan_);
    }

private:
    void start() {
        plan_.today = in_.today;
        plan_.said_twice = in_.said_twice;
        for (const WeekThing& one : in_.things) {
            const Feedstock& f = *one.thing.feedstock;
            if (barred_in(f, Place::worm_bed))
                plan_.take_out.push_back(take_out(f, one.thing.label));
            if (is_food(one) && one.thing.most) plan_.there = plan_.there + *one.thing.most;
        }
        for (std::size_t b = 0; b < in_.bins.size(); ++b) {
            const WeekBin& bin = in_.bins[b];
            RationInput today = beds_.on(b, {}, 0);
            for (const WeekThing& one : in_.things) {
                if (is_usable(one, 0)) today.things.push_back(one.thing);
            }
            Ration alone = ration(today);
            // What no bin takes, and what none may have, is said once, of the whole week.
            alone.rest.clear();
            alone.take_out.clear();
            plan_.bins.push_back({bin.name, bin.group, std::move(alone), {}});
        }
    }

    void find_openings() {
        for (std::size_t b = 0; b < in_.bins.size(); ++b)
            openings_.push_back(openings_of(in_, beds_, b, plan_.bins[b].today));
    }

    /// Solves with one opening a bin, and with more where that leaves something; the more openings
    /// only where they use more.
    void share() {
        std::vector<Openings> more;
        const bool several =
            std::any_of(openings_.begin(), openings_.end(),
                        [](const Openings& openings) { return openings.size() > 1; });
        if (several) {
            for (Openings& openings : openings_) {
                more.emplace_back();
                while (openings.size() > 1) {
                    more.back().insert(more.back().begin(), std::move(openings.back()));
                    openings.pop_back();
                }
            }
        }
        shares_ = solved();
        if (!several) return;
        const double used = used_of(shares_);
        const WeekShares once = shares_;
        for (std::size_t b = 0; b < more.size(); ++b) {
            for (auto& opening : more[b])
                openings_[b].push_back(std::move(opening));
        }
        if (used >= (1.0 - 1e-9) * plan_.there.in_kilograms() && !is_endless()) {
            drop_later(once);
            return;
        }
        shares_ = solved();
        if (used_of(shares_) <= used + least_ration_kg) drop_later(once);
    }

    [[nodiscard]] bool is_endless() const {
        return std::any_of(in_.things.begin(), in_.things.end(),
                           [](const WeekThing& one) { return is_food(one) && !one.thing.most; });
    }

    void drop_later(const WeekShares& once) {
        for (Openings& openings : openings_)
            openings.resize(std::min<std::size_t>(openings.size(), 1));
        problem_ = week_problem(in_, openings_);
        shares_ = once;
    }

    WeekShares solved() {
        problem_ = week_problem(in_, openings_);
        return WeekSolver(problem_).solve();
    }

    static double used_of(const WeekShares& shares) {
        return shares.most_kg.empty() ? 0.0 : shares.most_kg.back();
    }

    /// What an opening is allotted of each thing of the week.
    [[nodiscard]] std::vector<double> allotted(std::size_t b, std::size_t o) const {
        std::vector<double> kg(in_.things.size(), 0.0);
        const WeekBlock& block = problem_.blocks[b];
        for (std::size_t c = 0; c < block.size(); ++c) {
            const WeekColumn& column = block.columns[c];
            if (column.opening == o && column.shared) kg[*column.shared] += shares_.kg[b][c];
        }
        return kg;
    }

    /// A part of a thing, with the keeper's measure of that part.
    [[nodiscard]] ThingAtHand part_of_thing(const WeekThing& one, double kg) const {
        ThingAtHand part = one.thing;
        part.first = false;
        if (part.most && part.amount && part.most->in_kilograms() > 0.0)
            part.amount->count *= kg / part.most->in_kilograms();
        part.most = wet_kilograms(kg);
        return part;
    }

    /// Each opening as the ration of that bin on that day, of what the week allots to it.
    void confirm() {
        plan_.shared_kg = used_of(shares_);
        plan_.verified = shares_.verified;
        plan_.used = wet_kilograms(0.0);
        left_kg_ = problem_.there_kg;
        reserved_kg_.assign(in_.things.size(), 0.0);
        for (std::size_t b = 0; b < in_.bins.size(); ++b) {
            plan_.bins[b].openings.clear();
            for (std::size_t o = 0; o < openings_[b].size(); ++o) {
                const auto kg = allotted(b, o);
                for (std::size_t i = 0; i < kg.size(); ++i)
                    reserved_kg_[i] += kg[i];
            }
        }
        for (std::size_t b = 0; b < in_.bins.size(); ++b) {
            for (std::size_t o = 0; o < openings_[b].size(); ++o)
                confirm_opening(b, o);
        }
    }

    /// The day of an opening: not before the one that the feeding before it names, where that is
    /// in the week and what is allotted keeps so long; else not before the earliest that it names.
    /// Nothing: not this week.
    [[nodiscard]] std::optional<int> day_of(const OpeningWork& opening,
                                            std::span<const WeekOpening> done,
                                            std::span<const double> kg) const {
        if (done.empty() || !done.back().ration.next_feeding) return opening.day;
        const RationDay& next = *done.back().ration.next_feeding;
        for (const int after : {next.day, next.earliest}) {
            const int day = std::max(opening.day, done.back().day + after);
            bool keeps = day < week_days;
            for (std::size_t i = 0; i < kg.size(); ++i)
                keeps = keeps && (!(kg[i] > 0.0) || !is_food(in_.things[i]) ||
                                  is_usable(in_.things[i], day));
            if (keeps) return day;
        }
        return std::nullopt;
    }

    /// What was kept back for an opening that is none may go to others.
    void give_up(OpeningWork& opening, std::span<const double> kg) {
        opening.most_scraps_kg = 0.0;
        for (std::size_t i = 0; i < kg.size(); ++i)
            reserved_kg_[i] -= kg[i];
    }

    void confirm_opening(std::size_t b, std::size_t o) {
        const std::vector<double> kg = allotted(b, o);
        OpeningWork& opening = *openings_[b][o];
        std::vector<WeekOpening>& done = plan_.bins[b].openings;
        const std::optional<int> day = day_of(opening, done, kg);
        if (!day) return give_up(opening, kg);
        RationInput bed = beds_.on(b, done, *day);
        std::vector<double> given(kg.size(), 0.0);
        double asked_kg = 0.0;
        for (std::size_t i = 0; i < kg.size(); ++i) {
            reserved_kg_[i] -= kg[i];
            const WeekThing& one = in_.things[i];
            if (barred_in(*one.thing.feedstock, Place::worm_bed)) continue;
            if (is_food(one)) {
                given[i] = is_usable(one, *day) ? rounded(one, kg[i]) : 0.0;
                asked_kg += given[i];
            } else if (is_usable(one, *day)) {
                // Bedding and lime that nobody else was promised may go in, to round and to aim by.
                given[i] = std::max(0.0, left_kg_[i] - std::max(0.0, reserved_kg_[i]));
            }
            if (!(given[i] > 0.0)) continue;
            if (given[i] < solver::infinity)
                bed.things.push_back(part_of_thing(one, given[i]));
            else
                bed.things.push_back(one.thing);
        }
        if (asked_kg < least_ration_kg) return;
        Ration answer = ration(bed);
        const bool feeds =
            answer.answer == RationAnswer::feed || answer.answer == RationAnswer::feed_less;
        const double took_kg = feeds ? answer.scraps.in_kilograms() : 0.0;
        if (took_kg < 0.98 * asked_kg) opening.most_scraps_kg = took_kg;
        if (!feeds) return;
        take(answer, given);
        plan_.used = plan_.used + answer.scraps;
        done.push_back({*day, std::move(answer)});
    }

    [[nodiscard]] double rounded(const WeekThing& one, double kg) const {
        const bool all = one.thing.most && kg >= one.thing.most->in_kilograms() * (1.0 - 1e-9);
        if (!all && kg < least_portion_kg) return 0.0;
        return std::min(rounded_scraps(one.thing, kg, in_.units), kg + 1e-9);
    }

    /// Takes what a ration puts in from what there is, the things of one kind in their order.
    void take(const Ration& answer, const std::vector<double>& given) {
        for (const PutIn& put : answer.put_in) {
            double kg = put.wet_mass.in_kilograms();
            for (std::size_t i = 0; i < given.size() && kg > 0.0; ++i) {
                const Feedstock& f = *in_.things[i].thing.feedstock;
                if (f.id != put.thing.feedstock->id ||
                    f.prepared_as != put.thing.feedstock->prepared_as)
                    continue;
                const double taken = std::min(kg, given[i]);
                kg -= taken;
                left_kg_[i] = std::max(0.0, left_kg_[i] - taken);
            }
        }
    }

    [[nodiscard]] bool draw_in() const {
        for (const Openings& openings : openings_) {
            for (const auto& opening : openings) {
                if (opening->most_scraps_kg < solver::infinity) return true;
            }
        }
        return false;
    }

    void add_rest() {
        std::vector<double> taken_kg(in_.things.size(), 0.0);
        for (std::size_t i = 0; i < in_.things.size(); ++i) {
            const WeekThing& one = in_.things[i];
            if (one.thing.most) taken_kg[i] = one.thing.most->in_kilograms() - left_kg_[i];
        }
        plan_.from_stock = from_stock(plan_, in_.things, taken_kg);
        for (std::size_t i = 0; i < in_.things.size(); ++i) {
            const WeekThing& one = in_.things[i];
            if (!is_food(one) || !one.thing.most || left_kg_[i] < 0.005) continue;
            plan_.rest.push_back({one, wet_kilograms(left_kg_[i])});
        }
    }

    const WeekInput& in_;
    BedsOfWeek beds_;
    WeekPlan plan_;
    std::vector<Openings> openings_;  ///< of each bin
    WeekProblem problem_;
    WeekShares shares_;
    std::vector<double> left_kg_;      ///< of each thing, after the openings so far
    std::vector<double> reserved_kg_;  ///< for the openings to come
};

}  // namespace detail

/// Shares what is at hand and what is expected over several bins for a week: first what was asked
/// to be used first, then what spoils first, then most. One linear problem, its answer proved; each
/// opening is then the ration of that bin on that day, with what the week allots to it, so a week
/// never contradicts a ration. A bin that has to be acted on, or waits, gets nothing before its
/// day. Same input, same bits.
/// @param in  at least one bin; masses above 0. Threads: pure. Time: two or three rations a bin,
/// and a problem that grows with bins times things.
inline WeekPlan plan_week(const WeekInput& in) {
    return detail::WeekPlanner(in).plan();
}

}  // namespace feed
