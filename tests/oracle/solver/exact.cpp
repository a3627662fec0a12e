// The solver against exact rational arithmetic: status, objective, and the point where it is
// unique.
#include "exact.hpp"

#include <cmath>
#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "catch2.hpp"
#include "feed/solver/fractional.hpp"
#include "feed/solver/lexicographic.hpp"
#include "feed/solver/solve.hpp"
#include "solver_problems.hpp"

using feed::solver::infinity;
using feed::solver::Options;
using feed::solver::Result;
using feed::solver::Status;
using feed::solver::Workspace;
using feed_test::exact_answer;
using feed_test::ExactAnswer;
using feed_test::ExactRow;
using feed_test::generated_problem;
using feed_test::GeneratedProblem;
using feed_test::Rational;

namespace {

bool strictly_convex(const GeneratedProblem& p) {
    for (const double h : p.hessian) {
        if (h == 0) return false;
    }
    return true;
}

/// How large the terms of the objective are at x: rounding is measured against them.
double objective_size(const GeneratedProblem& p, const std::vector<Rational>& x) {
    double size = 0;
    for (std::size_t j = 0; j < p.variables(); ++j) {
        const double value = CGAL::to_double(x[j]);
        size += std::fabs(0.5 * p.hessian[j] * value * value) + std::fabs(p.gradient[j] * value);
    }
    return size;
}

}  // namespace

TEST_CASE("status, objective and point agree with exact arithmetic") {
    Workspace workspace(16, 40);
    std::map<Status, std::size_t> count;
    std::size_t unique = 0;
    for (std::size_t index = 0; index < feed_test::generated_count; ++index) {
        const GeneratedProblem p = generated_problem(index);
        const ExactAnswer exact = exact_answer(p.view());
        for (const bool general : {false, true}) {
            Options options;
            options.general_method = general;
            const Result ours = feed::solver::solve(p.view(), workspace, options);
            INFO("problem " << index << ", " << p.kind << ", general " << general);
            REQUIRE(ours.status == exact.status);
            if (!general) ++count[ours.status];
            if (ours.status != Status::solved) continue;
            const double objective = CGAL::to_double(exact.objective);
            CHECK(std::fabs(ours.objective - objective) <= 1e-9 * objective_size(p, exact.x));
            if (!strictly_convex(p)) continue;
            unique += general ? 0 : 1;
            double largest = 0;
            for (const Rational& value : exact.x) {
                largest = std::fmax(largest, std::fabs(CGAL::to_double(value)));
            }
            for (std::size_t j = 0; j < p.variables(); ++j) {
                const double value = CGAL::to_double(exact.x[j]);
                CHECK(std::fabs(ours.x[j] - value) <= 1e-9 * (std::fabs(value) + 1e-3 * largest));
            }
        }
    }
    CHECK(count[Status::solved] > 1500);
    CHECK(count[Status::infeasible] > 400);
    CHECK(count[Status::unbounded] > 200);
    CHECK(unique > 500);
}

TEST_CASE("the ranked answer is the exact one") {
    Workspace workspace(16, 40);
    std::size_t checked = 0;
    for (std::size_t index = 0; index < 1320; ++index) {
        GeneratedProblem p = generated_problem(index);
        if (p.variables() > 7) continue;
        p.hessian.assign(p.variables(), 0.0);
        for (std::size_t j = 0; j < p.variables(); ++j) {
            // Finite boxes, so that every stage has a minimum.
            if (p.lower[j] == -infinity) p.lower[j] = -64;
            if (p.upper[j] == infinity) p.upper[j] = 64;
        }
        const Result ours = feed::solver::lexicographic(p.within(), p.gradient, workspace);
        ExactAnswer exact = exact_answer(p.view());
        INFO("problem " << index << ", " << p.kind);
        REQUIRE(ours.status == exact.status);
        if (ours.status != Status::solved) continue;
        std::vector<ExactRow> rows;
        ExactRow first;
        for (const double g : p.gradient)
            first.coefficients.push_back(Rational(g));
        first.value = exact.objective;
        rows.push_back(first);
        for (std::size_t k = 0; k < p.variables(); ++k) {
            p.gradient.assign(p.variables(), 0.0);
            p.gradient[k] = 1;
            exact = exact_answer(p.view(), rows);
            REQUIRE(exact.status == Status::solved);
            ExactRow row;
            row.coefficients.assign(p.variables(), Rational(0));
            row.coefficients[k] = 1;
            row.value = exact.objective;
            rows.push_back(row);
        }
        for (std::size_t j = 0; j < p.variables(); ++j) {
            const double value = CGAL::to_double(exact.x[j]);
            CHECK(std::fabs(ours.x[j] - value) <= 1e-9 * (1 + std::fabs(value)));
        }
        ++checked;
    }
    CHECK(checked > 300);
}

// Largest ratio at most t is a polyhedron for each t. With t just above the value found there must
// be a point in it, and just below there must be none, in exact arithmetic.
TEST_CASE("the smallest largest ratio is the exact one") {
    Workspace workspace(16, 40);
    std::size_t checked = 0;
    for (std::size_t index = 0; index < 400; ++index) {
        feed_test::Random random(index);
        const std::size_t n = 1 + random.below(7);
        const std::size_t m = random.below(5);
        const std::size_t k = 1 + random.below(4);
        GeneratedProblem p =
            feed_test::generate::planted(random, n, m, feed_test::Curvature::none, 0, 4);
        for (std::size_t j = 0; j < n; ++j) {
            if (p.lower[j] == -infinity) p.lower[j] = p.planted[j] - 8;
            if (p.upper[j] == infinity) p.upper[j] = p.planted[j] + 8;
        }
        std::vector<double> numerators(k * n), denominators(k * n), constants(k),
            denominator_constants(k);
        for (double& entry : numerators)
            entry = random.quarter(3);
        for (double& entry : denominators)
            entry = random.chance(3) ? 0.0 : random.quarter(1);
        for (std::size_t r = 0; r < k; ++r) {
            constants[r] = random.quarter(8);
            // Large enough to keep the denominator above zero in the box.
            double least = 0;
            for (std::size_t j = 0; j < n; ++j) {
                const double d = denominators[r * n + j];
                least += d > 0 ? d * p.lower[j] : d * p.upper[j];
            }
            denominator_constants[r] = 0.25 * static_cast<double>(1 + random.below(16)) - least;
        }
        const auto found = feed::solver::fractional(
            p.within(), {numerators, constants, denominators, denominator_constants}, {},
            workspace);
        INFO("problem " << index);
        REQUIRE(found.status == feed::solver::FractionalStatus::solved);
        const double step = 1e-9 * (1 + std::fabs(found.value));
        for (const double level : {found.value + step, found.value - step}) {
            GeneratedProblem at = p;
            at.gradient.assign(n, 0.0);
            for (std::size_t r = 0; r < k; ++r) {
                for (std::size_t j = 0; j < n; ++j) {
                    at.rows.push_back(level * denominators[r * n + j] - numerators[r * n + j]);
                }
                at.row_lower.push_back(constants[r] - level * denominator_constants[r]);
                at.row_upper.push_back(infinity);
            }
            CHECK(exact_answer(at.view()).status ==
                  (level > found.value ? Status::solved : Status::infeasible));
        }
        ++checked;
    }
    CHECK(checked == 400);
}
