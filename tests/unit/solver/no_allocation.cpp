// Once the workspace stands, a solve takes no memory.
#include <cstdlib>
#include <new>
#include <vector>

#include "catch2.hpp"
#include "feed/solver/conflict.hpp"
#include "feed/solver/fractional.hpp"
#include "feed/solver/lexicographic.hpp"
#include "feed/solver/solve.hpp"
#include "solver_problems.hpp"

namespace {
std::size_t allocations = 0;
}

void* operator new(std::size_t size) {
    ++allocations;
    if (void* memory = std::malloc(size == 0 ? 1 : size)) return memory;
    throw std::bad_alloc();
}
void operator delete(void* memory) noexcept {
    std::free(memory);
}
void operator delete(void* memory, std::size_t) noexcept {
    std::free(memory);
}

using namespace feed::solver;

TEST_CASE("the counter counts") {
    const std::size_t before = allocations;
    const std::vector<double> numbers(100);
    CHECK(allocations > before);
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
            const std::size_t before = allocations;
            const Status status = solve(p.view(), workspace, options).status;
            const std::size_t after = allocations;
            CHECK(after == before);
            ++statuses[static_cast<std::size_t>(status)];
        }
        const std::size_t before = allocations;
        lexicographic(p.within(), p.gradient, workspace);
        fractional(p.within(), {p.gradient, {}, ones, constant}, p.gradient, workspace);
        least_violation(p.within(), scales, p.gradient, workspace);
        const std::size_t after = allocations;
        CHECK(after == before);
    }
    CHECK(statuses[0] > 0);
    CHECK(statuses[1] > 0);
    CHECK(statuses[2] > 0);
}
