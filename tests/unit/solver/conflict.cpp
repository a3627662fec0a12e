#include "feed/solver/conflict.hpp"

#include <vector>

#include "catch2.hpp"
#include "solver_problems.hpp"

using feed::solver::Conflict;
using feed::solver::find_conflict;
using feed::solver::infinity;
using feed::solver::least_violation;
using feed::solver::Polyhedron;
using feed::solver::Removable;
using feed::solver::Result;
using feed::solver::Side;
using feed::solver::solve;
using feed::solver::Status;
using feed::solver::Workspace;
using feed_test::Approx;
using Numbers = std::vector<double>;
using Kind = Removable::Kind;

TEST_CASE("a conflict names what contradicts and leaves out what does not") {
    // x <= 1, y <= 3 and x + y >= 5 contradict; x + y >= 2 has no part in it.
    const Numbers lower{0, 0};
    const Numbers upper{1, infinity};
    const Numbers rows{1, 1, 1, 1, 0, 1};
    const Numbers row_lower{5, 2, -infinity};
    const Numbers row_upper{infinity, infinity, 3};
    const std::vector<Removable> removable{{Kind::variable, 0, Side::upper, 3},
                                           {Kind::row, 0, Side::both, 1},
                                           {Kind::row, 1, Side::both, 2},
                                           {Kind::row, 2, Side::both, 0}};
    Workspace workspace(2, 3);
    const Conflict conflict =
        find_conflict({lower, upper, rows, row_lower, row_upper}, removable, workspace);
    CHECK(conflict.status == Status::infeasible);
    CHECK(conflict.entries == std::vector<std::size_t>{0, 1, 3});
}

TEST_CASE("of two possible conflicts the one with the smaller numbers is named") {
    // x >= 2 against x <= 1 twice.
    const Numbers lower{-infinity};
    const Numbers upper{infinity};
    const Numbers rows{1, 1, 1};
    const Numbers row_lower{2, -infinity, -infinity};
    const Numbers row_upper{infinity, 1, 1};
    Workspace workspace(1, 3);
    const Polyhedron within{lower, upper, rows, row_lower, row_upper};
    std::vector<Removable> removable{{Kind::row, 0, Side::both, 0},
                                     {Kind::row, 1, Side::both, 1},
                                     {Kind::row, 2, Side::both, 2}};
    CHECK(find_conflict(within, removable, workspace).entries == std::vector<std::size_t>{0, 1});
    removable[1].entry = 2;
    removable[2].entry = 1;
    CHECK(find_conflict(within, removable, workspace).entries == std::vector<std::size_t>{0, 1});
}

TEST_CASE("limits of one entry are lifted together") {
    // The window 1..2 of x is one entry, x = 5 the other.
    const Numbers lower{1};
    const Numbers upper{2};
    const Numbers rows{1};
    const Numbers limit{5};
    const std::vector<Removable> removable{{Kind::variable, 0, Side::both, 7},
                                           {Kind::row, 0, Side::both, 9}};
    Workspace workspace(1, 1);
    const Conflict conflict =
        find_conflict({lower, upper, rows, limit, limit}, removable, workspace);
    CHECK(conflict.entries == std::vector<std::size_t>{7, 9});
}

TEST_CASE("without a conflict none is named, and one among fixed limits is empty") {
    const Numbers lower{0};
    const Numbers upper{2};
    const Numbers rows{1};
    const Numbers fits{1};
    const Numbers too_much{3};
    const Numbers open{infinity};
    Workspace workspace(1, 1);
    const std::vector<Removable> removable{{Kind::row, 0, Side::both, 0}};
    CHECK(find_conflict({lower, upper, rows, fits, open}, removable, workspace).status ==
          Status::solved);
    const Conflict fixed = find_conflict({lower, upper, rows, too_much, open}, {}, workspace);
    CHECK(fixed.status == Status::infeasible);
    CHECK(fixed.entries.empty());
}

// What makes a conflict minimal, on generated contradictions: it cannot be met, and without any one
// entry it can.
TEST_CASE("conflicts of generated problems are minimal") {
    Workspace workspace(16, 32);
    std::size_t checked = 0;
    for (std::size_t index = 6; index < 1200; index += 11) {
        const feed_test::GeneratedProblem p = feed_test::generated_problem(index);
        std::vector<Removable> removable;
        for (std::size_t i = 0; i < p.row_count(); ++i)
            removable.push_back({Kind::row, i, Side::both, i});
        for (std::size_t j = 0; j < p.variables(); ++j)
            removable.push_back({Kind::variable, j, Side::both, p.row_count() + j});
        const Conflict conflict = find_conflict(p.within(), removable, workspace);
        REQUIRE(conflict.status == Status::infeasible);
        REQUIRE_FALSE(conflict.entries.empty());
        const auto status_without = [&](std::size_t left_out) {
            Numbers lower(p.variables(), -infinity), upper(p.variables(), infinity);
            Numbers row_lower(p.row_count(), -infinity), row_upper(p.row_count(), infinity);
            for (const std::size_t entry : conflict.entries) {
                if (entry == left_out) continue;
                if (entry < p.row_count()) {
                    row_lower[entry] = p.row_lower[entry];
                    row_upper[entry] = p.row_upper[entry];
                } else {
                    lower[entry - p.row_count()] = p.lower[entry - p.row_count()];
                    upper[entry - p.row_count()] = p.upper[entry - p.row_count()];
                }
            }
            return solve({{}, {}, {lower, upper, p.rows, row_lower, row_upper}}, workspace).status;
        };
        INFO("problem " << index);
        CHECK(status_without(static_cast<std::size_t>(-1)) == Status::infeasible);
        for (const std::size_t entry : conflict.entries)
            CHECK(status_without(entry) == Status::solved);
        ++checked;
    }
    CHECK(checked > 100);
}

TEST_CASE("the least violation is shared out by the scales") {
    // x >= 4 (scale 1) against x <= 1 (scale 2): s = 1 at x = 3.
    const Numbers lower{0};
    const Numbers upper{10};
    const Numbers rows{1, 1};
    const Numbers row_lower{4, -infinity};
    const Numbers row_upper{infinity, 1};
    const Numbers scales{1, 2};
    Workspace workspace(1, 2);
    const Result result =
        least_violation({lower, upper, rows, row_lower, row_upper}, scales, {}, workspace);
    REQUIRE(result.status == Status::solved);
    CHECK(result.objective == Approx(1));
    CHECK(result.x[0] == Approx(3));
    CHECK(result.row_multipliers[0] > 0);
    CHECK(result.row_multipliers[1] < 0);
    const Numbers first_kept{0, 1};
    const Result kept =
        least_violation({lower, upper, rows, row_lower, row_upper}, first_kept, {}, workspace);
    REQUIRE(kept.status == Status::solved);
    CHECK(kept.x[0] == 4);
    CHECK(kept.objective == 3);
}

TEST_CASE("an equality that cannot be met is missed evenly, and what can be met is met") {
    const Numbers lower{0};
    const Numbers upper{10};
    const Numbers rows{1, 1};
    const Numbers limits{2, 6};
    const Numbers scales{1, 1};
    Workspace workspace(1, 2);
    const Result result =
        least_violation({lower, upper, rows, limits, limits}, scales, {}, workspace);
    REQUIRE(result.status == Status::solved);
    CHECK(result.x[0] == Approx(4));
    CHECK(result.objective == Approx(2));
    const Numbers same{3, 3};
    const Result met = least_violation({lower, upper, rows, same, same}, scales, {}, workspace);
    REQUIRE(met.status == Status::solved);
    CHECK(met.objective == 0);
    CHECK(met.x[0] == 3);
}
