#pragma once
// The problems that are timed: balances as a kitchen states them, each with an answer.

#include <cstddef>
#include <vector>

#include "feed/solver/solve.hpp"
#include "solver_problems.hpp"

namespace feed_bench {

using Numbers = std::vector<double>;

/// `count` balances of `n` feedstocks with six limits that can be met: C:N and moisture windows, a
/// total, one share.
inline std::vector<feed_test::GeneratedProblem> kitchen_problems(std::size_t n, std::size_t count,
                                                                 feed_test::Curvature curvature) {
    std::vector<feed_test::GeneratedProblem> problems;
    feed::solver::Workspace workspace(n, 6);
    for (std::size_t seed = 0; problems.size() < count; ++seed) {
        feed_test::Random random(seed * 1000 + n);
        feed_test::GeneratedProblem p = feed_test::generate::kitchen(random, n, 1, curvature);
        if (feed::solver::solve(p.view(), workspace).status == feed::solver::Status::solved) {
            problems.push_back(p);
        }
    }
    return problems;
}

/// The aims C:N 30 and moisture 78 % as four ratios, one for each side of each aim, scaled by the
/// window.
struct Aims {
    Numbers numerators, denominators;
};

inline Aims aims_of(const feed_test::GeneratedProblem& p) {
    const std::size_t n = p.variables();
    Aims aims;
    Numbers nitrogen(n);
    Numbers carbon(n);
    for (std::size_t j = 0; j < n; ++j) {
        // Rows 0 and 1 are c - 20 n and c - 50 n.
        nitrogen[j] = (p.rows[j] - p.rows[n + j]) / 30;
        carbon[j] = p.rows[j] + 20 * nitrogen[j];
    }
    const auto add = [&](const auto& excess, const auto& denominator) {
        for (std::size_t j = 0; j < n; ++j) {
            aims.numerators.push_back(excess(j));
            aims.denominators.push_back(denominator(j));
        }
    };
    const auto by_nitrogen = [&](std::size_t j) { return nitrogen[j]; };
    const auto by_mass = [](std::size_t) { return 1.0; };
    // Row 2 is moisture - 0.70.
    add([&](std::size_t j) { return (carbon[j] - 30 * nitrogen[j]) / 20; }, by_nitrogen);
    add([&](std::size_t j) { return (30 * nitrogen[j] - carbon[j]) / 10; }, by_nitrogen);
    add([&](std::size_t j) { return (p.rows[2 * n + j] - 0.08) / 0.07; }, by_mass);
    add([&](std::size_t j) { return (0.08 - p.rows[2 * n + j]) / 0.08; }, by_mass);
    return aims;
}

}  // namespace feed_bench
