#pragma once
#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "feed/feedstock/names.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed::detail {

/// A number as people say it, with its range: "3", "1 1/2", "a", "half a dozen", "two or three",
/// "about 2", "between 1 and 2", "a few".
struct CountText {
    double value = 1.0;
    double low = 1.0;
    double high = 1.0;
    std::size_t length = 0;  ///< characters taken
    double other = 0.0;      ///< the other reading of a comma ("1,200"), else 0
    bool digits = false;     ///< written in digits
    bool about = false;      ///< "about", "roughly"
    std::string_view vague;  ///< the loose word ("few"), or empty
};

/// How far "about 2" may be from 2, as a share (grade D).
inline constexpr double about_spread = 0.2;

constexpr bool is_blank(char c) noexcept {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/// The place after blanks.
constexpr std::size_t after_blanks(std::string_view text, std::size_t at) noexcept {
    while (at < text.size() && is_blank(text[at]))
        ++at;
    return at;
}

/// A letter of a word, of any alphabet; apostrophes belong to words.
constexpr bool is_letter(char c) noexcept {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '\'' ||
           static_cast<unsigned char>(c) >= 0x80;
}

/// The word that starts at a place, perhaps empty.
constexpr std::string_view word_at(std::string_view text, std::size_t at) noexcept {
    std::size_t end = at;
    while (end < text.size() && is_letter(text[end]))
        ++end;
    return text.substr(at, end - at);
}

/// Whether a word is one in small letters, capitals or not.
constexpr bool is_word(std::string_view word, std::string_view wanted) noexcept {
    if (word.size() != wanted.size()) return false;
    for (std::size_t i = 0; i < word.size(); ++i) {
        const char c = word[i];
        if ((c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c) != wanted[i])
            return false;
    }
    return true;
}

/// Whether the words of `wanted` ("a", "of") stand at a place; then the place behind it.
inline std::optional<std::size_t> take_word(std::string_view text, std::size_t at,
                                            std::string_view wanted) noexcept {
    const auto start = after_blanks(text, at);
    const auto word = word_at(text, start);
    if (!is_word(word, wanted)) return std::nullopt;
    return start + word.size();
}

template <std::size_t Size>
std::optional<std::size_t> take_one_of(std::string_view text, std::size_t at,
                                       const std::array<std::string_view, Size>& words) noexcept {
    const auto start = after_blanks(text, at);
    const auto word = word_at(text, start);
    if (word.empty()) return std::nullopt;
    for (const auto wanted : words) {
        if (is_word(word, wanted)) return start + word.size();
    }
    return std::nullopt;
}

/// The number a single word means, or null.
inline const table::NumberWord* number_word(std::string_view written) {
    if (written.empty() || written.size() > 20) return nullptr;
    const std::string word = plain_text(written);
    // In English it is a unit; the French quarter is not said with an English thing.
    if (word == "quart") return nullptr;
    for (const auto& language : languages) {
        if (const auto* found = number_of(language.numbers, word)) return found;
    }
    return nullptr;
}

inline constexpr std::array<std::string_view, 34> about_words{"like",      "bout",
                                                              "probably",  "possibly",
                                                              "say",       "about",
                                                              "approx",    "approximately",
                                                              "around",    "roughly",
                                                              "circa",     "ca",
                                                              "c",         "nearly",
                                                              "almost",    "maybe",
                                                              "perhaps",   "just",
                                                              "only",      "over",
                                                              "under",     "max",
                                                              "min",       "est",
                                                              "estimated", "exactly",
                                                              "easily",    "barely",
                                                              "ungefähr",  "etwa",
                                                              "environ",   "unos",
                                                              "unas",      "aproximadamente"};

/// Loose words of several, before a number.
inline constexpr std::array<std::string_view, 27> about_phrases{
    "at least",           "at most",          "up to",           "more than",
    "less than",          "no more than",     "not more than",   "not quite",
    "close to",           "a little over",    "a little under",  "a bit over",
    "a bit under",        "a bit more than",  "a bit less than", "a little more than",
    "a little less than", "a touch over",     "a touch under",   "somewhere around",
    "something like",     "in the region of", "i guess",         "i think",
    "i reckon",           "well over",        "well under"};

/// Whether words stand at a place, one after the other; then the place behind them.
inline std::optional<std::size_t> take_phrase(std::string_view text, std::size_t at,
                                              std::string_view phrase) noexcept {
    std::optional<std::size_t> place(at);
    while (place && !phrase.empty()) {
        const auto blank = std::min(phrase.find(' '), phrase.size());
        place = take_word(text, *place, phrase.substr(0, blank));
        phrase.remove_prefix(std::min(blank + 1, phrase.size()));
    }
    return place;
}

template <std::size_t Size>
std::optional<std::size_t> take_one_phrase(
    std::string_view text, std::size_t at,
    const std::array<std::string_view, Size>& phrases) noexcept {
    const auto first = word_at(text, after_blanks(text, at));
    if (first.empty()) return std::nullopt;
    for (const auto phrase : phrases) {
        if (!is_word(first, phrase.substr(0, phrase.find(' ')))) continue;
        if (const auto end = take_phrase(text, at, phrase)) return end;
    }
    return std::nullopt;
}

/// "or so", "-ish" behind a number or a unit; the place behind them.
inline std::optional<std::size_t> skip_or_so(std::string_view text, std::size_t at) noexcept {
    if (const auto end = take_one_phrase(
            text, at, std::array<std::string_view, 3>{"or so", "ish", "or thereabouts"}))
        return end;
    const auto place = after_blanks(text, at);
    if (place < text.size() && text[place] == '-') return take_word(text, place + 1, "ish");
    return std::nullopt;
}

/// "about", "approx.", "~" before a number; the place behind them.
inline std::size_t skip_about(std::string_view text, std::size_t at, bool& about) {
    for (;;) {
        at = after_blanks(text, at);
        if (at < text.size() && text[at] == '~') {
            ++at;
        } else if (text.substr(at, 3) == "\xE2\x89\x88") {
            at += 3;
        } else if (const auto phrase = take_one_phrase(text, at, about_phrases)) {
            at = *phrase;
        } else if (const auto end = take_one_of(text, at, about_words)) {
            at = *end;
            if (at < text.size() && text[at] == '.') ++at;
        } else {
            return at;
        }
        about = true;
    }
}

inline void multiply(CountText& count, const table::NumberWord& by) {
    count.value *= by.value;
    count.low *= by.low;
    count.high *= by.high;
    if (by.low != by.high) count.vague = by.text;
}

/// Whether a number word adds to the one before it: "twenty five", "hundred and fifty".
constexpr bool adds_to(double last, double number) noexcept {
    if (last >= 20.0 && last < 100.0) return number >= 1.0 && number < 10.0;
    return last >= 100.0 && number >= 2.0 && number < 100.0;
}

/// The number words after a place: "two dozen" multiplies, "twenty five" and "two hundred and
/// fifty" add, "of", "the" and "a" before a number word join ("three quarters of a"). Nothing where
/// there is none.
inline std::optional<CountText> read_number_words(std::string_view text, std::size_t at) {
    CountText count;
    bool any = false;
    double last = 0.0;
    for (std::size_t word_number = 0; word_number < 8; ++word_number) {
        std::size_t start = after_blanks(text, at);
        if (any && start < text.size() && text[start] == '-') start = after_blanks(text, start + 1);
        auto word = word_at(text, start);
        if (any) {
            // "of" belongs to the number only before another number word, "and" only between
            // hundreds and what is added to them.
            for (const std::string_view joining : {"of", "and"}) {
                const auto behind = take_word(text, start, joining);
                if (!behind) continue;
                const auto next = after_blanks(text, *behind);
                const auto after = word_at(text, next);
                const auto* more = number_word(after);
                if (more == nullptr) break;
                if (joining == "and" && !adds_to(last, more->value)) break;
                start = next;
                word = after;
            }
        }
        const auto* number = number_word(word);
        if (number == nullptr) break;
        const bool adds = adds_to(last, number->value);
        if (adds) {
            count.value += number->value;
            count.low += number->low;
            count.high += number->high;
        } else {
            multiply(count, *number);
        }
        last = number->value;
        any = true;
        at = start + word.size();
        count.length = at;
    }
    if (!any) return std::nullopt;
    return count;
}

/// "and a half" after a number or a unit: the share, and the place behind it.
inline std::optional<NumberText> read_and_part(std::string_view text, std::size_t at) {
    constexpr std::array<std::string_view, 4> and_words{"and", "y", "et", "und"};
    const auto behind = take_one_of(text, at, and_words);
    if (!behind) return std::nullopt;
    const auto part = read_number_words(text, *behind);
    if (part && part->value < 1.0) return NumberText{part->value, part->length, 0.0};
    const auto start = after_blanks(text, *behind);
    const auto number = read_number(text.substr(std::min(start, text.size())));
    if (number && number->number > 0.0 && number->number < 1.0)
        return NumberText{number->number, start + number->length, 0.0};
    return std::nullopt;
}

/// The place behind a sign of multiplication before digits: "x3 apples", "apples ×3".
constexpr std::size_t after_times(std::string_view text, std::size_t at) noexcept {
    const std::size_t size = text.substr(at, 2) == "\xC3\x97" ? 2 : 1;
    if (at + size >= text.size() || text[at + size] < '0' || text[at + size] > '9') return at;
    const bool is_times = size == 2 || text[at] == 'x' || text[at] == 'X' || text[at] == '*';
    return is_times ? at + size : at;
}

/// Thousands that an apostrophe or a blank parts: "1'200 g", "1 000 g". "1 200 g" may also be one
/// of 200 g and is asked about later.
inline void take_thousands(CountText& count, std::string_view text) {
    const std::size_t at = count.length;
    if (at + 4 > text.size() || count.value >= 1000.0 || count.value < 1.0 || count.other != 0.0)
        return;
    const auto digits = text.substr(at + 1, 3);
    for (const char c : digits)
        if (c < '0' || c > '9') return;
    if (at + 4 < text.size() && text[at + 4] >= '0' && text[at + 4] <= '9') return;
    if (text[at] != '\'' && !(text[at] == ' ' && digits == "000")) return;
    const double more = 100.0 * (digits[0] - '0') + 10.0 * (digits[1] - '0') + (digits[2] - '0');
    count.value = count.low = count.high = 1000.0 * count.value + more;
    count.length = at + 4;
}

/// One number in digits or words, without a range.
inline std::optional<CountText> read_one_count(std::string_view text, std::size_t at) {
    at = after_blanks(text, at);
    at = after_times(text, at);
    std::optional<CountText> count;
    if (const auto number = read_number(text.substr(at))) {
        count.emplace();
        count->value = count->low = count->high = number->number;
        count->other = number->other;
        count->digits = true;
        count->length = at + number->length;
        take_thousands(*count, text);
        // "2 dozen", "3 couple": a word that multiplies.
        const auto start = after_blanks(text, count->length);
        const auto word = word_at(text, start);
        const auto* times = number_word(word);
        if (times != nullptr && (times->value >= 12.0 || word == "couple")) {
            multiply(*count, *times);
            count->length = start + word.size();
        }
    } else {
        count = read_number_words(text, at);
    }
    if (!count) return count;
    if (const auto part = read_and_part(text, count->length)) {
        count->value += part->number;
        count->low += part->number;
        count->high += part->number;
        count->length = part->length;
    }
    return count;
}

/// "-", an en dash, "to", "or", "bis", "ou" between the ends of a range; the place behind it.
inline std::optional<std::size_t> take_range_mark(std::string_view text, std::size_t at) {
    constexpr std::array<std::string_view, 8> words{"to", "or",   "till", "bis",
                                                    "ou", "oder", "a",    "o"};
    at = after_blanks(text, at);
    if (at < text.size() && (text[at] == '-' || text[at] == '~')) return at + 1;
    if (text.substr(at, 3) == "\xE2\x80\x93" || text.substr(at, 3) == "\xE2\x80\x94") return at + 3;
    return take_one_of(text, at, words);
}

inline void widen(CountText& count, const CountText& upper) {
    count.low = std::min(count.low, upper.low);
    count.high = std::max(count.high, upper.high);
    count.value = 0.5 * (count.value + upper.value);
    count.length = upper.length;
    if (upper.other != 0.0) count.other = upper.other;
}

/// The number at a place of a text, with "about", ranges and loose words. Nothing where the text
/// does not go on with a number. A range whose upper end is below the lower is kept as written:
/// low above high. Time: linear in what is read. Threads: pure.
inline std::optional<CountText> read_count(std::string_view text, std::size_t at = 0) {
    bool about = false;
    at = skip_about(text, at, about);
    const auto between = take_word(text, at, "between");
    auto count = read_one_count(text, between ? *between : at);
    if (!count) return count;
    std::optional<std::size_t> mark;
    if (between) {
        mark = take_word(text, count->length, "and");
    } else {
        mark = take_range_mark(text, count->length);
    }
    if (mark) {
        bool ignored = false;
        const auto upper = read_one_count(text, skip_about(text, *mark, ignored));
        // "1 a 2"; but "2 - a bag" and "1 or some" are no ranges.
        if (upper && upper->value > 0.0 && (upper->digits || upper->value > 1.0)) {
            const bool swapped = upper->value < count->value;
            const double lower = count->value;
            widen(*count, *upper);
            if (swapped) {
                count->low = lower;
                count->high = upper->value;
            }
        }
    }
    if (const auto so = skip_or_so(text, count->length)) {
        about = true;
        count->length = *so;
    }
    if (about && count->low == count->high) {
        count->low = (1.0 - about_spread) * count->value;
        count->high = (1.0 + about_spread) * count->value;
    }
    count->about = about;
    return count;
}

}  // namespace feed::detail
