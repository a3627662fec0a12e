// Balances already in memory: solve and independent check. The reference of the ratios is one pass
// over the rows of the same problem (n times rows products), so that a slow machine shifts both.
#include <algorithm>
#include <cstdio>
#include <vector>

#include "balance_problems.hpp"
#include "measure.hpp"

namespace {

struct Figures {
    double median = 0.0;  ///< over the problems, nanoseconds
    double slowest = 0.0;
    double one_pass = 0.0;  ///< median
};

double middle(std::vector<double> numbers) {
    std::sort(numbers.begin(), numbers.end());
    return numbers[numbers.size() / 2];
}

Figures figures(const std::vector<feed::Feedstock>& usable, std::size_t entries,
                feed::Objective objective, std::size_t count) {
    const auto problems = feed_bench::solvable_balances(usable, entries, objective, count, 5);
    std::vector<double> times;
    std::vector<double> passes;
    for (const auto& prepared : problems) {
        feed::BalanceWorkspace workspace(prepared);
        times.push_back(feed_bench::median_nanoseconds(
            [&] { feed_bench::keep(feed::solve(prepared, workspace).status); }));
        passes.push_back(feed_bench::median_nanoseconds([&] {
            double sum = 0.0;
            for (std::size_t r = 0; r < prepared.row_count(); ++r) {
                for (std::size_t i = 0; i < prepared.entry_count(); ++i)
                    sum += prepared.rows[r * prepared.entry_count() + i] * prepared.added_mass[i];
            }
            feed_bench::keep(sum);
        }));
    }
    return {middle(times), *std::max_element(times.begin(), times.end()), middle(passes)};
}

void line(const char* what, std::size_t entries, const Figures& f, double allowed) {
    std::printf("%-18s %4zu feedstocks %10.2f us %10.2f us %8.1f", what, entries, f.median / 1000,
                f.slowest / 1000, f.median / f.one_pass);
    if (allowed > 0.0)
        std::printf("   at most %g us: %s", allowed, f.median <= allowed * 1000 ? "yes" : "no");
    std::printf("\n");
}

}  // namespace

int main() {
    const auto usable = feed_bench::usable_feedstocks();
    std::printf("%-34s %13s %13s %8s\n", "", "median", "slowest", "passes");
    constexpr std::size_t count = 41;
    const auto usual = feed::Objective::closest_to_usual;
    const auto aims = feed::Objective::closest_to_aims;
    line("closest to usual", 8, figures(usable, 8, usual, count), 2.0);
    line("closest to usual", 32, figures(usable, 32, usual, count), 6.0);
    line("closest to usual", 60, figures(usable, 60, usual, count), 15.0);
    line("closest to aims", 8, figures(usable, 8, aims, count), 20.0);
    for (const std::size_t entries : std::vector<std::size_t>{4, 16, 100, 200})
        line("closest to usual", entries, figures(usable, entries, usual, 11), 0.0);
    for (const std::size_t entries : std::vector<std::size_t>{4, 16, 32, 60, 100, 200})
        line("closest to aims", entries, figures(usable, entries, aims, 11), 0.0);
    return 0;
}
