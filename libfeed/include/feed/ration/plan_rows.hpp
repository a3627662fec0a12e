#pragma once
#include <algorithm>
#include <array>
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include "feed/bed/act_step.hpp"
#include "feed/ration/caps.hpp"
#include "feed/ration/ration.hpp"

// The limits of a feeding as linear rows: every hazard of the bed, the worms, room, bedding and
// caps. The ration of one bed and the week of several are made of the same rows.
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

/// The rows of a problem: one a hazard row, then those of add_sums, then one a kind of caps. The
/// first columns are the things, then water; what follows belongs to the caller.
class PlanRows {
public:
    static constexpr std::size_t sum_rows = 5;  ///< of add_sums, before those of the caps

    /// Things whose caps add up.
    struct Group {
        std::vector<std::size_t> things;
        double most = 1.0;  ///< sum of amount over cap that may still go in
    };
    PlanRows(const PlanProblem& problem, std::size_t columns) : p_(problem), n_(columns) {
        find_groups();
    }

    /// The rows afresh.
    /// @param margin          by how much of what is free below it each limit is drawn in.
    /// @param most_labile_kg  of the food, against heat.
    void restart(double margin, double most_labile_kg) {
        rows_.clear();
        lower_.clear();
        upper_.clear();
        add_hazards(margin);
        add_sums(most_labile_kg);
        add_caps();
    }

    /// A row of zeros at the end, to be filled.
    std::span<double> add(double low, double high) {
        lower_.push_back(low);
        upper_.push_back(high);
        rows_.resize(rows_.size() + n_, 0.0);
        return std::span<double>(rows_).last(n_);
    }

    void set_last_upper(double upper) { upper_.back() = upper; }
    [[nodiscard]] std::size_t count() const { return lower_.size(); }
    [[nodiscard]] std::span<const double> row(std::size_t i) const {
        return std::span<const double>(rows_).subspan(i * n_, n_);
    }
    [[nodiscard]] double lower_of(std::size_t i) const { return lower_[i]; }
    [[nodiscard]] double upper_of(std::size_t i) const { return upper_[i]; }
    [[nodiscard]] solver::Polyhedron within(std::span<const double> lower,
                                            std::span<const double> upper) const {
        return {lower, upper, rows_, lower_, upper_};
    }
    [[nodiscard]] const std::vector<Group>& groups() const { return groups_; }
    /// Share of the week's cap of a thing that one kg of it is.
    [[nodiscard]] double share_of_cap(std::size_t j) const {
        return p_.caps[j].week_kg > 0.0 ? 1.0 / p_.caps[j].week_kg : 1e9;
    }

    [[nodiscard]] bool is(std::size_t j, Part part) const {
        return part_of(*p_.things[j].feedstock) == part;
    }

private:
    void add_hazards(double margin) {
        const std::size_t water = p_.things.size();
        for (const HazardRow& row : hazard_rows) {
            const auto r = add(-solver::infinity, solver::infinity);
            if (!is_moved_by_steps(row.hazard) && row.hazard != Hazard::overfed &&
                row.hazard != Hazard::greasy)
                continue;
            const double limit = row.limits(p_.place).watch;
            for (std::size_t j = 0; j < p_.things.size(); ++j)
                r[j] = coefficient(row, p_.place, p_.per_kg[j], limit, 0.0, is(j, Part::amendment));
            r[water] = coefficient(row, p_.place, p_.water_per_kg, limit, 0.0, true);
            const double now = excess_of_row(row, p_.place, Load{}, limit, 0.0);
            // What is raised already may not grow.
            upper_.back() = (1.0 - margin) * std::max(0.0, -now);
        }
    }

    std::span<double> open_row(std::size_t i) {
        return std::span<double>(rows_).subspan(i * n_, n_);
    }

    /// Scraps for the worms, labile matter against heat, room, and least and most bedding by
    /// volume.
    void add_sums(double most_labile_kg) {
        const std::size_t first = lower_.size();
        add(-solver::infinity, p_.most_scraps_kg);
        add(-solver::infinity, most_labile_kg);
        add(-solver::infinity, p_.free_room_m3);
        add(0.0, solver::infinity);
        add(-solver::infinity, 0.0);
        for (std::size_t j = 0; j < p_.things.size(); ++j) {
            const double litres = 1000.0 / loose_kg_per_m3(*p_.things[j].feedstock);
            open_row(first + 1)[j] = p_.per_kg[j].labile_kg.value;
            open_row(first + 2)[j] = p_.per_kg[j].settled_m3;
            if (is(j, Part::scraps)) {
                open_row(first)[j] = 1.0;
                open_row(first + 3)[j] = -limits::least_bedding_by_volume.value * litres;
                open_row(first + 4)[j] = -limits::most_bedding_by_volume.value * litres;
            } else if (is(j, Part::bedding)) {
                open_row(first + 3)[j] = open_row(first + 4)[j] = litres;
            }
        }
    }

    void find_groups() {
        for (std::size_t kind = 0; kind < capped_together.size(); ++kind) {
            Group group;
            group.most = std::max(0.0, 1.0 - p_.given_of_kind[kind]);
            for (std::size_t j = 0; j < p_.things.size(); ++j) {
                if (p_.caps[j].holds() && p_.things[j].feedstock->has(capped_together[kind]))
                    group.things.push_back(j);
            }
            const bool binds = group.things.size() > 1 || group.most < 1.0;
            if (!group.things.empty() && binds) groups_.push_back(std::move(group));
        }
        for (std::size_t j = 0; j < p_.things.size(); ++j)
            find_group_of(j);
    }

    /// Things that are one material by another name or preparation share one cap.
    void find_group_of(std::size_t first) {
        if (!p_.caps[first].holds()) return;
        const std::string& of = detail::capped_as(*p_.things[first].feedstock);
        Group group;
        for (std::size_t j = 0; j < p_.things.size(); ++j) {
            if (!p_.caps[j].holds() || detail::capped_as(*p_.things[j].feedstock) != of) continue;
            if (j < first) return;
            group.things.push_back(j);
        }
        if (group.things.size() < 2) return;
        const WeekCap& cap = p_.caps[first];
        group.most = cap.week_kg > 0.0 ? cap.left_kg() / cap.week_kg : 0.0;
        groups_.push_back(std::move(group));
    }

    void add_caps() {
        for (const Group& group : groups_) {
            const auto row = add(-solver::infinity, group.most);
            for (const std::size_t j : group.things)
                row[j] = share_of_cap(j);
        }
    }

    const PlanProblem& p_;
    std::size_t n_;
    std::vector<Group> groups_;
    std::vector<double> rows_;
    std::vector<double> lower_;
    std::vector<double> upper_;
};

}  // namespace detail
}  // namespace feed
