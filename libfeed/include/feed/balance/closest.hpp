#pragma once
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include "feed/balance/deviation.hpp"
#include "feed/balance/far_limit.hpp"
#include "feed/balance/prepared_balance.hpp"
#include "feed/balance/solve_prepared.hpp"

namespace feed {

/// How many times the mass that is fixed a closest blend may weigh: without a limit some targets
/// are only approached by ever more of one feedstock (grade D).
inline constexpr double closest_heaviest = 10.0;

/// The blend that comes closest when the windows cannot all be met.
struct ClosestBlend {
    bool found = false;
    std::vector<double> wet_kg;  ///< one for each entry
    double largest_deviation = 0.0;
    bool at_heaviest = false;  ///< the limit `closest_heaviest` decided
    RatioRows ratios;
    std::vector<double> deciding;
};

namespace detail {

/// The keeper's amounts, the totals if they are to be kept, and a limit on the whole.
class ClosestProblem {
public:
    ClosestProblem(const PreparedBalance& prepared, bool keep_totals)
        : prepared_(prepared), count_(prepared.entry_count()) {
        for (std::size_t i = 0; i < prepared.problem.targets.size(); ++i) {
            const auto& target = prepared.problem.targets[i];
            if (keep_totals && fixes_amount(target.property)) continue;
            if (target.property == TargetProperty::water_over_least) continue;
            append_deviation_ratios(prepared, i, deviations_from_window(target), ratios_);
        }
        for (std::size_t r = 0; keep_totals && r < prepared.row_origins.size(); ++r) {
            const auto& target = prepared.problem.targets[prepared.row_origins[r].target];
            if (fixes_amount(target.property)) copy_row(r);
        }
        limit_whole();
    }

    solver::Polyhedron within() const {
        return {prepared_.lower, prepared_.upper, rows_, row_lower_, row_upper_};
    }
    const RatioRows& ratios() const { return ratios_; }
    double heaviest() const { return row_upper_.back(); }

private:
    void copy_row(std::size_t row) {
        for (std::size_t i = 0; i < count_; ++i)
            rows_.push_back(prepared_.rows[row * count_ + i]);
        row_lower_.push_back(prepared_.row_lower[row]);
        row_upper_.push_back(prepared_.row_upper[row]);
    }

    void limit_whole() {
        rows_.insert(rows_.end(), count_, 1.0);
        row_lower_.push_back(-solver::infinity);
        row_upper_.push_back(closest_heaviest * scale_kg(prepared_));
    }

    const PreparedBalance& prepared_;
    std::size_t count_;
    std::vector<double> rows_;
    std::vector<double> row_lower_;
    std::vector<double> row_upper_;
    RatioRows ratios_;
};

inline ClosestBlend closest_with(const PreparedBalance& prepared, bool keep_totals) {
    const ClosestProblem closest_problem(prepared, keep_totals);
    const auto within = closest_problem.within();
    BalanceWorkspace workspace(prepared.entry_count(), within.row_count(),
                               closest_problem.ratios().count());
    const auto numbers = closest(within, closest_problem.ratios(), prepared.added_mass, workspace);
    ClosestBlend blend;
    if (numbers.status != BalanceStatus::solved) return blend;
    blend.found = true;
    blend.wet_kg.assign(numbers.wet_kg.begin(), numbers.wet_kg.end());
    blend.largest_deviation = numbers.largest_deviation;
    blend.deciding.assign(numbers.deciding.begin(), numbers.deciding.end());
    blend.ratios = closest_problem.ratios();
    double whole = 0.0;
    for (const double mass : blend.wet_kg)
        whole += mass;
    blend.at_heaviest = whole >= closest_problem.heaviest() * (1.0 - 1e-9);
    return blend;
}

}  // namespace detail

/// The blend within the keeper's amounts whose worst property is closest to its aim, each measured
/// as in deviations_from_window; then the least mass, then the order of the entries. Totals are
/// kept if the amounts allow it. Threads: pure.
inline ClosestBlend closest_blend(const PreparedBalance& prepared) {
    auto blend = detail::closest_with(prepared, true);
    if (!blend.found) blend = detail::closest_with(prepared, false);
    return blend;
}

}  // namespace feed
