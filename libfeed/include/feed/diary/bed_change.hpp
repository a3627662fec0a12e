#pragma once
// What a keeper did to the bed itself, as an observation says it: bedding added, castings
// harvested, water given.
#include <array>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/bed/load.hpp"
#include "feed/bed/usual_bed.hpp"
#include "feed/diary/observation.hpp"
#include "feed/feedstock/amount.hpp"
#include "feed/feedstock/things.hpp"

namespace feed {

/// How an observation changed the bed. Zero where it says nothing that can be told as an amount: a
/// site's own measure ("two scoops") stays words.
struct BedChange {
    double added_m3 = 0.0;     ///< of bedding, settled
    double taken_m3 = 0.0;     ///< harvested
    double taken_share = 0.0;  ///< harvested as a share of the bed, 0 to 1
    double water_kg = 0.0;     ///< given
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
    return std::nullopt;
}

/// Wet mass of a litre of a settled bed at the aim of its wetness, kg.
inline double settled_bed_kg_per_l() noexcept {
    return usual::dry_density_settled.value / 1000.0 *
           (1.0 + limits::wetness_aim.value * usual::bed_capacity.value);
}

inline void take_harvest(std::string_view what, BedChange& change) {
    what = without_of(what);
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

inline void take_water(std::string_view what, BedChange& change) {
    const auto amount = parse_amount(what);
    if (!amount) return;
    if (amount->kind == AmountKind::mass)
        change.water_kg += in_kilograms(amount->mass);
    else
        change.water_kg += in_litres(amount->volume);
}

}  // namespace detail

/// The change that an observation tells of: `bedding` as a list of amounts and names, `action` as
/// "harvested 5 L", "took out a third", "added water 2 L", parted by commas. Threads: pure. Time: a
/// lookup for each thing.
inline BedChange bed_change_of(const Observation& seen) {
    constexpr std::array<std::string_view, 3> harvest{"harvested", "harvest", "took out"};
    constexpr std::array<std::string_view, 2> water{"added water", "watered"};
    BedChange change;
    if (!seen.bedding.empty()) {
        std::vector<Portion> bedding;
        for (const ReadThing& thing : read_things(seen.bedding).things) {
            const Part part = part_of(*thing.feedstock);
            if (part == Part::bedding) bedding.push_back({thing.feedstock, thing.mass.wet_mass});
        }
        change.added_m3 = load_of(bedding, {}).settled_m3;
    }
    for (std::string_view rest = seen.action; !rest.empty();) {
        const auto comma = rest.find(", ");
        const auto piece = detail::trim(rest.substr(0, comma));
        if (const auto what = detail::behind_any(piece, harvest))
            detail::take_harvest(*what, change);
        else if (const auto given = detail::behind_any(piece, water))
            detail::take_water(*given, change);
        if (comma == std::string_view::npos) break;
        rest.remove_prefix(comma + 2);
    }
    return change;
}

}  // namespace feed
