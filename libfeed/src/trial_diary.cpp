// What a trial is to the bed of its file: its portions are feedings, and feeds that lay alone teach
// how fast they go there.
#include <cmath>
#include <string>
#include <utility>

#include "feed/io/trial_answer.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/trial/own_feed_rate.hpp"
#include "plot_notes.hpp"

namespace feed::io {
namespace {

/// A look at a plot alone in its bin as a look at the feeding that it is.
void take_over(Observation& seen, std::size_t plot, Date laid) {
    for (const PlotLook& look : seen.plots) {
        if (look.plot != plot) continue;
        seen.of_feeding = laid;
        if (look.share_left) seen.share_gone = 1.0 - *look.share_left;
        seen.left = look.left;
        if (look.gone) seen.gone = *look.gone ? FoodGone::yes : FoodGone::no;
    }
}

void add_feedings(const Trial& trial, const LaidTrial& what, Diary& diary) {
    const bool alone = trial.design.kind == TrialKind::alone;
    for (std::size_t round = 0; round < trial.starts.size(); ++round) {
        DatedFeeding laid{trial.starts[round], {}, trial.laid_by, "trial"};
        for (const Plot& plot : what.layout.plots) {
            if (plot.bin != 0 || plot.round != round || !plot.feed) continue;
            laid.portions.push_back(
                {trial.feeds[*plot.feed].feedstock, what.portions.laid[*plot.feed]});
            if (!alone) continue;
            // Alone in the bin, the portion is the feeding, and a look at it a look at that.
            for (Observation& seen : diary.observations) {
                if (seen.left || seen.share_gone || seen.gone != FoodGone::unsaid) continue;
                take_over(seen, plot.number, trial.starts[round]);
            }
        }
        diary.feedings.push_back(std::move(laid));
    }
}

/// Calls `use` with every feedstock that a file puts into the bed or has at hand.
template <class Use>
void each_feedstock(FeedFile& file, Use&& use) {
    const auto all = [&](std::vector<Portion>& portions) {
        for (Portion& portion : portions)
            use(portion.feedstock);
    };
    for (DatedFeeding& feeding : file.diary.feedings)
        all(feeding.portions);
    for (Feeding& feeding : file.diary.bed.earlier)
        all(feeding.portions);
    if (file.blend) {
        for (WrittenPortion& written : *file.blend)
            use(written.portion.feedstock);
    }
    if (file.balance) {
        for (Entry& entry : file.balance->problem.entries)
            use(entry.feedstock);
    }
}

}  // namespace

std::optional<LaidTrial> laid_trial(const Trial& trial) {
    if (!trial.seed || trial.starts.empty()) return std::nullopt;
    auto layout = draw_layout(trial.design, *trial.seed);
    auto portions =
        portions_of(trial, trial.portion ? trial.portion->in_kilograms() : usual_portion_wet_kg);
    if (!layout || !portions) return std::nullopt;
    return LaidTrial{std::move(layout).value(), std::move(portions).value()};
}

std::string own_feed_text(const OwnFeed& own) {
    const double error = normal_95 * own.rate.log_sd;
    return "By your own trial, " + own.label + " goes " +
           significant(std::exp(own.rate.log_factor), 2) +
           " times as fast here as the table says (" +
           significant(std::exp(own.rate.log_factor - error), 2) + " to " +
           significant(std::exp(own.rate.log_factor + error), 2) + ").";
}

void add_trial(FeedFile& file) {
    if (!file.trial) return;
    const Trial& trial = *file.trial;
    const auto what = laid_trial(trial);
    if (!what) return;
    add_feedings(trial, *what, file.diary);
    if (trial.design.kind != TrialKind::alone || !trial.last_day) return;
    const TrialReading seen =
        see_trial(trial, what->layout, what->portions, file.diary.observations);
    if (!seen.ended || !seen.valid) return;
    const auto ratios = feed_ratios(what->layout, intervals_of(trial, seen), trial.prior);
    for (const OwnFeedRate& rate : own_feed_rates(trial, seen, ratios)) {
        const Feedstock& tried = *trial.feeds[rate.feed].feedstock;
        const auto own = std::make_shared<const Feedstock>(with_own_rate(tried, rate));
        each_feedstock(file, [&](std::shared_ptr<const Feedstock>& feed) {
            if (feed && same_material(*feed, tried)) feed = own;
        });
        file.own_feeds.push_back({trial.feeds[rate.feed].label, rate});
        file.assumed.push_back({own_feed_text(file.own_feeds.back()), Grade::b});
    }
}

}  // namespace feed::io
