#pragma once
// One separable convex quadratic or linear problem.

#include "feed/solver/problem.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver {

/// Solves a problem and checks the answer independently.
/// @return see Result; valid until the workspace is used again.
/// Threads: any number, each with its own workspace. Allocates nothing.
inline Result solve(const Problem& problem, Workspace& workspace, const Options& options = {});

}  // namespace feed::solver
