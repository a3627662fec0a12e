#include "feed/solver/verify.hpp"

#include <cmath>
#include <vector>

#include "catch2.hpp"

using feed::solver::accepted;
using feed::solver::feasibility_error;
using feed::solver::infinity;
using feed::solver::optimality_errors;
using feed::solver::Polyhedron;
using feed::solver::Problem;
using feed::solver::proves_infeasible;
using feed::solver::proves_unbounded;
using Numbers = std::vector<double>;

namespace {

// minimise (x^2 + y^2)/2 with x + y = 2, 0 <= x, y <= 5: (1, 1), multiplier 1.
const Numbers hessian{1, 1};
const Numbers gradient{0, 0};
const Numbers lower{0, 0};
const Numbers upper{5, 5};
const Numbers rows{1, 1};
const Numbers row_limit{2};
const Problem problem{hessian, gradient, {lower, upper, rows, row_limit, row_limit}};

bool accepts(const Numbers& x, const Numbers& y, const Numbers& z) {
    return accepted(optimality_errors(problem, x, y, z), 1e-9);
}

}  // namespace

TEST_CASE("the check accepts the optimum and nothing near it") {
    CHECK(accepts({1, 1}, {1}, {0, 0}));
    CHECK(accepts({1 + 1e-11, 1 - 1e-11}, {1}, {0, 0}));
    CHECK_FALSE(accepts({1 + 1e-7, 1 - 1e-7}, {1}, {0, 0}));         // not stationary
    CHECK_FALSE(accepts({1 + 1e-7, 1 + 1e-7}, {1 + 1e-7}, {0, 0}));  // off the row
    CHECK_FALSE(accepts({0, 2}, {1}, {-1, 1}));  // a lower bound that pulls down
    CHECK_FALSE(accepts({1, 1}, {0}, {1, 1}));   // multipliers of bounds that are not met
    CHECK_FALSE(accepts({1, 1}, {-1}, {0, 0}));  // wrong sign
    CHECK_FALSE(accepts({6, -4}, {1}, {0, 0}));  // out of bounds
}

TEST_CASE("a point or multiplier that is not a number is refused") {
    const double nan = std::nan("");
    CHECK_FALSE(accepts({nan, 1}, {1}, {0, 0}));
    CHECK_FALSE(accepts({1, 1}, {nan}, {0, 0}));
    CHECK_FALSE(accepts({1, 1}, {1}, {0, nan}));
    CHECK_FALSE(accepts({infinity, 1}, {1}, {0, 0}));
}

TEST_CASE("errors do not depend on the unit of a row, a variable or the objective") {
    const Numbers x{1.001, 1};
    const Numbers y{1};
    const Numbers z{0, 0};
    const auto plain = optimality_errors(problem, x, y, z);
    const double unit = 0x1p20;
    const Numbers scaled_rows{unit, unit};
    const Numbers scaled_limit{2 * unit};
    const Numbers scaled_y{1 / unit};
    const auto other_row = optimality_errors(
        {hessian, gradient, {lower, upper, scaled_rows, scaled_limit, scaled_limit}}, x, scaled_y,
        z);
    CHECK(other_row.primal == plain.primal);
    CHECK(other_row.stationarity == plain.stationarity);
    const Numbers scaled_hessian{unit, unit};
    const Numbers times_y{unit};
    const auto other_objective =
        optimality_errors({scaled_hessian, gradient, problem.within}, x, times_y, z);
    CHECK(other_objective.stationarity == plain.stationarity);
}

TEST_CASE("a multiplier on a limit that does not exist is refused") {
    const Numbers open{-infinity};
    const Problem one_sided{hessian, gradient, {lower, upper, rows, open, row_limit}};
    const Numbers x{1, 1};
    const Numbers y{1};  // would push up from a lower limit
    const Numbers z{0, 0};
    CHECK_FALSE(accepted(optimality_errors(one_sided, x, y, z), 1e-9));
}

TEST_CASE("only a real certificate proves that nothing is feasible") {
    const Numbers row_lower{11};
    const Numbers row_upper{infinity};
    const Polyhedron within{lower, upper, rows, row_lower, row_upper};  // x + y >= 11, x, y <= 5
    const auto proves = [&](const Numbers& y, const Numbers& z) {
        return proves_infeasible(within, y, z, 1e-9);
    };
    CHECK(proves({1}, {-1, -1}));
    CHECK(proves({1e-6}, {-1e-6, -1e-6}));
    CHECK_FALSE(proves({0}, {0, 0}));
    CHECK_FALSE(proves({1}, {-1, 0}));  // does not cancel
    CHECK_FALSE(proves({-1}, {1, 1}));  // uses an upper limit that is not there
    const Numbers reachable{10};
    CHECK_FALSE(proves_infeasible({lower, upper, rows, reachable, row_upper}, Numbers{1},
                                  Numbers{-1, -1}, 1e-9));
}

TEST_CASE("only a real ray proves that there is no minimum") {
    const Numbers fall{-1, 0};
    const Numbers free_upper{infinity, infinity};
    const Numbers difference{1, -1};
    const Numbers row_lower{-infinity};
    const Numbers row_upper{1};
    const Polyhedron within{lower, free_upper, difference, row_lower, row_upper};
    const Problem linear{{}, fall, within};
    CHECK(proves_unbounded(linear, Numbers{1, 1}, 1e-9));
    CHECK_FALSE(proves_unbounded(linear, Numbers{1, 0}, 1e-9));                   // meets the row
    CHECK_FALSE(proves_unbounded(linear, Numbers{-1, 0}, 1e-9));                  // meets a bound
    CHECK_FALSE(proves_unbounded(linear, Numbers{0, 1}, 1e-9));                   // does not fall
    CHECK_FALSE(proves_unbounded({hessian, fall, within}, Numbers{1, 1}, 1e-9));  // curved
}

TEST_CASE("feasibility is measured against the terms of the row") {
    const Polyhedron& within = problem.within;
    CHECK(feasibility_error(within, Numbers{1, 1}) == 0);
    CHECK(feasibility_error(within, Numbers{1, 2}) == 1.0 / 5);
    CHECK(feasibility_error(within, Numbers{-1, 3}) == 1);
}
