#include "trial_bins.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "feed/bed/completed.hpp"
#include "feed/forecast/forecast.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/ration/check.hpp"

namespace feed::io {
namespace {

/// Between two portions, so that each has worms and juice of its own (D): a hand's breadth.
constexpr double gap_m = 0.08;
/// A portion is spread no higher than this (D).
constexpr double portion_height_m = 0.05;

/// What one bin gets at a time: all feeds of a choice at once, or each alone.
std::vector<std::vector<Portion>> feedings_of_bin(const Trial& trial, const TrialPortions& portions,
                                                  std::size_t of_each) {
    std::vector<std::vector<Portion>> feedings(1);
    for (std::size_t i = 0; i < trial.feeds.size(); ++i) {
        if (i > 0 && trial.design.kind == TrialKind::alone) feedings.emplace_back();
        feedings.back().push_back(
            {trial.feeds[i].feedstock, static_cast<double>(of_each) * portions.laid[i]});
    }
    return feedings;
}

/// A hazard at the level "act" but that of an empty or dry bed, which no small portion makes.
std::string acute(const CheckResult& result) {
    for (const HazardFinding& finding : result.hazards) {
        if (finding.level == Level::act && finding.hazard != Hazard::underfed)
            return std::string(text(finding.hazard));
    }
    for (const CautionFinding& caution : result.cautions) {
        if (caution.level == Level::act) return caution.text;
    }
    return "";
}

/// How much room a portion takes, lying loosely. Where nobody knows how loosely it lies, as water
/// does: no portion is smaller.
double loose_volume_m3(const Portion& portion) {
    const auto& density = (*portion.feedstock)[Property::bulk_density_loose];
    return portion.wet_mass.in_kilograms() / (density ? density->value : 1000.0);
}

std::string too_much_for(const TrialBin& bin, const Trial& trial,
                         const std::vector<Portion>& feeding) {
    const CompletedBed bed = completed(bin.input.bed, UnitSystem::metric);
    double volume_m3 = 0.0;
    for (const Portion& portion : feeding)
        volume_m3 += loose_volume_m3(portion);
    if (volume_m3 > bed.free_room.value()) return bin.name + ": it has no room for so much";
    RationInput in = bin.input;
    for (const Portion& portion : feeding) {
        const auto feed =
            std::find_if(trial.feeds.begin(), trial.feeds.end(),
                         [&](const TrialFeed& one) { return one.feedstock == portion.feedstock; });
        in.things.push_back({portion.feedstock, feed->label, portion.wet_mass, {}});
    }
    const CheckResult result = check(in, feeding);
    if (const std::string hazard = acute(result); !hazard.empty()) return bin.name + ": " + hazard;
    if (result.as_planned) return "";
    const Ration& ration = result.ration;
    if (!ration.take_out.empty())
        return bin.name + ": " + ration.take_out.front().label + " is to be left out";
    std::string why = ration.reasons.empty()
                          ? std::string("its ration is less")
                          : reason_text(ration.reasons.front(), ration, in.units);
    if (why.back() == '.') why.pop_back();
    return bin.name + ": " + why;
}

}  // namespace

std::uint64_t proposed_seed(const Trial& trial) {
    // FNV-1a, 64 bits.
    std::uint64_t hash = 0xCBF29CE484222325ULL;
    const auto add = [&](std::string_view text) {
        for (const char c : text)
            hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001B3ULL;
        hash = (hash ^ 0xFFU) * 0x100000001B3ULL;
    };
    for (const auto& feed : trial.feeds)
        add(feed.label);
    for (const auto& bin : trial.bins)
        add(bin);
    for (const Date& start : trial.starts)
        add(text(start));
    add(text(trial.design.kind));
    add(std::to_string(trial.design.portions));
    return 10000 + (hash >> 20U) % 90000;
}

std::optional<std::size_t> portions_of_seed(const Trial& trial) {
    if (trial.portions_said || !trial.seed || trial.design.kind == TrialKind::alone)
        return std::nullopt;
    for (std::size_t number = 1; number <= most_chosen_portions; ++number) {
        Trial other = trial;
        other.design.portions = number;
        const bool with_start = proposed_seed(other) == *trial.seed;
        other.starts.clear();  // the plan printed it before anybody wrote the day
        if (!with_start && proposed_seed(other) != *trial.seed) continue;
        return number == 1 ? std::nullopt : std::optional(number);
    }
    return std::nullopt;
}

bool has_unlike_bins(const FeedFile& file) {
    return std::any_of(file.trial_bins.begin(), file.trial_bins.end(),
                       [](const auto& own) { return own.has_value(); });
}

std::vector<TrialBin> described_bins(const FeedFile& file, const Trial& trial, UnitSystem units) {
    std::vector<TrialBin> bins;
    const auto day = trial.starts.empty() ? day_zero(file) : std::optional(trial.starts.front());
    const bool unlike = has_unlike_bins(file);
    if (file.has_bed) {
        Diary diary = file.diary;
        std::erase_if(diary.feedings,
                      [](const DatedFeeding& feeding) { return feeding.note == "trial"; });
        bins.push_back({unlike ? trial.bins.front() : std::string("the bin"),
                        ration_input_of(diary, day, units)});
    }
    for (std::size_t i = 0; i < file.trial_bins.size(); ++i) {
        if (file.trial_bins[i])
            bins.push_back({trial.bins[i], ration_input_of(*file.trial_bins[i], day, units)});
    }
    return bins;
}

std::string why_wait(const std::vector<TrialBin>& bins) {
    std::string wait;
    for (const TrialBin& bin : bins) {
        const RationAnswer answer = ration(bin.input).answer;
        if (answer == RationAnswer::act_first)
            return "Wait with the trial: " + bin.name +
                   " needs help first. Do what feed ration says, then plan again.";
        if (answer == RationAnswer::wait && wait.empty())
            wait = "Wait with the trial: " + bin.name +
                   " is not ready for food. Plan again when feed ration says feed.";
    }
    return wait;
}

std::string what_is_too_much(const std::vector<TrialBin>& bins, const Trial& trial,
                             const TrialPortions& portions, std::size_t of_each) {
    for (const auto& feeding : feedings_of_bin(trial, portions, of_each)) {
        for (const TrialBin& bin : bins) {
            std::string words = too_much_for(bin, trial, feeding);
            if (!words.empty()) return words;
        }
    }
    return "";
}

std::size_t places_in(const std::vector<TrialBin>& bins, const Trial& trial,
                      const TrialPortions& portions) {
    double side = 0.0;
    for (std::size_t i = 0; i < trial.feeds.size(); ++i) {
        const double volume_m3 = loose_volume_m3({trial.feeds[i].feedstock, portions.laid[i]});
        side = std::max(side, std::sqrt(volume_m3 / portion_height_m) + gap_m);
    }
    std::size_t fewest = most_trial_plots;
    for (const TrialBin& bin : bins) {
        const CompletedBed bed = completed(bin.input.bed, UnitSystem::metric);
        const auto along = [&](Length length) {
            return static_cast<std::size_t>(std::floor((in_metres(length) + gap_m) / side + 1e-9));
        };
        fewest = std::min(fewest, along(bed.inside.length) * along(bed.inside.width));
    }
    return fewest;
}

double slowest_gone_days(const std::vector<TrialBin>& bins, const Portion& portion) {
    double slowest = 0.0;
    for (const TrialBin& bin : bins) {
        const std::vector<Feeding> feedings{{days(0.0), {portion}}};
        ForecastOptions options;
        options.days = longest_expected_days;
        options.units = bin.input.units;
        options.ranges = bin.input.ranges;
        Bed empty = bin.input.bed;
        empty.earlier.clear();
        const Forecast ahead = forecast(empty, feedings, options);
        double gone = longest_expected_days;
        for (const ForecastPortion& one : ahead.portions) {
            if (one.day != 0) continue;
            for (std::size_t day = 1; day <= ahead.days; ++day) {
                if (ahead.share_left(one, day) > plot_gone_share) continue;
                gone = static_cast<double>(day);
                break;
            }
        }
        slowest = std::max(slowest, gone);
    }
    return slowest;
}

}  // namespace feed::io
