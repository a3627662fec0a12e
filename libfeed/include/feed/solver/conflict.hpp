#pragma once
// Which limits contradict each other, and the point that oversteps them least.

#include <cstddef>
#include <span>
#include <vector>

#include "feed/solver/problem.hpp"
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
inline Conflict find_conflict(const Polyhedron& within, std::span<const Removable> removable,
                              Workspace& workspace, const Options& options = {});

/// Finds the point whose largest overstepping of a row, divided by that row's scale, is smallest;
/// then minimises `tie_objectives` in order, then the first variable, and so on. Bounds of
/// variables are kept.
/// @param row_scales  m entries >= 0: the overstepping of row i that counts as 1; 0 for a row that
/// must be kept.
/// @return objective is the smallest largest scaled overstepping (0 if all rows can be met).
/// Needs a workspace of n variables and m rows. Allocates nothing.
inline Result least_violation(const Polyhedron& within, std::span<const double> row_scales,
                              std::span<const double> tie_objectives, Workspace& workspace,
                              const Options& options = {});

}  // namespace feed::solver
