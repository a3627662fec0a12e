// How long a balance takes to solve and to verify, beside general-purpose solvers. `--json` for
// machines.
//
// The problems of a size are solved in turn, so no call sees the problem of the call before it. A
// problem's time is the median of its calls; the table gives the median, the ninth tenth and the
// largest of these. Every answer of the solver has passed its own check; "worst gap" is the largest
// relative difference of another solver's objective.

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <ctime>
#include <memory>
#include <vector>

#include "../measure.hpp"
#include "feed/solver/fractional.hpp"
#include "feed/solver/lexicographic.hpp"
#include "feed/solver/solve.hpp"
#include "kitchen_problems.hpp"
#include "others.hpp"

namespace {

using feed::solver::FractionalStatus;
using feed::solver::Result;
using feed::solver::Status;
using feed::solver::Workspace;
using feed_bench::Aims;
using feed_bench::Other;
using feed_test::Curvature;
using feed_test::GeneratedProblem;
using Clock = std::chrono::steady_clock;

struct Row {
    const char* task;
    const char* solver;
    std::size_t variables;
    std::size_t problems;
    double median, ninth_tenth, largest;  ///< microseconds
    std::size_t failures;
    double worst;  ///< largest relative residual, or gap in the objective
};

std::vector<Row> table;

/// Processor time of this thread: for calls so long that the system may take the processor away
/// meanwhile.
double processor_microseconds() {
    return 1e6 * static_cast<double>(std::clock()) / static_cast<double>(CLOCKS_PER_SEC);
}

double wall_microseconds() {
    return std::chrono::duration<double, std::micro>(Clock::now().time_since_epoch()).count();
}

/// Times work(k) for each problem k in turn, `passes` times.
template <typename Work>
Row timed(const char* task, const char* solver, std::size_t variables, std::size_t problems,
          std::size_t passes, Work work, double (*now)() = wall_microseconds) {
    std::vector<std::vector<double>> times(problems);
    for (std::size_t pass = 0; pass <= passes; ++pass) {
        for (std::size_t k = 0; k < problems; ++k) {
            const double start = now();
            work(k);
            const double took = now() - start;
            if (pass > 0) times[k].push_back(took);  // the first pass warms up
        }
    }
    std::vector<double> medians;
    for (std::vector<double>& of_problem : times) {
        std::sort(of_problem.begin(), of_problem.end());
        medians.push_back(of_problem[of_problem.size() / 2]);
    }
    std::sort(medians.begin(), medians.end());
    return {task,
            solver,
            variables,
            problems,
            medians[problems / 2],
            medians[problems * 9 / 10],
            medians.back(),
            0,
            0};
}

double worst_of(const feed::solver::Residuals& r) {
    return std::max({r.primal, r.stationarity, r.complementarity});
}

template <typename Make>
void time_other(const char* task, const char* name, const std::vector<GeneratedProblem>& problems,
                const std::vector<double>& objectives, std::size_t passes, Make make) {
    std::vector<std::unique_ptr<Other>> others;
    for (const GeneratedProblem& p : problems)
        others.push_back(make(p));
    if (others.front() == nullptr) return;
    std::vector<double> values(problems.size());
    Row row = timed(
        task, name, problems.front().variables(), problems.size(), passes,
        [&](std::size_t k) { values[k] = others[k]->solve(); },
        problems.front().variables() >= 32 ? processor_microseconds : wall_microseconds);
    for (std::size_t k = 0; k < problems.size(); ++k) {
        const double gap = std::fabs(values[k] - objectives[k]) / (std::fabs(objectives[k]) + 1e-6);
        if (!(gap < 1e-4)) {
            ++row.failures;
        } else {
            row.worst = std::max(row.worst, gap);
        }
    }
    table.push_back(row);
}

void time_usual_recipe(std::size_t n) {
    const std::size_t count = n <= 60 ? 500 : 200;
    const auto problems = feed_bench::kitchen_problems(n, count, Curvature::all);
    Workspace workspace(n, 6);
    std::vector<double> objectives(count);
    std::size_t failures = 0;
    double worst = 0;
    Row row = timed("closest to a usual recipe", "feed", n, count, 21, [&](std::size_t k) {
        const Result result = feed::solver::solve(problems[k].view(), workspace);
        feed_bench::keep(result);
        objectives[k] = result.objective;
        failures += result.status == Status::solved ? 0U : 1U;
        worst = std::max(worst, worst_of(result.residuals));
    });
    row.failures = failures;
    row.worst = worst;
    table.push_back(row);
    if (n <= 60) {
        time_other("closest to a usual recipe", "NLopt SLSQP", problems, objectives, 2,
                   feed_bench::make_nlopt_slsqp);
    }
}

void time_least_mass(std::size_t n) {
    const std::size_t count = n <= 60 ? 300 : 100;
    const auto problems = feed_bench::kitchen_problems(n, count, Curvature::none);
    Workspace workspace(n, 6);
    std::vector<double> objectives(count);
    for (const bool ranked : {false, true}) {
        std::size_t failures = 0;
        double worst = 0;
        Row row = timed("least added mass", ranked ? "feed, ties settled" : "feed", n, count, 11,
                        [&](std::size_t k) {
                            const GeneratedProblem& p = problems[k];
                            const Result result = ranked ? feed::solver::lexicographic(
                                                               p.within(), p.gradient, workspace)
                                                         : feed::solver::solve(p.view(), workspace);
                            feed_bench::keep(result);
                            objectives[k] = result.objective;
                            failures += result.status == Status::solved ? 0U : 1U;
                            worst = std::max(worst, worst_of(result.residuals));
                        });
        row.failures = failures;
        row.worst = worst;
        table.push_back(row);
    }
    time_other("least added mass", "GLPK simplex", problems, objectives, 3, feed_bench::make_glpk);
    time_other("least added mass", "CLP dual", problems, objectives, 3, feed_bench::make_clp);
}

void time_closest_to_aims(std::size_t n) {
    const std::size_t count = n <= 60 ? 300 : 100;
    const auto problems = feed_bench::kitchen_problems(n, count, Curvature::none);
    std::vector<Aims> aims;
    for (const GeneratedProblem& p : problems)
        aims.push_back(feed_bench::aims_of(p));
    Workspace workspace(n, 10);
    std::size_t failures = 0;
    double worst = 0;
    Row row = timed("closest to the aims", "feed", n, count, 11, [&](std::size_t k) {
        const auto result = feed::solver::fractional(
            problems[k].within(), {aims[k].numerators, {}, aims[k].denominators, {}},
            problems[k].gradient, workspace);
        feed_bench::keep(result);
        failures += result.status == FractionalStatus::solved ? 0U : 1U;
        worst = std::max(worst, worst_of(result.residuals));
    });
    row.failures = failures;
    row.worst = worst;
    table.push_back(row);
}

void print_text() {
    std::printf("%-26s %-19s %5s %9s %9s %9s %9s %9s\n", "task", "solver", "n", "median us",
                "90 % us", "max us", "failures", "worst");
    for (const Row& row : table) {
        std::printf("%-26s %-19s %5zu %9.2f %9.2f %9.2f %9zu %9.1e\n", row.task, row.solver,
                    row.variables, row.median, row.ninth_tenth, row.largest, row.failures,
                    row.worst);
    }
}

void print_json() {
    std::printf("[");
    for (std::size_t k = 0; k < table.size(); ++k) {
        const Row& row = table[k];
        std::printf(
            "%s\n {\"task\": \"%s\", \"solver\": \"%s\", \"variables\": %zu, \"problems\": %zu, \"median_us\": %.4g, "
            "\"p90_us\": %.4g, \"max_us\": %.4g, \"failures\": %zu, \"worst\": %.3g}",
            k == 0 ? "" : ",", row.task, row.solver, row.variables, row.problems, row.median,
            row.ninth_tenth, row.largest, row.failures, row.worst);
    }
    std::printf("\n]\n");
}

}  // namespace

int main(int count, char** words) {
    for (const std::size_t n : {4U, 8U, 16U, 32U, 60U, 100U, 200U}) {
        time_usual_recipe(n);
        time_least_mass(n);
        time_closest_to_aims(n);
    }
    std::stable_sort(table.begin(), table.end(),
                     [](const Row& a, const Row& b) { return std::strcmp(a.task, b.task) < 0; });
    if (count > 1 && std::strcmp(words[1], "--json") == 0) {
        print_json();
    } else {
        print_text();
    }
}
