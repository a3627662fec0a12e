// How often a trial says too much: false "clear" and "probably", the coverage of the 90 % interval,
// and whether the printed power is true. Prints the tables of docs/trials.md.
// Usage: study_trial_errors false|coverage|power RUNS [NAME]
// NAME: only the rows whose name begins so.
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

#include "feed/trial/closed_test.hpp"
#include "feed/trial/feed_ratio.hpp"
#include "feed/trial/power.hpp"
#include "feed/trial/trial_reading.hpp"

namespace {

using feed::TrialDesign;
using feed::TrialKind;

enum class Shape { log_normal, weibull };

/// What trials are drawn from.
struct World {
    double spread = 0.35;
    double bins = 0.35;
    double rounds = 0.0;  ///< log sd between rounds (`alone`)
    double step = 3.0;    ///< days between looks
    double eye = 0.0;     ///< chance that a look is read one too early or too late
    Shape shape = Shape::log_normal;
    double median = 14.0;
    double last = 60.0;
    double hope = 1.0;  ///< so many times as long a looker who knows the key reads the last feed
};

/// A time about 1 with the wanted log sd.
double drawn_time(const World& world, feed::SeededStream& stream) {
    if (world.shape == Shape::log_normal)
        return std::exp(world.spread * feed::detail::normal(stream));
    // A Weibull of this shape has the log sd asked for: pi / (sqrt 6 shape).
    const double shape = 1.2825498 / world.spread;
    return std::pow(-std::log(stream.fraction()) / 0.69314718, 1.0 / shape);
}

std::vector<feed::PlotInterval> drawn_looks(const feed::TrialLayout& layout,
                                            const std::vector<double>& log_ratios,
                                            const World& world, feed::SeededStream& stream) {
    std::vector<double> looks;
    for (double day = world.step; day <= world.last; day += world.step)
        looks.push_back(day);
    std::vector<double> level(layout.design.bins);
    std::vector<double> round(layout.design.rounds);
    for (double& one : level)
        one = world.bins * feed::detail::normal(stream);
    for (double& one : round)
        one = world.rounds * feed::detail::normal(stream);
    std::vector<feed::PlotInterval> seen;
    for (const feed::Plot& plot : layout.plots) {
        double day = world.median *
                     std::exp(log_ratios[*plot.feed] + level[plot.bin] + round[plot.round]) *
                     drawn_time(world, stream);
        if (world.eye > 0.0 && stream.fraction() < world.eye)
            day += stream.fraction() < 0.5 ? -world.step : world.step;
        seen.push_back(feed::detail::seen_on(std::max(day, 0.1), looks));
    }
    return seen;
}

std::vector<std::optional<double>> scores_of(const std::vector<feed::PlotInterval>& seen) {
    std::vector<std::optional<double>> scores;
    for (const auto& one : seen)
        scores.push_back(feed::log_middle(one));
    return scores;
}

struct Row {
    const char* name;
    TrialDesign design;
    World world;
    bool one_differs = false;  ///< the last feed takes twice as long; the others are alike
};

std::vector<Row> rows() {
    const auto choice = [](std::size_t feeds, std::size_t bins, std::size_t portions) {
        return TrialDesign{TrialKind::choice, feeds, bins, portions, 1, false};
    };
    World plain;
    World coarse;
    coarse.step = 10.0;
    World eye;
    eye.eye = 0.1;
    World wide;
    wide.spread = 0.5;
    World weibull;
    weibull.shape = Shape::weibull;
    World swapped;
    swapped.rounds = 0.3;
    World hoping;
    hoping.hope = feed::hoped_fold;
    return {
        {"2 feeds, 3 bins, 1 portion", choice(2, 3, 1), plain},
        {"2 feeds, 6 bins, 1 portion", choice(2, 6, 1), plain},
        {"2 feeds, 12 bins, 1 portion", choice(2, 12, 1), plain},
        {"2 feeds, 3 bins, 2 portions", choice(2, 3, 2), plain},
        {"2 feeds, 1 bin, 6 portions", choice(2, 1, 6), plain},
        {"3 feeds, 4 bins, 1 portion", choice(3, 4, 1), plain},
        {"3 feeds, 6 bins, 1 portion", choice(3, 6, 1), plain},
        {"3 feeds, 6 bins, one differs", choice(3, 6, 1), plain, true},
        {"3 feeds, 12 bins, 1 portion", choice(3, 12, 1), plain},
        {"4 feeds, 3 bins, 1 portion", choice(4, 3, 1), plain},
        {"4 feeds, 6 bins, 1 portion", choice(4, 6, 1), plain},
        {"4 feeds, 6 bins, one differs", choice(4, 6, 1), plain, true},
        {"4 feeds, 12 bins, 1 portion", choice(4, 12, 1), plain},
        {"2 feeds, 6 bins, looks every 10 days", choice(2, 6, 1), coarse},
        {"3 feeds, 6 bins, looks every 10 days", choice(3, 6, 1), coarse},
        {"2 feeds, 6 bins, 10 % misread by a look", choice(2, 6, 1), eye},
        {"2 feeds, 8 bins, like portions differ a lot", choice(2, 8, 1), wide},
        {"2 feeds, 8 bins, Weibull times", choice(2, 8, 1), weibull},
        {"alone, 2 feeds, 6 bins, rounds differ", {TrialKind::alone, 2, 6, 1, 2, false}, swapped},
        {"alone, 2 feeds, 8 bins, rounds differ", {TrialKind::alone, 2, 8, 1, 2, false}, swapped},
        {"alone, 3 feeds, 6 bins, rounds differ", {TrialKind::alone, 3, 6, 1, 3, false}, swapped},
        {"who hopes looks, 2 feeds, 8 bins", choice(2, 8, 1), hoping},
        {"who hopes looks, 2 feeds, 12 bins, 2 portions", choice(2, 12, 2), hoping},
    };
}

/// The surety that was first asked for "probably"; `probable_surety` is stricter where this is too
/// often false.
constexpr double first_surety(std::size_t feeds) noexcept {
    return feeds <= 2 ? 0.95 : feeds == 3 ? 0.975 : 0.99;
}

/// Whether a row was asked for; its place in the list fixes its seed all the same.
bool wanted(std::string_view name, std::string_view only) {
    return name.substr(0, only.size()) == only;
}

void false_alarms(int runs, std::string_view only) {
    std::printf(
        "| trial of like feeds | false clear, %% | false probably, %% | at the first figure, %% |\n"
        "|---|---|---|---|\n");
    std::uint64_t number = 0;
    for (const Row& row : rows()) {
        feed::SeededStream stream(1000 + ++number);
        if (!wanted(row.name, only)) continue;
        int clear = 0;
        int probable = 0;
        int at_first = 0;
        for (int run = 0; run < runs; ++run) {
            const auto layout = feed::draw_layout(row.design, stream.next());
            std::vector<double> log_ratios(row.design.feeds, 0.0);
            if (row.one_differs) log_ratios.back() = std::log(2.0);
            log_ratios.back() += std::log(row.world.hope);
            const auto seen = drawn_looks(*layout, log_ratios, row.world, stream);
            const auto tests = feed::test_feeds(*layout, scores_of(seen), layout->seed);
            const auto ratios = feed::feed_ratios(*layout, seen);
            bool any_clear = false;
            bool any_probable = false;
            bool any_at_first = false;
            for (std::size_t i = 0; i < ratios.size(); ++i) {
                if (row.one_differs && ratios[i].second + 1 == row.design.feeds) continue;
                const double sure =
                    std::max(ratios[i].surety_first_quicker, 1.0 - ratios[i].surety_first_quicker);
                // Where the key was known nothing is clear, and little is probable.
                const bool blind = row.world.hope == 1.0;
                any_clear = any_clear || (blind && tests.pairs[i].luck.p <= feed::clear_chance);
                any_probable = any_probable || (sure >= feed::probable_surety(row.design.feeds) &&
                                                (blind || feed::detail::beyond_hope(ratios[i])));
                any_at_first = any_at_first || sure >= first_surety(row.design.feeds);
            }
            clear += any_clear ? 1 : 0;
            probable += any_probable ? 1 : 0;
            at_first += any_at_first ? 1 : 0;
        }
        std::printf("| %s | %.1f | %.1f | %.1f |\n", row.name, 100.0 * clear / runs,
                    100.0 * probable / runs, 100.0 * at_first / runs);
        std::fflush(stdout);
    }
}

void coverage(int runs, std::string_view only) {
    struct Cover {
        const char* name;
        TrialDesign design;
        World world;
        double ratio;  ///< 0: drawn from the prior
    };
    const TrialDesign six{TrialKind::choice, 2, 6, 1, 1, false};
    const TrialDesign three{TrialKind::choice, 3, 4, 1, 1, false};
    const TrialDesign swapped{TrialKind::alone, 2, 6, 1, 2, false};
    World plain;
    World weibull;
    weibull.shape = Shape::weibull;
    const std::vector<Cover> covers{
        {"2 feeds, 6 bins, from the prior", six, plain, 0.0},
        {"3 feeds, 4 bins, from the prior", three, plain, 0.0},
        {"alone, 2 feeds, 6 bins, from the prior", swapped, plain, 0.0},
        {"2 feeds, 6 bins, ratio 1", six, plain, 1.0},
        {"2 feeds, 6 bins, ratio 1.5", six, plain, 1.5},
        {"2 feeds, 6 bins, ratio 2", six, plain, 2.0},
        {"2 feeds, 6 bins, ratio 3", six, plain, 3.0},
        {"2 feeds, 6 bins, Weibull, ratio 1.5", six, weibull, 1.5},
        {"2 feeds, 6 bins, Weibull, ratio 2", six, weibull, 2.0},
        {"3 feeds, 4 bins, ratio 2", three, plain, 2.0},
        {"alone, 2 feeds, 6 bins, ratio 2", swapped, plain, 2.0},
    };
    std::printf("| truth | 90 %% interval holds it, %% |\n|---|---|\n");
    std::uint64_t number = 0;
    for (const Cover& cover : covers) {
        feed::SeededStream stream(2000 + ++number);
        if (!wanted(cover.name, only)) continue;
        const feed::RatioPrior prior;
        int held = 0;
        int of = 0;
        for (int run = 0; run < runs; ++run) {
            const auto layout = feed::draw_layout(cover.design, stream.next());
            World world = cover.world;
            std::vector<double> log_ratios(cover.design.feeds, 0.0);
            if (cover.ratio > 0.0) {
                log_ratios.back() = std::log(cover.ratio);
            } else {
                for (double& one : log_ratios)
                    one = prior.ratio_log_sd / std::sqrt(2.0) * feed::detail::normal(stream);
                world.spread = prior.spread_median *
                               std::exp(prior.spread_log_sd * feed::detail::normal(stream));
            }
            const auto seen = drawn_looks(*layout, log_ratios, world, stream);
            for (const auto& ratio : feed::feed_ratios(*layout, seen)) {
                const double truth = std::exp(log_ratios[ratio.first] - log_ratios[ratio.second]);
                held += ratio.low <= truth && truth <= ratio.high ? 1 : 0;
                ++of;
            }
        }
        std::printf("| %s | %.1f |\n", cover.name, 100.0 * held / of);
        std::fflush(stdout);
    }
}

void power(int runs, std::string_view only) {
    struct Cell {
        TrialDesign design;
        double ratio;
        double spread;
    };
    const std::vector<Cell> cells{
        {{TrialKind::choice, 2, 6, 1, 1, false}, 2.0, 0.35},
        {{TrialKind::choice, 2, 8, 1, 1, false}, 1.5, 0.2},
        {{TrialKind::choice, 2, 12, 1, 1, false}, 1.5, 0.35},
        {{TrialKind::choice, 2, 3, 2, 1, false}, 2.0, 0.35},
        {{TrialKind::choice, 3, 6, 1, 1, false}, 1.5, 0.35},
        {{TrialKind::choice, 3, 6, 1, 1, false}, 2.0, 0.5},
        {{TrialKind::choice, 4, 6, 1, 1, false}, 1.3, 0.2},
        {{TrialKind::choice, 4, 6, 1, 1, false}, 2.0, 0.35},
        {{TrialKind::alone, 2, 8, 1, 2, false}, 2.0, 0.35},
        {{TrialKind::choice, 4, 12, 3, 1, false}, 1.3, 0.5},
        {{TrialKind::choice, 2, 12, 5, 1, false}, 1.3, 0.5},
    };
    std::printf("| trial | ratio | log sd | printed, %% | true, %% |\n|---|---|---|---|---|\n");
    for (const Cell& cell : cells) {
        const std::string name = std::string(text(cell.design.kind)) + ", " +
                                 std::to_string(cell.design.feeds) + " feeds, " +
                                 std::to_string(cell.design.bins) + " bins, " +
                                 std::to_string(cell.design.portions) +
                                 (cell.design.portions > 1 ? " portions" : " portion");
        if (!wanted(name, only)) continue;
        World world;
        world.spread = cell.spread;
        feed::PowerSetting setting;
        for (double day = world.step; day <= world.last; day += world.step)
            setting.look_days.push_back(day);
        const auto planned = feed::draw_layout(cell.design, 48213);
        const double printed =
            feed::power_of(*planned, setting, cell.ratio, cell.spread, feed::power_trials);
        feed::SeededStream stream(3000);
        int clear = 0;
        for (int run = 0; run < runs; ++run) {
            const auto layout = feed::draw_layout(cell.design, stream.next());
            std::vector<double> log_ratios(cell.design.feeds, 0.0);
            log_ratios.back() = std::log(cell.ratio);
            const auto scores = scores_of(drawn_looks(*layout, log_ratios, world, stream));
            const auto luck =
                feed::luck_test(feed::exchange_of(*layout, scores, feed::Alike{}), layout->seed);
            clear += luck.p <= feed::clear_chance ? 1 : 0;
        }
        std::printf("| %s | %.1f | %.2f | %.0f | %.0f |\n", name.c_str(), cell.ratio, cell.spread,
                    100.0 * printed, 100.0 * clear / runs);
        std::fflush(stdout);
    }
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 3 && argc != 4) return 2;
    const std::string_view what = argv[1];
    const int runs = std::atoi(argv[2]);
    const std::string_view only = argc == 4 ? argv[3] : "";
    if (runs < 1) return 2;
    if (what == "false") false_alarms(runs, only);
    if (what == "coverage") coverage(runs, only);
    if (what == "power") power(runs, only);
    return 0;
}
