// Thousands of problems whose answer was planted, by both methods.
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "catch2.hpp"
#include "feed/solver/solve.hpp"
#include "solver_problems.hpp"

using feed::solver::Options;
using feed::solver::Result;
using feed::solver::solve;
using feed::solver::Status;
using feed::solver::Workspace;

namespace {

double objective(const feed_test::GeneratedProblem& p, const double* x, double& size) {
    double sum = 0;
    size = 0;
    for (std::size_t j = 0; j < p.variables(); ++j) {
        const double bent = 0.5 * p.hessian[j] * x[j] * x[j];
        const double slope = p.gradient[j] * x[j];
        sum += bent + slope;
        size += std::fabs(bent) + std::fabs(slope);
    }
    return sum;
}

}  // namespace

TEST_CASE("planted answers are found by both methods") {
    Workspace workspace(16, 32);
    std::map<std::string, int> solved_of_kind;
    std::size_t wrong = 0;
    for (std::size_t index = 0; index < feed_test::generated_count; ++index) {
        const feed_test::GeneratedProblem p = feed_test::generated_problem(index);
        Status first = Status::numerical;
        for (const bool general : {false, true}) {
            Options options;
            options.general_method = general;
            const Result result = solve(p.view(), workspace, options);
            bool right =
                result.status != Status::numerical && result.status != Status::iteration_limit;
            if (p.status_known) right = right && result.status == p.status;
            if (general) {
                right = right && result.status == first;
            } else {
                first = result.status;
            }
            if (right && result.status == Status::solved && !p.planted.empty()) {
                double size = 0;
                double planted_size = 0;
                const double ours = objective(p, result.x.data(), size);
                const double planted = objective(p, p.planted.data(), planted_size);
                right = std::fabs(ours - planted) <= 1e-9 * (size + planted_size);
                const bool unique = p.kind != "endless" && [&p] {
                    for (const double h : p.hessian) {
                        if (h == 0) return false;
                    }
                    return true;
                }();
                for (std::size_t j = 0; unique && j < p.variables(); ++j) {
                    right = right && std::fabs(result.x[j] - p.planted[j]) <=
                                         1e-8 * (1e-3 + std::fabs(p.planted[j]));
                }
            }
            if (right) {
                ++solved_of_kind[p.kind];
            } else {
                ++wrong;
                UNSCOPED_INFO("problem " << index << ", " << p.kind << ", general " << general
                                         << ": status " << static_cast<int>(result.status));
            }
        }
    }
    CHECK(wrong == 0);
    for (const char* kind : {"planted", "degenerate", "tied", "badly scaled", "contradicting",
                             "tiny gap", "endless", "single point", "kitchen"}) {
        INFO(kind);
        CHECK(solved_of_kind[kind] >= 300);
    }
}

TEST_CASE("planted answers of 30 to 60 variables and 60 to 120 rows are found by both methods") {
    Workspace workspace(60, 120);
    for (std::size_t index = 0; index < 16; ++index) {
        feed_test::Random random(index);
        const std::size_t n = 30 + random.below(31);
        const std::size_t m = 60 + random.below(61);
        const auto curvature = static_cast<feed_test::Curvature>(index % 3);
        const feed_test::GeneratedProblem p =
            index % 2 == 0 ? feed_test::generate::planted(random, n, m, curvature, 0, 5)
                           : feed_test::generate::badly_scaled(random, n, m, curvature);
        double planted_size = 0;
        const double planted = objective(p, p.planted.data(), planted_size);
        for (const bool general : {false, true}) {
            Options options;
            options.general_method = general;
            const Result result = solve(p.view(), workspace, options);
            INFO("problem " << index << ", general " << general);
            REQUIRE(result.status == Status::solved);
            CHECK(std::fabs(result.objective - planted) <= 1e-9 * planted_size);
        }
    }
}

// Scaling a problem by powers of two rounds nothing, so not a bit of the answer may change.
TEST_CASE("another unit for the variables gives the same answer to the last bit") {
    Workspace workspace(16, 32);
    for (std::size_t index = 0; index < 550; ++index) {
        feed_test::GeneratedProblem p = feed_test::generated_problem(index);
        Options options;
        options.general_method = true;
        const Result before = solve(p.view(), workspace, options);
        const Status status = before.status;
        const std::vector<double> x(before.x.begin(), before.x.end());
        const double unit = 0x1p-10;
        for (double& entry : p.rows)
            entry *= unit;
        for (double& entry : p.gradient)
            entry *= unit;
        for (double& entry : p.hessian)
            entry *= unit * unit;
        for (double& entry : p.lower)
            entry /= unit;
        for (double& entry : p.upper)
            entry /= unit;
        const Result after = solve(p.view(), workspace, options);
        REQUIRE(after.status == status);
        if (status != Status::solved) continue;
        for (std::size_t j = 0; j < x.size(); ++j)
            REQUIRE(after.x[j] == x[j] / unit);
    }
}
