#pragma once
#include <algorithm>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/diary/generated/sign_words.hpp"
#include "feed/diary/observation.hpp"
#include "feed/diary/sign_table.hpp"
#include "feed/feedstock/thing_list.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/plain_text.hpp"

// What a keeper says of a bin in words of the table (data/names/signs_en.yaml): the same words for
// a sign, a note and a file.
namespace feed {

namespace detail {

template <std::size_t count>
bool is_seen_word(const std::array<const char*, count>& words, std::string_view word) noexcept {
    return std::binary_search(words.begin(), words.end(), word,
                              [](std::string_view a, std::string_view b) { return a < b; });
}

/// The words that say something, in the singular and in one form for each.
inline std::vector<std::string> essence_of(std::string_view text) {
    std::vector<std::string> kept;
    for (const std::string& written : words_of(plain_text(text))) {
        std::string word = singular(written);
        const auto& same = table::en::seen_same;
        const auto at = std::lower_bound(
            same.begin(), same.end(), word,
            [](const table::SameWord& one, std::string_view other) { return one.word < other; });
        if (at != same.end() && at->word == word) word = at->same_as;
        if (!is_seen_word(table::en::seen_idle, word)) kept.push_back(std::move(word));
    }
    return kept;
}

inline const table::SeenWords* row_with_words(std::string_view key) noexcept {
    const auto& known = table::en::seen_words;
    const auto at = std::lower_bound(
        known.begin(), known.end(), key,
        [](const table::SeenWords& one, std::string_view other) { return one.words < other; });
    return at != known.end() && at->words == key ? &*at : nullptr;
}

inline std::string joined(std::span<const std::string> words) {
    std::string text;
    for (const std::string& word : words)
        text += (text.empty() ? "" : " ") + word;
    return text;
}

/// The words with slips of one letter mended where only one word of the table is so near.
inline std::vector<std::string> mended_essence(std::vector<std::string> words) {
    for (std::string& word : words) {
        if (word.size() < 4 || is_seen_word(table::en::seen_vocabulary, word)) continue;
        std::string_view near;
        std::size_t count = 0;
        for (const std::string_view known : table::en::seen_vocabulary) {
            if (known.size() < 4 || known[0] != word[0] || known.size() > word.size() + 1 ||
                word.size() > known.size() + 1 || edit_distance(word, known) != 1)
                continue;
            near = known;
            ++count;
        }
        if (count == 1) word = near;
    }
    return words;
}

/// A word that turns what stands beside it into its opposite.
inline bool says_not(std::string_view word) noexcept {
    constexpr std::string_view negations[] = {"no",     "not",  "never",   "without", "nothing",
                                              "isnt",   "dont", "stopped", "fewer",   "less",
                                              "doesnt", "none", "arent"};
    return std::find(std::begin(negations), std::end(negations), word) != std::end(negations);
}

/// What is longer is told in parts.
inline constexpr std::size_t longest_seen = 200;

}  // namespace detail

/// A row of the table of what keepers say.
using SeenRow = table::SeenRow;

/// The sign of a row, or nothing.
inline std::optional<Sign> sign_of(const SeenRow& row) noexcept {
    if (row.sign == table::no_sign) return std::nullopt;
    return static_cast<Sign>(row.sign);
}

/// The row that words stand for as a whole ("smells of rotten eggs"), a slip of one letter mended;
/// nothing where they say anything else. Threads: pure.
inline const SeenRow* find_seen(std::string_view text) {
    if (text.size() > detail::longest_seen) return nullptr;
    const auto words = detail::essence_of(text);
    const table::SeenWords* found = detail::row_with_words(detail::joined(words));
    if (found == nullptr)
        found = detail::row_with_words(detail::joined(detail::mended_essence(words)));
    return found == nullptr ? nullptr : &table::en::seen_rows[found->row];
}

/// Every row that a sentence speaks of, in its order ("worms on the lid and it smells sour"): the
/// longest words first. A sentence that denies something is read as a whole only. Threads: pure.
inline std::vector<const SeenRow*> all_seen_in(std::string_view text) {
    if (const SeenRow* whole = find_seen(text)) return {whole};
    std::vector<const SeenRow*> rows;
    if (text.size() > detail::longest_seen) return rows;
    const auto words = detail::mended_essence(detail::essence_of(text));
    if (std::any_of(words.begin(), words.end(), detail::says_not)) return rows;
    constexpr std::size_t longest = 5;
    for (std::size_t at = 0; at < words.size();) {
        std::size_t taken = 0;
        for (std::size_t length = std::min(longest, words.size() - at); length > 0; --length) {
            const auto key = detail::joined(std::span(words).subspan(at, length));
            const table::SeenWords* found = detail::row_with_words(key);
            if (found == nullptr) continue;
            const SeenRow* row = &table::en::seen_rows[found->row];
            if (std::find(rows.begin(), rows.end(), row) == rows.end()) rows.push_back(row);
            taken = length;
            break;
        }
        at += std::max<std::size_t>(taken, 1);
    }
    return rows;
}

/// Writes what a row says into an observation; false where a diary has no key for it.
inline bool say_seen(const SeenRow& row, Observation& seen) {
    switch (row.key) {
        case SeenKey::nothing:
            return false;
        case SeenKey::smell:
            seen.smell = static_cast<Smell>(row.value);
            break;
        case SeenKey::squeeze:
            seen.squeeze = static_cast<Squeeze>(row.value);
            break;
        case SeenKey::worms:
            seen.worms = static_cast<WormPlace>(row.value);
            break;
        case SeenKey::vigour:
            seen.vigour = static_cast<WormVigour>(row.value);
            break;
        case SeenKey::gone:
            seen.gone = row.value == 1 ? FoodGone::yes : FoodGone::no;
            break;
        case SeenKey::share_gone:
            seen.share_gone = row.value / 100.0;
            break;
        case SeenKey::pooling:
            seen.pooling = row.value == 1;
            break;
        case SeenKey::temperature:
            seen.temperatures = {{"", celsius(row.value)}};
            break;
        case SeenKey::pests:
            seen.pests = row.text;
            break;
    }
    return true;
}

namespace detail {

/// The only sign that has all the words in its name ("left" of "food left"), or nothing.
inline std::optional<Sign> only_sign_with(std::string_view text) {
    const auto wanted = words_of(plain_text(text));
    std::optional<Sign> only;
    for (std::size_t i = 0; i < sign_count && !wanted.empty(); ++i) {
        const auto words = words_of(sign_words[i]);
        const bool all = std::all_of(wanted.begin(), wanted.end(), [&](const std::string& one) {
            return std::find(words.begin(), words.end(), one) != words.end();
        });
        if (!all) continue;
        if (only) return std::nullopt;
        only = static_cast<Sign>(i);
    }
    return only;
}

}  // namespace detail

/// The signs that a sentence speaks of. Errors: out_of_range where it speaks of none, with words
/// that are known. Threads: pure.
inline Result<std::vector<Sign>> read_signs(std::string_view text) {
    std::vector<Sign> signs;
    for (const SeenRow* row : all_seen_in(text))
        if (const auto sign = sign_of(*row)) signs.push_back(*sign);
    if (!signs.empty()) return signs;
    if (const auto only = detail::only_sign_with(text)) return std::vector<Sign>{*only};
    const std::string said(text);
    if (detail::joined(detail::essence_of(text)) == "smell")
        return make_error(ErrorCode::out_of_range, "sign", said,
                          "smell sour, smell of vinegar, smell rotten, smell of ammonia, smell "
                          "swampy, smell earthy",
                          "\"" + said + "\" fits several signs: what does it smell of?");
    return make_error(ErrorCode::out_of_range, "sign", said,
                      "such as wet, dry, hot, sour smell, fruit flies, mites, mould, worms "
                      "leaving; feed signs lists all",
                      "\"" + said + "\" is not a sign that is known");
}

/// The signs of several texts, each of which may hold several parted by commas. Errors: one for
/// each part that speaks of none, as for one text. Threads: pure.
inline Result<std::vector<Sign>> read_signs(std::span<const std::string> texts) {
    std::vector<Sign> signs;
    Errors errors;
    for (const std::string& text : texts) {
        for (const std::string_view piece : detail::pieces_between_seams(text)) {
            const auto read = read_signs(piece);
            if (!read) {
                errors.push_back(read.errors().front());
                continue;
            }
            for (const Sign sign : *read)
                signs.push_back(sign);
        }
    }
    if (!errors.empty()) return errors;
    return signs;
}

}  // namespace feed
