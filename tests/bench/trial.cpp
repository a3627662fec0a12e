// A trial of 12 bins and 4 feeds: its power table before anything is laid, and its reading with
// both tests and all ratios. The limits of the project: 5 s and 100 ms.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <vector>

#include "feed/trial/closed_test.hpp"
#include "feed/trial/feed_ratio.hpp"
#include "feed/trial/power.hpp"
#include "measure.hpp"

namespace {

template <class Work>
double median_ms(int rounds, Work&& work) {
    using clock = feed_bench::ProcessorClock;
    std::vector<double> times;
    for (int round = 0; round < rounds; ++round) {
        const auto start = clock::now();
        work();
        times.push_back(std::chrono::duration<double, std::milli>(clock::now() - start).count());
    }
    std::nth_element(times.begin(), times.begin() + rounds / 2, times.end());
    return times[static_cast<std::size_t>(rounds / 2)];
}

}  // namespace

int main() {
    const feed::TrialDesign design{feed::TrialKind::choice, 4, 12, 1, 1, false};
    const auto layout = feed::draw_layout(design, 48213);
    if (!layout) return 1;
    feed::PowerSetting setting;
    for (double day = 3.0; day <= 60.0; day += 3.0)
        setting.look_days.push_back(day);
    feed::SeededStream stream(1);
    std::vector<feed::PlotInterval> looks;
    std::vector<std::optional<double>> scores;
    for (const feed::Plot& plot : layout->plots) {
        const double day = 14.0 * std::exp(0.35 * feed::detail::normal(stream) +
                                           0.1 * static_cast<double>(*plot.feed));
        looks.push_back(feed::detail::seen_on(day, setting.look_days));
        scores.push_back(feed::log_middle(looks.back()));
    }
    double kept = 0.0;
    const double table = median_ms(
        3, [&] { kept += feed::power_table(*layout, setting, [](std::size_t) {})[1][1]; });
    const double tests = median_ms(21, [&] {
        kept += feed::test_feeds(*layout, scores, layout->seed).overall.p;
        kept += feed::luck_test(feed::exchange_of(*layout, scores, feed::Alike{}), 1).p;
    });
    const double ratios =
        median_ms(21, [&] { kept += feed::feed_ratios(*layout, looks).front().ratio; });
    std::printf(
        "plan, table of power   %8.0f ms\nread, exact tests      %8.1f ms\n"
        "read, six ratios       %8.1f ms\n",
        table, tests, ratios);
    return kept > 0.0 ? 0 : 1;
}
