#pragma once
// A trial as its keeper describes it: feeds, bins, days, and how much of each feed is laid.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "feed/diary/date.hpp"
#include "feed/feedstock/feedstock.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/trial/design.hpp"
#include "feed/trial/time_model.hpp"

namespace feed {

/// One feed of a trial.
struct TrialFeed {
    std::string label;                           ///< the keeper's words
    std::shared_ptr<const Feedstock> feedstock;  ///< as it is laid
    std::shared_ptr<const Feedstock> fresh;      ///< before it was prepared
    std::optional<WetMass> written;              ///< the keeper's own amount of each portion
};

/// Everything a keeper says of a trial. What is missing the plan proposes.
struct Trial {
    TrialDesign design;
    /// Whether the keeper said how many portions; without a seed the plan may else lay more than 1.
    bool portions_said = false;
    TrialQuestion question = TrialQuestion::gone;
    std::vector<TrialFeed> feeds;
    std::vector<std::string> bins;   ///< names, as many as design.bins
    std::optional<WetMass> portion;  ///< of the first feed, fresh
    std::optional<std::uint64_t> seed;
    std::vector<Date> starts;  ///< the day each round is laid; may be fewer than rounds
    std::optional<int> last_day;
    std::optional<std::size_t> looks;  ///< the most that the keeper grants
    std::string laid_by;               ///< who laid it and knows the key
    std::string changed;               ///< what else changed between rounds
    RatioPrior prior;
};

/// What is made equal between the portions.
enum class PortionRule : std::uint8_t {
    fresh_weight,  ///< the same food, prepared differently: weighed before preparing, drip kept
    volume,        ///< different foods, asked which is found first: the same space and footprint
    dry_matter,    ///< different foods, asked which is gone first: as much to eat
    as_written,    ///< the keeper's own amounts
};
inline constexpr std::array<std::string_view, 4> portion_rule_words{
    "equal fresh weight", "equal volume", "equal dry matter", "as written"};

constexpr std::string_view text(PortionRule rule) noexcept {
    return portion_rule_words[static_cast<std::size_t>(rule)];
}

/// How much of each feed makes a portion, and what differs although it should not.
struct TrialPortions {
    PortionRule rule = PortionRule::fresh_weight;
    std::vector<WetMass> fresh;        ///< to weigh off, before preparing
    std::vector<WetMass> laid;         ///< as it then goes in
    std::vector<std::string> differs;  ///< sentences
    bool unequal = false;              ///< starts differ by more than a fifth
};

/// A portion of the first feed for which nobody said how much: about a handful (common practice).
inline constexpr double usual_portion_wet_kg = 0.1;
/// Starts that differ by more than this share are unequal (D).
inline constexpr double unequal_start = 0.2;

namespace detail {

inline std::optional<double> dry_share(const Feedstock& f) noexcept {
    const auto& moisture = f[Property::moisture_wet];
    return moisture ? std::optional<double>(1.0 - moisture->value) : std::nullopt;
}

/// Wet mass as laid of a fresh mass: dry matter stays, and the drip goes in too.
inline double laid_of(const TrialFeed& feed, double fresh_kg) noexcept {
    const auto before = dry_share(*feed.fresh);
    const auto after = dry_share(*feed.feedstock);
    // What only lost its drip is laid with it; what took up or gave off water weighs otherwise.
    const bool drip_kept = feed.feedstock->prepared_as.find("drained") != std::string::npos;
    if (!before || !after || drip_kept || !(*after > 0.0)) return fresh_kg;
    return fresh_kg * *before / *after;
}

/// The largest of some numbers over the smallest; 1 where one is missing.
inline double fold(std::span<const std::optional<double>> numbers) noexcept {
    double low = 1e300;
    double high = 0.0;
    for (const auto& one : numbers) {
        if (!one) return 1.0;
        low = std::min(low, *one);
        high = std::max(high, *one);
    }
    return low > 0.0 ? high / low : 1.0;
}

inline void note_differences(const Trial& trial, TrialPortions& portions) {
    std::vector<std::optional<double>> moisture;
    std::vector<std::optional<double>> acid;
    std::vector<std::optional<double>> dry;
    std::vector<std::optional<double>> volume;
    bool some_whole = false;
    bool some_cut = false;
    for (std::size_t i = 0; i < trial.feeds.size(); ++i) {
        const Feedstock& f = *trial.feeds[i].feedstock;
        const auto share = dry_share(f);
        const double laid_kg = portions.laid[i].in_kilograms();
        moisture.push_back(share ? std::optional<double>(1.0 - *share) : std::nullopt);
        dry.push_back(share ? std::optional<double>(*share * laid_kg) : std::nullopt);
        const auto& density = f[Property::bulk_density_loose];
        volume.push_back(density ? std::optional<double>(laid_kg / density->value) : std::nullopt);
        const auto& sour = f[Property::titratable_acidity_wet];
        acid.push_back(sour ? std::optional<double>(std::max(sour->value, 1e-4)) : std::nullopt);
        const bool whole = f.prepared_as.find("whole") != std::string::npos;
        some_whole = some_whole || whole;
        some_cut = some_cut || !whole;
    }
    const auto say = [&](std::string sentence) { portions.differs.push_back(std::move(sentence)); };
    double wettest = 0.0;
    double driest = 1.0;
    for (const auto& one : moisture) {
        wettest = std::max(wettest, one.value_or(wettest));
        driest = std::min(driest, one.value_or(driest));
    }
    if (wettest - driest > 0.1)
        say("Moisture differs, " + significant(100.0 * driest, 2) + " % to " +
            significant(100.0 * wettest, 2) +
            " %: wet the bedding first, so that all start moist.");
    if (fold(acid) > 2.0) say("One is sourer: worms may shun it for that alone.");
    if (some_whole && some_cut) say("Size differs: pieces cut small go faster whatever they are.");
    if (portions.rule == PortionRule::as_written) {
        const double off = trial.question == TrialQuestion::found ? fold(volume) : fold(dry);
        portions.unequal = off > 1.0 + unequal_start;
        if (portions.unequal)
            say("The portions are unequal by " + significant(off, 2) + "-fold in " +
                (trial.question == TrialQuestion::found ? "volume" : "dry matter") +
                ": more takes longer whatever it is. Leave the amounts out, then the plan "
                "makes them equal.");
    }
}

}  // namespace detail

/// How much of each feed to lay: the same food prepared differently by equal fresh weight,
/// different foods by equal volume (found) or equal dry matter (gone), or the keeper's own amounts
/// where all feeds have one.
/// @param first_fresh_kg  a portion of the first feed before preparing.
/// Errors: missing_value when a density or a moisture is not known. Threads: pure.
inline Result<TrialPortions> portions_of(const Trial& trial, double first_fresh_kg) {
    TrialPortions portions;
    const TrialFeed& first = trial.feeds.front();
    const bool same_food =
        std::all_of(trial.feeds.begin(), trial.feeds.end(),
                    [&](const TrialFeed& feed) { return feed.fresh->id == first.fresh->id; });
    const bool written =
        std::all_of(trial.feeds.begin(), trial.feeds.end(),
                    [](const TrialFeed& feed) { return feed.written.has_value(); });
    portions.rule = written                                  ? PortionRule::as_written
                    : same_food                              ? PortionRule::fresh_weight
                    : trial.question == TrialQuestion::found ? PortionRule::volume
                                                             : PortionRule::dry_matter;
    const auto measure = [&](const Feedstock& f) -> std::optional<double> {
        if (portions.rule == PortionRule::dry_matter) return detail::dry_share(f);
        const auto& density = f[Property::bulk_density_loose];
        return density ? std::optional<double>(1.0 / density->value) : std::nullopt;
    };
    const bool equal_weight =
        portions.rule == PortionRule::fresh_weight || portions.rule == PortionRule::as_written;
    for (const TrialFeed& feed : trial.feeds) {
        double fresh_kg = feed.written && written ? feed.written->in_kilograms() : first_fresh_kg;
        if (!equal_weight) {
            const auto own = measure(*feed.fresh);
            const auto of_first = measure(*first.fresh);
            if (!own || !of_first || !(*own > 0.0)) {
                const std::string& unknown = own ? first.label : feed.label;
                const char* what =
                    portions.rule == PortionRule::volume ? "bulk density" : "moisture";
                return make_error(ErrorCode::missing_value, "trial: feeds", unknown,
                                  "an amount for every feed, such as 100 g " + unknown,
                                  std::string("the ") + what + " of " + unknown +
                                      " is not known, so equal portions cannot be worked out");
            }
            fresh_kg = first_fresh_kg * *of_first / *own;
        }
        portions.fresh.push_back(wet_kilograms(fresh_kg));
        portions.laid.push_back(wet_kilograms(detail::laid_of(feed, fresh_kg)));
    }
    detail::note_differences(trial, portions);
    return portions;
}

}  // namespace feed
