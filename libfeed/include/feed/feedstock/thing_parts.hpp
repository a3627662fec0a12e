#pragma once
// Parts of what is counted: slices, peels, crusts, wedges and pieces, as shares of the whole; and
// what has to be asked where a count says no size.
#include <algorithm>
#include <array>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/feedstock/thing_reader.hpp"

namespace feed::detail {

/// What the other parts of a counted fruit would weigh, once: "as cores about 60 g".
inline std::string other_parts(const ReadThing& thing, const Found& found) {
    if (found.alternatives.empty()) return "";
    std::string text = "\"" + thing.words + "\" is taken as " + found.feedstock->name;
    if (!found.part.empty() && text.find(found.part) == std::string::npos)
        text += " (" + found.part + ")";
    const bool weighed = thing.amount.kind == AmountKind::mass;
    if (!weighed) text += ", about " + weight_text(thing.mass.wet_mass);
    const auto& other = found.alternatives.front();
    text +=
        "; for " + (other.part.empty() ? other.name : other.part) + " write \"" + other.name + "\"";
    if (!weighed) {
        const auto mass = wet_mass_of(thing.amount, feedstock_at(other.index));
        if (mass) text += ", about " + weight_text(mass->wet_mass);
    }
    return text;
}

/// A thing without the words before it that say whose it is or that it is left.
inline std::string_view without_owner(std::string_view written) {
    constexpr std::array<std::string_view, 13> whose{
        "rest of", "last of", "most of", "remains of", "end of", "my", "our",
        "the",     "some",    "this",    "these",      "little", "a"};
    while (const auto behind = take_one_phrase(written, 0, whose)) {
        const auto rest = trim(written.substr(*behind));
        if (rest.empty()) break;
        written = rest;
    }
    return written;
}

inline Error no_amount(std::string_view written) {
    written = without_owner(written);
    const std::string name(written);
    return offered(amount_error(ErrorCode::missing_value, written,
                                "an amount and a thing, such as 1 kg or a cup of it",
                                "how much is \"" + name + "\"?"),
                   " Write for instance ", {"200 g " + name, "a cup of " + name});
}

/// Of several materials a counted word may name, the only one that people count: "2 limes" are
/// fruit. Of a vessel or pack the only one that it usually holds: a can of corn holds kernels.
inline void prefer_what_is_counted(NameReading& reading, const Amount& amount) {
    auto& matches = reading.matches;
    const AmountUnit* vessel = amount.counted ? nullptr : unit_named(amount.unit);
    if (vessel != nullptr && !vessel->is_vessel()) vessel = nullptr;
    if (!amount.counted && vessel == nullptr) return;
    if (matches.size() < 2 || matches[1].rank != matches[0].rank) return;
    std::vector<std::size_t> countable;
    for (std::size_t i = 0; i < matches.size() && matches[i].rank == matches[0].rank; ++i) {
        if (is_barred(matches[i].index)) return;
        const auto& meant = feedstock_at(matches[i].index);
        const bool fits = vessel != nullptr ? usually_held(vessel->name, meant) != nullptr
                                            : counted_measure(meant).has_value();
        if (fits) countable.push_back(i);
    }
    if (countable.size() != 1) return;
    for (std::size_t i = 0; i < matches.size(); ++i)
        matches[i].rank =
            static_cast<std::uint8_t>(i == countable.front() ? 0 : 1 + matches[i].rank);
    sort_by(matches, [](const NameMatch& match) { return match.rank; });
}

/// What a part weighs where only the whole is known, as a share of it (grade D).
struct PartShare {
    std::string_view word;  ///< "" for a peel, core, stone or stalk
    double share, low, high;
};
/// The last: the span of the refuse that food tables give for fruit and vegetables, peach stones to
/// potato peel. The others are common practice: slices of cucumber to wedges of melon.
inline constexpr PartShare part_shares[] = {
    {"half", 0.5, 0.4, 0.6},      {"slice", 0.1, 0.02, 0.25}, {"wedge", 0.1, 0.04, 0.25},
    {"chunk", 0.1, 0.02, 0.25},   {"cube", 0.03, 0.01, 0.1},  {"strip", 0.05, 0.01, 0.15},
    {"segment", 0.1, 0.05, 0.15}, {"ring", 0.1, 0.03, 0.2},   {"leaf", 0.15, 0.05, 0.35},
    {"", 0.15, 0.05, 0.35}};
/// Of a loaf: all its crusts, and one end.
inline constexpr PartShare loaf_shares[] = {{"crust", 0.3, 0.15, 0.5}, {"heel", 0.08, 0.04, 0.15}};

constexpr const PartShare& part_share(std::string_view word) noexcept {
    const PartShare* share = std::data(part_shares);
    while (!share->word.empty() && share->word != word)
        ++share;
    return *share;
}

/// The word that makes a part of what is a whole in the table ("peel" of "carrot peel"), or ""
/// where the row is that part itself.
inline std::string part_in(std::string_view words, const Feedstock& feedstock) {
    std::string part;
    for (const auto& word : name_words(words))
        if (has_word(table::en::small_parts, word) || part_share(word).word == word) part = word;
    if (part.empty() || feedstock.group != Group::scraps) return "";
    constexpr std::string_view parts_with_rows[] = {"pomace", "pulp",   "skin",  "grounds", "shell",
                                                    "cob",    "pods",   "peel",  "core",    "rind",
                                                    "stalk",  "leaves", "stone", "tops"};
    for (const auto word : parts_with_rows)
        if (feedstock.id.find(word) != std::string::npos) return "";
    return part;
}

inline void take_share(ReadThing& thing, const std::string& part, const PartShare& share) {
    MassFromAmount& mass = thing.mass;
    mass.low = share.low * mass.low;
    mass.high = share.high * mass.high;
    mass.wet_mass = share.share * mass.wet_mass;
    mass.grade = Grade::d;
    const std::string percent = significant(100.0 * share.share, 2);
    mass.how += ", the " + part + " as " + percent + " % of it";
    thing.said.push_back("the " + part + " is taken as " + percent + " % of the whole, about " +
                         weight_text(mass.wet_mass) + " in all; weigh it to be sure");
    // Of its pieces only the whole is known: from here on it is so much by weight.
    Amount& amount = thing.amount;
    amount.kind = AmountKind::mass;
    amount.mass = mass.wet_mass.mass();
    amount.low_share = share.low / share.share * amount.low_share;
    amount.high_share = share.high / share.share * amount.high_share;
}

/// Takes the part for the whole where whole pieces or loaves were counted, and says so.
inline void take_small_part(ReadThing& thing) {
    const bool slices = thing.amount.unit == text(Measure::slice);
    if (thing.amount.unit == "loaf" || slices) {
        for (const std::string& word : name_words(thing.words))
            for (const PartShare& share : loaf_shares)
                if (word == share.word && (!slices || word == "crust"))
                    return take_share(thing, word, share);
        return;
    }
    const auto counted = counted_measure(*thing.feedstock).value_or(Measure::cup);
    const bool whole = counted <= Measure::piece_large || counted == Measure::head;
    if (!thing.amount.counted || !whole || piece_by_name(name_words(thing.words)) != nullptr)
        return;
    const std::string part = part_in(thing.words, *thing.feedstock);
    if (part == "leaf" && counted != Measure::head) return;
    if (!part.empty()) take_share(thing, part, part_share(part));
}

/// "3 slices of cucumber" where nobody weighed a slice: as shares of the whole, said. False where
/// no whole one has a weight.
inline bool take_slices(ReadThing& thing) {
    if (thing.amount.unit != text(Measure::slice)) return false;
    const auto counted = counted_measure(*thing.feedstock);
    if (!counted || (*counted > Measure::piece_large && *counted != Measure::head)) return false;
    Amount whole = thing.amount;
    whole.counted = true;
    whole.measure = *counted;
    whole.unit = text(*counted);
    auto mass = wet_mass_of(whole, *thing.feedstock);
    if (!mass) return false;
    thing.mass = *std::move(mass);
    std::string word(text(Measure::slice));
    for (const std::string& said : words_of(plain_text(thing.written)))
        if (!part_share(singular(said)).word.empty()) word = singular(said);
    take_share(thing, word, part_share(word));
    return true;
}

/// Rinds of which the table weighs one wedge: the wedges of a whole fruit (the words of the source
/// of their measures).
struct Wedges {
    std::string_view id;
    double in_a_fruit;
};
inline constexpr Wedges wedges[] = {{"watermelon-rind", 16.0}, {"melon-peel", 8.0}};

/// "Half a watermelon rind" and "rind of 2 melons" are of the fruit, "3 melon rinds" of wedges.
inline void take_wedges(const ThingText& piece, const Feedstock& feedstock, Amount& amount) {
    for (const Wedges& one : wedges) {
        if (feedstock.id != one.id || !amount.counted) continue;
        const bool of_fruit = amount.count < 1.0 ||
                              piece.written.find(" of ") != std::string::npos ||
                              piece.written.find(" from ") != std::string::npos;
        if (of_fruit)
            amount.count *= one.in_a_fruit;
        else
            say(amount.said, "\"" + piece.words + "\" is taken as that of one wedge; for a whole " +
                                 "fruit write \"rind of a melon\" or its weight");
    }
}

/// "3 cardboard boxes" of a material that is counted in sheets: boxes have any size.
inline std::optional<Error> size_of_vessel(const Amount& amount, std::string_view words,
                                           const Feedstock& feedstock) {
    if (!amount.counted || feedstock.stance == Stance::avoid) return std::nullopt;
    auto list = words_of(plain_text(words));
    while (list.size() > 1 && has_word(table::en::left_aside, list.back()))
        list.pop_back();
    if (list.empty()) return std::nullopt;
    const auto unit = find_unit(singular_text(unit_text(list.back())));
    const auto counted = counted_measure(feedstock);
    if (!unit || !unit->unit->is_vessel() || counted == Measure::piece) return std::nullopt;
    return offered(amount_error(ErrorCode::ambiguous_amount, words, measures_text(feedstock),
                                "a " + std::string(unit->unit->plain_name) + " may be of any size"),
                   "; weigh it and write for instance ", {"500 g " + std::string(words)});
}

/// "A piece of watermelon" is no whole one, nor "3 pieces of apple" three apples; how much of one
/// they are is not known. A piece of any fruit is a whole one.
inline std::optional<Error> size_of_piece(const Amount& amount, const ThingText& piece,
                                          const Feedstock& feedstock) {
    constexpr double large_kg = 0.1;
    const auto* whole = measured(feedstock, Measure::piece);
    const bool said = amount.unit == text(Measure::piece) && !amount.counted &&
                      piece.written.find(" of ") != std::string::npos;
    const bool any = feedstock.id.find("mixed") != std::string::npos;
    if (!said || any || whole == nullptr || whole->wet_mass.in_kilograms() < large_kg ||
        feedstock.stance == Stance::avoid)
        return std::nullopt;
    return offered(
        amount_error(ErrorCode::ambiguous_amount, piece.written, measures_text(feedstock),
                     "a piece of " + piece.words + " may be of any size"),
        "; weigh it, or write how much of one it is, such as ", {"half a " + piece.words});
}

/// Errors that name a thing as the keeper wrote it.
inline Errors as_written(Errors errors, const Feedstock& feedstock, const std::string& words) {
    const auto rename = [&](std::string& text) {
        for (std::size_t at = 0; (at = text.find(feedstock.name, at)) != std::string::npos;
             at += words.size())
            text.replace(at, feedstock.name.size(), words);
    };
    for (Error& error : errors) {
        rename(error.message);
        for (std::string& repair : error.repairs)
            rename(repair);
    }
    return errors;
}

}  // namespace feed::detail
