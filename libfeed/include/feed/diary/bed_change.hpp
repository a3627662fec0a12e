#pragma once
// What a keeper did to the bed itself, as an observation says it: bedding added, castings
// harvested, water given.
#include <array>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/bed/completed.hpp"
#include "feed/bed/flush.hpp"
#include "feed/bed/load.hpp"
#include "feed/bed/usual_bed.hpp"
#include "feed/diary/observation.hpp"
#include "feed/feedstock/amount.hpp"
#include "feed/feedstock/things.hpp"
#include "feed/quantity/number_text.hpp"

namespace feed {

/// What is done to a bed by hand: first bed is taken out, then it is flushed, then bedding and
/// water go in. Zero where a note says nothing that can be told as an amount: a site's own measure
/// ("two scoops") stays words.
struct BedChange {
    double taken_m3 = 0.0;         ///< out of the bed
    double taken_share = 0.0;      ///< the same as a share of the bed, 0 to 1
    bool worms_went_too = false;   ///< with what was taken out
    double flushed_kg = 0.0;       ///< water run through the bed
    std::vector<Portion> bedding;  ///< that goes in
    double water_kg = 0.0;         ///< given

    bool any() const noexcept {
        return taken_m3 > 0.0 || taken_share > 0.0 || flushed_kg > 0.0 || !bedding.empty() ||
               water_kg > 0.0;
    }
};

namespace detail {

/// What stands behind one of some words, without a colon between; nothing where none begins it.
inline std::optional<std::string_view> behind_any(std::string_view text,
                                                  std::span<const std::string_view> words) {
    for (const std::string_view word : words) {
        if (text.size() < word.size() || plain_text(text.substr(0, word.size())) != word) continue;
        std::string_view rest = text.substr(word.size());
        if (!rest.empty() && rest.front() != ' ' && rest.front() != ':') continue;
        if (!rest.empty() && rest.front() == ':') rest.remove_prefix(1);
        return trim(rest);
    }
    return std::nullopt;
}

/// Cuts "of the finished castings" and the like from the end of an amount.
inline std::string_view without_of(std::string_view text) {
    const auto at = text.find(" of ");
    if (at == std::string_view::npos) return text;
    constexpr std::array<std::string_view, 9> bed_words{
        "the", "it", "bed", "bin", "castings", "vermicompost", "compost", "finished", "worm"};
    for (const auto& word : words_of(plain_text(text.substr(at + 4)))) {
        if (std::find(bed_words.begin(), bed_words.end(), word) == bed_words.end()) return text;
    }
    return trim(text.substr(0, at));
}

/// "a third", "half", "30 %".
inline std::optional<double> share_said(std::string_view text) {
    constexpr std::array<std::pair<std::string_view, double>, 10> shares{
        {{"a third", 1.0 / 3.0},
         {"one third", 1.0 / 3.0},
         {"third", 1.0 / 3.0},
         {"half", 0.5},
         {"a half", 0.5},
         {"a quarter", 0.25},
         {"one quarter", 0.25},
         {"quarter", 0.25},
         {"two thirds", 2.0 / 3.0},
         {"three quarters", 0.75}}};
    const std::string plain = plain_text(text);
    for (const auto& [words, share] : shares) {
        if (plain == words) return share;
    }
    const auto number = read_number(text);
    if (!number || trim(text.substr(number->length)) != "%") return std::nullopt;
    const double share = number->number / 100.0;
    return share > 0.0 && share <= 1.0 ? std::optional(share) : std::nullopt;
}

/// Wet mass of a litre of a settled bed at the aim of its wetness, kg.
inline double settled_bed_kg_per_l() noexcept {
    return usual::dry_density_settled.value / 1000.0 *
           (1.0 + limits::wetness_aim.value * usual::bed_capacity.value);
}

/// Cuts "with the worms" from the end of what was taken out.
inline std::string_view without_worms(std::string_view text, bool& went_too) {
    for (const std::string_view tail : {" with the worms", " with worms", " worms and all"}) {
        const std::string_view end = text.substr(text.size() - std::min(text.size(), tail.size()));
        if (plain_text(end) != tail.substr(1)) continue;
        went_too = true;
        text.remove_suffix(tail.size());
    }
    return trim(text);
}

inline void take_harvest(std::string_view what, BedChange& change) {
    what = without_of(without_worms(what, change.worms_went_too));
    if (const auto share = share_said(what)) {
        change.taken_share = *share;
        return;
    }
    const auto amount = parse_amount(what);
    if (!amount) return;
    if (amount->kind == AmountKind::mass)
        change.taken_m3 += in_kilograms(amount->mass) / settled_bed_kg_per_l() / 1000.0;
    else if (amount->kind == AmountKind::volume)
        change.taken_m3 += in_litres(amount->volume) / 1000.0;
}

inline void take_water(std::string_view what, double& water_kg) {
    what = without_of(what);
    const std::string_view of_water = " of water";
    if (what.size() > of_water.size() &&
        plain_text(what.substr(what.size() - of_water.size())) == "of water")
        what.remove_suffix(of_water.size());
    const auto amount = parse_amount(what);
    if (!amount) return;
    if (amount->kind == AmountKind::mass)
        water_kg += in_kilograms(amount->mass);
    else if (amount->kind == AmountKind::volume)
        water_kg += in_litres(amount->volume);
}

}  // namespace detail

/// The bedding that words of a note name, an amount each; what has no amount stays words. With the
/// feedstocks, vessels and words of the keeper's file first. Threads: pure. Time: a lookup each.
inline std::vector<Portion> bedding_named(std::string_view words, const KeeperWords& keeper = {}) {
    std::vector<Portion> bedding;
    if (words.empty()) return bedding;
    for (const ReadThing& thing : read_things(words, keeper).things) {
        if (part_of(*thing.feedstock) == Part::bedding)
            bedding.push_back({thing.feedstock, thing.mass.wet_mass});
    }
    return bedding;
}

/// The change that an observation tells of: `bedding` as a list of amounts and names, `action` as
/// "harvested 5 L", "took out a third with the worms", "flushed 8 L", "added water 2 L", parted by
/// commas. Threads: pure. Time: a lookup for each thing.
inline BedChange bed_change_of(const Observation& seen) {
    constexpr std::array<std::string_view, 3> harvest{"harvested", "harvest", "took out"};
    constexpr std::array<std::string_view, 3> water{"added water", "watered with", "watered"};
    constexpr std::array<std::string_view, 2> flush{"flushed with", "flushed"};
    BedChange change;
    change.bedding = seen.bedding_read ? *seen.bedding_read : bedding_named(seen.bedding);
    for (std::string_view rest = seen.action; !rest.empty();) {
        const auto comma = rest.find(", ");
        const auto piece = detail::trim(rest.substr(0, comma));
        if (const auto what = detail::behind_any(piece, harvest))
            detail::take_harvest(*what, change);
        else if (const auto given = detail::behind_any(piece, water))
            detail::take_water(*given, change.water_kg);
        else if (const auto through = detail::behind_any(piece, flush))
            detail::take_water(*through, change.flushed_kg);
        if (comma == std::string_view::npos) break;
        rest.remove_prefix(comma + 2);
    }
    return change;
}

namespace detail {

/// Takes a share of the bed out of everything that is in it.
inline void keep_share(Bed& bed, double kept, double day) {
    bed.share_kept *= kept;
    bed.water_added = kept * bed.water_added;
    for (AddedBedding& one : bed.added)
        one.portion.wet_mass = wet_kilograms(kept * one.portion.wet_mass.in_kilograms());
    for (Feeding& feeding : bed.earlier) {
        if (in_days(feeding.day) < day) feeding.kept *= kept;
    }
}

}  // namespace detail

/// Changes a bed by what was done to it. The one rule for a note, for a harvest and for every other
/// work on a bed. Food that was fed stays (it is moved aside); what was fed on that day or later
/// keeps its salt.
/// @param unseen     the bed's wetness was not looked at since, so bedding and water change it.
/// @param worms_old  the worms were not weighed since, so those that went are missing.
/// @param day        when it was done: 0 is the day of the bed, earlier days are negative.
/// Threads: pure.
inline void apply_change(Bed& bed, const BedChange& change, bool unseen = true,
                         bool worms_old = true, double day = 0.0) {
    constexpr double most_taken = 0.95;
    double taken = std::clamp(change.taken_share, 0.0, 1.0);
    if (change.taken_m3 > 0.0) {
        const double there_m3 = std::max(completed(bed).contents.value(), 1e-9);
        taken = 1.0 - (1.0 - taken) * (1.0 - std::min(1.0, change.taken_m3 / there_m3));
    }
    taken = std::min(taken, most_taken);
    if (taken > 0.0) {
        detail::keep_share(bed, 1.0 - taken, day);
        if (change.worms_went_too && worms_old) bed.worms_kept *= 1.0 - taken;
    }
    if (change.flushed_kg > 0.0) {
        const double left = flushed_salt_left(completed(bed), change.flushed_kg).value;
        bed.salt_kept *= left;
        for (Feeding& feeding : bed.earlier) {
            if (in_days(feeding.day) < day) feeding.salt_kept *= left;
        }
    }
    for (const Portion& portion : change.bedding)
        bed.added.push_back({days(day), portion, !unseen});
    if (unseen) bed.water_added = bed.water_added + kilograms(change.water_kg + change.flushed_kg);
}

}  // namespace feed
