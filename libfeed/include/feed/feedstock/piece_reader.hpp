#pragma once
#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/feedstock/amount_reader.hpp"
#include "feed/feedstock/name_match.hpp"
#include "feed/feedstock/piece_text.hpp"
#include "feed/quantity/error.hpp"

// One piece of a list: which part of it is the amount, and which the name.
namespace feed::detail {

/// One piece of a list, before its name is looked up.
struct ThingText {
    std::string written;
    std::string words;              ///< the name; empty where only an amount stands
    std::optional<Amount> amount;   ///< nothing where none is written
    std::optional<Error> question;  ///< why the amount is not clear
    /// "3 celery sticks": the measure that the last word of the name says.
    std::optional<Measure> last_word_measure;
    bool without_last_word = false;  ///< and that word is no part of the name
    bool is_with = false;            ///< it came behind "with": "rice with chicken"
    std::string mixed_with;          ///< what is barred of it: "chicken"
    /// "1 cup" alone: the amount, if its unit is no thing.
    std::optional<Amount> bare_amount;

    /// The words that say what it is to a bin.
    const std::string& deciding_words() const noexcept {
        return mixed_with.empty() ? words : mixed_with;
    }
};

/// "3 celery sticks": the measure that the last word of a counted name says, taken off where the
/// name is known without it.
template <class Names>
void take_measure_at_end(ThingText& piece, const Names& names) {
    std::string_view name;
    const auto measure = measure_at_end(piece.words, name);
    if (!measure) return;
    piece.last_word_measure = measure;
    if (names.names(piece.words) || !names.names(name)) return;
    piece.words = std::string(name);
    piece.without_last_word = true;
}

/// Reads single pieces. `Names` tells whether words name something without guessing.
template <class Names>
class PieceReader {
public:
    explicit PieceReader(const Names& names) : names_(names) {}

    /// The piece as an amount and a name that is known; nothing when it is not so clear.
    std::optional<ThingText> strictly(std::string_view text) const {
        auto piece = loosely(text);
        if (piece.question || piece.words.empty()) return std::nullopt;
        if (!names_.names(piece.words)) return std::nullopt;
        return piece;
    }

    /// The first thing of "500 g carrots 200 g onions", where nothing parts the two; nothing where
    /// the whole piece is one. `length` becomes what it takes of the text.
    std::optional<ThingText> first_of_run(std::string_view text, std::size_t& length) const {
        const auto starts_number = [&](std::size_t at) {
            return is_blank(text[at - 1]) && is_digit(text[at]);
        };
        std::size_t at = 1;
        while (at < text.size() && !starts_number(at))
            ++at;
        if (at >= text.size() || !starts_with_count(text) || strictly(text)) return std::nullopt;
        for (; at < text.size(); ++at) {
            if (!starts_number(at)) continue;
            auto first = strictly(text.substr(0, at));
            if (!first || !first->amount) continue;
            length = at;
            return first;
        }
        return std::nullopt;
    }

    /// "Okra, handful": a measure alone, which is no thing, is one of what stands before it.
    void take_measure_alone(ThingText& piece) const {
        if (piece.amount || piece.question || names_.names(piece.words)) return;
        const AmountReader reader(piece.words, names_.containers());
        const auto unit = reader.unit_at(0);
        if (!unit || !reader.words_after(unit->end).empty()) return;
        const std::string one = "1 " + piece.words;
        if (const auto read = AmountReader(one, names_.containers()).read(0))
            piece.bare_amount = read->amount;
    }

    /// The piece as it comes: amount first, amount last, or none.
    ThingText loosely(std::string_view text) const {
        text = without_list_number(tidy(text));
        if (!starts_with_count(text) && !names_.names(text)) {
            if (const auto rest = without_filler(text)) return loosely(*rest);
            if (const auto turned = unit_before_number(text)) {
                ThingText piece = loosely(*turned);
                piece.written = std::string(text);
                return piece;
            }
        }
        ThingText piece;
        piece.written = std::string(text);
        const AmountReader reader(text, names_.containers());
        if (!starts_with_count(text) && names_.names(text) && !is_vessel_of(reader, text)) {
            // "peel of half a grapefruit": a half is a word that says how it was cut, too.
            if (text.find(" of half a") != std::string_view::npos && amount_last(piece, text))
                return piece;
            piece.words = std::string(text);
            take_part_of_one(piece);
            return piece;
        }
        auto read = reader.read(0);
        // "Leaves, wood ash" are two things, "handful coffee" is one.
        const auto parted = [&] {
            const auto mark = after_blanks(text, read->end);
            return mark < text.size() && is_seam(text[mark]);
        };
        if (read && (!read->no_count || (!parted() && names_.names(reader.words_after(read->end)))))
            return amount_first(std::move(piece), reader, *read);
        if (!read && amount_behind_vague(piece, text)) return piece;
        if (!read && read.errors().front().code != ErrorCode::wrong_type)
            return unclear(std::move(piece), text, read.errors().front());
        if (amount_last(piece, text)) return piece;
        piece.words = std::string(text);
        take_part_of_one(piece);
        return piece;
    }

private:
    /// "bag of dog poo": a vessel of a thing, though "dog poo bag" is a name too.
    bool is_vessel_of(const AmountReader& reader, std::string_view text) const {
        const auto unit = reader.unit_at(0);
        if (!unit || !unit->is_vessel() || !take_word(text, unit->end, "of")) return false;
        const auto thing = reader.words_after(unit->end);
        return names_.names(thing) && !names_.names_one_better(text, thing);
    }

    static bool starts_with_count(std::string_view text) { return read_count(text).has_value(); }

    ThingText amount_first(ThingText piece, const AmountReader& reader,
                           const AmountReading& read) const {
        const std::string_view after(reader.words_after(read.end));
        const std::string_view whole(reader.words_after(read.after_count));
        const bool unit_is_name = after.empty() && read.unit_is_word && !whole.empty();
        // "3 cereal boxes" has no unit; "2 boxes" is a thing; "4 can openers" is neither.
        // "3 cobs of corn": corn may be several things, a cob of it is one.
        const bool as_count =
            unit_is_name || (read.unit_is_word && !after.empty() && names_.names(whole) &&
                             (!names_.names(after) || names_.names_one_better(whole, after)));
        if (unit_is_name && reader.words_after(read.end).empty()) piece.bare_amount = read.amount;
        piece.amount = as_count ? reader.count_of(read) : read.amount;
        piece.words = std::string(tidy(as_count ? whole : after));
        take_or_more(piece);
        take_brackets(piece);
        if (const auto question = unknown_measure(reader, piece)) {
            piece.question = question;
            piece.amount.reset();
            return piece;
        }
        if (piece.amount->counted) take_measure_at_end(piece, names_);
        return piece;
    }

    /// "a firkin of grounds": the word before "of" is no measure that is known, and what is behind
    /// it is a name. The words become that name, so that what is barred is found.
    std::optional<Error> unknown_measure(const AmountReader& reader, ThingText& piece) const {
        const auto place = piece.words.find(" of ");
        if (!piece.amount->counted || place == std::string::npos || names_.names(piece.words))
            return std::nullopt;
        const auto before = name_words(piece.words.substr(0, place));
        const auto after = std::string(tidy(std::string_view(piece.words).substr(place + 4)));
        if (before.empty() || before.size() > 3 || !names_.names(after)) return std::nullopt;
        for (const auto& word : before)
            if (has_word(table::en::barred_words, word)) return std::nullopt;
        const auto says_part = [](const std::string& word) {
            return has_word(table::en::part_words, word) ||
                   has_word(table::en::small_parts, word) || has_word(table::en::left_aside, word);
        };
        if (says_part(before.back())) return std::nullopt;
        piece.words = after;
        return reader.unknown_measure(before.back(), after);
    }

    /// "kg 2 of carrots" and "cups of coffee grounds: 2", as "2 kg of carrots".
    std::optional<std::string> unit_before_number(std::string_view text) const {
        const AmountReader reader(text, names_.containers());
        const auto unit = reader.unit_at(0);
        if (!unit || unit->end >= text.size()) return std::nullopt;
        const std::string name(text.substr(0, unit->end));
        const bool no_thing = !names_.names(name);
        if (const auto count = read_count(text, unit->end);
            count && count->digits && no_thing && !take_word(text, unit->end, "of"))
            return std::string(trim(text.substr(unit->end, count->length - unit->end))) + " " +
                   name + " " + std::string(trim(text.substr(count->length)));
        if (!take_word(text, unit->end, "of")) return std::nullopt;
        const auto mark = text.find_last_of(":=x(");
        if (mark == std::string_view::npos) return std::nullopt;
        const auto number = bare_amount(text.substr(mark + 1));
        const auto count = read_count(number);
        if (!count || !count->digits || count->length != number.size()) return std::nullopt;
        return std::string(number) + " " + std::string(tidy(text.substr(0, mark)));
    }

    /// "my apple core": one, and not "our potato peels".
    static bool is_one_part(const std::vector<std::string>& words) {
        return words.size() > 2 && (words[0] == "the" || words[0] == "my" || words[0] == "our") &&
               has_word(table::en::small_parts, words.back());
    }

    /// "the end of a cucumber", "peel from an orange": of one.
    void take_part_of_one(ThingText& piece) const {
        const auto words = words_of(plain_text(piece.words));
        if (!is_one_part(words) && !is_part_of_one(words)) return;
        piece.amount = AmountReader("1", names_.containers()).read(0)->amount;
    }

    static bool is_part_of_one(const std::vector<std::string>& words) {
        const std::size_t first = !words.empty() && words[0] == "the" ? 1 : 0;
        if (words.size() < first + 4 || !has_word(table::en::small_parts, singular(words[first])))
            return false;
        const std::string& joins = words[first + 1];
        const std::string& one = words[first + 2];
        return (joins == "of" || joins == "from") &&
               (one == "a" || one == "an" || one == "the" || one == "my" || one == "our");
    }

    /// "an apple or two".
    static void take_or_more(ThingText& piece) {
        constexpr std::pair<std::string_view, double> tails[] = {
            {" or two", 2.0},           {" or three", 3.0}, {" or so", 0.0},
            {" full to the brim", 0.0}, {" in total", 0.0}, {" in all", 0.0},
            {" to the brim", 0.0}};
        for (const auto& [tail, upper] : tails) {
            if (piece.words.size() <= tail.size() ||
                piece.words.compare(piece.words.size() - tail.size(), tail.size(), tail) != 0)
                continue;
            piece.words.resize(piece.words.size() - tail.size());
            if (upper > piece.amount->count)
                piece.amount->high_share =
                    std::max(piece.amount->high_share, upper / piece.amount->count);
        }
    }

    /// "carrots (grated)": what stands in brackets describes.
    static void take_brackets(ThingText& piece) {
        if (piece.words.find('(') == std::string::npos) return;
        std::string kept;
        for (const char c : piece.words) {
            const bool blank = is_blank(c) || c == '(' || c == ')';
            if (!blank)
                kept += c;
            else if (!kept.empty() && kept.back() != ' ')
                kept += ' ';
        }
        piece.words = std::string(tidy(kept));
    }

    /// "A stack of paper bags 300 g": the weight says what the loose word does not.
    bool amount_behind_vague(ThingText& piece, std::string_view text) const {
        const auto of = text.find(" of ");
        if (of == std::string_view::npos) return false;
        ThingText weighed = piece;
        const bool taken = amount_last(weighed, tidy(text.substr(of + 4)));
        if (!taken || weighed.question || !weighed.amount || weighed.amount->counted) return false;
        piece = std::move(weighed);
        return true;
    }

    /// An amount that is there but not clear: the name is kept, so that what is barred is found.
    ThingText unclear(ThingText piece, std::string_view text, const Error& error) const {
        piece.question = error;
        if (const auto count = read_count(text)) {
            const AmountReader reader(text, names_.containers());
            auto rest = reader.words_after(count->length);
            if (const auto unit = reader.unit_at(count->length))
                rest = reader.words_after(unit->end);
            constexpr std::string_view of = " of ";
            if (const auto place = rest.find(of);
                place != std::string_view::npos && !names_.names(rest))
                rest = tidy(rest.substr(place + of.size()));
            piece.words = std::string(rest);
        } else if (const auto place = text.find(" of "); place != std::string_view::npos) {
            piece.words = std::string(tidy(text.substr(place + 4)));
        }
        return piece;
    }

    /// "coffee grounds 1.2 kg", "apples x 3", "peel of 2 bananas".
    bool amount_last(ThingText& piece, std::string_view text) const {
        for (std::size_t at = 1; at < text.size(); ++at) {
            const bool starts =
                is_blank(text[at - 1]) || text[at - 1] == '(' || text[at - 1] == ':';
            if (!starts || is_blank(text[at])) continue;
            const auto tail = bare_amount(text.substr(at));
            const auto count = read_count(tail);
            if (!count) continue;
            const AmountReader reader(tail, names_.containers());
            const auto read = reader.read(0);
            if (!read) {
                if (count->digits && read.errors().front().code != ErrorCode::wrong_type) {
                    piece.question = read.errors().front();
                    piece.words = std::string(name_before(text.substr(0, at)));
                    return true;
                }
                continue;
            }
            const auto name = name_before(text.substr(0, at));
            const auto rest = reader.words_after(read->end);
            if (rest.empty()) {
                // "tea one" is no amount: a count in words needs a unit.
                if (read->counted && !count->digits) continue;
                piece.amount = read->amount;
                piece.words = std::string(name);
                if (read->counted) take_measure_at_end(piece, names_);
                return true;
            }
            // "fish 500 g, bones" are two things; "lemons 500 g, peel" is one.
            const auto mark = after_blanks(tail, read->end);
            if (mark < tail.size() && is_seam(tail[mark]) && !only_parts(rest)) continue;
            const std::string joined = std::string(name) + " " + std::string(rest);
            if (!names_.names(joined)) continue;
            piece.amount = read->amount;
            piece.words = joined;
            return true;
        }
        return false;
    }

    /// Whether words only say which part it is or how it was cut.
    static bool only_parts(std::string_view text) {
        const auto words = name_words(text);
        return std::all_of(words.begin(), words.end(), [](const std::string& word) {
            return has_word(table::en::left_aside, word) || has_word(table::en::part_words, word);
        });
    }

    static std::string_view name_before(std::string_view text) {
        text = tidy(text);
        for (;;) {
            const auto size = text.size();
            while (!text.empty() &&
                   (text.back() == '-' || text.back() == '(' || text.back() == '~'))
                text = tidy(text.substr(0, text.size() - 1));
            for (const std::string_view tail :
                 {" x", " about", " approx", " of", " from", " around", " roughly", "\xE2\x80\x93",
                  " \xC3\x97"}) {
                if (text.size() > tail.size() && text.substr(text.size() - tail.size()) == tail)
                    text = tidy(text.substr(0, text.size() - tail.size()));
            }
            if (text.size() == size) return text;
        }
    }

    const Names& names_;
};

}  // namespace feed::detail
