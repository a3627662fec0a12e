#include "feed/solver/lexicographic.hpp"

#include <vector>

#include "catch2.hpp"

using feed::solver::Fault;
using feed::solver::infinity;
using feed::solver::lexicographic;
using feed::solver::Result;
using feed::solver::Status;
using feed::solver::Workspace;
using feed_test::Approx;
using Numbers = std::vector<double>;

TEST_CASE("a tie goes to the point with the smallest first variable") {
    // x + y = 5: every point of the segment has the same sum.
    const Numbers lower{0, 0};
    const Numbers upper{4, 4};
    const Numbers rows{1, 1};
    const Numbers limit{5};
    const Numbers sum{1, 1};
    Workspace workspace(2, 1);
    const Result result = lexicographic({lower, upper, rows, limit, limit}, sum, workspace);
    REQUIRE(result.status == Status::solved);
    CHECK(result.x[0] == 1);
    CHECK(result.x[1] == 4);
    CHECK(result.objective == 5);
}

TEST_CASE("later objectives choose among the best points of the earlier ones only") {
    // minimise x + y over x + y >= 2, then maximise x, then nothing is left.
    const Numbers lower{0, 0, 0};
    const Numbers upper{10, 10, 10};
    const Numbers rows{1, 1, 0};
    const Numbers row_lower{2};
    const Numbers row_upper{infinity};
    const Numbers objectives{1, 1, 0, -1, 0, 0, 0, 0, -1};
    Workspace workspace(3, 1);
    const Result result =
        lexicographic({lower, upper, rows, row_lower, row_upper}, objectives, workspace);
    REQUIRE(result.status == Status::solved);
    CHECK(result.x[0] == 2);
    CHECK(result.x[1] == 0);
    CHECK(result.x[2] == 10);
    CHECK(result.objective == 2);
    CHECK(result.row_multipliers[0] == 1);
}

TEST_CASE("without an objective the answer is the first point in variable order") {
    const Numbers lower{0, 0, 0};
    const Numbers upper{1, 1, 1};
    const Numbers rows{1, 1, 1};
    const Numbers row_lower{1.5};
    const Numbers row_upper{2};
    Workspace workspace(3, 1);
    const Result result = lexicographic({lower, upper, rows, row_lower, row_upper}, {}, workspace);
    REQUIRE(result.status == Status::solved);
    CHECK(result.x[0] == 0);
    CHECK(result.x[1] == 0.5);
    CHECK(result.x[2] == 1);
}

TEST_CASE("the order of rows does not change the answer") {
    const Numbers lower{0, 0, 0};
    const Numbers upper{3, 3, 3};
    const Numbers rows{1, 2, 1, 2, 1, 1, 1, 1, 1};
    const Numbers swapped{1, 1, 1, 1, 2, 1, 2, 1, 1};
    const Numbers row_lower{4, 4, 3};
    const Numbers swapped_lower{3, 4, 4};
    const Numbers row_upper(3, infinity);
    const Numbers sum{1, 1, 1};
    Workspace workspace(3, 3);
    const Result one = lexicographic({lower, upper, rows, row_lower, row_upper}, sum, workspace);
    REQUIRE(one.status == Status::solved);
    const Numbers x(one.x.begin(), one.x.end());
    const Result two =
        lexicographic({lower, upper, swapped, swapped_lower, row_upper}, sum, workspace);
    REQUIRE(two.status == Status::solved);
    for (std::size_t j = 0; j < 3; ++j)
        CHECK(two.x[j] == Approx(x[j]).margin(1e-12));
}

TEST_CASE("a later objective without a minimum is reported") {
    const Numbers lower{0, 0};
    const Numbers upper{infinity, infinity};
    const Numbers objectives{1, 0, 0, -1};
    Workspace workspace(2, 0);
    CHECK(lexicographic({lower, upper, {}, {}, {}}, objectives, workspace).status ==
          Status::unbounded);
}

TEST_CASE("a variable without a lower limit goes to its upper one, and without any is left alone") {
    const Numbers lower{-infinity, -infinity, 1};
    const Numbers upper{7, infinity, 2};
    Workspace workspace(3, 0);
    const Result result = lexicographic({lower, upper, {}, {}, {}}, {}, workspace);
    REQUIRE(result.status == Status::solved);
    CHECK(result.x[0] == 7);
    CHECK(result.x[2] == 1);
}

TEST_CASE("objectives of the wrong length are named, contradictions proven") {
    const Numbers lower{0, 0};
    const Numbers upper{1, 1};
    const Numbers three(3, 1.0);
    Workspace workspace(2, 1);
    CHECK(lexicographic({lower, upper, {}, {}, {}}, three, workspace).fault == Fault::sizes_differ);
    const Numbers rows{1, 1};
    const Numbers row_lower{3};
    const Numbers row_upper{infinity};
    const Result result =
        lexicographic({lower, upper, rows, row_lower, row_upper}, rows, workspace);
    CHECK(result.status == Status::infeasible);
    CHECK(result.row_multipliers[0] > 0);
}
