#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "feed/io/trial_answer.hpp"
#include "feed/ration/from_diary.hpp"

// What the bins of a trial bear: how much at a time, in how many places, and from when on.
namespace feed::io {

/// The most portions of each feed that a plan chooses by itself.
inline constexpr std::size_t most_chosen_portions = 3;

/// The seed that a plan proposes: made from what the file says of the trial, five figures.
std::uint64_t proposed_seed(const Trial& trial);

/// How many portions of each feed the seed of a file was proposed for, where the file does not say
/// and the seed tells; nothing where it is one, or where the seed is another.
std::optional<std::size_t> portions_of_seed(const Trial& trial);

/// A bin as every verb sees it on the day the trial is laid, without what the trial itself laid.
struct TrialBin {
    std::string name;  ///< "the bin" where all are alike
    RationInput input;
};

/// The bins of a trial that are described, each description once: `bed` of the file, then the bins
/// with one of their own. Empty where nothing is described.
std::vector<TrialBin> described_bins(const FeedFile& file, const Trial& trial, UnitSystem units);

/// Whether a bin has a description of its own.
bool has_unlike_bins(const FeedFile& file);

/// Why to wait with laying the trial, or "".
std::string why_wait(const std::vector<TrialBin>& bins);

/// What a bin does not bear of so many portions of each feed, or "": its hazards, and its ration,
/// which must put all of it in.
std::string what_is_too_much(const std::vector<TrialBin>& bins, const Trial& trial,
                             const TrialPortions& portions, std::size_t of_each);

/// How many portions of this size lie apart in the smallest bin.
std::size_t places_in(const std::vector<TrialBin>& bins, const Trial& trial,
                      const TrialPortions& portions);

/// Days until a portion is gone in the slowest bin, at most `longest_expected_days`.
double slowest_gone_days(const std::vector<TrialBin>& bins, const Portion& portion);

/// Longest time that a feed of a trial is expected to take, days.
inline constexpr std::size_t longest_expected_days = 120;

}  // namespace feed::io
