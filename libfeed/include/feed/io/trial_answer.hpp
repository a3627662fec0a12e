#pragma once
#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "feed/io/feed_file.hpp"
#include "feed/io/human_text.hpp"
#include "feed/trial/closed_test.hpp"
#include "feed/trial/power.hpp"
#include "feed/trial/trial_reading.hpp"

// The answers to the trial of a feed file: the plan before anything is laid, and the reading.
namespace feed::io {

/// A change to a plan and what it would be worth.
struct TrialChange {
    std::string text;    ///< "one more portion of each feed in every bin"
    double power = 0.0;  ///< at a ratio of 1.5 and the middle spread
};

/// A plan: places, portions, days, and what it can tell.
struct TrialPlan {
    Trial trial;  ///< with seed and last day filled in
    TrialLayout layout;
    bool seed_from_file = false;
    bool portions_chosen = false;  ///< how many of each feed: by the plan, not by the file
    std::string why_portions;      ///< why so many, where the plan chose
    TrialPortions portions;
    std::string wait;                   ///< why to wait with laying it, or empty
    double asked_share = 1.0;           ///< of the portion asked for that the bed bears
    std::string why_smaller;            ///< which bin does not bear the whole, and why; or empty
    std::vector<std::string> measures;  ///< of a fresh portion, in the keeper's measure
    std::vector<double> expected_days;  ///< for each feed, until it is gone
    std::vector<int> look_days;
    SmallestLuck smallest;
    PowerTable power{};
    std::vector<TrialChange> changes;       ///< cheapest first
    std::optional<std::size_t> helps_most;  ///< index into `changes`
    std::vector<std::string> notes;         ///< what the bed says, what differs
    std::size_t grave_notes = 0;            ///< so many of them, from the first, are of the bed
    std::vector<Assumption> assumed;
};

/// Told how many of how many steps are done.
using TrialProgress = std::function<void(std::size_t done, std::size_t of)>;

/// Plans the trial of a file. Without a seed one is made from what the file says of the trial, so
/// that the same file gives the same plan.
/// Errors: missing_value without `trial`; a feed that is never fed; portions that the bed cannot
/// bear at all; what portions_of and draw_layout refuse. Threads: pure. Time: a second or two.
/// @param draws  trials drawn for each figure of power, at least 1: with fewer it is quicker and
/// less sure.
Result<TrialPlan> trial_plan_of(const FeedFile& file, UnitSystem units = UnitSystem::metric,
                                const TrialProgress& progress = {},
                                std::size_t draws = power_trials);

/// Reads the trial of a file. Errors: missing_value without `trial`, or where seed, start or last
/// day are missing (the plan prints them). Threads: pure.
Result<TrialReading> trial_reading_of(const FeedFile& file);

/// The first lines for a person, not broken: on a screen at most 12.
std::vector<std::string> trial_plan_lines(const TrialPlan& plan, UnitSystem units);
std::vector<std::string> trial_reading_lines(const Trial& trial, const TrialReading& reading);
/// The same on a screen. why: then all else, in a fixed order.
std::string trial_plan_text(const TrialPlan& plan, UnitSystem units, bool why);
std::string trial_reading_text(const Trial& trial, const TrialReading& reading, bool why);

/// " Weigh it fresh; its drip goes in too." where a feed is prepared, else "".
std::string weigh_fresh_text(const Trial& trial);

/// The sentence on a pair: "Clear: melon rind is gone before pumpkin ...".
std::string pair_sentence(const Trial& trial, const TrialReading& reading, const PairReading& pair);
/// "By day 9, 4 of 6 melon rind portions and 1 of 6 pumpkin portions were gone."
std::string count_sentence(const Trial& trial, const TrialReading& reading);

/// JSON of both answers. Keys: see docs/trials.md. units: of the plan's `text`.
std::string to_json(const TrialPlan& plan, UnitSystem units = UnitSystem::metric);
std::string to_json(const Trial& trial, const TrialReading& reading);

/// The whole file of a plan, to be laid, noted in and read: what the keeper wrote stays as it
/// stands, the section gets seed, last day and portions, and comments at the end say what lies
/// where. JSON stays JSON and gets no comments.
/// @param file  that the plan was made of.
/// Errors: wrong_type, where the section is written in a form that cannot be added to (an alias).
/// Threads: pure.
Result<std::string> trial_plan_yaml(const FeedFile& file, const TrialPlan& plan);

/// How far the trial of a file is with the newest look, for whoever looked: "Trial, day 14 of 30: 3
/// of 12 portions are gone." It names no feed, so that a blind looker stays blind. "" where the
/// newest look is at no portion of a trial that was laid. Threads: pure.
std::string trial_progress(const FeedFile& file);

/// What was laid as feedings of the bed, and in `alone` what was seen of them as looks at those
/// feedings: the file describes the first bin. An *alone* trial that is over moves how fast its
/// feeds go wherever the file names them (`own_feed_rates`). Called once, by the reader of files.
/// Threads: pure.
void add_trial(FeedFile& file);

/// "By your own trial, pumpkin goes 0.8 times as fast here as the table says (0.7 to 0.9)."
std::string own_feed_text(const OwnFeed& own);

}  // namespace feed::io
