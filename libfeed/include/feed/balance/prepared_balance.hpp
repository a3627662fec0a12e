#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "feed/balance/check_problem.hpp"
#include "feed/balance/coefficients.hpp"
#include "feed/balance/deviation.hpp"
#include "feed/balance/sums.hpp"
#include "feed/balance/target_kind.hpp"
#include "feed/blend/take_out.hpp"
#include "feed/solver/fractional.hpp"
#include "feed/solver/problem.hpp"

namespace feed {

/// Which edge of a window a row of the linear problem stands for.
enum class Edge : std::uint8_t { low, high, both };

/// Where a row of the linear problem comes from.
struct RowOrigin {
    std::size_t target = 0;  ///< index into the targets
    Edge edge = Edge::both;
};

/// Several ratios of linear functions, ready for the solver.
struct RatioRows {
    std::vector<double> numerators;  ///< k times n
    std::vector<double> numerator_constants;
    std::vector<double> denominators;  ///< k times n
    std::vector<double> denominator_constants;
    std::vector<std::size_t> targets;  ///< which target each ratio measures

    std::size_t count() const noexcept { return targets.size(); }
    solver::Ratios view() const {
        return {numerators, numerator_constants, denominators, denominator_constants};
    }
};

/// A balance in numbers: the wet masses of the entries, in kilograms, are the unknowns. Built once
/// by `prepare`, then solved as often as wanted; read-only, so threads may share it.
struct PreparedBalance {
    BalanceProblem problem;           ///< with every label filled in
    std::vector<Assumption> assumed;  ///< what the numbers rest on
    /// What one wet kilogram of each entry adds to each sum; empty for sums no target needs.
    std::array<std::vector<double>, sum_count> sums;

    std::vector<double> lower;  ///< n
    std::vector<double> upper;  ///< n
    std::vector<double> rows;   ///< m times n: the window edges
    std::vector<double> row_lower;
    std::vector<double> row_upper;
    std::vector<RowOrigin> row_origins;  ///< of the window edges

    /// The row of all poured water, where it is held near the least that will do.
    std::optional<std::size_t> poured_row;
    double over_least = 1.0;  ///< how many times the least may be poured
    /// The row that holds poured water to what takes it up; it stands aside where none is poured.
    std::optional<std::size_t> room_row;
    std::vector<TakeOut> take_out;  ///< entries barred in the place; their amounts are 0

    std::vector<double> hessian;     ///< n, for closest_to_usual
    std::vector<double> gradient;    ///< n, for closest_to_usual
    std::vector<double> priorities;  ///< p times n, to be minimised: what is used up first
    std::vector<double> objectives;  ///< the linear objective, then added mass
    std::vector<double> added_mass;  ///< n, the tie-break
    RatioRows from_aims;             ///< for closest_to_aims

    std::size_t entry_count() const noexcept { return lower.size(); }
    std::size_t row_count() const noexcept { return row_lower.size(); }
    std::size_t priority_count() const noexcept {
        return lower.empty() ? 0 : priorities.size() / lower.size();
    }
    solver::Polyhedron within() const { return {lower, upper, rows, row_lower, row_upper}; }
    const std::vector<double>& sum(Sum which) const noexcept {
        return sums[static_cast<std::size_t>(which)];
    }
};

namespace detail {

inline bool any_above_zero(std::span<const double> numbers) noexcept {
    for (const double number : numbers) {
        if (number > 0.0) return true;
    }
    return false;
}

inline void append_deviation_ratio(const PreparedBalance& prepared, std::size_t index,
                                   const Deviation& deviation, double sign, RatioRows& ratios) {
    const auto ratio = ratio_of(prepared.problem.targets[index].property);
    const auto& above = prepared.sum(ratio.above);
    const double scale = sign / deviation.unit;
    for (std::size_t i = 0; i < above.size(); ++i) {
        const double below = ratio.below ? prepared.sum(*ratio.below)[i] : 0.0;
        ratios.numerators.push_back(scale * (above[i] - deviation.zero * below));
        ratios.denominators.push_back(below);
    }
    ratios.numerator_constants.push_back(ratio.below ? 0.0 : -scale * deviation.zero);
    ratios.denominator_constants.push_back(ratio.below ? 0.0 : 1.0);
    ratios.targets.push_back(index);
}

/// Appends the ratios that measure one target; none where the sum below is zero for every entry,
/// since then the property does not exist.
inline void append_deviation_ratios(const PreparedBalance& prepared, std::size_t index,
                                    const Deviations& deviations, RatioRows& ratios) {
    const auto ratio = ratio_of(prepared.problem.targets[index].property);
    if (ratio.below && !any_above_zero(prepared.sum(*ratio.below))) return;
    if (deviations.up) append_deviation_ratio(prepared, index, *deviations.up, 1.0, ratios);
    if (deviations.down) append_deviation_ratio(prepared, index, *deviations.down, -1.0, ratios);
}

/// Turns a checked problem into rows.
class Preparer {
public:
    explicit Preparer(PreparedBalance& out) : out_(out), count_(out.problem.entries.size()) {}

    Errors run() {
        read_sums();
        if (!notes_.errors.empty()) return std::move(notes_.errors);
        bounds();
        for (std::size_t i = 0; i < out_.problem.targets.size(); ++i)
            window(i);
        priorities();
        objective();
        out_.assumed = std::move(notes_.assumed);
        return {};
    }

private:
    void read_sums() {
        for (const auto& target : out_.problem.targets) {
            const auto ratio = ratio_of(target.property);
            read_sum(ratio.above);
            if (ratio.below) read_sum(*ratio.below);
        }
    }

    void read_sum(Sum which) {
        auto& column = out_.sums[static_cast<std::size_t>(which)];
        if (!column.empty()) return;
        for (const auto& entry : out_.problem.entries) {
            // Of what is taken out nothing goes in, so nothing has to be known.
            const bool out = barred_in(*entry.feedstock, out_.problem.place);
            column.push_back(out ? 0.0 : EntryReader(entry, notes_).per_wet_kg(which));
        }
    }

    void bounds() {
        for (const auto& entry : out_.problem.entries) {
            out_.lower.push_back(entry.least.in_kilograms());
            out_.upper.push_back(entry.most ? entry.most->in_kilograms() : solver::infinity);
        }
    }

    /// low below <= above <= high below; or low <= above <= high where nothing is below.
    void window(std::size_t index) {
        const auto& target = out_.problem.targets[index];
        const auto ratio = ratio_of(target.property);
        if (target.property == TargetProperty::water_over_least) {
            poured_water(index);
        } else if (target.property == TargetProperty::water_over_room) {
            water_with_room(index);
        } else if (is_of_nothing(target)) {
            // No scraps are at hand, so no bedding is measured by them.
        } else if (!ratio.below) {
            if (target.low || target.high) {
                row(ratio, 0.0, target.low.value_or(-solver::infinity),
                    target.high.value_or(solver::infinity), {index, Edge::both});
            }
        } else if (target.low && target.high && *target.low == *target.high) {
            row(ratio, *target.low, 0.0, 0.0, {index, Edge::both});
        } else {
            if (target.low) row(ratio, *target.low, 0.0, solver::infinity, {index, Edge::low});
            if (target.high) row(ratio, *target.high, -solver::infinity, 0.0, {index, Edge::high});
        }
    }

    /// Whether a target speaks of scraps where none are at hand.
    bool is_of_nothing(const Target& target) const {
        return target.property == TargetProperty::bedding_l_per_scraps_l &&
               !any_above_zero(out_.sum(Sum::scraps_l));
    }

    /// A row for all poured water; its limit is known when the least is. The usual recipe says
    /// itself what is poured.
    void poured_water(std::size_t index) {
        const auto& target = out_.problem.targets[index];
        if (!target.high || out_.problem.objective == Objective::closest_to_usual) return;
        if (!any_above_zero(out_.sum(Sum::poured_kg))) return;
        out_.poured_row = out_.row_lower.size();
        out_.over_least = *target.high;
        row(ratio_of(target.property), 0.0, -solver::infinity, solver::infinity,
            {index, Edge::high});
    }

    /// The C:N that a worm bed wishes is that of a feeding; bedding and water alone are none.
    bool is_of_a_feeding(const Target& target) const {
        const auto& scraps = out_.sum(Sum::scraps_l);
        return target.property == TargetProperty::cn_ratio && target.wish_high &&
               out_.problem.place == Place::worm_bed && !scraps.empty() && !any_above_zero(scraps);
    }

    /// The usual recipe says itself what is poured.
    void water_with_room(std::size_t index) {
        const auto& target = out_.problem.targets[index];
        if (!target.high || out_.problem.objective == Objective::closest_to_usual) return;
        if (!any_above_zero(out_.sum(Sum::poured_kg))) return;
        out_.room_row = out_.row_lower.size();
        row(ratio_of(target.property), *target.high, -solver::infinity, 0.0, {index, Edge::high});
    }

    void row(const SumRatio& ratio, double level, double low, double high, RowOrigin origin) {
        const auto& above = out_.sum(ratio.above);
        for (std::size_t i = 0; i < count_; ++i)
            out_.rows.push_back(ratio.below ? above[i] - level * out_.sum(*ratio.below)[i]
                                            : above[i]);
        out_.row_lower.push_back(low);
        out_.row_upper.push_back(high);
        out_.row_origins.push_back(origin);
    }

    /// One objective for each priority, first to last.
    void priorities() {
        int done = 0;
        for (;;) {
            int next = 0;
            for (const auto& entry : out_.problem.entries) {
                const int priority = entry.use_up_priority;
                if (priority > done && (next == 0 || priority < next)) next = priority;
            }
            if (next == 0) return;
            for (const auto& entry : out_.problem.entries) {
                const bool counts = entry.use_up_priority == next;
                out_.priorities.push_back(counts ? -1.0 : 0.0);
            }
            done = next;
        }
    }

    void objective() {
        out_.added_mass.assign(count_, 1.0);
        if (out_.problem.objective == Objective::use_up_most) use_up();
        switch (out_.problem.objective) {
            case Objective::closest_to_aims:
                for (std::size_t i = 0; i < out_.problem.targets.size(); ++i) {
                    if (is_of_a_feeding(out_.problem.targets[i])) continue;
                    append_deviation_ratios(out_, i, deviations_from_aim(out_.problem.targets[i]),
                                            out_.from_aims);
                }
                break;
            case Objective::closest_to_usual:
                usual();
                break;
            case Objective::cheapest:
                cost();
                break;
            case Objective::least_added:
            case Objective::use_up_most:
                break;
        }
        out_.objectives.insert(out_.objectives.end(), count_, 1.0);
    }

    /// Sum over the entries of ((x - usual) / unit)^2 / 2: the unit is the usual amount, so that a
    /// tenth more of anything counts alike; for what the usual recipe lacks, its smallest amount.
    /// Where exact amounts with a usual amount are given, the recipe is first scaled to them.
    void usual() {
        const double scale = recipe_scale();
        double smallest = solver::infinity;
        for (const auto& entry : out_.problem.entries) {
            const double amount = entry.usual ? entry.usual->in_kilograms() * scale : 0.0;
            if (amount > 0.0 && amount < smallest) smallest = amount;
        }
        for (const auto& entry : out_.problem.entries) {
            const double amount = entry.usual ? entry.usual->in_kilograms() * scale : 0.0;
            const double unit = amount > 0.0 ? amount : smallest;
            out_.hessian.push_back(1.0 / (unit * unit));
            out_.gradient.push_back(-amount / (unit * unit));
        }
    }

    double recipe_scale() {
        double today = 0.0;
        double usually = 0.0;
        for (const auto& entry : out_.problem.entries) {
            const bool exact = entry.most && *entry.most == entry.least;
            if (!exact || !entry.usual) continue;
            today += entry.least.in_kilograms();
            usually += entry.usual->in_kilograms();
        }
        if (!(today > 0.0) || !(usually > 0.0) || today == usually) return 1.0;
        notes_.assumed.push_back({"the usual recipe is taken times " +
                                      significant(today / usually, 2) +
                                      ", as the amounts that are fixed today are to the usual ones",
                                  Grade::d});
        return today / usually;
    }

    void cost() {
        std::string without;
        for (const auto& entry : out_.problem.entries) {
            out_.objectives.push_back(entry.cost_per_wet_kg.value_or(0.0));
            if (entry.cost_per_wet_kg || is_plain_water(*entry.feedstock)) continue;
            without += (without.empty() ? "" : ", ") + entry.label;
        }
        if (without.empty()) return;
        notes_.assumed.push_back({"no cost is given for " + without + ": taken as free", Grade::d});
    }

    /// What can be used up is what has an upper limit and is not water; everything but water where
    /// nothing has a limit.
    void use_up() {
        bool any_limit = false;
        for (const auto& entry : out_.problem.entries)
            any_limit = any_limit || (entry.most && !is_plain_water(*entry.feedstock));
        for (const auto& entry : out_.problem.entries) {
            const bool counts =
                !is_plain_water(*entry.feedstock) && (entry.most.has_value() || !any_limit);
            out_.priorities.push_back(counts ? -1.0 : 0.0);
        }
    }

    PreparedBalance& out_;
    ReadingNotes notes_;
    std::size_t count_;
};

/// An error for every number that is not finite; numbers of a feedstock come from outside.
inline void refuse_not_finite(const PreparedBalance& prepared, Errors& errors) {
    for (const auto& column : prepared.sums) {
        for (std::size_t i = 0; i < column.size(); ++i) {
            if (std::isfinite(column[i])) continue;
            const std::string& label = prepared.problem.entries[i].label;
            errors.push_back(make_error(ErrorCode::not_a_number, label, "not a finite number",
                                        "finite values",
                                        "a value of " + label + " is not a finite number"));
            return;
        }
    }
}

}  // namespace detail

namespace detail {

/// Takes out what is barred in the place: none of it goes in, and nobody's wish for it counts.
inline std::vector<TakeOut> take_out_barred(BalanceProblem& problem) {
    std::vector<TakeOut> out;
    for (auto& entry : problem.entries) {
        if (!entry.feedstock || !barred_in(*entry.feedstock, problem.place)) continue;
        out.push_back(take_out(*entry.feedstock, entry.label));
        entry.least = WetMass();
        entry.most = WetMass();
        entry.usual = std::nullopt;
        entry.use_up_priority = 0;
    }
    return out;
}

/// Holds what is touchy to what these worms bear at a time. Ground shell and limestone are capped
/// by surface where a check advises them.
inline void hold_to_caps(BalanceProblem& problem, std::vector<Assumption>& assumed) {
    if (!problem.worms_kg || problem.place != Place::worm_bed) return;
    for (auto& entry : problem.entries) {
        if (!entry.feedstock || !entry.feedstock->most_wet_kg_per_kg_worms) continue;
        const Feedstock& f = *entry.feedstock;
        if (f.has(Caution::lime_dust) && !f.has(Caution::caustic)) continue;
        const WetMass most = wet_kilograms(*f.most_wet_kg_per_kg_worms * *problem.worms_kg);
        if (entry.least > most)
            assumed.push_back({"of " + said_name(entry) + " at most " +
                                   significant(1000.0 * most.in_kilograms(), 2) +
                                   " g at a time is fed to these worms, the rest in later weeks",
                               Grade::d});
        entry.least = std::min(entry.least, most);
        entry.most = entry.most ? std::min(*entry.most, most) : most;
    }
}

}  // namespace detail

/// Turns a problem into numbers, or says everything that is wrong with it: its form, and values
/// that its targets need and its feedstocks lack.
/// Entries times targets. Threads: pure.
inline Result<PreparedBalance> prepare(BalanceProblem problem) {
    PreparedBalance prepared;
    prepared.take_out = detail::take_out_barred(problem);
    std::vector<Assumption> held;
    detail::hold_to_caps(problem, held);
    auto errors = check_problem(problem);
    if (!errors.empty()) return errors;
    prepared.problem = std::move(problem);
    for (auto& entry : prepared.problem.entries)
        entry.label = said_name(entry);
    for (auto& target : prepared.problem.targets)
        target.label = said_name(target);
    errors = detail::Preparer(prepared).run();
    if (errors.empty()) detail::refuse_not_finite(prepared, errors);
    if (!errors.empty()) return errors;
    for (Assumption& assumption : prepared.assumed)
        held.push_back(std::move(assumption));
    prepared.assumed = std::move(held);
    return prepared;
}

}  // namespace feed
