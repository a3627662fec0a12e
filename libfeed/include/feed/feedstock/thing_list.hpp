#pragma once
#include <algorithm>
#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/feedstock/each_of.hpp"
#include "feed/feedstock/piece_reader.hpp"

// A text cut into things: which pieces are one thing, and which are several.
namespace feed::detail {

inline constexpr std::size_t most_things = 60;

/// Whether a piece only says that something is not there ("no grease").
inline bool says_what_is_absent(std::string_view text) {
    const auto words = name_words(text);
    return words.size() > 1 && words.size() <= 4 &&
           has_word(table::en::without_words, words.front());
}

/// Whether every word of a piece only says how the thing before it was cut or kept.
inline bool only_describes(std::string_view text) {
    const auto words = name_words(text);
    return !words.empty() && words.size() <= 6 &&
           std::all_of(words.begin(), words.end(), [](const std::string& word) {
               return has_word(table::en::left_aside, word);
           });
}

/// Whether a piece is a part of the thing before it ("ends" of "celery leaves and ends"), and no
/// thing of its own ("scraps").
inline bool only_names_parts(std::string_view text) {
    const auto words = name_words(text);
    return words.size() == 1 && has_word(table::en::part_words, words[0]) &&
           match_key(key_of(words)).empty();
}

/// Whether words are parts that a whole one has ("leaves", "skin and stone").
inline bool only_small_parts(std::string_view text) {
    const auto words = name_words(text);
    return !words.empty() && words.size() <= 3 &&
           std::all_of(words.begin(), words.end(), [](const std::string& word) {
               return has_word(table::en::small_parts, word) || word == "leaf" || word == "root" ||
                      word == "seed" || word == "on";
           });
}

/// Joins words that belong to the thing before them: how it was cut, its parts, what it is without.
inline bool joins_words(ThingText& before, const ThingText& piece) {
    const bool names_parts = only_names_parts(piece.words);
    if (piece.amount) {
        // "pineapple eyes and core 300 g".
        if (!names_parts || before.amount || before.question || piece.question) return false;
        before.amount = piece.amount;
    } else if (says_what_is_absent(piece.words)) {
        before.written += ", " + piece.written;
        return true;
    } else if (piece.is_with && before.amount && !names_parts && only_small_parts(piece.words)) {
        // "3 radishes with leaves": the leaves are part of them.
        before.written += " with " + piece.written;
        return true;
    } else if (!names_parts && !only_describes(piece.words)) {
        return false;
    }
    before.words += " " + piece.words;
    before.written += ", " + piece.written;
    return true;
}

/// "A yam, about half a pound": of two amounts the weight is the surer one.
inline bool is_surer(const Amount& weight, const Amount& before) {
    if (weight.kind != AmountKind::mass) return false;
    return before.counted || (before.kind != AmountKind::mass && before.count <= 1.0);
}

/// Whether a piece belongs to the thing before it (how it was cut, its amount); then it is joined.
inline bool joins(ThingText& before, const ThingText& piece) {
    if (joins_words(before, piece)) return true;
    if (before.question) return false;
    if (piece.amount && piece.words.empty() &&
        (!before.amount || is_surer(*piece.amount, *before.amount))) {
        before.amount = piece.amount;
        return true;
    }
    if (!piece.bare_amount || before.amount) return false;
    before.amount = piece.bare_amount;
    return true;
}

/// "nothing", "no scraps today": no thing at all.
inline bool is_nothing(const ThingText& piece) {
    const std::string words = plain_text(piece.words);
    return !piece.amount && (words == "nothing" || words == "none" || words == "nil" ||
                             words == "nothing today" || words == "no scraps");
}

inline void add_thing(std::vector<ThingText>& things, ThingText piece) {
    if (is_nothing(piece)) return;
    if (piece.words.empty() && !piece.question)
        piece.question = offered(
            amount_error(ErrorCode::empty, piece.written, "an amount and a thing, such as 3 apples",
                         "\"" + piece.written + "\" of what?"),
            " Write for instance ", {piece.written + " apples"});
    things.push_back(std::move(piece));
}

/// "Whipped cream on top", "grease on it": on what stands before it.
inline bool lies_on_it(std::string_view text) {
    const std::string words = plain_text(text);
    constexpr std::array<std::string_view, 5> ends{" on top", " on it", " on them", " in it",
                                                   " in them"};
    return std::any_of(ends.begin(), ends.end(), [&](std::string_view end) {
        return words.size() > end.size() &&
               words.compare(words.size() - end.size(), end.size(), end) == 0;
    });
}

/// Whether words belong to the thing before them: behind "with", or on top of it.
inline bool comes_with(std::string_view text, std::size_t start, std::string_view words) {
    return (start >= 5 && plain_text(text.substr(start - 5, 5)) == "with") || lies_on_it(words);
}

/// "Leaves, 1 lb carrots": behind a seam an amount begins, and a name stands before it. Then the
/// two are no one name, though there are carrot leaves.
/// @param inner  the seams of the joined pieces.
inline bool has_own_amount(std::string_view text, std::size_t start, std::span<const Seam> inner) {
    for (const Seam& seam : inner) {
        const auto behind = trim(text.substr(std::min(seam.next, text.size())));
        if (behind.empty() || !is_digit(behind.front())) continue;
        const auto before = tidy(text.substr(start, seam.end - start));
        const auto count = read_count(before);
        const auto named = trim(count ? before.substr(count->length) : before);
        // "2 lb, 3 oz apples" is one amount.
        const bool is_amount = count && find_unit(singular_text(unit_text(named)));
        if (!named.empty() && !is_amount) return true;
    }
    return false;
}

/// The things of a text without "each". A name may hold a comma or "and" ("core and peel"): the
/// longest beginning that is clear is taken first, else what stands before the first seam.
template <class Names>
std::vector<ThingText> split_plain(std::string_view text, const Names& names) {
    const PieceReader<Names> reader(names);
    std::vector<ThingText> things;
    const auto seams = seams_of(text);
    std::size_t start = 0;
    std::size_t seam = 0;
    while (start < text.size() && things.size() < most_things) {
        while (seam < seams.size() && seams[seam].end < start)
            ++seam;
        std::optional<ThingText> taken;
        std::size_t next = text.size();
        // Names join at most a few pieces.
        constexpr std::size_t most_joined = 4;
        for (std::size_t joined = std::min(most_joined, seams.size() - seam) + 1; joined-- > 0;) {
            const std::size_t last = seam + joined;
            const std::size_t end = last < seams.size() ? seams[last].end : text.size();
            const auto piece = tidy(text.substr(start, end - start));
            if (piece.empty()) continue;
            next = last < seams.size() ? seams[last].next : text.size();
            if (joined == 0) {
                std::size_t length = 0;
                taken = reader.first_of_run(piece, length);
                if (taken)
                    next = static_cast<std::size_t>(piece.data() - text.data()) + length;
                else
                    taken = reader.loosely(piece);
            } else if (piece.size() <= longest_name &&
                       !has_own_amount(text, start, std::span(seams).subspan(seam, joined))) {
                taken = reader.strictly(piece);
            }
            if (taken) break;
        }
        const std::size_t from = std::exchange(start, next);
        if (!taken) continue;
        taken->is_with = comes_with(text, from, taken->words);
        reader.take_measure_alone(*taken);
        if (things.empty() || !joins(things.back(), *taken)) add_thing(things, *std::move(taken));
    }
    if (start < text.size() && things.size() >= most_things) {
        ThingText rest;
        rest.question = amount_error(ErrorCode::too_large, tidy(text.substr(start)).substr(0, 40),
                                     "at most " + std::to_string(most_things) + " things in a text",
                                     "this text holds too many things; write it in parts");
        things.push_back(std::move(rest));
    }
    return things;
}

/// The things of "500 g each of apples and pears", each with the amount; nothing where the text
/// says anything else.
template <class Names>
std::vector<ThingText> split_each(std::string_view text, const Names& names) {
    const auto each = each_of(text, names.containers());
    if (!each) return {};
    auto things = split_plain(each->things, names);
    for (auto& thing : things) {
        if (thing.amount || thing.question) return {};
        thing = PieceReader<Names>(names).loosely(std::string(each->amount) + " " + thing.written);
    }
    return things;
}

/// What is barred bars what it is mixed with: nobody picks the chicken out of the rice, the
/// herbicide off the straw or the fish off the newspaper. Two with an amount each stay two.
template <class Names>
void join_mixtures(std::vector<ThingText>& things, const Names& names) {
    for (std::size_t at = 1; at < things.size();) {
        ThingText& first = things[at - 1];
        const ThingText& with = things[at];
        if (!with.is_with || (first.amount && with.amount) || !names.bars(with.words)) {
            ++at;
            continue;
        }
        first.written += " with " + with.written;
        first.mixed_with = with.words;
        if (!first.amount) first.amount = with.amount;
        things.erase(things.begin() + static_cast<std::ptrdiff_t>(at));
    }
}

/// The things of a text, in its order.
template <class Names>
std::vector<ThingText> split_things(std::string_view text, const Names& names) {
    auto things = split_each(text, names);
    if (things.empty()) things = split_plain(text, names);
    join_mixtures(things, names);
    return things;
}

}  // namespace feed::detail
