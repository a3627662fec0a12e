#pragma once
// What a trial looks like before anything is laid, and the places its seed draws.
#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/quantity/error.hpp"
#include "feed/trial/seeded.hpp"

namespace feed {

/// How the feeds meet the worms.
enum class TrialKind : std::uint8_t {
    choice,  ///< all feeds in each bin, side by side: teaches order and preference
    alone,   ///< one feed in a bin at a time, swapped over rounds: may teach rates
};
inline constexpr std::array<std::string_view, 2> trial_kind_words{"choice", "alone"};

/// What is asked of each portion.
enum class TrialQuestion : std::uint8_t { gone, found };
inline constexpr std::array<std::string_view, 2> trial_question_words{"gone", "found"};

constexpr std::string_view text(TrialKind kind) noexcept {
    return trial_kind_words[static_cast<std::size_t>(kind)];
}
constexpr std::string_view text(TrialQuestion question) noexcept {
    return trial_question_words[static_cast<std::size_t>(question)];
}

/// What a trial may have at most. Four feeds: the sentences were tried by simulation up to there.
inline constexpr std::size_t most_trial_feeds = 4;
inline constexpr std::size_t most_trial_bins = 24;
inline constexpr std::size_t most_trial_portions = 6;
inline constexpr std::size_t most_trial_rounds = 6;
inline constexpr std::size_t most_trial_plots = 200;

/// The bare form of a trial.
struct TrialDesign {
    TrialKind kind = TrialKind::choice;
    std::size_t feeds = 2;     ///< 2 to 4
    std::size_t bins = 1;      ///< 1 to 24
    std::size_t portions = 1;  ///< of each feed in a bin and round; 1 for `alone`
    std::size_t rounds = 1;    ///< for `alone` as many as there are feeds
    bool blank = false;        ///< one place of bedding only in each bin and round (`choice`)
};

/// One numbered place and what lies there. All counts start at 0 but `number`, which is 1 for the
/// first plot and unlike for all.
struct Plot {
    std::size_t number = 1;
    std::size_t bin = 0;
    std::size_t round = 0;
    std::size_t place = 0;            ///< within the bin and round
    std::optional<std::size_t> feed;  ///< nothing: the blank
};

/// A design with its seed and the places drawn from it.
struct TrialLayout {
    TrialDesign design;
    std::uint64_t seed = 0;
    std::vector<Plot> plots;  ///< by number: round after round, bin after bin, place after place
};

/// How many plots a design has.
constexpr std::size_t plots_of(const TrialDesign& design) noexcept {
    const std::size_t portions = design.kind == TrialKind::alone
                                     ? 1
                                     : design.feeds * design.portions + (design.blank ? 1 : 0);
    return design.bins * design.rounds * portions;
}

/// What is impossible in a design; empty when nothing is.
inline Errors design_errors(const TrialDesign& design) {
    Errors errors;
    const auto wrong = [&](std::string_view field, std::size_t value, std::string allowed,
                           std::string message) {
        errors.push_back(make_error(ErrorCode::out_of_range, "trial: " + std::string(field),
                                    std::to_string(value), std::move(allowed), std::move(message)));
    };
    const auto between = [&](std::string_view field, std::size_t value, std::size_t low,
                             std::size_t high, std::string_view what) {
        if (value >= low && value <= high) return;
        wrong(field, value, std::to_string(low) + " to " + std::to_string(high),
              "a trial has " + std::to_string(low) + " to " + std::to_string(high) + " " +
                  std::string(what));
    };
    between("feeds", design.feeds, 2, most_trial_feeds, "feeds");
    between("bins", design.bins, 1, most_trial_bins, "bins");
    between("portions", design.portions, 1, most_trial_portions, "portions of each feed in a bin");
    between("rounds", design.rounds, 1, most_trial_rounds, "rounds");
    const std::size_t plots = plots_of(design);
    if (errors.empty() && plots > most_trial_plots)
        wrong("portions", design.portions, "so many that there are at most 200 plots",
              "this makes " + std::to_string(plots) + " plots to look at: take fewer");
    if (!errors.empty() || design.kind == TrialKind::choice) return errors;
    if (design.rounds != design.feeds)
        wrong("rounds", design.rounds, std::to_string(design.feeds),
              "one feed a bin compares bins, not feeds, until the feeds are swapped: every bin "
              "takes each feed once, so " +
                  std::to_string(design.feeds) + " feeds need " + std::to_string(design.feeds) +
                  " rounds; or choose kind: choice, all feeds in each bin");
    if (design.portions != 1)
        wrong("portions", design.portions, "1",
              "several portions of one feed in one bin share its worms and count as one: lay one, "
              "or choose kind: choice");
    if (design.blank)
        wrong("blank", 1, "no",
              "a blank stands beside the feeds; in kind: alone there is no beside");
    if (design.bins < 2)
        wrong(
            "bins", design.bins, "2 or more",
            "one bin has only one order of the feeds, so nothing is drawn and nothing can be told");
    return errors;
}

namespace detail {

/// An order of feeds over the rounds of one bin; entries past the number of feeds are unused.
using FeedOrder = std::array<std::uint8_t, most_trial_feeds>;

/// Every order of so many feeds, smallest first.
inline std::vector<FeedOrder> feed_orders(std::size_t feeds) {
    std::vector<FeedOrder> orders;
    FeedOrder order{0, 1, 2, 3};
    do {
        orders.push_back(order);
    } while (std::next_permutation(order.begin(), order.begin() + static_cast<int>(feeds)));
    return orders;
}

/// Fills `slots` with cards 0 to `cards` - 1, each as often as every other or once more, all such
/// fillings equally likely. `kinds` is room for `cards` numbers.
inline void deal(std::span<std::uint8_t> slots, std::span<std::uint8_t> kinds,
                 SeededStream& stream) {
    const std::size_t cards = kinds.size();
    const std::size_t each = slots.size() / cards;
    const std::size_t extra = slots.size() % cards;
    for (std::size_t card = 0; card < cards; ++card)
        kinds[card] = static_cast<std::uint8_t>(card);
    if (extra > 0) shuffle(kinds, stream);
    std::size_t next = 0;
    for (std::size_t card = 0; card < cards; ++card) {
        for (std::size_t copy = 0; copy < each + (card < extra ? 1 : 0); ++copy)
            slots[next++] = kinds[card];
    }
    shuffle(slots, stream);
}

}  // namespace detail

/// Draws the places of a trial from its seed. In a `choice` every bin and round is shuffled by
/// itself. In `alone` the orders of the feeds are dealt to the bins, each order as often as every
/// other or once more.
/// Errors: those of `design_errors`.
inline Result<TrialLayout> draw_layout(const TrialDesign& design, std::uint64_t seed) {
    Errors errors = design_errors(design);
    if (!errors.empty()) return errors;
    TrialLayout layout{design, seed, {}};
    SeededStream stream(seed);
    const std::uint8_t nothing = most_trial_feeds;
    if (design.kind == TrialKind::alone) {
        const auto orders = detail::feed_orders(design.feeds);
        std::vector<std::uint8_t> dealt(design.bins);
        std::vector<std::uint8_t> kinds(orders.size());
        detail::deal(dealt, kinds, stream);
        for (std::size_t round = 0; round < design.rounds; ++round) {
            for (std::size_t bin = 0; bin < design.bins; ++bin)
                layout.plots.push_back(
                    {layout.plots.size() + 1, bin, round, 0, orders[dealt[bin]][round]});
        }
        return layout;
    }
    std::vector<std::uint8_t> places;
    for (std::size_t round = 0; round < design.rounds; ++round) {
        for (std::size_t bin = 0; bin < design.bins; ++bin) {
            places.clear();
            for (std::size_t feed = 0; feed < design.feeds; ++feed)
                places.insert(places.end(), design.portions, static_cast<std::uint8_t>(feed));
            if (design.blank) places.push_back(nothing);
            shuffle(std::span<std::uint8_t>(places), stream);
            for (std::size_t place = 0; place < places.size(); ++place) {
                Plot plot{layout.plots.size() + 1, bin, round, place, std::nullopt};
                if (places[place] != nothing) plot.feed = places[place];
                layout.plots.push_back(plot);
            }
        }
    }
    return layout;
}

}  // namespace feed
