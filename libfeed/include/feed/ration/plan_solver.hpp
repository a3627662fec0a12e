#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "feed/bed/act_step.hpp"
#include "feed/ration/plan_rows.hpp"
#include "feed/ration/ration.hpp"

// What goes in, as one linear problem: every hazard of the bed, room, bedding and caps at once.
namespace feed {

namespace detail {

/// Builds and solves the linear problem of a plan.
class PlanSolver {
public:
    explicit PlanSolver(const PlanProblem& problem)
        : p_(problem),
          things_(problem.things.size()),
          // Water, the share of the caddy, the distance from the aim of wetness.
          n_(things_ + 3),
          rows_(problem, n_) {
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
        rows_.restart(margin, most_labile_kg);
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
        solver::Workspace workspace(n_, rows_.count());
        const auto result =
            solver::lexicographic(rows_.within(lower, upper), objectives, workspace);
        if (result.status != solver::Status::solved) return std::nullopt;
        for (std::size_t i = 0; i < hazard_row_count; ++i)
            pull[i] = std::max(pull[i], std::abs(result.row_multipliers[i]));
        for (std::size_t i = 0; i < decides_.size(); ++i)
            decides_[i] =
                decides_[i] || std::abs(result.row_multipliers[hazard_row_count + i]) > 1e-12;
        for (std::size_t g = 0; g < rows_.groups().size(); ++g) {
            if (!(std::abs(result.row_multipliers[hazard_row_count + PlanRows::sum_rows + g]) >
                  1e-12))
                continue;
            for (const std::size_t j : rows_.groups()[g].things)
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
    [[nodiscard]] bool is(std::size_t j, Part part) const { return rows_.is(j, part); }
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

    /// As the caddy comes: of each thing at least the same share of what may go in of it, which is
    /// what there is, up to its cap, and its part of what its kind may have together.
    void add_caddy() {
        std::vector<double> may(things_, 0.0);
        for (std::size_t j = 0; j < things_; ++j) {
            if (is(j, Part::scraps) && most_of(j) < solver::infinity) may[j] = most_of(j);
        }
        for (const PlanRows::Group& group : rows_.groups()) {
            double asked = 0.0;
            for (const std::size_t j : group.things)
                asked += may[j] * rows_.share_of_cap(j);
            if (!(asked > group.most)) continue;
            for (const std::size_t j : group.things)
                may[j] *= group.most / asked;
        }
        for (std::size_t j = 0; j < things_; ++j) {
            if (!(may[j] > 0.0)) continue;
            const auto row = rows_.add(0.0, solver::infinity);
            row[j] = 1.0;
            row[share()] = -may[j];
        }
    }

    /// The distance of the bed's wetness from the band around its aim.
    void add_aim() {
        const HazardRow& wet = row_of(Hazard::wet);
        for (const double end : {limits::wetness_aim.high, limits::wetness_aim.low}) {
            const double sign = end > limits::wetness_aim.value ? 1.0 : -1.0;
            const auto row = rows_.add(-solver::infinity, solver::infinity);
            for (std::size_t j = 0; j < things_; ++j)
                row[j] = sign * coefficient(wet, p_.place, p_.per_kg[j], end, 0.0, false);
            row[water()] = sign * coefficient(wet, p_.place, p_.water_per_kg, end, 0.0, false);
            row[distance()] = -1.0;
            rows_.set_last_upper(-sign * excess_of_row(wet, p_.place, Load{}, end, 0.0));
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
        solver::Workspace workspace(n_, rows_.count());
        const auto most = solver::lexicographic(rows_.within(lower, upper), first, workspace);
        if (most.status != solver::Status::solved) return false;
        const auto row = rows_.add((1.0 - 1e-9) * -most.objective, solver::infinity);
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
    std::size_t n_;
    std::array<bool, 4> decides_{};  ///< of the rows of add_sums, in their order
    std::vector<bool> capped_by_kind_;
    std::vector<bool> used_;
    PlanRows rows_;
};

}  // namespace detail
}  // namespace feed
