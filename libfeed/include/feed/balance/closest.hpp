#pragma once
#include <algorithm>
#include <cstddef>
#include <span>
#include <vector>

#include "feed/balance/deviation.hpp"
#include "feed/balance/prepared_balance.hpp"
#include "feed/balance/scale.hpp"
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
            if (limits_water(target.property)) continue;
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
    double heaviest() const { return heaviest_; }

    /// Holds one ratio to a level it has reached; a trifle more, so that rounding does not take the
    /// level back.
    void hold(std::size_t ratio, double level) {
        constexpr double trifle = 1e-9;
        const double held = level + trifle * (1.0 + (level < 0.0 ? -level : level));
        for (std::size_t i = 0; i < count_; ++i)
            rows_.push_back(ratios_.numerators[ratio * count_ + i] -
                            held * ratios_.denominators[ratio * count_ + i]);
        row_lower_.push_back(-solver::infinity);
        row_upper_.push_back(held * ratios_.denominator_constants[ratio] -
                             ratios_.numerator_constants[ratio]);
    }

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
        heaviest_ = closest_heaviest * scale_kg(prepared_);
        row_upper_.push_back(heaviest_);
    }

    const PreparedBalance& prepared_;
    std::size_t count_;
    std::vector<double> rows_;
    std::vector<double> row_lower_;
    std::vector<double> row_upper_;
    RatioRows ratios_;
    double heaviest_ = 0.0;
};

/// Notes which of all ratios decided a stage that looked at those not yet held. The weights of its
/// `numbers` are of the ratios left, in their order. False if none decided.
inline bool note_deciding(const BalanceNumbers& numbers, std::vector<unsigned char>& held,
                          std::vector<double>& deciding) {
    constexpr double decides = 1e-9;
    bool any = false;
    std::size_t left = 0;
    for (std::size_t k = 0; k < held.size(); ++k) {
        if (held[k] != 0) continue;
        const double weight = left < numbers.deciding.size() ? numbers.deciding[left] : 0.0;
        ++left;
        if (!(weight > decides)) continue;
        deciding[k] = weight;
        held[k] = 1;
        any = true;
    }
    return any;
}

/// Stage by stage: the worst of all properties first; while it is outside its window, what decided
/// it is held where it is and the worst of the others comes next. So one target that nothing at
/// hand can help does not leave the others unhelped.
inline ClosestBlend closest_with(const PreparedBalance& prepared, bool keep_totals) {
    ClosestProblem problem(prepared, keep_totals);
    const auto& all = problem.ratios();
    BalanceWorkspace workspace(prepared.entry_count(), problem.within().row_count() + all.count(),
                               all.count());
    ClosestBlend blend;
    blend.ratios = all;
    blend.deciding.assign(all.count(), 0.0);
    std::vector<unsigned char> held(all.count(), 0);
    RatioRows left = all;
    for (;;) {
        const auto numbers = closest(problem.within(), left, prepared.added_mass, workspace);
        if (numbers.status != BalanceStatus::solved) break;
        blend.wet_kg.assign(numbers.wet_kg.begin(), numbers.wet_kg.end());
        blend.largest_deviation = std::max(blend.largest_deviation, numbers.largest_deviation);
        blend.found = true;
        if (!(numbers.largest_deviation > 1.0)) break;
        const auto before = held;
        if (!note_deciding(numbers, held, blend.deciding)) break;
        for (std::size_t k = 0; k < held.size(); ++k) {
            if (held[k] != before[k]) problem.hold(k, numbers.largest_deviation);
        }
        keep_ratios(all, held, prepared.entry_count(), left);
        if (left.count() == 0) break;
    }
    double whole = 0.0;
    for (const double mass : blend.wet_kg)
        whole += mass;
    blend.at_heaviest = blend.found && whole >= problem.heaviest() * (1.0 - 1e-9);
    return blend;
}

}  // namespace detail

/// The blend within the keeper's amounts whose worst property is closest to its aim, each measured
/// as in deviations_from_window; where that is outside its window, the next worst is brought as
/// close, and so on; then the least mass, then the order of the entries. Totals are kept if the
/// amounts allow it. At most one solution of `closest` for each property. Threads: pure.
inline ClosestBlend closest_blend(const PreparedBalance& prepared) {
    auto blend = detail::closest_with(prepared, true);
    if (!blend.found) blend = detail::closest_with(prepared, false);
    return blend;
}

}  // namespace feed
