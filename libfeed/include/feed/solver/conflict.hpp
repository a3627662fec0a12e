#pragma once
// Which limits contradict each other, and the point that oversteps them least.

#include <algorithm>
#include <cstddef>
#include <span>
#include <vector>

#include "feed/solver/lexicographic.hpp"
#include "feed/solver/problem.hpp"
#include "feed/solver/solve.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver {

/// One limit that may be lifted. Limits with the same `entry` are lifted together (an exact amount
/// is two limits).
struct Removable {
    enum class Kind : unsigned char { row, variable };
    Kind kind = Kind::row;
    std::size_t index = 0;   ///< the row or variable.
    Side side = Side::both;  ///< which of its limits: lower, upper or both.
    std::size_t entry =
        0;  ///< the caller's number for it; smaller numbers are kept rather than larger ones.
};

/// The answer of `find_conflict`.
struct Conflict {
    /// infeasible: `entries` is a conflict. solved: there is none, all limits can be met.
    Status status = Status::numerical;
    /// Entry numbers, rising. Together with the limits not listed as removable they cannot be met;
    /// without any one of them they can. Empty if the limits not listed contradict each other by
    /// themselves.
    std::vector<std::size_t> entries;
};

/// Finds a minimal set of entries that cannot be met together, by trying to lift each entry, the
/// largest number first. The result depends only on the problem and the numbering. Limits not
/// listed are never lifted. Time: one linear solve per distinct entry.
/// Threads: any number, each with its own workspace. Allocates.
inline Conflict find_conflict(const Polyhedron& within, std::span<const Removable> removable,
                              Workspace& workspace, const Options& options = {}) {
    std::vector<double> lower(within.lower.begin(), within.lower.end());
    std::vector<double> upper(within.upper.begin(), within.upper.end());
    std::vector<double> row_lower(within.row_lower.begin(), within.row_lower.end());
    std::vector<double> row_upper(within.row_upper.begin(), within.row_upper.end());
    const Polyhedron trial{lower, upper, within.rows, row_lower, row_upper};
    Conflict conflict;
    conflict.status = solve({{}, {}, trial}, workspace, options).status;
    if (conflict.status != Status::infeasible) return conflict;

    const auto lift = [&](const Removable& limit) {
        const bool row = limit.kind == Removable::Kind::row;
        if (limit.side != Side::upper) (row ? row_lower : lower)[limit.index] = -infinity;
        if (limit.side != Side::lower) (row ? row_upper : upper)[limit.index] = infinity;
    };
    std::vector<std::size_t> entries;
    entries.reserve(removable.size());
    for (const Removable& limit : removable)
        entries.push_back(limit.entry);
    std::sort(entries.begin(), entries.end());
    entries.erase(std::unique(entries.begin(), entries.end()), entries.end());
    std::vector<bool> lifted(entries.size(), false);
    for (std::size_t k = entries.size(); k-- > 0;) {
        // A limit may belong to several entries, so each trial starts from the limits as they were
        // given.
        lower.assign(within.lower.begin(), within.lower.end());
        upper.assign(within.upper.begin(), within.upper.end());
        row_lower.assign(within.row_lower.begin(), within.row_lower.end());
        row_upper.assign(within.row_upper.begin(), within.row_upper.end());
        lifted[k] = true;
        for (const Removable& limit : removable) {
            const auto place = std::lower_bound(entries.begin(), entries.end(), limit.entry);
            if (lifted[static_cast<std::size_t>(place - entries.begin())]) lift(limit);
        }
        const Status status = solve({{}, {}, trial}, workspace, options).status;
        if (status == Status::solved) {
            lifted[k] = false;
        } else if (status != Status::infeasible) {
            conflict.status = status;
            return conflict;
        }
    }
    for (std::size_t k = 0; k < entries.size(); ++k) {
        if (!lifted[k]) conflict.entries.push_back(entries[k]);
    }
    return conflict;
}

namespace detail {

/// Writes the rows of `least_violation`: a variable of overstepping is added that loosens every row
/// with a scale.
/// @return how many rows there are.
inline std::size_t loosen_rows(const Polyhedron& within, std::span<const double> row_scales,
                               OwnedProblem& own) {
    const std::size_t n = within.variable_count();
    std::size_t count = 0;
    const auto add = [&](std::size_t i, double overstep, double low, double high) {
        double* row = own.rows.data() + count * (n + 1);
        for (std::size_t j = 0; j < n; ++j)
            row[j] = within.rows[i * n + j];
        row[n] = overstep;
        own.row_lower[count] = low;
        own.row_upper[count] = high;
        ++count;
    };
    for (std::size_t i = 0; i < within.row_count(); ++i) {
        const double low = within.row_lower[i];
        const double high = within.row_upper[i];
        if (row_scales[i] == 0) {
            add(i, 0, low, high);
            continue;
        }
        if (low > -infinity || high == infinity) add(i, row_scales[i], low, infinity);
        if (high < infinity) add(i, -row_scales[i], -infinity, high);
    }
    return count;
}

/// How many rows `loosen_rows` made of row i.
inline std::size_t loosened_count(const Polyhedron& within, std::span<const double> row_scales,
                                  std::size_t i) {
    const bool split =
        row_scales[i] != 0 && within.row_lower[i] > -infinity && within.row_upper[i] < infinity;
    return split ? 2 : 1;
}

}  // namespace detail

/// Finds the point whose largest overstepping of a row, divided by that row's scale, is smallest;
/// then minimises `tie_objectives` in order, then the first variable, and so on. Bounds of
/// variables are kept.
/// @param row_scales  m entries >= 0: the overstepping of row i that counts as 1; 0 for a row that
/// must be kept.
/// @return objective is the smallest largest scaled overstepping (0 if all rows can be met).
/// Needs a workspace of n variables and m rows. Allocates nothing.
/// Threads: any number, each with its own workspace.
inline Result least_violation(const Polyhedron& within, std::span<const double> row_scales,
                              std::span<const double> tie_objectives, Workspace& workspace,
                              const Options& options = {}) {
    const std::size_t n = within.variable_count();
    const std::size_t m = within.row_count();
    const Fault fault = detail::fault_of(within, workspace);
    if (fault != Fault::none) return detail::failure(fault);
    if (row_scales.size() != m ||
        (n == 0 ? !tie_objectives.empty() : tie_objectives.size() % n != 0)) {
        return detail::failure(Fault::sizes_differ);
    }
    bool scales_fit = detail::all_finite(row_scales) && detail::all_finite(tie_objectives);
    for (const double scale : row_scales)
        scales_fit = scales_fit && scale >= 0;
    if (!scales_fit) return detail::failure(Fault::not_finite);
    detail::Buffers& b = workspace.buffers();
    // Crossing limits of a loosened row are only a row that cannot be met; any other crossing is
    // final.
    for (std::size_t j = 0; j < n; ++j) {
        if (within.lower[j] > within.upper[j]) return detail::crossed(b, n, m);
    }
    for (std::size_t i = 0; i < m; ++i) {
        if (row_scales[i] == 0 && within.row_lower[i] > within.row_upper[i]) {
            return detail::crossed(b, n, m);
        }
    }
    const std::size_t count = detail::loosen_rows(within, row_scales, b.extended);
    for (std::size_t j = 0; j < n; ++j) {
        b.extended.lower[j] = within.lower[j];
        b.extended.upper[j] = within.upper[j];
        b.extended.gradient[j] = 0;
    }
    b.extended.lower[n] = 0;
    b.extended.upper[n] = infinity;
    b.extended.gradient[n] = 1;
    const Polyhedron loosened = b.extended.view(n + 1, count);
    Result result = detail::lexicographic_checked(loosened, {b.extended.gradient.data(), n + 1},
                                                  tie_objectives, n, workspace, options);
    if (result.x.empty()) return result;
    // Back to the caller's rows; the place in the longer list is never behind.
    std::size_t from = 0;
    for (std::size_t i = 0; i < m; ++i) {
        double sum = 0;
        Side side = Side::between;
        for (std::size_t k = detail::loosened_count(within, row_scales, i); k-- > 0; ++from) {
            sum += b.row_multipliers[from];
            if (b.row_sides[from] != Side::between) side = b.row_sides[from];
        }
        b.row_multipliers[i] = sum;
        b.row_sides[i] = side;
    }
    result.x = result.x.first(n);
    result.row_multipliers = {b.row_multipliers.data(), m};
    result.bound_multipliers = result.bound_multipliers.first(n);
    result.variable_sides = result.variable_sides.first(n);
    result.row_sides = {b.row_sides.data(), m};
    if (!result.ray.empty()) result.ray = result.ray.first(n);
    return result;
}

}  // namespace feed::solver
