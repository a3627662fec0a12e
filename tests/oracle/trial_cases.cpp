// Draws invented trials and says what the library makes of them, one JSON object a line, so that
// another program can count the arrangements or run chains on the same looks.
// Usage: oracle_trial_cases luck COUNT | ratio COUNT | likelihood FEEDS BLOCKS
// The last reads plots from standard input, "low high feed block" a line, days or -1 for unknown.
#include <cstdio>
#include <cstdlib>
#include <string_view>
#include <vector>

#include "feed/trial/closed_test.hpp"
#include "feed/trial/feed_ratio.hpp"
#include "feed/trial/power.hpp"

namespace {

struct Case {
    feed::TrialLayout layout;
    std::vector<feed::PlotInterval> looks;
};

feed::TrialDesign design_of(feed::SeededStream& stream, double most_arrangements) {
    for (;;) {
        feed::TrialDesign design;
        design.kind = stream.below(3) == 0 ? feed::TrialKind::alone : feed::TrialKind::choice;
        design.feeds = 2 + stream.below(3);
        design.bins = 1 + stream.below(8);
        if (design.kind == feed::TrialKind::alone) {
            design.rounds = design.feeds;
        } else {
            design.portions = 1 + stream.below(3);
            design.rounds = 1 + stream.below(2);
            design.blank = stream.below(4) == 0;
        }
        const auto layout = feed::draw_layout(design, 1);
        if (!layout) continue;
        const std::vector<std::optional<double>> none(layout->plots.size());
        const auto exchange = feed::exchange_of(*layout, none, feed::Alike{});
        if (feed::arrangements_of(exchange) <= most_arrangements) return design;
    }
}

Case draw_case(feed::SeededStream& stream, const feed::TrialDesign& design) {
    Case drawn{*feed::draw_layout(design, stream.next()), {}};
    // Coarse looks make ties; an early end leaves some where they lie.
    const double step = 1.0 + stream.below(5);
    const double end = 10.0 + stream.below(25);
    const double ratio = 1.0 + 0.5 * stream.below(4);
    std::vector<double> looks;
    for (double day = step; day <= end; day += step)
        looks.push_back(day);
    std::vector<double> level(design.bins * design.rounds);
    for (double& one : level)
        one = 0.35 * feed::detail::normal(stream);
    for (const feed::Plot& plot : drawn.layout.plots) {
        const double slower = plot.feed && *plot.feed == 0 ? std::log(ratio) : 0.0;
        const double day = 9.0 * std::exp(slower + level[plot.round * design.bins + plot.bin] +
                                          0.35 * feed::detail::normal(stream));
        auto seen = feed::detail::seen_on(day, looks);
        if (stream.below(25) == 0) seen = feed::PlotInterval{};  // dug up before any look
        drawn.looks.push_back(seen);
    }
    return drawn;
}

void print_case(const Case& drawn) {
    const auto& design = drawn.layout.design;
    std::printf("{\"kind\": \"%s\", \"feeds\": %zu, \"bins\": %zu, \"rounds\": %zu, \"plots\": [",
                text(design.kind).data(), design.feeds, design.bins, design.rounds);
    for (std::size_t i = 0; i < drawn.looks.size(); ++i) {
        const auto& plot = drawn.layout.plots[i];
        const auto& seen = drawn.looks[i];
        const auto score = feed::log_middle(seen);
        std::printf("%s[%zu, %zu, %d, %.17g, ", i > 0 ? ", " : "", plot.bin, plot.round,
                    plot.feed ? static_cast<int>(*plot.feed) : -1, seen.after_days);
        std::printf(seen.by_days ? "%.17g, " : "null, ", seen.by_days.value_or(0.0));
        std::printf(score ? "%.17g]" : "null]", score.value_or(0.0));
    }
    std::printf("], ");
}

void print_luck(const Case& drawn) {
    std::vector<std::optional<double>> scores;
    for (const auto& seen : drawn.looks)
        scores.push_back(feed::log_middle(seen));
    const auto tests = feed::test_feeds(drawn.layout, scores, 7);
    const auto smallest = feed::smallest_luck(drawn.layout);
    std::printf("\"p\": %.17g, \"arrangements\": %.17g, \"smallest\": %.17g, \"pairs\": [",
                tests.overall.p, tests.overall.arrangements, smallest.overall);
    for (std::size_t i = 0; i < tests.pairs.size(); ++i)
        std::printf("%s%.17g", i > 0 ? ", " : "", tests.pairs[i].luck.p);
    std::printf("]}\n");
}

void print_ratios(const Case& drawn) {
    const feed::RatioPrior prior;
    std::printf("\"prior\": [%.17g, %.17g, %.17g, %.17g, %.17g, %.17g], \"ratios\": [",
                prior.ratio_log_sd, prior.spread_median, prior.spread_log_sd,
                prior.level_median_days, prior.level_log_sd, prior.round_log_sd);
    const auto ratios = feed::feed_ratios(drawn.layout, drawn.looks);
    for (std::size_t i = 0; i < ratios.size(); ++i)
        std::printf("%s[%zu, %zu, %.17g, %.17g, %.17g, %.17g, %.17g]", i > 0 ? ", " : "",
                    ratios[i].first, ratios[i].second, ratios[i].ratio, ratios[i].low,
                    ratios[i].high, ratios[i].surety_first_quicker, ratios[i].next_first_quicker);
    std::printf("]}\n");
}

/// The likelihood alone: every prior so wide that it says nothing.
int print_likelihood_peak(std::size_t feeds, std::size_t blocks) {
    feed::detail::TimeData data;
    data.feeds = feeds;
    data.blocks = blocks;
    double low = 0.0;
    double high = 0.0;
    feed::detail::TimedPlot plot;
    while (std::scanf("%lf %lf %zu %zu", &low, &high, &plot.feed, &plot.block) == 4) {
        plot.low = low > 0.0 ? std::log(low) : -HUGE_VAL;
        plot.high = high > 0.0 ? std::log(high) : HUGE_VAL;
        data.plots.push_back(plot);
    }
    feed::RatioPrior wide;
    wide.ratio_log_sd = wide.level_log_sd = 1e4;
    feed::detail::PeakFinder finder(data, wide);
    feed::detail::FeedMap free;
    free.parameters = feeds;
    double from = std::log(0.05);
    double to = std::log(2.0);
    for (int i = 0; i < 60; ++i) {
        const double left = from + (to - from) / 3.0;
        const double right = to - (to - from) / 3.0;
        const bool rises = finder.find(std::exp(left), free).log_height <
                           finder.find(std::exp(right), free).log_height;
        (rises ? from : to) = rises ? left : right;
    }
    const auto peak = finder.find(std::exp(from), free);
    std::printf("%.12g", std::exp(from));
    for (std::size_t feed = 1; feed < feeds; ++feed)
        std::printf(" %.12g", peak.shared[feed] - peak.shared[0]);
    std::printf("\n");
    return 0;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc == 4 && std::string_view(argv[1]) == "likelihood")
        return print_likelihood_peak(static_cast<std::size_t>(std::atoi(argv[2])),
                                     static_cast<std::size_t>(std::atoi(argv[3])));
    if (argc != 3) return 2;
    const bool luck = std::string_view(argv[1]) == "luck";
    const int count = std::atoi(argv[2]);
    feed::SeededStream stream(luck ? 20260314 : 20260401);
    for (int i = 0; i < count; ++i) {
        const auto drawn = draw_case(stream, design_of(stream, luck ? 8000.0 : 1e300));
        print_case(drawn);
        luck ? print_luck(drawn) : print_ratios(drawn);
    }
    return 0;
}
