// 500 balances of 4 to 60 feedstocks, closest to a usual recipe, by this library's solver and by
// general-purpose ones. Every answer is held against the exact one (CGAL's rational arithmetic): a
// failure is a solver that says so, an amount that is off by more than 1e-9 kg, or limits
// overstepped by more than that.
//
// `bench_peers --problems FILE` also writes the problems and their exact answers, for solvers that
// are timed elsewhere.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <functional>
#include <memory>
#include <vector>

#include "../balance_problems.hpp"
#include "../measure.hpp"
#include "feed/solver/solve.hpp"
#include "peer.hpp"
#include "solver/exact.hpp"

namespace {

constexpr std::size_t problems_a_size = 50;
constexpr std::size_t rounds = 31;
constexpr double allowed = 1e-9;

class Libfeed : public feed_bench::Peer {
public:
    explicit Libfeed(feed_bench::Problems problems)
        : problems_(problems),
          workspace_(problems.front().within.variable_count(),
                     problems.front().within.row_count()) {}
    bool solve(std::size_t which) override {
        const auto result = feed::solver::solve(problems_[which], workspace_);
        point_ = result.x;
        return result.status == feed::solver::Status::solved;
    }
    std::span<const double> point(std::size_t /*which*/) const override { return point_; }

private:
    feed_bench::Problems problems_;
    feed::solver::Workspace workspace_;
    std::span<const double> point_;
};

struct Kind {
    const char* name;
    std::function<std::unique_ptr<feed_bench::Peer>(feed_bench::Problems)> make;
    std::size_t failures = 0;
    double worst_overstep_kg = 0.0;
    double worst_off_kg = 0.0;
};

struct Balance {
    feed::PreparedBalance prepared;
    std::vector<double> exact;

    feed::solver::Problem view() const {
        return {prepared.hessian, prepared.gradient, prepared.within()};
    }
};

std::vector<Balance> balances(const std::vector<feed::Feedstock>& usable, std::size_t entries) {
    std::vector<Balance> made;
    for (auto& prepared : feed_bench::solvable_balances(
             usable, entries, feed::Objective::closest_to_usual, problems_a_size, 11)) {
        Balance balance{std::move(prepared), {}};
        for (const auto& amount : feed_test::exact_answer(balance.view()).x)
            balance.exact.push_back(CGAL::to_double(amount));
        made.push_back(std::move(balance));
    }
    return made;
}

/// How far the amounts lie beyond their limits or the windows beyond theirs, in kilograms: of a
/// window, of the feedstock that moves it most.
double overstep_of(const feed::PreparedBalance& prepared, std::span<const double> point) {
    double worst = 0.0;
    for (std::size_t j = 0; j < point.size(); ++j)
        worst = std::max({worst, prepared.lower[j] - point[j], point[j] - prepared.upper[j]});
    for (std::size_t i = 0; i < prepared.row_count(); ++i) {
        double value = 0.0;
        double largest = 0.0;
        for (std::size_t j = 0; j < point.size(); ++j) {
            const double coefficient = prepared.rows[i * point.size() + j];
            value += coefficient * point[j];
            largest = std::max(largest, std::fabs(coefficient));
        }
        const double over = std::max(prepared.row_lower[i] - value, value - prepared.row_upper[i]);
        if (over > 0.0) worst = std::max(worst, over / largest);
    }
    return worst;
}

/// Counts a failure, and what is worst among the answers that are none.
void judge(Kind& kind, const Balance& balance, bool solved, std::span<const double> point) {
    double off_kg = 0.0;
    for (std::size_t j = 0; solved && j < point.size(); ++j)
        off_kg = std::max(off_kg, std::fabs(point[j] - balance.exact[j]));
    const double overstep = solved ? overstep_of(balance.prepared, point) : 0.0;
    if (!solved || !(off_kg <= allowed) || !(overstep <= allowed)) {
        ++kind.failures;
        return;
    }
    kind.worst_off_kg = std::max(kind.worst_off_kg, off_kg);
    kind.worst_overstep_kg = std::max(kind.worst_overstep_kg, overstep);
}

double middle(std::vector<double> numbers) {
    const auto place = numbers.begin() + static_cast<std::ptrdiff_t>(numbers.size() / 2);
    std::nth_element(numbers.begin(), place, numbers.end());
    return *place;
}

/// Median over the problems of the median of each problem's calls, in nanoseconds, for every kind.
/// The solvers take turns; in its turn each takes all problems twice, so no call repeats the one
/// before. The first time is not counted: it finds the other solvers' traces in the caches.
std::vector<double> medians(std::vector<Kind>& kinds, const std::vector<Balance>& balances) {
    using clock = std::chrono::steady_clock;
    std::vector<feed::solver::Problem> problems;
    for (const Balance& balance : balances)
        problems.push_back(balance.view());
    std::vector<std::unique_ptr<feed_bench::Peer>> peers;
    for (Kind& kind : kinds) {
        peers.push_back(kind.make(problems));
        for (std::size_t p = 0; p < problems.size(); ++p) {
            const bool solved = peers.back()->solve(p);
            judge(kind, balances[p], solved, peers.back()->point(p));
        }
    }
    std::vector<std::vector<std::vector<double>>> times(
        kinds.size(), std::vector<std::vector<double>>(problems.size()));
    for (std::size_t round = 0; round < rounds; ++round) {
        for (std::size_t s = 0; s < kinds.size(); ++s) {
            for (std::size_t p = 0; p < problems.size(); ++p)
                feed_bench::keep(peers[s]->solve(p));
            for (std::size_t p = 0; p < problems.size(); ++p) {
                const auto start = clock::now();
                feed_bench::keep(peers[s]->solve(p));
                const std::chrono::duration<double, std::nano> took = clock::now() - start;
                times[s][p].push_back(took.count());
            }
        }
    }
    std::vector<double> of_kind;
    for (auto& of_problems : times) {
        std::vector<double> of_problem;
        for (auto& calls : of_problems)
            of_problem.push_back(middle(std::move(calls)));
        of_kind.push_back(middle(std::move(of_problem)));
    }
    return of_kind;
}

void write_numbers(std::FILE* file, const char* name, std::span<const double> numbers,
                   const char* after) {
    std::fprintf(file, "\"%s\": [", name);
    for (std::size_t k = 0; k < numbers.size(); ++k) {
        const double number = std::clamp(numbers[k], -1e30, 1e30);
        std::fprintf(file, "%s%.17g", k == 0 ? "" : ", ", number);
    }
    std::fprintf(file, "]%s", after);
}

void write_problem(std::FILE* file, const Balance& balance) {
    const auto& p = balance.prepared;
    std::fprintf(file, "{");
    write_numbers(file, "hessian", p.hessian, ", ");
    write_numbers(file, "gradient", p.gradient, ", ");
    write_numbers(file, "lower", p.lower, ", ");
    write_numbers(file, "upper", p.upper, ", ");
    write_numbers(file, "rows", p.rows, ", ");
    write_numbers(file, "row_lower", p.row_lower, ", ");
    write_numbers(file, "row_upper", p.row_upper, ", ");
    write_numbers(file, "exact", balance.exact, "}\n");
}

}  // namespace

int main(int count, char** words) {
    std::FILE* file = nullptr;
    if (count == 3 && std::strcmp(words[1], "--problems") == 0) {
        file = std::fopen(words[2], "w");
        if (file == nullptr) {
            std::perror(words[2]);
            return 2;
        }
    } else if (count != 1) {
        std::fprintf(stderr, "usage: bench_peers [--problems FILE]\n");
        return 2;
    }
    std::vector<Kind> kinds{
        {"libfeed", [](auto problems) { return std::make_unique<Libfeed>(problems); }},
        {"DAQP", feed_bench::make_daqp},
        {"quadprog", feed_bench::make_quadprog},
        {"eiquadprog", feed_bench::make_eiquadprog},
        {"qpOASES", feed_bench::make_qpoases},
        {"PIQP", feed_bench::make_piqp},
    };
    const auto usable = feed_bench::usable_feedstocks();
    std::printf("median, us\n| Feedstocks |");
    for (const Kind& kind : kinds)
        std::printf(" %s |", kind.name);
    std::printf(" fastest |\n");
    for (const std::size_t entries : {4U, 6U, 8U, 12U, 16U, 24U, 32U, 40U, 50U, 60U}) {
        const auto problems = balances(usable, entries);
        if (problems.size() < problems_a_size) {
            std::fprintf(stderr, "only %zu problems of %zu feedstocks\n", problems.size(), entries);
            return 1;
        }
        if (file != nullptr) {
            for (const Balance& balance : problems)
                write_problem(file, balance);
        }
        const auto times = medians(kinds, problems);
        std::printf("| %zu |", entries);
        for (const double time : times)
            std::printf(" %.3g |", time / 1000.0);
        const auto fastest = std::min_element(times.begin(), times.end()) - times.begin();
        std::printf(" %s |\n", kinds[static_cast<std::size_t>(fastest)].name);
        std::fflush(stdout);
    }
    std::printf("\n| Solver | failures | worst overstep, kg | worst amount off, kg |\n");
    for (const Kind& kind : kinds)
        std::printf("| %s | %zu | %.1e | %.1e |\n", kind.name, kind.failures,
                    kind.worst_overstep_kg, kind.worst_off_kg);
    if (file != nullptr && std::fclose(file) != 0) {
        std::perror(words[2]);
        return 2;
    }
    return 0;
}
