#include "feed/solver/solve.hpp"

#include <limits>
#include <string>
#include <vector>

#include "catch2.hpp"

using feed::solver::Fault;
using feed::solver::infinity;
using feed::solver::Options;
using feed::solver::Problem;
using feed::solver::Result;
using feed::solver::Side;
using feed::solver::solve;
using feed::solver::Status;
using feed::solver::Workspace;
using feed_test::Approx;
using Numbers = std::vector<double>;

// The example of the manual of the R package quadprog, which implements Goldfarb and Idnani (1983):
// solution (10, 22, 44)/21, objective -50/21, multipliers (0, 5, 44)/21. Value recalled, checked by
// hand.
TEST_CASE("the quadprog manual's example comes out") {
    const Numbers hessian{1, 1, 1};
    const Numbers gradient{0, -5, 0};
    const Numbers lower(3, -infinity);
    const Numbers upper(3, infinity);
    const Numbers rows{-4, -3, 0, 2, 1, 0, 0, -2, 1};
    const Numbers row_lower{-8, 2, 0};
    const Numbers row_upper(3, infinity);
    Workspace workspace(3, 3);
    for (const bool general : {false, true}) {
        Options options;
        options.general_method = general;
        const Result result = solve({hessian, gradient, {lower, upper, rows, row_lower, row_upper}},
                                    workspace, options);
        REQUIRE(result.status == Status::solved);
        CHECK(result.x[0] == Approx(10.0 / 21));
        CHECK(result.x[1] == Approx(22.0 / 21));
        CHECK(result.x[2] == Approx(44.0 / 21));
        CHECK(result.objective == Approx(-50.0 / 21));
        CHECK(result.row_multipliers[0] == 0);
        CHECK(result.row_multipliers[1] == Approx(5.0 / 21));
        CHECK(result.row_multipliers[2] == Approx(44.0 / 21));
        CHECK(result.row_sides[0] == Side::between);
        CHECK(result.row_sides[1] == Side::lower);
        CHECK(result.variable_sides[0] == Side::between);
    }
}

// Beale (1955): the simplex method with the steepest slope cycles on it. Optimum -1/20 at (1/25, 0,
// 1, 0).
TEST_CASE("Beale's cycling example ends") {
    const Numbers gradient{-0.75, 150, -0.02, 6};
    const Numbers lower(4, 0);
    const Numbers upper(4, infinity);
    const Numbers rows{0.25, -60, -0.04, 9, 0.5, -90, -0.02, 3, 0, 0, 1, 0};
    const Numbers row_lower(3, -infinity);
    const Numbers row_upper{0, 0, 1};
    Workspace workspace(4, 3);
    const Result result =
        solve({{}, gradient, {lower, upper, rows, row_lower, row_upper}}, workspace);
    REQUIRE(result.status == Status::solved);
    CHECK(result.objective == Approx(-0.05));
    CHECK(result.x[0] == Approx(0.04));
    CHECK(result.x[2] == Approx(1));
}

// Klee and Minty (1972), three variables: maximum 10000 at (0, 0, 10000).
TEST_CASE("the Klee-Minty cube is solved") {
    const Numbers gradient{-100, -10, -1};
    const Numbers lower(3, 0);
    const Numbers upper(3, infinity);
    const Numbers rows{1, 0, 0, 20, 1, 0, 200, 20, 1};
    const Numbers row_lower(3, -infinity);
    const Numbers row_upper{1, 100, 10000};
    Workspace workspace(3, 3);
    const Result result =
        solve({{}, gradient, {lower, upper, rows, row_lower, row_upper}}, workspace);
    REQUIRE(result.status == Status::solved);
    CHECK(result.objective == Approx(-10000));
    CHECK(result.x[2] == Approx(10000));
}

TEST_CASE("without rows a strictly convex problem is clipped") {
    const Numbers hessian{2, 2, 2};
    const Numbers gradient{-2, -20, 20};
    const Numbers lower{0, 0, 0};
    const Numbers upper{5, 5, 5};
    Workspace workspace(3, 0);
    const Result result = solve({hessian, gradient, {lower, upper, {}, {}, {}}}, workspace);
    REQUIRE(result.status == Status::solved);
    CHECK(result.x[0] == 1);
    CHECK(result.x[1] == 5);
    CHECK(result.x[2] == 0);
    CHECK(result.bound_multipliers[0] == 0);
    CHECK(result.bound_multipliers[1] == -10);  // pushes down from the upper bound
    CHECK(result.bound_multipliers[2] == 20);   // pushes up from the lower bound
    CHECK(result.variable_sides[1] == Side::upper);
    CHECK(result.variable_sides[2] == Side::lower);
}

TEST_CASE("a multiplier is the rise of the objective when its limit is raised") {
    // minimise x^2/2 with x >= limit: limit^2/2, slope limit.
    const Numbers hessian{1};
    const Numbers gradient{0};
    const Numbers lower{-infinity};
    const Numbers upper{infinity};
    const Numbers rows{1};
    const Numbers row_upper{infinity};
    Workspace workspace(1, 1);
    const Numbers row_lower{3};
    const Result result =
        solve({hessian, gradient, {lower, upper, rows, row_lower, row_upper}}, workspace);
    REQUIRE(result.status == Status::solved);
    CHECK(result.row_multipliers[0] == Approx(3));
}

TEST_CASE("an empty problem has the empty answer") {
    Workspace workspace(0, 0);
    CHECK(solve({{}, {}, {{}, {}, {}, {}, {}}}, workspace).status == Status::solved);
}

TEST_CASE("an ordinary gap and a tiny gap are both found and proven") {
    for (const double gap : {1.0, 1e-4, 1e-8}) {
        for (const double hessian_entry : {0.0, 1.0}) {
            const Numbers hessian{hessian_entry};
            const Numbers lower{-infinity};
            const Numbers upper{0};
            const Numbers rows{1};
            const Numbers row_lower{gap};
            const Numbers row_upper{infinity};
            Workspace workspace(1, 1);
            const Result result =
                solve({hessian, {}, {lower, upper, rows, row_lower, row_upper}}, workspace);
            REQUIRE(result.status == Status::infeasible);
            CHECK(result.row_multipliers[0] > 0);
            CHECK(result.bound_multipliers[0] < 0);
        }
    }
}

TEST_CASE("limits that cross are infeasible at once") {
    const Numbers lower{1};
    const Numbers upper{0};
    Workspace workspace(1, 1);
    CHECK(solve({{}, {}, {lower, upper, {}, {}, {}}}, workspace).status == Status::infeasible);
}

TEST_CASE("an objective without a minimum comes with its ray") {
    const Numbers gradient{-1, 0};
    const Numbers lower{0, 0};
    const Numbers upper{infinity, infinity};
    const Numbers rows{1, -1};
    const Numbers row_lower{-infinity};
    const Numbers row_upper{1};
    Workspace workspace(2, 1);
    const Result result =
        solve({{}, gradient, {lower, upper, rows, row_lower, row_upper}}, workspace);
    REQUIRE(result.status == Status::unbounded);
    CHECK(result.ray[0] > 0);
    CHECK(result.ray[1] >= result.ray[0]);
    CHECK(result.x[0] - result.x[1] <= 1);
}

TEST_CASE("a curved variable does not hide a flat one") {
    const Numbers hessian{1, 0};
    const Numbers gradient{0, 1};
    const Numbers lower{-infinity, -infinity};
    const Numbers upper{infinity, infinity};
    Workspace workspace(2, 0);
    CHECK(solve({hessian, gradient, {lower, upper, {}, {}, {}}}, workspace).status ==
          Status::unbounded);
}

TEST_CASE("malformed problems are named") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    Workspace workspace(2, 1);
    const Numbers zeros{0, 0};
    const Numbers ones{1, 1};
    const Numbers row{1, 1};
    const Numbers zero{0};
    const Numbers one{1};
    const auto fault = [&](const Problem& problem) {
        const Result result = solve(problem, workspace);
        CHECK(result.status == Status::numerical);
        return result.fault;
    };
    const Numbers bad_hessian{1, -1};
    const Numbers bad_number{nan, 0};
    const Numbers bad_lower{infinity, 0};
    const Numbers three(3, 0.0);
    CHECK(fault({zero, {}, {zeros, ones, row, zero, one}}) == Fault::sizes_differ);
    CHECK(fault({{}, {}, {zeros, ones, zeros, zero, {}}}) == Fault::sizes_differ);
    CHECK(fault({{}, {}, {zeros, one, row, zero, one}}) == Fault::sizes_differ);
    CHECK(fault({{}, {}, {three, three, {}, {}, {}}}) == Fault::workspace_too_small);
    CHECK(fault({bad_hessian, {}, {zeros, ones, row, zero, one}}) == Fault::negative_curvature);
    CHECK(fault({{}, bad_number, {zeros, ones, row, zero, one}}) == Fault::not_finite);
    CHECK(fault({{}, {}, {bad_number, ones, row, zero, one}}) == Fault::not_finite);
    CHECK(fault({{}, {}, {bad_lower, ones, row, zero, one}}) == Fault::not_finite);
    CHECK(fault({{}, {}, {zeros, ones, bad_number, zero, one}}) == Fault::not_finite);
}

TEST_CASE("the iteration limit is kept") {
    const Numbers gradient{-100, -10, -1};
    const Numbers lower(3, 0);
    const Numbers upper(3, infinity);
    const Numbers rows{1, 0, 0, 20, 1, 0, 200, 20, 1};
    const Numbers row_lower(3, -infinity);
    const Numbers row_upper{1, 100, 10000};
    Workspace workspace(3, 3);
    Options options;
    options.iteration_limit = 1;
    const Result result =
        solve({{}, gradient, {lower, upper, rows, row_lower, row_upper}}, workspace, options);
    CHECK(result.status == Status::iteration_limit);
}

TEST_CASE("a big problem of 300 variables is solved by both methods alike") {
    constexpr std::size_t n = 300;
    constexpr std::size_t m = 40;
    Numbers hessian(n), gradient(n), lower(n, 0.0), upper(n, 2.0), rows(n * m), row_lower(m),
        row_upper(m, infinity);
    unsigned state = 7;
    const auto next = [&state] {
        state = state * 1664525U + 1013904223U;
        return static_cast<double>(state >> 8U) / 16777216.0;
    };
    for (std::size_t j = 0; j < n; ++j) {
        hessian[j] = 0.5 + next();
        gradient[j] = -next();
    }
    for (double& entry : rows)
        entry = next() - 0.3;
    for (std::size_t i = 0; i < m; ++i) {
        double activity = 0;
        for (std::size_t j = 0; j < n; ++j)
            activity += rows[i * n + j];
        row_lower[i] = activity;  // x = 1 is feasible and every row is hard
    }
    const Problem problem{hessian, gradient, {lower, upper, rows, row_lower, row_upper}};
    Workspace workspace(n, m);
    const Result quick = solve(problem, workspace);
    REQUIRE(quick.status == Status::solved);
    const double objective = quick.objective;
    const Numbers x(quick.x.begin(), quick.x.end());
    Options options;
    options.general_method = true;
    const Result general = solve(problem, workspace, options);
    REQUIRE(general.status == Status::solved);
    CHECK(general.objective == Approx(objective).epsilon(1e-9));
    for (std::size_t j = 0; j < n; ++j)
        CHECK(general.x[j] == Approx(x[j]).margin(1e-8));
}
