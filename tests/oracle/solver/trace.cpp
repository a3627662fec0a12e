// Prints generated problems and the solver's answers, one JSON object a line, for
// test_solver_scipy.py to judge.
#include <cmath>
#include <cstdio>
#include <span>

#include "feed/solver/solve.hpp"
#include "solver_problems.hpp"

namespace {

void print_numbers(const char* name, std::span<const double> numbers) {
    std::printf("\"%s\": [", name);
    for (std::size_t k = 0; k < numbers.size(); ++k) {
        if (k > 0) std::printf(", ");
        if (std::isinf(numbers[k])) {
            std::printf(numbers[k] > 0 ? "Infinity" : "-Infinity");
        } else {
            std::printf("%.17g", numbers[k]);
        }
    }
    std::printf("], ");
}

}  // namespace

int main() {
    const char* words[] = {"solved", "infeasible", "unbounded", "iteration_limit", "numerical"};
    feed::solver::Workspace workspace(16, 40);
    for (std::size_t index = 0; index < feed_test::generated_count; ++index) {
        const feed_test::GeneratedProblem p = feed_test::generated_problem(index);
        const feed::solver::Result result = feed::solver::solve(p.view(), workspace);
        std::printf("{\"index\": %zu, \"kind\": \"%s\", ", index, p.kind.c_str());
        print_numbers("hessian", p.hessian);
        print_numbers("gradient", p.gradient);
        print_numbers("lower", p.lower);
        print_numbers("upper", p.upper);
        print_numbers("rows", p.rows);
        print_numbers("row_lower", p.row_lower);
        print_numbers("row_upper", p.row_upper);
        print_numbers("x", result.x);
        std::printf("\"objective\": %.17g, \"status\": \"%s\"}\n", result.objective,
                    words[static_cast<std::size_t>(result.status)]);
    }
}
