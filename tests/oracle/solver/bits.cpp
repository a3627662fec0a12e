// Prints one number made of every bit of every answer to the generated problems. Two compilers must
// print the same.
#include <bit>
#include <cstdint>
#include <cstdio>
#include <span>
#include <vector>

#include "feed/solver/conflict.hpp"
#include "feed/solver/fractional.hpp"
#include "feed/solver/lexicographic.hpp"
#include "feed/solver/solve.hpp"
#include "solver_problems.hpp"

namespace {

/// FNV-1a over whole words.
struct Hash {
    std::uint64_t value = 0xcbf29ce484222325U;

    void add(std::uint64_t word) { value = (value ^ word) * 0x100000001b3U; }
    void add(std::span<const double> numbers) {
        for (const double number : numbers)
            add(std::bit_cast<std::uint64_t>(number));
    }
};

}  // namespace

int main() {
    using namespace feed::solver;
    Workspace workspace(16, 40);
    Hash hash;
    for (std::size_t index = 0; index < feed_test::generated_count; ++index) {
        const feed_test::GeneratedProblem p = feed_test::generated_problem(index);
        const std::vector<double> ones(p.variables(), 1.0);
        const std::vector<double> scales(p.row_count(), 1.0);
        const auto add = [&hash](const Result& result) {
            hash.add(static_cast<std::uint64_t>(result.status));
            hash.add(result.x);
            hash.add(result.row_multipliers);
            hash.add(result.bound_multipliers);
            hash.add(result.ray);
            hash.add(std::bit_cast<std::uint64_t>(result.objective));
            hash.add(result.iterations);
        };
        add(solve(p.view(), workspace));
        Options general;
        general.general_method = true;
        add(solve(p.view(), workspace, general));
        add(lexicographic(p.within(), p.gradient, workspace));
        add(least_violation(p.within(), scales, p.gradient, workspace));
        const std::vector<double> constant{100.0};
        const FractionalResult ratio =
            fractional(p.within(), {p.gradient, {}, ones, constant}, p.gradient, workspace);
        hash.add(static_cast<std::uint64_t>(ratio.status));
        hash.add(ratio.x);
        hash.add(std::bit_cast<std::uint64_t>(ratio.value));
    }
    std::printf("%016llx\n", static_cast<unsigned long long>(hash.value));
}
