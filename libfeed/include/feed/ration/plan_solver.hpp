#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "feed/bed/act_step.hpp"
#include "feed/ration/caps.hpp"
#include "feed/ration/ration.hpp"

// What goes in, as one linear problem: every hazard of the bed, room, bedding and caps at once.
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
    std::vector<WeekCap> caps;  ///< one for each thing
    KindShares given_of_kind{};
    HazardNumbers idle;  ///< the bed without food
    UnitSystem units = UnitSystem::metric;
};

namespace detail {

/// Builds and solves the linear problem of a plan.
class PlanSolver {
public:
    explicit PlanSolver(const PlanProblem& problem) : p_(problem), things_(problem.things.size()) {
        n_ = things_ + 3;  // water, the share of the caddy, the distance from the aim of wetness
        find_groups();
        for (std::size_t j = 0; j < things_; ++j)
            used_.push_back(true);
        capped_by_kind_.assign(things_, false);
    }

    /// Whether a thing may go in.
    void use(std::size_t thing, bool may) { used_[thing] = may; }
    void use_all() { used_.assign(things_, true); }
    [[nodiscard]] double scraps_in(std::span<const double> kg) const {
        double sum = 0.0;
        for (std::size_t j = 0; j < things_; ++j)
            sum += is(j, Part::scraps) ? kg[j] : 0.0;
        return sum;
    }

    /// Nothing where no amounts do.
    /// @param margin        by how much of what is free below it each limit is drawn in.
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
            for (const std::size_t j : groups_[g].things)
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
        double most = p_.caps[j].left_kg();
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
                r[j] = coefficient(row, p_.place, p_.per_kg[j], limit, 0.0, is(j, Part::amendment));
            r[water()] = coefficient(row, p_.place, p_.water_per_kg, limit, 0.0, true);
            const double now = excess_of_row(row, p_.place, Load{}, limit, 0.0);
            // What is raised already may not grow.
            row_upper_.back() = (1.0 - margin) * std::max(0.0, -now);
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

    void find_groups() {
        for (std::size_t kind = 0; kind < capped_together.size(); ++kind) {
            Group group;
            group.most = std::max(0.0, 1.0 - p_.given_of_kind[kind]);
            for (std::size_t j = 0; j < things_; ++j) {
                if (p_.caps[j].holds() && p_.things[j].feedstock->has(capped_together[kind]))
                    group.things.push_back(j);
            }
            const bool binds = group.things.size() > 1 || group.most < 1.0;
            if (!group.things.empty() && binds) groups_.push_back(std::move(group));
        }
    }

    /// Share of the week's cap of a thing that one kg of it is.
    [[nodiscard]] double share_of_cap(std::size_t j) const {
        return p_.caps[j].week_kg > 0.0 ? 1.0 / p_.caps[j].week_kg : 1e9;
    }

    void add_caps() {
        for (const Group& group : groups_) {
            const auto row = new_row(-solver::infinity, group.most);
            for (const std::size_t j : group.things)
                row[j] = share_of_cap(j);
        }
    }

    /// As the caddy comes: of each thing at least the same share of what may go in of it, which is
    /// what there is, up to its cap, and its part of what its kind may have together.
    void add_caddy() {
        std::vector<double> may(things_, 0.0);
        for (std::size_t j = 0; j < things_; ++j) {
            if (is(j, Part::scraps) && most_of(j) < solver::infinity) may[j] = most_of(j);
        }
        for (const Group& group : groups_) {
            double asked = 0.0;
            for (const std::size_t j : group.things)
                asked += may[j] * share_of_cap(j);
            if (!(asked > group.most)) continue;
            for (const std::size_t j : group.things)
                may[j] *= group.most / asked;
        }
        for (std::size_t j = 0; j < things_; ++j) {
            if (!(may[j] > 0.0)) continue;
            const auto row = new_row(0.0, solver::infinity);
            row[j] = 1.0;
            row[share()] = -may[j];
        }
    }

    /// The distance of the bed's wetness from the band around its aim.
    void add_aim() {
        const HazardRow& wet = row_of(Hazard::wet);
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
    /// Things whose caps add up.
    struct Group {
        std::vector<std::size_t> things;
        double most = 1.0;  ///< sum of amount over cap that may still go in
    };
    std::vector<Group> groups_;
    std::vector<double> rows_;
    std::vector<double> row_lower_;
    std::vector<double> row_upper_;
};

}  // namespace detail
}  // namespace feed
