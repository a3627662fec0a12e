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

// What a keeper says of a bin in words of the table (data/names/signs_*.yaml): the same words for a
// sign, a note and a file.
namespace feed {

namespace detail {

/// What stands behind "=" in the line that a sorted list has for a word ("" where the line is only
/// the word); nothing where it has none.
inline std::optional<std::string_view> line_for(std::string_view lines,
                                                std::string_view word) noexcept {
    std::size_t low = 0;
    std::size_t high = lines.size();
    while (low < high) {
        const std::size_t middle = low + (high - low) / 2;
        const std::size_t start =
            middle == low ? low : std::max(low, lines.rfind('\n', middle - 1) + 1);
        const std::size_t end = lines.find('\n', middle);
        const std::string_view line = lines.substr(start, end - start);
        const std::size_t split = std::min(line.find('='), line.size());
        const int order = line.substr(0, split).compare(word);
        if (order == 0) return line.substr(std::min(split + 1, line.size()));
        if (order < 0)
            low = end + 1;
        else
            high = start;
    }
    return std::nullopt;
}

inline bool has_line(std::string_view lines, std::string_view word) noexcept {
    return line_for(lines, word).has_value();
}

/// Every word in the singular and in the one form that a language compares.
inline std::vector<std::string> seen_words_of(const table::SeenLanguage& language,
                                              std::string_view text) {
    std::vector<std::string> words = words_of(plain_text(text));
    for (std::string& word : words) {
        word = singular(word);
        if (const auto same = line_for(language.same, word)) word = *same;
    }
    return words;
}

/// The words in a row, all of them or only those that say something.
inline std::string seen_key(const table::SeenLanguage& language, std::span<const std::string> words,
                            bool with_idle) {
    std::string key;
    for (const std::string& word : words) {
        if (!with_idle && has_line(language.idle, word)) continue;
        key += (key.empty() ? "" : " ") + word;
    }
    return key;
}

/// The row that all the words stand for: as they are ("very damp"), else without those that say
/// nothing; or nothing.
inline const table::SeenRow* row_for(const table::SeenLanguage& language,
                                     std::span<const std::string> words) {
    for (const bool with_idle : {true, false}) {
        const auto row = line_for(language.words, seen_key(language, words, with_idle));
        if (!row) continue;
        std::size_t at = 0;
        for (const char digit : *row)
            at = 10 * at + static_cast<std::size_t>(digit - '0');
        return &table::seen_rows[at];
    }
    return nullptr;
}

/// The words with slips of one letter mended where only one word of the language is so near.
inline std::vector<std::string> mended(const table::SeenLanguage& language,
                                       std::vector<std::string> words) {
    for (std::string& word : words) {
        if (word.size() < 4 || has_line(language.vocabulary, word) || has_line(language.idle, word))
            continue;
        std::string_view near;
        std::size_t count = 0;
        for (std::size_t at = 0; at < language.vocabulary.size();) {
            const std::size_t end = language.vocabulary.find('\n', at);
            const std::string_view known = language.vocabulary.substr(at, end - at);
            at = end + 1;
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

/// What the parts of a sentence stand for, the longest first.
struct SeenParts {
    std::vector<const table::SeenRow*> rows;
    std::size_t explained = 0;  ///< words that the language knows
};

inline SeenParts parts_of(const table::SeenLanguage& language, std::span<const std::string> words) {
    constexpr std::size_t longest = 7;
    SeenParts parts;
    for (std::size_t at = 0; at < words.size();) {
        std::size_t taken = has_line(language.idle, words[at]) ? 1 : 0;
        parts.explained += taken;
        for (std::size_t length = std::min(longest, words.size() - at); length > taken; --length) {
            const table::SeenRow* row = row_for(language, words.subspan(at, length));
            if (row == nullptr) continue;
            if (std::find(parts.rows.begin(), parts.rows.end(), row) == parts.rows.end())
                parts.rows.push_back(row);
            parts.explained += length - taken;
            taken = length;
        }
        at += std::max<std::size_t>(taken, 1);
    }
    return parts;
}

/// The language that knows most words of a text; the first of several.
inline const table::SeenLanguage& language_of(std::string_view text) {
    const table::SeenLanguage* best = table::seen_languages;
    std::size_t most = 0;
    for (const table::SeenLanguage& language : table::seen_languages) {
        const std::size_t known = parts_of(language, seen_words_of(language, text)).explained;
        if (known > most) best = &language;
        most = std::max(most, known);
    }
    return *best;
}

/// Whether a sentence says in any language that something is not so.
inline bool denies(std::string_view text) {
    const auto words = words_of(plain_text(text));
    return std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return std::any_of(std::begin(table::seen_languages), std::end(table::seen_languages),
                           [&](const table::SeenLanguage& language) {
                               const auto said = singular(word);
                               const auto same = line_for(language.same, said);
                               return has_line(language.negations, same ? *same : said);
                           });
    });
}

/// Whether all that is said is that it smells: of what has to be asked.
inline bool is_only_smell(std::string_view text) {
    return std::any_of(std::begin(table::seen_languages), std::end(table::seen_languages),
                       [&](const table::SeenLanguage& language) {
                           return seen_key(language, seen_words_of(language, text), false) ==
                                  language.smell;
                       });
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

/// The row that words stand for as a whole ("smells of rotten eggs", "riecht nach faulen Eiern"):
/// as they are in any language, else a slip of one letter mended in the language that knows most of
/// them; nothing where they say anything else. Threads: pure.
inline const SeenRow* find_seen(std::string_view text) {
    if (text.size() > detail::longest_seen) return nullptr;
    for (const table::SeenLanguage& language : table::seen_languages)
        if (const SeenRow* row = detail::row_for(language, detail::seen_words_of(language, text)))
            return row;
    const table::SeenLanguage& language = detail::language_of(text);
    return detail::row_for(language,
                           detail::mended(language, detail::seen_words_of(language, text)));
}

/// Every row that a sentence speaks of, in its order ("worms on the lid and it smells sour"): the
/// longest words first, in the language that knows most of them. A sentence that denies something
/// is read as a whole only. Threads: pure.
inline std::vector<const SeenRow*> all_seen_in(std::string_view text) {
    if (const SeenRow* whole = find_seen(text)) return {whole};
    if (text.size() > detail::longest_seen || detail::denies(text)) return {};
    const table::SeenLanguage& language = detail::language_of(text);
    return detail::parts_of(language,
                            detail::mended(language, detail::seen_words_of(language, text)))
        .rows;
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

/// Signs that share a word with what was said, at most six: "thin worms or few worms" for "worms
/// are tiny". "" where there are none.
inline std::string signs_near(std::string_view text) {
    if (denies(text)) return "";
    const auto said = seen_words_of(table::seen_languages[0], text);
    std::vector<std::string_view> near;
    constexpr std::size_t most = 6;
    for (const std::string_view sign : sign_words) {
        const auto words = words_of(sign);
        const bool shares = std::any_of(said.begin(), said.end(), [&](const std::string& one) {
            return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
                return singular(word) == singular(one);
            });
        });
        if (shares && near.size() < most) near.push_back(sign);
    }
    std::string list;
    for (std::size_t i = 0; i < near.size(); ++i)
        list += (i == 0 ? "" : i + 1 == near.size() ? " or " : ", ") + std::string(near[i]);
    return list;
}

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
    if (detail::is_only_smell(text))
        return make_error(ErrorCode::out_of_range, "sign", said,
                          "smell sour, smell of vinegar, smell rotten, smell of ammonia, smell "
                          "swampy, smell earthy",
                          "\"" + said + "\" fits several signs: what does it smell of?");
    const std::string near = detail::signs_near(text);
    return make_error(ErrorCode::out_of_range, "sign", said,
                      "such as wet, dry, hot, sour smell, fruit flies, mites, mould, worms "
                      "leaving; feed signs lists all",
                      "\"" + said + "\" is not a sign that is known" +
                          (near.empty() ? "" : "; did you mean " + near + "?"));
}

/// The signs of several texts, each of which may hold several parted by commas. Errors: one for
/// each part that speaks of none, as for one text; empty where nothing is said. Threads: pure.
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
    if (signs.empty())
        return make_error(ErrorCode::empty, "sign", "", "such as wet, sour smell, fruit flies",
                          "which sign?");
    return signs;
}

}  // namespace feed
