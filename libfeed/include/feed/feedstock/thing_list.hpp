#pragma once
#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/feedstock/amount_reader.hpp"
#include "feed/feedstock/each_of.hpp"
#include "feed/feedstock/name_match.hpp"
#include "feed/quantity/error.hpp"

// A text cut into things: where one ends and the next begins, and which part of it is the amount.
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
    /// "1 cup" alone: the amount, if its unit is no thing.
    std::optional<Amount> bare_amount;
};

inline constexpr std::size_t most_things = 60;

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

inline std::vector<Seam> seams_of(std::string_view text) {
    constexpr std::array<std::string_view, 6> joining{"and", "plus", "und", "et", "y", "with"};
    std::vector<Seam> seams;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        const bool in_number = c == ',' && i > 0 && i + 1 < text.size() && is_digit(text[i - 1]) &&
                               is_digit(text[i + 1]);
        if (is_seam(c) && !in_number) {
            seams.push_back({i, i + 1});
        } else if (is_blank(c)) {
            const auto word = after_blanks(text, i);
            if (const auto behind = take_one_of(text, word, joining);
                behind && *behind < text.size() && is_blank(text[*behind])) {
                seams.push_back({i, *behind});
                i = *behind - 1;
            }
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

/// "(3)", "- 3", "x 3" at the end of a name, without its marks.
inline std::string_view bare_amount(std::string_view text) {
    text = tidy(text);
    while (!text.empty() && (text.front() == '(' || text.front() == '-'))
        text = tidy(text.substr(1));
    if (!text.empty() && text.back() == ')' && text.find('(') == std::string_view::npos)
        text = tidy(text.substr(0, text.size() - 1));
    return text;
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
        if (!starts_with_count(text) || strictly(text)) return std::nullopt;
        for (std::size_t at = 1; at < text.size(); ++at) {
            if (!is_blank(text[at - 1]) || !is_digit(text[at])) continue;
            auto first = strictly(text.substr(0, at));
            if (!first || !first->amount) continue;
            length = at;
            return first;
        }
        return std::nullopt;
    }

    /// The piece as it comes: amount first, amount last, or none.
    ThingText loosely(std::string_view text) const {
        text = tidy(text);
        ThingText piece;
        piece.written = std::string(text);
        if (!starts_with_count(text) && names_.names(text)) {
            piece.words = std::string(text);
            take_part_of_one(piece);
            return piece;
        }
        const AmountReader reader(text, names_.containers());
        auto read = reader.read(0);
        // "Leaves, wood ash" are two things, "handful coffee" is one.
        const auto parted = [&] {
            const auto mark = after_blanks(text, read->end);
            return mark < text.size() && is_seam(text[mark]);
        };
        if (read && (!read->no_count || (!parted() && names_.names(reader.words_after(read->end)))))
            return amount_first(std::move(piece), reader, *read);
        if (!read && read.errors().front().code != ErrorCode::wrong_type)
            return unclear(std::move(piece), text, read.errors().front());
        if (amount_last(piece, text)) return piece;
        piece.words = std::string(text);
        take_part_of_one(piece);
        return piece;
    }

private:
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
        if (piece.amount->counted) take_measure_at_end(piece, names_);
        return piece;
    }

    /// "my apple core": one, and not "our potato peels".
    static bool is_one_part(const std::vector<std::string>& words) {
        return words.size() > 2 && (words[0] == "the" || words[0] == "my" || words[0] == "our") &&
               has_word(table::en::small_parts, words.back());
    }

    /// "the end of a cucumber", "peel from an orange": of one.
    void take_part_of_one(ThingText& piece) const {
        const auto words = words_of(plain_text(piece.words));
        if (is_one_part(words)) {
            piece.amount = AmountReader("1", names_.containers()).read(0)->amount;
            return;
        }
        const std::size_t first = !words.empty() && words[0] == "the" ? 1 : 0;
        if (words.size() < first + 4 || !has_word(table::en::small_parts, singular(words[first])))
            return;
        const std::string& joins = words[first + 1];
        const std::string& one = words[first + 2];
        if ((joins != "of" && joins != "from") ||
            (one != "a" && one != "an" && one != "the" && one != "my" && one != "our"))
            return;
        const AmountReader reader("1", names_.containers());
        if (const auto read = reader.read(0)) piece.amount = read->amount;
    }

    /// "an apple or two".
    static void take_or_more(ThingText& piece) {
        constexpr std::pair<std::string_view, double> tails[] = {
            {" or two", 2.0}, {" or three", 3.0}, {" or so", 0.0}};
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

/// Whether a piece belongs to the thing before it (how it was cut, its amount); then it is joined.
inline bool joins(ThingText& before, const ThingText& piece) {
    if (!piece.amount && says_what_is_absent(piece.words)) {
        before.written += ", " + piece.written;
        return true;
    }
    if (!piece.amount && (only_describes(piece.words) || only_names_parts(piece.words))) {
        before.words += " " + piece.words;
        before.written += ", " + piece.written;
        return true;
    }
    if (!piece.amount || before.question) return false;
    // "A yam, about half a pound": of two amounts the weight is the surer one.
    const bool weighed =
        before.amount && before.amount->counted && piece.amount->kind == AmountKind::mass;
    if (piece.words.empty() && (!before.amount || weighed)) {
        before.amount = piece.amount;
        return true;
    }
    if (!piece.bare_amount || before.amount) return false;
    before.amount = piece.bare_amount;
    return true;
}

inline void add_thing(std::vector<ThingText>& things, ThingText piece) {
    if (piece.words.empty() && !piece.question)
        piece.question = offered(
            amount_error(ErrorCode::empty, piece.written, "an amount and a thing, such as 3 apples",
                         "\"" + piece.written + "\" of what?"),
            " Write for instance ", {piece.written + " apples"});
    things.push_back(std::move(piece));
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
            } else if (piece.size() <= longest_name) {
                taken = reader.strictly(piece);
            }
            if (taken) break;
        }
        const bool is_with = start >= 5 && plain_text(text.substr(start - 5, 5)) == "with";
        start = next;
        if (!taken) continue;
        taken->is_with = is_with;
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

/// The things of a text, in its order.
template <class Names>
std::vector<ThingText> split_things(std::string_view text, const Names& names) {
    auto things = split_each(text, names);
    return things.empty() ? split_plain(text, names) : things;
}

}  // namespace feed::detail
