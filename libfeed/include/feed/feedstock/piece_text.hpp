#pragma once
#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include "feed/feedstock/amount_reader.hpp"

// The text of a list: where a piece ends and the next begins, and what says nothing in it.
namespace feed::detail {

/// Marks at the ends of a piece that say nothing; the point of ".5 kg" says much.
constexpr std::string_view tidy(std::string_view text) noexcept {
    const auto idle = [](char c) {
        return is_blank(c) || c == ',' || c == ';' || c == '.' || c == ':' || c == '!' || c == '?';
    };
    const auto opens_number = [&] {
        return text.size() > 1 && text[0] == '.' && is_digit(text[1]);
    };
    while (!text.empty() && idle(text.front()) && !opens_number())
        text.remove_prefix(1);
    while (!text.empty() && idle(text.back()))
        text.remove_suffix(1);
    return text;
}

/// A place where a list may part, and where the next piece starts.
struct Seam {
    std::size_t end = 0;
    std::size_t next = 0;
};

/// A mark that parts things wherever it stands outside of a number.
constexpr bool is_seam(char c) noexcept {
    return c == ',' || c == ';' || c == '\n' || c == '&' || c == '+';
}

/// Whether the mark at a place parts things; commas of numbers do not, "2 apples/1 pear" does.
constexpr bool parts_at(std::string_view text, std::size_t i) noexcept {
    const char c = text[i];
    if (c == ',' || c == '/') {
        const bool inside = i > 0 && i + 1 < text.size();
        const bool digit_behind = inside && is_digit(text[i + 1]);
        return c == '/' ? digit_behind && is_letter(text[i - 1])
                        : !(digit_behind && is_digit(text[i - 1]));
    }
    return is_seam(c);
}

/// The place behind words that join things ("and", "as well as") and their blank, or nothing.
inline std::optional<std::size_t> behind_joining(std::string_view text, std::size_t at) noexcept {
    constexpr std::array<std::string_view, 7> joining{"and", "plus", "und", "et",
                                                      "y",   "with", "then"};
    constexpr std::array<std::string_view, 6> phrases{
        "as well as", "along with", "together with", "followed by", "and also", "in addition to"};
    const auto word = after_blanks(text, at);
    auto behind = take_one_phrase(text, word, phrases);
    if (!behind) behind = take_one_of(text, word, joining);
    const bool ends = behind && *behind < text.size() && is_blank(text[*behind]);
    return ends ? behind : std::nullopt;
}

inline std::vector<Seam> seams_of(std::string_view text) {
    std::vector<Seam> seams;
    for (std::size_t i = 0; i < text.size(); ++i) {
        // What kills weeds is one thing.
        const bool starts = i == 0 || is_blank(text[i - 1]);
        if (const auto end = starts ? take_phrase(text, i, "weed and feed") : std::nullopt) {
            i = *end - 1;
        } else if (parts_at(text, i)) {
            seams.push_back({i, i + 1});
        } else if (const auto behind = is_blank(text[i]) ? behind_joining(text, i) : std::nullopt) {
            seams.push_back({i, *behind});
            i = *behind - 1;
        }
    }
    return seams;
}

/// What stands between the seams of a text, without marks and empty pieces.
inline std::vector<std::string_view> pieces_between_seams(std::string_view text) {
    std::vector<std::string_view> pieces;
    std::size_t start = 0;
    const auto cut = [&](std::size_t end) {
        if (const auto piece = tidy(text.substr(start, end - start)); !piece.empty())
            pieces.push_back(piece);
    };
    for (const Seam& seam : seams_of(text)) {
        cut(seam.end);
        start = seam.next;
    }
    cut(text.size());
    return pieces;
}

/// The measure a name ends with ("celery sticks"), and the name without it.
inline std::optional<Measure> measure_at_end(std::string_view words, std::string_view& name) {
    const auto blank = words.find_last_of(' ');
    if (blank == std::string_view::npos) return std::nullopt;
    const auto unit = find_unit(singular_text(unit_text(words.substr(blank + 1))));
    if (!unit || unit->unit->kind != UnitKind::measure || unit->unit->size > 0.0 ||
        unit->unit->count != 1.0)
        return std::nullopt;
    name = trim(words.substr(0, blank));
    // "3 apples, leaves" and "3 apples and leaves" are two things.
    const auto seams = seams_of(words);
    if (!seams.empty() && seams.back().next + 1 >= blank) return std::nullopt;
    return unit->unit->measure;
}

/// "(3)", "- 3", "x 3" at the end of a name, without its marks.
inline std::string_view bare_amount(std::string_view text) {
    text = tidy(text);
    while (!text.empty() && (text.front() == '(' || text.front() == '-'))
        text = tidy(text.substr(1));
    if (!text.empty() && text.back() == ')' && text.find('(') == std::string_view::npos)
        text = tidy(text.substr(0, text.size() - 1));
    return text;
}

/// A number of a list before a piece ("1)", "2 )"), left out.
constexpr std::string_view without_list_number(std::string_view text) noexcept {
    std::size_t at = 0;
    while (at < text.size() && at < 2 && is_digit(text[at]))
        ++at;
    const bool is_number = at > 0 && at < text.size() && text[at] == ')';
    return is_number ? tidy(text.substr(at + 1)) : text;
}

/// Words before an amount that say nothing of it: "I've got 3 apples", "also a banana".
inline constexpr std::array<std::string_view, 77> filler_words{
    "i",         "i've",    "ive",    "i'm",     "we",      "we've",  "weve",      "have",
    "had",       "has",     "got",    "there",   "there's", "theres", "is",        "are",
    "was",       "were",    "also",   "then",    "and",     "put",    "in",        "fed",
    "feed",      "feeding", "add",    "added",   "adding",  "gave",   "give",      "threw",
    "chucked",   "tossed",  "dumped", "them",    "it",      "its",    "it's",      "today",
    "plus",      "only",    "just",   "well",    "ok",      "so",     "now",       "hi",
    "hello",     "please",  "here",   "here's",  "heres",   "left",   "with",      "used",
    "collected", "saved",   "made",   "emptied", "another", "extra",  "my",        "our",
    "the",       "total",   "of",     "this",    "morning", "week",   "yesterday", "tonight",
    "for",       "at",      "worms",  "bin",     "to"};

/// The text from its first number on, where nothing but filler is before it.
inline std::optional<std::string_view> without_filler(std::string_view text) {
    std::size_t at = 0;
    for (int words = 0; words < 10; ++words) {
        const auto behind = take_one_of(text, at, filler_words);
        if (!behind) return std::nullopt;
        at = *behind;
        while (at < text.size() && (text[at] == ',' || text[at] == ':'))
            ++at;
        at = after_blanks(text, at);
        if (read_count(text, at)) return text.substr(at);
    }
    return std::nullopt;
}

}  // namespace feed::detail
