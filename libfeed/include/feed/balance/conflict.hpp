#pragma once
#include <cstddef>
#include <string>
#include <vector>

#include "feed/balance/prepared_balance.hpp"
#include "feed/solver/conflict.hpp"
#include "feed/solver/workspace.hpp"

namespace feed {

/// A minimal set of entries and targets that contradict each other.
struct BalanceConflict {
    bool found = false;
    std::vector<std::size_t> entries;  ///< indices of entries whose amounts take part
    std::vector<std::size_t> targets;  ///< indices of targets that take part
};

/// Finds a minimal set of the keeper's own amounts and targets that cannot be met together: without
/// any one of them the rest can. Where there are several, those written first are kept, amounts
/// before targets. That no amount is below zero is never lifted.
/// One linear problem for each amount and target. Threads: pure.
inline BalanceConflict find_conflict(const PreparedBalance& prepared) {
    const std::size_t entries = prepared.entry_count();
    const std::size_t window_rows = prepared.row_origins.size();
    const std::vector<double> zero(entries, 0.0);
    const std::vector<double> no_limit(entries, solver::infinity);
    auto rows = prepared.rows;
    rows.resize(window_rows * entries);
    auto low = prepared.row_lower;
    auto high = prepared.row_upper;
    low.resize(window_rows);
    high.resize(window_rows);

    using solver::Removable;
    std::vector<Removable> removable;
    for (std::size_t r = 0; r < window_rows; ++r)
        removable.push_back({Removable::Kind::row, r, solver::Side::both,
                             entries + prepared.row_origins[r].target});
    for (std::size_t i = 0; i < entries; ++i) {
        const bool has_least = prepared.lower[i] > 0.0;
        if (!has_least && !(prepared.upper[i] < solver::infinity)) continue;
        rows.resize(rows.size() + entries, 0.0);
        rows[rows.size() - entries + i] = 1.0;
        removable.push_back({Removable::Kind::row, low.size(), solver::Side::both, i});
        low.push_back(has_least ? prepared.lower[i] : -solver::infinity);
        high.push_back(prepared.upper[i]);
    }
    solver::Workspace workspace(entries, low.size());
    const auto found =
        solver::find_conflict({zero, no_limit, rows, low, high}, removable, workspace);
    BalanceConflict conflict;
    conflict.found = found.status == solver::Status::infeasible;
    for (const std::size_t number : found.entries) {
        if (number < entries) {
            conflict.entries.push_back(number);
        } else {
            conflict.targets.push_back(number - entries);
        }
    }
    return conflict;
}

}  // namespace feed
