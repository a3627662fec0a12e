#include "feed/io/note.hpp"

#include <optional>
#include <utility>
#include <vector>

#include "diary_entry.hpp"
#include "feed/feedstock/things.hpp"
#include "feed/io/observation_text.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"
#include "note_words.hpp"
#include "plot_notes.hpp"

namespace feed::io {
namespace {

Error note_error(ErrorCode code, std::string_view words, std::string allowed, std::string message) {
    return make_error(code, "note", std::string(words), std::move(allowed), std::move(message));
}

/// Does a text begin with a word, in any case?
bool begins_with(std::string_view text, std::string_view word) {
    return text.size() >= word.size() && plain_text(text.substr(0, word.size())) == word &&
           (text.size() == word.size() || text[word.size()] == ' ' || text[word.size()] == ':');
}

std::string_view without(std::string_view text, std::size_t length) {
    text.remove_prefix(length);
    if (!text.empty() && text.front() == ':') text.remove_prefix(1);
    return detail::trim(text);
}

/// Takes "yesterday", "today" or a date from the start of the words.
Date take_date(std::string_view& words, Date today) {
    if (begins_with(words, "on")) {
        if (const auto date = parse_date(without(words, 2).substr(0, 10))) {
            words = without(without(words, 2), 10);
            return *date;
        }
    }
    if (const auto date = parse_date(words.substr(0, 10))) {
        words = without(words, 10);
        return *date;
    }
    if (begins_with(words, "today")) {
        words = without(words, 5);
        return today;
    }
    if (!begins_with(words, "yesterday")) return today;
    words = without(words, 9);
    return date_of(day_number(today) - 1);
}

/// Words of what went in, after "fed": nothing where the words say something else.
std::optional<std::string_view> fed_in(std::string_view words) {
    for (const std::string_view word : {"fed", "feed", "gave", "put in", "added food"})
        if (begins_with(words, word)) return without(words, word.size());
    return std::nullopt;
}

Result<NoteEntry> feeding_entry(std::string_view food, Date date, std::string_view by) {
    const auto pieces = feed::detail::split_things(food, feed::detail::ThingReader({}));
    if (pieces.empty())
        return note_error(ErrorCode::empty, food, "fed 3 apples and a cup of coffee grounds",
                          "what was fed?");
    std::vector<std::string> portions;
    portions.reserve(pieces.size());
    for (const auto& piece : pieces)
        portions.emplace_back(piece.written);
    DiaryEntry entry(date);
    entry.list("portions", std::move(portions), false);
    entry.quoted("by", by);
    return NoteEntry{"feedings", entry.yaml(0), entry.json(), date};
}

/// What was put by for later, or with "took" before it was taken out of the stock: "2 kg frozen
/// melon rind in the blue box".
Result<NoteEntry> stock_entry(std::string_view words, Date date, std::string_view by) {
    bool taken = false;
    for (const std::string_view word : {"took out", "took", "used", "gave away"}) {
        if (taken || !begins_with(words, word)) continue;
        words = without(words, word.size());
        taken = true;
    }
    std::string_view container;
    for (const std::string_view place : {" in the ", " in my ", " in a "}) {
        const auto at = words.rfind(place);
        if (at == std::string_view::npos) continue;
        container = detail::trim(words.substr(at + 4));
        words = detail::trim(words.substr(0, at));
    }
    const auto pieces = feed::detail::split_things(words, feed::detail::ThingReader({}));
    if (pieces.empty())
        return note_error(ErrorCode::empty, words, "stock 2 kg frozen melon rind",
                          "what was put by?");
    std::vector<std::string> portions;
    portions.reserve(pieces.size());
    for (const auto& piece : pieces)
        portions.emplace_back(piece.written);
    DiaryEntry entry(date);
    entry.list(taken ? "taken" : "portions", std::move(portions), false);
    entry.quoted("container", container);
    entry.quoted("by", by);
    return NoteEntry{"stock", entry.yaml(0), entry.json(), date};
}

/// Pieces of what was seen; words of one's own are never parted, and an amount goes on with what
/// the piece before began ("bedding 1 kg card and 2 kg straw").
std::vector<std::string> seen_pieces(std::string_view words) {
    std::vector<std::string> pieces;
    for (const std::string_view piece : feed::detail::pieces_between_seams(words)) {
        if (begins_with(piece, "note")) {
            pieces.emplace_back(
                words.substr(static_cast<std::size_t>(piece.data() - words.data())));
            return pieces;
        }
        // "took out half with the worms": who comes along is no thing of its own.
        const bool worms_went =
            plain_text(piece) == "the worms" || plain_text(piece) == "its worms";
        if (worms_went && !pieces.empty() &&
            (begins_with(pieces.back(), "took out") || begins_with(pieces.back(), "harvested"))) {
            pieces.back() += " with the worms";
            continue;
        }
        const bool goes_on =
            !pieces.empty() && read_number(piece) &&
            (begins_with(pieces.back(), "bedding") || begins_with(pieces.back(), "harvested"));
        if (goes_on)
            pieces.back() += " and " + std::string(piece);
        else
            pieces.emplace_back(piece);
    }
    return pieces;
}

}  // namespace

Result<NoteEntry> read_note(std::string_view written, Date today, std::string_view by) {
    std::string_view words = detail::trim(written);
    const Date date = take_date(words, today);
    if (words.empty())
        return note_error(ErrorCode::empty, written, "fed 3 apples; half gone; smell sour; wet",
                          "what was done or seen?");
    if (const auto food = fed_in(words)) return feeding_entry(*food, date, by);
    if (begins_with(words, "stock")) return stock_entry(without(words, 5), date, by);
    Observation all;
    all.date = date;
    all.by = std::string(by);
    Errors errors;
    std::vector<std::string> pieces = seen_pieces(words);
    if (auto plots = take_plot_looks(pieces))
        all.plots = std::move(plots).value();
    else
        errors = plots.errors();
    for (const std::string& piece : pieces) {
        const auto one = read_seen(piece);
        if (!one) {
            errors.insert(errors.end(), one.errors().begin(), one.errors().end());
            continue;
        }
        if (const auto key = merge_seen(all, *one))
            errors.push_back(
                note_error(ErrorCode::contradiction, piece, "one of the two",
                           "\"" + piece + "\" and words before it cannot both be (" + *key + ")"));
    }
    if (!errors.empty()) return errors;
    const DiaryEntry entry = entry_of(all);
    return NoteEntry{"observations", entry.yaml(0), entry.json(), date};
}

Result<Appended> with_note(std::string_view diary, std::string_view words, Date today,
                           std::string_view by, std::string_view name) {
    const auto entry = read_note(words, today, by);
    if (!entry) return entry.errors();
    auto with = with_diary_entry(diary, entry->section, entry->lines, name);
    if (with) return with;
    // What is wrong with the entry has no place in the file that the keeper has.
    Errors errors = with.errors();
    for (Error& error : errors) {
        const bool of_entry = error.field.find(": entry ") != std::string::npos &&
                              read_feed_text(diary, name).has_value();
        if (!of_entry) continue;
        error.field = "note";
        forget_place(error);
    }
    return errors;
}

}  // namespace feed::io
