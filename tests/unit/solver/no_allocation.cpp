// Once the workspace stands, a solve takes no memory.
#include <vector>

#include "catch2.hpp"
#include "counting_new.hpp"
#include "feed/solver/conflict.hpp"
#include "feed/solver/fractional.hpp"
#include "feed/solver/lexicographic.hpp"
#include "feed/solver/solve.hpp"
#include "solver_problems.hpp"

using namespace feed::solver;

TEST_CASE("the counter counts") {
    const std::size_t before = feed_test::allocation_count();
    // Called by name: a compiler may leave out the allocations of a container, not this call.
    void* memory = ::operator new(100);
    CHECK(memory != nullptr);
    ::operator delete(memory);
    CHECK(feed_test::allocation_count() > before);
}

TEST_CASE("a solve allocates nothing, whatever its status") {
    Workspace workspace(16, 40);
    std::size_t statuses[5] = {0, 0, 0, 0, 0};
    for (std::size_t index = 0; index < 440; ++index) {
        const feed_test::GeneratedProblem p = feed_test::generated_problem(index);
        const std::vector<double> scales(p.row_count(), 1.0);
        const std::vector<double> ones(p.variables(), 1.0);
        const std::vector<double> constant{1.0};
        for (const bool general : {false, true}) {
            Options options;
            options.general_method = general;
            const std::size_t before = feed_test::allocation_count();
            const Status status = solve(p.view(), workspace, options).status;
            const std::size_t after = feed_test::allocation_count();
            CHECK(after == before);
            ++statuses[static_cast<std::size_t>(status)];
        }
        const std::size_t before = feed_test::allocation_count();
        lexicographic(p.within(), p.gradient, workspace);
        fractional(p.within(), {p.gradient, {}, ones, constant}, p.gradient, workspace);
        least_violation(p.within(), scales, p.gradient, workspace);
        const std::size_t after = feed_test::allocation_count();
        CHECK(after == before);
    }
    CHECK(statuses[0] > 0);
    CHECK(statuses[1] > 0);
    CHECK(statuses[2] > 0);
}
