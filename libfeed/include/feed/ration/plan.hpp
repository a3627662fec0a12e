#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "feed/bed/act_step.hpp"
#include "feed/ration/ration.hpp"

// What goes in, as one problem for the solver: every hazard of the bed, room, bedding and caps at
// once; then rounded as printed and judged again.
namespace feed {

/// The problem of a ration. Things of scraps, beddings and amendments; water is the last column.
struct PlanProblem {
    FeedingPlace place;
    std::span<const ThingAtHand> things;
    std::vector<Load> per_kg;  ///< one for each thing
    Load water_per_kg;
    double most_scraps_kg = 0.0;
    double free_room_m3 = 0.0;
    double most_lime_kg = 0.0;
    std::vector<double>
        cap_kg;          ///< for each thing, infinite without a cap, less what went in lately
    HazardNumbers idle;  ///< the bed without food
    UnitSystem units = UnitSystem::metric;
};

/// A plan: kg of each thing, and of water.
struct Plan {
    bool found = false;
    std::vector<double> kg;
    double water_kg = 0.0;
    Load load;
    HazardNumbers after;
    /// How much more scraps there would be for each unit by which a row's limit is raised.
    std::array<double, detail::hazard_row_count> pull{};
    bool by_cap_of_worms = false;  ///< the most the worms may have decides
    bool by_heat = false;          ///< more would make its pocket too warm
    bool by_room = false;
    bool by_bedding = false;           ///< there is not enough of it
    std::vector<bool> capped_by_kind;  ///< things of a kind of which there is as much as may be
};

namespace detail {

/// Cautions whose caps add up over the materials that share them.
inline constexpr std::array<Caution, 6> capped_together{Caution::citrus_oil, Caution::allium,
                                                        Caution::oil,        Caution::salt,
                                                        Caution::heating,    Caution::ammonia};

/// Builds and solves the linear problem of a plan.
class PlanSolver {
public:
    explicit PlanSolver(const PlanProblem& problem) : p_(problem), things_(problem.things.size()) {
        n_ = things_ + 3;  // water, the share of the caddy, the distance from the aim of wetness
        group_of_rows();
        for (std::size_t j = 0; j < things_; ++j)
            used_.push_back(true);
        capped_by_kind_.assign(things_, false);
    }

    void drop(std::size_t thing) { used_[thing] = false; }
    [[nodiscard]] bool uses(std::size_t thing) const { return used_[thing]; }

    /// Nothing where no amounts do.
    /// @param margin        by how much of itself each limit is drawn in.
    /// @param most_labile_kg  of the food, against heat.
    /// @param pull  raised to how much more scraps there were for each unit of a row's limit.
    std::optional<std::vector<double>> solve(double margin, double most_labile_kg,
                                             std::array<double, hazard_row_count>& pull) {
        rows_.clear();
        row_lower_.clear();
        row_upper_.clear();
        add_hazards(margin);
        add_sums(most_labile_kg);
        add_caps();
        add_caddy();
        add_aim();
        std::vector<double> lower(n_, 0.0);
        std::vector<double> upper(n_, solver::infinity);
        for (std::size_t j = 0; j < things_; ++j)
            upper[j] = most_of(j);
        upper[water()] = limits::step_water_share.value * p_.place.bed->contents_m3 * 1000.0;
        upper[share()] = 1.0;
        // The multipliers of a result are those of its first aim, which must be the most scraps:
        // what was asked to be used first is settled before.
        if (!keep_most_of_first(lower, upper)) return std::nullopt;
        const std::vector<double> objectives = aims();
        solver::Workspace workspace(n_, row_lower_.size());
        const auto result = solver::lexicographic({lower, upper, rows_, row_lower_, row_upper_},
                                                  objectives, workspace);
        if (result.status != solver::Status::solved) return std::nullopt;
        for (std::size_t i = 0; i < hazard_row_count; ++i)
            pull[i] = std::max(pull[i], std::abs(result.row_multipliers[i]));
        for (std::size_t i = 0; i < decides_.size(); ++i)
            decides_[i] =
                decides_[i] || std::abs(result.row_multipliers[hazard_row_count + i]) > 1e-12;
        for (std::size_t g = 0; g < groups_.size(); ++g) {
            if (!(std::abs(result.row_multipliers[hazard_row_count + sum_rows + g]) > 1e-12))
                continue;
            for (const std::size_t j : groups_[g])
                capped_by_kind_[j] = true;
        }
        return std::vector<double>(result.x.begin(), result.x.end());
    }

    /// What else than a hazard kept more scraps out, in any solution: what was too little to lay
    /// and left out may have been kept small by it.
    [[nodiscard]] bool worms_decide() const { return decides_[0]; }
    [[nodiscard]] bool heat_decides() const { return decides_[1]; }
    [[nodiscard]] bool room_decides() const { return decides_[2]; }
    [[nodiscard]] bool bedding_decides() const { return decides_[3]; }
    /// For each thing, whether the caps of its kind together did.
    [[nodiscard]] const std::vector<bool>& capped_by_kind() const { return capped_by_kind_; }
    [[nodiscard]] bool is(std::size_t j, Part part) const {
        return part_of(*p_.things[j].feedstock) == part;
    }
    [[nodiscard]] Load load_of_plan(std::span<const double> kg, double water_kg) const {
        Load sum;
        for (std::size_t j = 0; j < things_; ++j) {
            if (kg[j] > 0.0) sum.add(p_.per_kg[j], kg[j]);
        }
        if (water_kg > 0.0) sum.add(p_.water_per_kg, water_kg);
        return sum;
    }

private:
    [[nodiscard]] std::size_t water() const { return things_; }
    [[nodiscard]] std::size_t share() const { return things_ + 1; }
    [[nodiscard]] std::size_t distance() const { return things_ + 2; }

    [[nodiscard]] double most_of(std::size_t j) const {
        if (!used_[j]) return 0.0;
        double most = p_.cap_kg[j];
        if (p_.things[j].most) most = std::min(most, p_.things[j].most->in_kilograms());
        if (is(j, Part::amendment)) most = std::min(most, p_.most_lime_kg);
        return std::max(0.0, most);
    }

    std::span<double> new_row(double low, double high) {
        row_lower_.push_back(low);
        row_upper_.push_back(high);
        rows_.resize(rows_.size() + n_, 0.0);
        return std::span<double>(rows_).last(n_);
    }

    void add_hazards(double margin) {
        for (const HazardRow& row : hazard_rows) {
            const auto r = new_row(-solver::infinity, solver::infinity);
            if (!is_moved_by_steps(row.hazard) && row.hazard != Hazard::overfed &&
                row.hazard != Hazard::greasy)
                continue;
            const double limit = row.limits(p_.place).watch;
            for (std::size_t j = 0; j < things_; ++j)
                r[j] =
                    coefficient(row, p_.place, p_.per_kg[j], limit, margin, is(j, Part::amendment));
            r[water()] = coefficient(row, p_.place, p_.water_per_kg, limit, margin, true);
            const double now = excess_of_row(row, p_.place, Load{}, limit, margin);
            // What is raised already may not grow.
            row_upper_.back() = std::max(0.0, -now);
        }
    }

    std::span<double> row(std::size_t i) { return std::span<double>(rows_).subspan(i * n_, n_); }

    /// Scraps for the worms, labile matter against heat, room, and least and most bedding by
    /// volume.
    void add_sums(double most_labile_kg) {
        const std::size_t first = row_lower_.size();
        new_row(-solver::infinity, p_.most_scraps_kg);
        new_row(-solver::infinity, most_labile_kg);
        new_row(-solver::infinity, p_.free_room_m3);
        new_row(0.0, solver::infinity);
        new_row(-solver::infinity, 0.0);
        for (std::size_t j = 0; j < things_; ++j) {
            const double litres = 1000.0 / loose_kg_per_m3(*p_.things[j].feedstock);
            row(first + 1)[j] = p_.per_kg[j].labile_kg.value;
            row(first + 2)[j] = p_.per_kg[j].settled_m3;
            if (is(j, Part::scraps)) {
                row(first)[j] = 1.0;
                row(first + 3)[j] = -limits::least_bedding_by_volume.value * litres;
                row(first + 4)[j] = -limits::most_bedding_by_volume.value * litres;
            } else if (is(j, Part::bedding)) {
                row(first + 3)[j] = row(first + 4)[j] = litres;
            }
        }
    }

    void group_of_rows() {
        for (const Caution caution : capped_together) {
            std::vector<std::size_t> group;
            for (std::size_t j = 0; j < things_; ++j) {
                if (p_.cap_kg[j] < solver::infinity && p_.things[j].feedstock->has(caution))
                    group.push_back(j);
            }
            if (group.size() > 1) groups_.push_back(std::move(group));
        }
    }

    void add_caps() {
        for (const auto& group : groups_) {
            const auto row = new_row(-solver::infinity, 1.0);
            for (const std::size_t j : group)
                row[j] = p_.cap_kg[j] > 0.0 ? 1.0 / p_.cap_kg[j] : 1e9;
        }
    }

    /// Each thing at least at the same share of what there is of it.
    void add_caddy() {
        for (std::size_t j = 0; j < things_; ++j) {
            const ThingAtHand& thing = p_.things[j];
            const bool capped = p_.cap_kg[j] < solver::infinity;
            if (!is(j, Part::scraps) || !thing.most || capped || !used_[j]) continue;
            const auto row = new_row(0.0, solver::infinity);
            row[j] = 1.0;
            row[share()] = -thing.most->in_kilograms();
        }
    }

    /// The distance of the bed's wetness from the band around its aim.
    void add_aim() {
        const HazardRow& wet = hazard_rows[1];
        for (const double end : {limits::wetness_aim.high, limits::wetness_aim.low}) {
            const double sign = end > limits::wetness_aim.value ? 1.0 : -1.0;
            const auto row = new_row(-solver::infinity, solver::infinity);
            for (std::size_t j = 0; j < things_; ++j)
                row[j] = sign * coefficient(wet, p_.place, p_.per_kg[j], end, 0.0, false);
            row[water()] = sign * coefficient(wet, p_.place, p_.water_per_kg, end, 0.0, false);
            row[distance()] = -1.0;
            row_upper_.back() = -sign * excess_of_row(wet, p_.place, Load{}, end, 0.0);
        }
    }

    /// Adds a row that keeps as much of what was asked to be used first as can go in; false where
    /// no amounts do.
    bool keep_most_of_first(std::span<const double> lower, std::span<const double> upper) {
        std::vector<double> first(n_, 0.0);
        for (std::size_t j = 0; j < things_; ++j) {
            if (is(j, Part::scraps) && p_.things[j].first) first[j] = -1.0;
        }
        if (std::all_of(first.begin(), first.end(), [](double x) { return x == 0.0; })) return true;
        solver::Workspace workspace(n_, row_lower_.size());
        const auto most =
            solver::lexicographic({lower, upper, rows_, row_lower_, row_upper_}, first, workspace);
        if (most.status != solver::Status::solved) return false;
        const auto row = new_row((1.0 - 1e-9) * -most.objective, solver::infinity);
        for (std::size_t j = 0; j < things_; ++j)
            row[j] = -first[j];
        return true;
    }

    /// Most scraps; as the caddy comes; nearest the aim; least added.
    [[nodiscard]] std::vector<double> aims() const {
        std::vector<double> aims(4 * n_, 0.0);
        for (std::size_t j = 0; j < things_; ++j) {
            if (is(j, Part::scraps))
                aims[j] = -1.0;
            else
                aims[3 * n_ + j] = 1.0;
        }
        aims[n_ + share()] = -1.0;
        aims[2 * n_ + distance()] = 1.0;
        aims[3 * n_ + water()] = 1.0;
        return aims;
    }

    const PlanProblem& p_;
    std::size_t things_;
    std::size_t n_ = 0;
    static constexpr std::size_t sum_rows = 5;  ///< of add_sums, before those of the caps
    std::array<bool, 4> decides_{};             ///< of the rows of add_sums, in their order
    std::vector<bool> capped_by_kind_;
    std::vector<bool> used_;
    std::vector<std::vector<std::size_t>> groups_;
    std::vector<double> rows_;
    std::vector<double> row_lower_;
    std::vector<double> row_upper_;
};

/// A mass of scraps rounded down to what a keeper measures: a half of a counted unit, a quarter of
/// a vessel, else two figures; all of it where all goes in.
inline double rounded_scraps(const ThingAtHand& thing, double kg, UnitSystem units) {
    if (thing.most && kg >= thing.most->in_kilograms() * (1.0 - 1e-9))
        return thing.most->in_kilograms();
    if (thing.amount && thing.amount->kind != AmountKind::mass && thing.amount->count > 0.0 &&
        thing.most) {
        const double unit_kg = thing.most->in_kilograms() / thing.amount->count;
        const double steps = thing.amount->kind == AmountKind::volume ? 4.0 : 2.0;
        const double counted = std::floor(kg / unit_kg * steps + 1e-9) / steps;
        if (counted > 0.0) return counted * unit_kg;
    }
    return rounded_mass(kg, false, units);
}

/// Water by the tenth of a litre or the half cup, rounded down; less is a sprinkle that nobody
/// measures.
inline double rounded_water(double kg, UnitSystem units) {
    const double step = units == UnitSystem::us ? litres_per_us_gallon / 32.0 : 0.1;
    return std::floor(kg / step + 1e-9) * step;
}

}  // namespace detail

/// Smallest portion of one thing that is worth laying, and of all scraps together (judgement).
inline constexpr double least_portion_kg = 0.020;
inline constexpr double least_ration_kg = 0.030;

/// The most that may go in by the aims in their order, rounded as printed and judged as printed.
/// Not found where nothing is worth laying. Time: some linear problems of the size of the list.
inline Plan make_plan(const PlanProblem& problem) {
    using namespace detail;
    PlanSolver solver(problem);
    Plan plan;
    const std::size_t count = problem.things.size();
    double most_labile_kg = solver::infinity;
    std::array<double, hazard_row_count> pull{};
    const auto solved = [&](double margin) -> std::optional<std::vector<double>> {
        for (std::size_t round = 0; round <= count; ++round) {
            auto x = solver.solve(margin, most_labile_kg, pull);
            if (!x) return x;
            bool dropped = false;
            for (std::size_t j = 0; j < count; ++j) {
                if (!solver.is(j, Part::scraps) || (*x)[j] <= 0.0) continue;
                const auto& most = problem.things[j].most;
                const bool whole = most && (*x)[j] >= most->in_kilograms() * (1.0 - 1e-9);
                // A capped thing goes in up to its cap, however little that is.
                const bool capped = (*x)[j] >= 0.9 * problem.cap_kg[j];
                if (whole || capped || (*x)[j] >= least_portion_kg) continue;
                solver.drop(j);
                dropped = true;
                break;
            }
            if (!dropped) return x;
        }
        return std::nullopt;
    };
    for (int attempt = 0; attempt < 14; ++attempt) {
        const double margin = attempt == 0 ? 0.0 : attempt == 1 ? 0.03 : 0.06;
        const auto x = solved(margin);
        if (!x) return plan;
        plan.kg.assign(count, 0.0);
        for (std::size_t j = 0; j < count; ++j) {
            if ((*x)[j] < 1e-4) continue;
            // Bedding is rounded up, but never past a cap.
            const bool up = solver.is(j, Part::bedding) && !(problem.cap_kg[j] < solver::infinity);
            plan.kg[j] = solver.is(j, Part::scraps)
                             ? rounded_scraps(problem.things[j], (*x)[j], problem.units)
                             : rounded_mass((*x)[j], up, problem.units);
            if (problem.things[j].most)
                plan.kg[j] = std::min(plan.kg[j], problem.things[j].most->in_kilograms());
        }
        plan.water_kg = rounded_water((*x)[count], problem.units);
        plan.load = solver.load_of_plan(plan.kg, plan.water_kg);
        plan.after = hazard_numbers(problem.place, plan.load);
        plan.pull = pull;
        plan.by_cap_of_worms = solver.worms_decide();
        plan.by_heat = solver.heat_decides();
        plan.by_room = solver.room_decides();
        plan.by_bedding = solver.bedding_decides();
        plan.capped_by_kind = solver.capped_by_kind();
        if (raises_nothing(problem.idle, plan.after)) {
            plan.found = plan.load.scraps_wet_kg > 0.0;
            return plan;
        }
        const auto hot = static_cast<std::size_t>(Hazard::hot);
        const bool heats = plan.after.of[hot].level > problem.idle.of[hot].level;
        if (heats || attempt > 2) most_labile_kg = 0.75 * plan.load.labile_kg.value;
    }
    plan.found = false;
    return plan;
}

}  // namespace feed
