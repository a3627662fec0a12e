#pragma once
// Several linear objectives in order of priority, ending in one single point.

#include <span>

#include "feed/solver/problem.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver {

/// Minimises linear objectives one after the other, each among the points that are best for those
/// before it; then makes the first variable as small as possible, then the second, and so on, so
/// that the answer is a single point. A variable without a lower limit on the remaining face is
/// made as large as possible instead, and left alone if it has no upper limit either.
/// @param within      the feasible set.
/// @param objectives  k times n finite entries, objective after objective; k may be 0.
/// @return x is the final point; objective and multipliers belong to the first objective. Unbounded
/// if an objective
///         has no minimum on the face left by those before it.
inline Result lexicographic(const Polyhedron& within, std::span<const double> objectives,
                            Workspace& workspace, const Options& options = {});

}  // namespace feed::solver
