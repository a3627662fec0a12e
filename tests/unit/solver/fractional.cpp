#include "feed/solver/fractional.hpp"

#include <vector>

#include "catch2.hpp"
#include "solver_problems.hpp"

using feed::solver::Fault;
using feed::solver::fractional;
using feed::solver::FractionalResult;
using feed::solver::FractionalStatus;
using feed::solver::infinity;
using feed::solver::Polyhedron;
using feed::solver::Ratios;
using feed::solver::solve;
using feed::solver::Status;
using feed::solver::Workspace;
using feed_test::Approx;
using Numbers = std::vector<double>;

namespace {

// Two materials: carbon and nitrogen per kilogram as fed. The deviation of C:N from 30 counts 1
// per 10.
const Numbers carbon{0.1, 0.4};
const Numbers nitrogen{0.005, 0.002};

Numbers deviation_numerators() {
    Numbers numerators;
    for (const double sign : {1.0, -1.0}) {
        for (std::size_t j = 0; j < 2; ++j)
            numerators.push_back(sign * (carbon[j] - 30 * nitrogen[j]) / 10);
    }
    return numerators;
}

Numbers deviation_denominators() {
    return {0.005, 0.002, 0.005, 0.002};
}

}  // namespace

// The closed form for two materials (nitrogen-weighted C:N): 0.1 + 0.4 m = 30 (0.005 + 0.002 m), m
// = 0.05/0.34.
TEST_CASE("an aim that can be met is met exactly") {
    const Numbers lower{1, 0};
    const Numbers upper{1, 5};
    const Numbers numerators = deviation_numerators();
    const Numbers denominators = deviation_denominators();
    Workspace workspace(2, 2);
    const FractionalResult result =
        fractional({lower, upper, {}, {}, {}}, {numerators, {}, denominators, {}}, {}, workspace);
    REQUIRE(result.status == FractionalStatus::solved);
    CHECK(result.x[1] == Approx(0.05 / 0.34).epsilon(1e-12));
    CHECK(result.value == Approx(0).margin(1e-12));
}

TEST_CASE("an aim out of reach is approached to the nearest limit") {
    const Numbers lower{1, 0};
    const Numbers upper{1, 0.1};
    const Numbers numerators = deviation_numerators();
    const Numbers denominators = deviation_denominators();
    Workspace workspace(2, 2);
    const FractionalResult result =
        fractional({lower, upper, {}, {}, {}}, {numerators, {}, denominators, {}}, {}, workspace);
    REQUIRE(result.status == FractionalStatus::solved);
    CHECK(result.x[1] == 0.1);
    CHECK(result.value == Approx((30 - 0.14 / 0.0052) / 10).epsilon(1e-12));
    CHECK(result.ratio_multipliers[0] == 0);
    CHECK(result.ratio_multipliers[1] > 0);
    CHECK(result.bound_multipliers[1] < 0);
}

TEST_CASE("of the points that reach the smallest value the tie objectives choose") {
    // One ratio x/(x + y + z) with x >= 1 and x + y + z <= 4: value 1/4 wherever y + z = 3.
    const Numbers lower{1, 0, 0};
    const Numbers upper{4, 4, 4};
    const Numbers rows{1, 1, 1};
    const Numbers row_lower{-infinity};
    const Numbers row_upper{4};
    const Numbers numerators{1, 0, 0};
    const Numbers denominators{1, 1, 1};
    const Numbers least_z{0, 0, 1};
    Workspace workspace(3, 2);
    const Polyhedron within{lower, upper, rows, row_lower, row_upper};
    const FractionalResult plain =
        fractional(within, {numerators, {}, denominators, {}}, {}, workspace);
    REQUIRE(plain.status == FractionalStatus::solved);
    CHECK(plain.value == Approx(0.25));
    CHECK(plain.x[1] == Approx(0).margin(1e-12));
    CHECK(plain.x[2] == Approx(3));
    const FractionalResult chosen =
        fractional(within, {numerators, {}, denominators, {}}, least_z, workspace);
    REQUIRE(chosen.status == FractionalStatus::solved);
    CHECK(chosen.x[1] == Approx(3));
    CHECK(chosen.x[2] == Approx(0).margin(1e-12));
}

TEST_CASE("a value that is only approached is unbounded, with its limit and its ray") {
    // The ratio of carbon to nitrogen, to be as large as possible, with as much of the second as
    // you like: 200.
    const Numbers lower{1, 0};
    const Numbers upper{infinity, infinity};
    const Numbers numerators{-0.1, -0.4};
    Workspace workspace(2, 1);
    const FractionalResult result =
        fractional({lower, upper, {}, {}, {}}, {numerators, {}, nitrogen, {}}, {}, workspace);
    REQUIRE(result.status == FractionalStatus::unbounded);
    CHECK(result.value == Approx(-200));
    CHECK(result.ray[0] == 0);
    CHECK(result.ray[1] > 0);
}

TEST_CASE("an unbounded set does not matter if the best value is reached") {
    const Numbers lower{1, 0};
    const Numbers upper{infinity, infinity};
    Workspace workspace(2, 1);
    const FractionalResult result =
        fractional({lower, upper, {}, {}, {}}, {carbon, {}, nitrogen, {}}, {}, workspace);
    REQUIRE(result.status == FractionalStatus::solved);
    CHECK(result.value == Approx(20));
    CHECK(result.x[0] == 1);
    CHECK(result.x[1] == 0);
}

TEST_CASE("a denominator that is negative or zero at the answer is named") {
    const Numbers lower{0};
    const Numbers upper{1};
    const Numbers one{1};
    const Numbers minus{-1};
    const Numbers zero{0};
    const Numbers half{0.5};
    Workspace workspace(1, 2);
    const Polyhedron within{lower, upper, {}, {}, {}};
    const FractionalResult negative = fractional(within, {one, {}, minus, half}, {}, workspace);
    CHECK(negative.status == FractionalStatus::denominator);
    CHECK(negative.bad_ratio == 0);
    const FractionalResult nothing = fractional(within, {one, {}, zero, {}}, {}, workspace);
    CHECK(nothing.status == FractionalStatus::denominator);
    // Zero at one end only: the answer lies at the other end and is fine. (x - 2)/x over [0, 1] is
    // -1 at x = 1 and falls without limit towards x = 0, where it has no value.
    const Numbers two{-2};
    CHECK(fractional(within, {one, two, one, {}}, {}, workspace).status ==
          FractionalStatus::denominator);
    const Numbers plus_two{2};
    const FractionalResult fine = fractional(within, {one, plus_two, one, {}}, {}, workspace);
    REQUIRE(fine.status == FractionalStatus::solved);
    CHECK(fine.x[0] == 1);
    CHECK(fine.value == Approx(3));
}

TEST_CASE("contradictions and misfits are told apart") {
    const Numbers lower{0, 0};
    const Numbers upper{1, 1};
    const Numbers rows{1, 1};
    const Numbers row_lower{3};
    const Numbers row_upper{infinity};
    Workspace workspace(2, 2);
    const FractionalResult result = fractional({lower, upper, rows, row_lower, row_upper},
                                               {carbon, {}, nitrogen, {}}, {}, workspace);
    CHECK(result.status == FractionalStatus::infeasible);
    CHECK(result.row_multipliers[0] > 0);
    const Numbers one{1};
    CHECK(fractional({lower, upper, {}, {}, {}}, {carbon, {}, one, {}}, {}, workspace).fault ==
          Fault::sizes_differ);
    Workspace narrow(2, 1);
    const FractionalResult no_room = fractional({lower, upper, rows, row_lower, row_upper},
                                                {carbon, {}, nitrogen, {}}, {}, narrow);
    CHECK(no_room.fault == Fault::workspace_too_small);
}

// For a fixed level the set of points with every ratio at most that level is a polyhedron: the
// level that was found must leave a point, and a level a little lower must leave none.
TEST_CASE("on generated feedings the value is the lowest level that leaves a point") {
    Workspace workspace(16, 32);
    std::size_t solved = 0;
    for (std::size_t index = 0; index < 300; ++index) {
        feed_test::Random random(index);
        const std::size_t n = 2 + random.below(10);
        feed_test::GeneratedProblem p =
            feed_test::generate::kitchen(random, n, 0, feed_test::Curvature::none);
        // Rows 0 to 3 are the windows; aim at C:N 30 and moisture 0.78 instead. Keep the total as a
        // row.
        Numbers numerators;
        Numbers denominators;
        for (std::size_t j = 0; j < n; ++j) {
            // From rows c - 20 n and c - 50 n: n = (row0 - row1)/30, c = row0 + 20 n.
            const double nit = (p.rows[j] - p.rows[n + j]) / 30;
            const double car = p.rows[j] + 20 * nit;
            numerators.push_back((car - 30 * nit) / 20);
            denominators.push_back(nit);
        }
        for (std::size_t j = 0; j < n; ++j) {
            numerators.push_back(-numerators[j] * 2);
            denominators.push_back(denominators[j]);
        }
        for (const double sign : {1.0, -1.0}) {
            for (std::size_t j = 0; j < n; ++j) {
                numerators.push_back(sign * (p.rows[2 * n + j] + 0.70 - 0.78) /
                                     (sign > 0 ? 0.07 : 0.08));
                denominators.push_back(1);
            }
        }
        const Numbers total(p.rows.begin() + static_cast<std::ptrdiff_t>(4 * n),
                            p.rows.begin() + static_cast<std::ptrdiff_t>(5 * n));
        const Numbers row_lower{p.row_lower[4]};
        const Numbers row_upper{p.row_upper[4]};
        const Polyhedron within{p.lower, p.upper, total, row_lower, row_upper};
        const FractionalResult result =
            fractional(within, {numerators, {}, denominators, {}}, total, workspace);
        if (result.status == FractionalStatus::denominator)
            continue;  // nothing with nitrogen was drawn
        INFO("feeding " << index);
        REQUIRE(result.status == FractionalStatus::solved);
        ++solved;
        const double value = result.value;
        for (const double nudge : {1e-7, -1e-7}) {
            Numbers rows = total;
            Numbers low = row_lower;
            Numbers high = row_upper;
            const double level = value + nudge;
            for (std::size_t k = 0; k < 4; ++k) {
                for (std::size_t j = 0; j < n; ++j)
                    rows.push_back(level * denominators[k * n + j] - numerators[k * n + j]);
                low.push_back(0);
                high.push_back(infinity);
            }
            const Status status =
                solve({{}, {}, {p.lower, p.upper, rows, low, high}}, workspace).status;
            CHECK(status == (nudge > 0 ? Status::solved : Status::infeasible));
        }
    }
    CHECK(solved > 200);
}
