#pragma once
// The exact answer of a problem in rational arithmetic, by the QP solver of CGAL (Fischer,
// Gaertner, Schoenherr, Wessendorp: "Linear and Quadratic Programming Solver", CGAL manual).

#include <CGAL/Gmpq.h>
#include <CGAL/QP_functions.h>
#include <CGAL/QP_models.h>

#include <cstddef>
#include <vector>

#include "feed/solver/problem.hpp"

namespace feed_test {

using Rational = CGAL::Gmpq;

/// A row of the form coefficients . x = value, in rational numbers, on top of the problem's own.
struct ExactRow {
    std::vector<Rational> coefficients;
    Rational value;
};

struct ExactAnswer {
    feed::solver::Status status = feed::solver::Status::numerical;
    Rational objective;
    std::vector<Rational> x;
};

/// Solves it without rounding. Doubles are rational numbers, so the problem is the same to the last
/// bit.
inline ExactAnswer exact_answer(const feed::solver::Problem& problem,
                                const std::vector<ExactRow>& extra = {}) {
    using feed::solver::infinity;
    using feed::solver::Status;
    const feed::solver::Polyhedron& within = problem.within;
    const int n = static_cast<int>(within.variable_count());
    CGAL::Quadratic_program<Rational> program(CGAL::SMALLER, false, 0, false, 0);
    bool curved = false;
    for (std::size_t j = 0; j < within.variable_count(); ++j) {
        // The oracle asks for bounds that do not cross.
        if (within.lower[j] > within.upper[j]) return {Status::infeasible, Rational(0), {}};
    }
    for (int j = 0; j < n; ++j) {
        const auto at = static_cast<std::size_t>(j);
        const bool has_lower = within.lower[at] > -infinity;
        const bool has_upper = within.upper[at] < infinity;
        program.set_l(j, has_lower, has_lower ? Rational(within.lower[at]) : Rational(0));
        program.set_u(j, has_upper, has_upper ? Rational(within.upper[at]) : Rational(0));
        program.set_c(j, problem.gradient.empty() ? Rational(0) : Rational(problem.gradient[at]));
        if (!problem.hessian.empty() && problem.hessian[at] != 0) {
            program.set_d(j, j, Rational(problem.hessian[at]));
            curved = true;
        }
    }
    int row = 0;
    const auto add = [&](std::size_t i, double limit, CGAL::Comparison_result relation) {
        for (int j = 0; j < n; ++j) {
            const double entry =
                within.rows[i * within.variable_count() + static_cast<std::size_t>(j)];
            if (entry != 0) program.set_a(j, row, Rational(entry));
        }
        program.set_b(row, Rational(limit));
        program.set_r(row, relation);
        ++row;
    };
    for (std::size_t i = 0; i < within.row_count(); ++i) {
        const double low = within.row_lower[i];
        const double high = within.row_upper[i];
        if (low == high) {
            add(i, low, CGAL::EQUAL);
            continue;
        }
        if (low > -infinity) add(i, low, CGAL::LARGER);
        if (high < infinity) add(i, high, CGAL::SMALLER);
    }
    for (const ExactRow& more : extra) {
        for (int j = 0; j < n; ++j) {
            program.set_a(j, row, more.coefficients[static_cast<std::size_t>(j)]);
        }
        program.set_b(row, more.value);
        program.set_r(row, CGAL::EQUAL);
        ++row;
    }
    ExactAnswer answer;
    const auto read = [&](const auto& solution) {
        if (solution.is_infeasible()) answer.status = Status::infeasible;
        if (solution.is_unbounded()) answer.status = Status::unbounded;
        if (!solution.is_optimal()) return;
        answer.status = Status::solved;
        const auto objective = solution.objective_value();
        answer.objective = objective.numerator() / objective.denominator();
        for (auto value = solution.variable_values_begin(); value != solution.variable_values_end();
             ++value) {
            answer.x.push_back(value->numerator() / value->denominator());
        }
    };
    if (curved) {
        read(CGAL::solve_quadratic_program(program, Rational()));
    } else {
        read(CGAL::solve_linear_program(program, Rational()));
    }
    return answer;
}

}  // namespace feed_test
