#include "feed/io/note.hpp"

#include <optional>
#include <utility>
#include <vector>

#include "diary_entry.hpp"
#include "feed/diary/seen.hpp"
#include "feed/feedstock/things.hpp"
#include "feed/io/observation_text.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"
#include "note_day.hpp"
#include "note_text.hpp"
#include "note_words.hpp"
#include "plot_notes.hpp"
#include "stock_notes.hpp"

namespace feed::io {
namespace {

/// What went in without the bin that it went into ("3 apples in the bin"); nothing where none is
/// said.
std::optional<std::string_view> without_bin(std::string_view what) {
    for (const std::string_view place : {"in the worm bin", "in the bin", "into the bin",
                                         "to the bin", "in the tote", "in the bed", "in"})
        if (const auto food = without_end(what, place)) return food;
    return std::nullopt;
}

/// Words of what went in, after "fed": nothing where the words say something else.
std::optional<std::string_view> fed_in(std::string_view words) {
    for (const std::string_view word :
         {"fed them", "fed it", "fed the worms", "fed", "feed", "gave them", "gave it",
          "gave the worms", "gave", "put in", "added food", "added scraps"})
        if (begins_with(words, word)) {
            const auto what = without(words, word.size());
            // "gave 200 g of worms away": they are no food.
            if (word == "gave" && has_one_of(what, {"worm"})) return std::nullopt;
            return without_bin(what).value_or(what);
        }
    // "put 3 apples in the bin"
    return begins_with(words, "put") ? without_bin(without(words, 3)) : std::nullopt;
}

Result<NoteEntry> seen_entry(std::string_view words, Date date, std::string_view by);

/// Whether a piece of what was fed says what was seen: "smell sour", "half gone". A lone word such
/// as "wet" or "mouldy" describes the food, unless something was seen before it.
bool is_seen_beside_food(std::string_view piece, bool seen_before) {
    if (feed::detail::ThingReader({}).names(piece)) return false;
    const bool one_word = piece.find(' ') == std::string_view::npos;
    // "smell ammonia" is none of the things that are never fed.
    const SeenRow* const row = find_seen(piece);
    if (!one_word && row != nullptr && row->key == SeenKey::smell) return true;
    // "a bag of leaves": an amount of a thing, however near it is spelled to a sign.
    if (read_things(piece).questions.empty()) return false;
    if (feed::detail::is_only_smell(piece)) return true;
    const bool describes = one_word && feed::detail::only_describes(piece);
    return (!describes || seen_before) && read_seen(piece).has_value();
}

/// The words of what was fed, and of what was seen beside it.
struct FedAndSeen {
    std::string food;
    std::string seen;
};
FedAndSeen part_food(std::string_view words) {
    FedAndSeen parts;
    const auto add = [](std::string& to, std::string_view piece) {
        to.append(to.empty() ? "" : ", ").append(piece);
    };
    for (const std::string_view piece : feed::detail::pieces_between_seams(words)) {
        if (is_seen_beside_food(piece, !parts.seen.empty()))
            add(parts.seen, piece);
        else if (parts.seen.empty())  // as it was written, with its "and"s
            parts.food = words.substr(
                0, static_cast<std::size_t>(piece.data() - words.data()) + piece.size());
        else
            add(parts.food, piece);
    }
    return parts;
}

Result<NoteEntry> feeding_entry(std::string_view food, Date date, std::string_view by) {
    const FedAndSeen parts = part_food(food);
    const auto pieces = feed::detail::split_things(parts.food, feed::detail::ThingReader({}));
    const std::string said = plain_text(food);
    if (said == "nothing" || said == "none" || said == "nothing today")
        return offered(note_error(ErrorCode::empty, food, "what was fed, or words of your own",
                                  "a day without food needs no note"),
                       "; to keep it write ", {"note fed nothing"});
    if (pieces.empty())
        return offered(note_error(ErrorCode::empty, food,
                                  "fed 3 apples and a cup of coffee grounds", "what was fed?"),
                       " Write ", {"fed 3 apples and a cup of coffee grounds"});
    std::vector<std::string> portions;
    portions.reserve(pieces.size());
    for (const auto& piece : pieces)
        portions.emplace_back(piece.written);
    DiaryEntry entry(date);
    entry.list("portions", std::move(portions), false);
    entry.quoted("by", by);
    NoteEntry fed{"feedings", entry.yaml(0), entry.json(), date, {}, {}};
    if (parts.seen.empty()) return fed;
    auto look = seen_entry(parts.seen, date, by);
    if (!look) return look.errors();
    fed.more.push_back(*std::move(look));
    return fed;
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

/// What a key of the diary is called in a sentence.
std::string in_words(const std::string& key) {
    if (key == "worm_weight") return "the weight of the worms";
    if (key == "share_gone" || key == "gone") return "how much is gone";
    if (key == "left") return "what is left";
    if (key == "air_low" || key == "air_high") return "the air";
    return key;
}

/// The entry of what was seen or done to the bed, and the words that a slip was taken for.
Result<NoteEntry> seen_entry(std::string_view words, Date date, std::string_view by) {
    Observation all;
    all.date = date;
    all.by = std::string(by);
    Errors errors;
    std::string said(words);
    std::vector<std::string> pieces = seen_pieces(words);
    if (auto plots = take_plot_looks(pieces))
        all.plots = std::move(plots).value();
    else
        errors = plots.errors();
    for (const std::string& piece : pieces) {
        auto one = read_seen(piece);
        if (!one) {
            const std::string mended = without_slip(piece);
            if (auto again = read_seen(mended); again && mended != piece) {
                one = std::move(again);
                if (const auto at = said.find(piece); at != std::string::npos)
                    said.replace(at, piece.size(), mended);
            }
        }
        if (!one) {
            errors.insert(errors.end(), one.errors().begin(), one.errors().end());
            continue;
        }
        if (const auto key = merge_seen(all, *one))
            errors.push_back(note_error(
                ErrorCode::contradiction, piece, "one of the two",
                "\"" + piece + "\" and words before it cannot both be (" + in_words(*key) + ")"));
    }
    if (!errors.empty()) return errors;
    const DiaryEntry entry = entry_of(all);
    return NoteEntry{"observations", entry.yaml(0), entry.json(), date, std::move(said), {}};
}

/// "smell sour, fed 3 apples": the words with what was fed first; as they are where nothing was fed
/// behind what was seen.
std::string fed_first(std::string_view words) {
    if (begins_with(words, "note")) return std::string(words);
    const auto pieces = feed::detail::pieces_between_seams(words);
    for (std::size_t at = 1; at < pieces.size(); ++at) {
        if (begins_with(pieces[at], "note")) break;
        if (!fed_in(pieces[at])) continue;
        const auto start = static_cast<std::size_t>(pieces[at].data() - words.data());
        const auto end =
            static_cast<std::size_t>(pieces[at - 1].data() - words.data()) + pieces[at - 1].size();
        return std::string(words.substr(start)) + ", " + std::string(words.substr(0, end));
    }
    return std::string(words);
}

}  // namespace

Result<NoteEntry> read_note(std::string_view written, Date today, std::string_view by) {
    std::string_view words = detail::trim(written);
    const Date date = take_day(words, today);
    for (const std::string_view who : {"i", "we"})
        if (begins_with(words, who) && words.size() > who.size() + 1)
            words = without(words, who.size());
    if (detail::tidy(words).empty())
        return offered(
            note_error(ErrorCode::empty, written, "fed 3 apples; half gone; smell sour; wet",
                       "what was done or seen?"),
            " Write for instance ", {"fed 3 apples", "half gone"});
    const std::string ordered = fed_first(words);
    words = ordered;
    const std::string mended = without_slip(words);
    const std::string_view understood = fed_in(words) ? words : std::string_view(mended);
    Result<NoteEntry> entry = [&]() -> Result<NoteEntry> {
        if (const auto food = fed_in(understood)) {
            std::string_view what = *food;
            const Date day = take_day(what, date);
            return feeding_entry(fed_from_stock(what), day, by);
        }
        if (auto stock = stock_note(understood, date, by)) return *std::move(stock);
        if (const auto food = added_food(words)) return feeding_entry(*food, date, by);
        return seen_entry(words, date, by);
    }();
    if (entry && entry.value().words.empty()) entry.value().words = std::string(understood);
    return entry;
}

std::optional<Date> day_said(std::string_view words, Date today) {
    if (const auto date = parse_date(words)) return date;
    // A day stands at either end of a note.
    constexpr std::string_view done = "it";
    const std::string said(detail::trim(words));
    for (const std::string& note : {said + " it", "it " + said}) {
        std::string_view rest = note;
        const Date day = take_day(rest, today);
        if (rest == done) return day;
    }
    return std::nullopt;
}

namespace {

/// Whether an entry, added last, is of a bin: food, worms or what is left.
bool is_of_a_bin(const NoteEntry& entry, const Diary& with) {
    if (entry.section != "observations") return true;
    const Observation& seen = with.observations.back();
    return seen.gone != FoodGone::unsaid || seen.left || seen.share_gone || seen.worms ||
           seen.vigour || seen.worm_weight || !seen.bedding.empty();
}

/// What the last entry of a section holds more than the bin does, or empty.
std::string more_than_bin(const NoteEntry& entry, const Diary& with) {
    if (entry.section == "feedings")
        return more_than_holds(with.bed.container, with.feedings.back().portions);
    if (entry.section == "observations")
        return more_than_holds(with.bed.container, with.observations.back());
    return "";
}

/// "bedding 300 kg card" in a tote: a slip of the unit more often than not.
Error more_than_bin_error(std::string_view words, const std::string& what) {
    Error error = note_error(ErrorCode::out_of_range, words, "no more than the bin holds", what);
    std::string mended(words);
    for (const auto& [large, small] :
         {std::pair<std::string_view, std::string_view>{" kg", " g"}, {" lb", " oz"}}) {
        const auto at = mended.find(large);
        if (at == std::string::npos) continue;
        mended.replace(at, large.size(), small);
        return offered(std::move(error), "; did you mean ", {std::move(mended)}, "?");
    }
    return error;
}

}  // namespace

Result<Appended> with_note(std::string_view diary, std::string_view words, Date today,
                           std::string_view by, std::string_view name) {
    const auto entry = read_note(words, today, by);
    if (!entry) return entry.errors();
    auto with = with_diary_entry(diary, entry->section, entry->lines, name);
    if (with && with->file.is_of_a_heap() && is_of_a_bin(*entry, with->file.diary))
        return offered(note_error(ErrorCode::contradiction, words,
                                  "its temperature, turned, watered, a smell, or your own words",
                                  "this file is of a heap, and that is of a worm bin"),
                       "; of a heap write for instance ", {"55 C middle", "turned"});
    if (with && !with->file.is_of_a_heap()) {
        const std::string what = more_than_bin(*entry, with->file.diary);
        if (!what.empty()) return more_than_bin_error(words, what);
    }
    for (const NoteEntry& one : entry->more) {
        if (!with) break;
        auto both = with_diary_entry(with->text, one.section, one.lines, name);
        if (both) both.value().entry = with->entry + both->entry;
        with = std::move(both);
    }
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
