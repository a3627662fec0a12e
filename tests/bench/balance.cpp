// Balances already in memory: solve and independent check. The reference of the ratios is one pass
// over the rows of the same problem (n times rows products), so that a slow machine shifts both.
#include <algorithm>
#include <chrono>
#include <cstddef>
#include <cstdio>
#include <vector>

#include "balance_problems.hpp"
#include "measure.hpp"

namespace {

struct Figures {
    double median = 0.0;       ///< over the problems, nanoseconds
    double nine_in_ten = 0.0;  ///< stay below
    double one_pass = 0.0;     ///< median
};

double at_share(std::vector<double> numbers, double share) {
    const auto place = static_cast<std::ptrdiff_t>(share * static_cast<double>(numbers.size() - 1));
    std::nth_element(numbers.begin(), numbers.begin() + place, numbers.end());
    return numbers[static_cast<std::size_t>(place)];
}

double one_pass(const feed::PreparedBalance& prepared) {
    double sum = 0.0;
    for (std::size_t r = 0; r < prepared.row_count(); ++r) {
        for (std::size_t i = 0; i < prepared.entry_count(); ++i)
            sum += prepared.rows[r * prepared.entry_count() + i] * prepared.added_mass[i];
    }
    return sum;
}

/// Every problem once a round, so that no call repeats the one before; a problem's time is the
/// median of its rounds, the clock's own time included (some 30 ns).
Figures figures(const std::vector<feed::Feedstock>& usable, std::size_t entries,
                feed::Objective objective) {
    using clock = std::chrono::steady_clock;
    constexpr std::size_t problem_count = 200;
    constexpr std::size_t rounds = 51;
    const auto problems =
        feed_bench::solvable_balances(usable, entries, objective, problem_count, 5);
    std::vector<feed::BalanceWorkspace> workspaces;
    for (const auto& prepared : problems)
        workspaces.emplace_back(prepared);
    std::vector<std::vector<double>> times(problems.size());
    std::vector<std::vector<double>> passes(problems.size());
    for (std::size_t round = 0; round < rounds; ++round) {
        for (std::size_t p = 0; p < problems.size(); ++p) {
            const auto start = clock::now();
            feed_bench::keep(feed::solve(problems[p], workspaces[p]).status);
            const auto solved = clock::now();
            feed_bench::keep(one_pass(problems[p]));
            const auto passed = clock::now();
            times[p].push_back(std::chrono::duration<double, std::nano>(solved - start).count());
            passes[p].push_back(std::chrono::duration<double, std::nano>(passed - solved).count());
        }
    }
    std::vector<double> of_problem;
    std::vector<double> pass_of_problem;
    for (std::size_t p = 0; p < problems.size(); ++p) {
        of_problem.push_back(at_share(times[p], 0.5));
        pass_of_problem.push_back(at_share(passes[p], 0.5));
    }
    return {at_share(of_problem, 0.5), at_share(of_problem, 0.9), at_share(pass_of_problem, 0.5)};
}

void line(const char* what, std::size_t entries, const Figures& f, double allowed) {
    std::printf("%-18s %4zu feedstocks %10.2f us %10.2f us %8.1f", what, entries, f.median / 1000,
                f.nine_in_ten / 1000, f.median / f.one_pass);
    if (allowed > 0.0)
        std::printf("   at most %g us: %s", allowed, f.median <= allowed * 1000 ? "yes" : "no");
    std::printf("\n");
}

}  // namespace

int main() {
    const auto usable = feed_bench::usable_feedstocks();
    std::printf("%-34s %13s %13s %8s\n", "", "median", "9 in 10", "passes");
    const auto usual = feed::Objective::closest_to_usual;
    const auto aims = feed::Objective::closest_to_aims;
    line("closest to usual", 8, figures(usable, 8, usual), 2.0);
    line("closest to usual", 32, figures(usable, 32, usual), 6.0);
    line("closest to usual", 60, figures(usable, 60, usual), 15.0);
    line("closest to aims", 8, figures(usable, 8, aims), 20.0);
    for (const std::size_t entries : std::vector<std::size_t>{4, 16, 100, 200})
        line("closest to usual", entries, figures(usable, entries, usual), 0.0);
    for (const std::size_t entries : std::vector<std::size_t>{4, 16, 32, 60, 100, 200})
        line("closest to aims", entries, figures(usable, entries, aims), 0.0);
    return 0;
}
