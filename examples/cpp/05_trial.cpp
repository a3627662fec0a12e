// Trial: two neighbours (invented) lay melon rind and pumpkin side by side in six totes, look every
// third day, and ask which is gone first.
#include <cstdio>
#include <feed/feed.hpp>
#include <string>
#include <vector>

namespace {

/// What was seen on a day, in the words of the sheet: the rind is gone on day 9, pumpkin on day 18.
feed::Observation look_on(int day, const feed::TrialLayout& layout) {
    feed::Observation seen;
    seen.date = {2026, 9, 1 + day};
    for (const feed::Plot& plot : layout.plots) {
        const bool gone = day >= (plot.feed == 0U ? 9 : 18);
        const auto looks = feed::read_plot_look("plot " + std::to_string(plot.number) +
                                                (gone ? " gone" : " not gone"));
        if (looks) seen.plots.push_back(looks->front());
    }
    return seen;
}

}  // namespace

int main() {
    const auto rind = feed::look_up("watermelon rind");
    const auto pumpkin = feed::look_up("pumpkin");
    if (!rind || !pumpkin) return 1;
    feed::Trial trial;
    trial.design = {feed::TrialKind::choice, 2, 6, 1, 1, false};
    trial.feeds = {{"watermelon rind", rind->feedstock, rind->feedstock, {}},
                   {"pumpkin", pumpkin->feedstock, pumpkin->feedstock, {}}};
    trial.seed = 7;
    trial.last_day = 24;
    trial.starts = {{2026, 9, 1}};

    // Before anything is laid: how much of each, and the least chance by luck it can reach.
    const auto layout = feed::draw_layout(trial.design, *trial.seed);
    const auto portions = feed::portions_of(trial, 0.1);
    if (!layout || !portions) return 1;
    std::printf("%.0f g watermelon rind, %.0f g pumpkin: %s\n",
                1000.0 * portions->fresh[0].in_kilograms(),
                1000.0 * portions->fresh[1].in_kilograms(), text(portions->rule).data());
    std::printf("smallest chance by luck %.3f\n", feed::smallest_luck(*layout).overall);

    std::vector<feed::Observation> looks;
    for (int day = 3; day <= *trial.last_day; day += 3)
        looks.push_back(look_on(day, *layout));
    const feed::TrialReading reading = feed::read_trial(trial, *layout, *portions, looks);
    const feed::PairReading& pair = reading.pairs.front();
    std::printf("%s, by luck %.3f\n", text(pair.verdict).data(), pair.test.luck.p);
    std::printf("watermelon rind takes %.2f (%.2f to %.2f) times as long\n", pair.ratio.ratio,
                pair.ratio.low, pair.ratio.high);
    return 0;
}
