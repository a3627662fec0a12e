#include "note_words.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "feed/bed/usual_bed.hpp"
#include "feed/blend/contribution.hpp"
#include "feed/diary/bed_change.hpp"
#include "feed/diary/seen.hpp"
#include "feed/feedstock/count_text.hpp"
#include "feed/feedstock/things.hpp"
#include "feed/io/human_text.hpp"
#include "feed/io/quantity_text.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"
#include "feed/ration/heap_log.hpp"
#include "note_text.hpp"
#include "reading.hpp"

namespace feed::io {
namespace {

/// Where words of their own follow: "bedding 1 kg card".
struct Opening {
    std::string_view words;
    std::string Observation::*field;
    bool keeps_word;  ///< the opening word belongs to what is written ("harvested 5 L")
};
constexpr Opening openings[] = {
    {"note", &Observation::note, false},
    {"bedding", &Observation::bedding, false},
    {"added bedding", &Observation::bedding, false},
    {"new bedding", &Observation::bedding, false},
    {"fresh bedding", &Observation::bedding, false},
    {"more bedding", &Observation::bedding, false},
    {"extra bedding", &Observation::bedding, false},
    {"pests", &Observation::pests, false},
    {"harvested", &Observation::action, true},
    {"harvest", &Observation::action, true},
    {"flushed", &Observation::action, true},
    {"took out", &Observation::action, true},
    {"lifted out", &Observation::action, true},
    {"dug out", &Observation::action, true},
    {"scooped out", &Observation::action, true},
    {"picked out", &Observation::action, true},
    {"removed", &Observation::action, true},
    {"added water", &Observation::action, true},
    {"watered", &Observation::action, true},
    {"turned", &Observation::action, true},
    {"fluffed", &Observation::action, true},
    {"drained", &Observation::action, true},
    {"limed", &Observation::action, true},
    {"stirred", &Observation::action, true},
    {"mixed the", &Observation::action, true},
    {"mixed it", &Observation::action, true},
    {"moved", &Observation::action, true},
    {"misted", &Observation::action, true},
    {"aerated", &Observation::action, true},
    {"emptied", &Observation::action, true},
};

bool ends_in(std::string_view text, std::string_view tail) {
    return text.size() > tail.size() && text.substr(text.size() - tail.size()) == tail;
}

/// The words behind an opening, as they were written; nothing where they do not open so.
std::optional<std::string_view> behind(std::string_view piece, std::string_view opening) {
    if (piece.size() < opening.size()) return std::nullopt;
    if (plain_text(piece.substr(0, opening.size())) != opening) return std::nullopt;
    std::string_view rest = piece.substr(opening.size());
    if (!rest.empty() && rest.front() != ' ' && rest.front() != ':') return std::nullopt;
    if (!rest.empty() && rest.front() == ':') rest.remove_prefix(1);
    return detail::trim(rest);
}

/// Words of the table that are spelled like a piece and that a diary has a key for, or "".
std::string nearest_seen(std::string_view piece) {
    // "No flies", "smell is better": what is spelled like such words says another thing.
    if (feed::detail::denies(piece) || has_one_of(piece, {"better", "changed", "new", "free"}))
        return "";
    const table::SeenLanguage& language = feed::detail::language_of(piece);
    const auto words = feed::detail::seen_words_of(language, piece);
    std::vector<std::string_view> list;
    for (std::size_t at = 0; at < language.words.size();) {
        const std::size_t end = language.words.find('\n', at);
        list.push_back(language.words.substr(at, language.words.find('=', at) - at));
        at = end + 1;
    }
    const std::string near = nearest_word(feed::detail::seen_key(language, words, false), list);
    const SeenRow* row = near.empty() ? nullptr : find_seen(near);
    return row == nullptr || row->key == SeenKey::nothing ? "" : row->name;
}

Error piece_error(std::string_view piece, std::string message) {
    return make_error(
        ErrorCode::out_of_range, "note", std::string(piece),
        "fed 3 apples; half gone; smell sour; wet; temperature 24 C; worms 1 lb; bedding 1 kg "
        "card; harvested 5 L; or note, and words of your own",
        std::move(message));
}

/// What was added, without the word and "as bedding"; nothing where the piece does not say so.
std::optional<std::string_view> added(std::string_view piece) {
    std::optional<std::string_view> rest;
    for (const std::string_view word : {"added", "add", "sprinkled", "put on", "scattered"})
        if (!rest) rest = behind(piece, word);
    if (rest && ends_in(*rest, " as bedding")) rest->remove_suffix(11);
    return rest;
}

/// Worms that came or went: what counts is what all of them weigh.
bool is_of_new_worms(std::string_view piece) {
    const bool of_worms = has_one_of(piece, {"worm"});
    for (const std::string_view word :
         {"added", "add", "bought", "new", "sold", "gave", "give", "got", "lost", "counted"})
        if (of_worms && behind(piece, word)) return true;
    return false;
}

Error not_understood(std::string_view piece) {
    const std::string said = "\"" + std::string(piece) + "\"";
    if (is_of_new_worms(piece))
        return offered(piece_error(piece, "what do all the worms weigh now?"), " Write ",
                       {"worms 500 g"}, " or what the scale says");
    if (const auto what = added(piece)) {
        const std::string thing(feed::detail::without_owner(*what));
        if (find_thing(thing))
            return offered(piece_error(piece, "how much " + thing + " was added?"), " Write ",
                           {"added 2 handfuls of " + thing});
    }
    const auto food = read_things(piece);
    // "It is dripping", "worms look fat": nobody is told to write down what is never fed.
    const bool harmless = std::all_of(
        food.things.begin(), food.things.end(),
        [](const ReadThing& one) { return !barred_in(*one.feedstock, feed::Place::worm_bed); });
    if (food.questions.empty() && harmless)
        return offered(piece_error(piece, said + " is food"), "; write ",
                       {"fed " + std::string(piece)});
    if (feed::detail::is_only_smell(piece))
        return offered(piece_error(piece, said + " fits several smells"), "; write for instance ",
                       {"smell sour", "smell rotten", "smell of ammonia"});
    if (has_one_of(piece, {"holiday", "vacation", "away", "travelling"}))
        return offered(piece_error(piece, said + " is no look at the bin"), "; write ",
                       {"note " + std::string(piece)},
                       ", and ask feed check FILE --away \"2 weeks\"");
    const std::string near = nearest_seen(piece);
    Error error = piece_error(piece, said + " is not understood");
    if (near.empty())
        return offered(std::move(error), "; to keep your own words write ",
                       {"note " + std::string(piece)});
    return with_near(std::move(error), near);
}

/// What a diary has no key for: heat and cold are measured, the rest is a note.
Error not_kept(std::string_view piece, Sign sign) {
    const bool felt = sign == Sign::heat || sign == Sign::cold;
    const std::string said = "\"" + std::string(piece) + "\" ";
    if (felt)
        return offered(piece_error(piece, said + "is felt, not measured"),
                       "; write the temperature, such as ", {"temperature 28 C"},
                       ", or ask feed signs");
    return offered(piece_error(piece, said + "is kept as words"), "; write ",
                   {"note " + std::string(piece)}, ", or ask feed signs");
}

/// What a note measures: its quantity, in words, and a note that is understood.
struct Measured {
    QuantityKind kind;
    std::string_view words, example;
};
constexpr Measured warmth{QuantityKind::temperature, "the temperature", "temperature 24 C"};
constexpr Measured air{QuantityKind::temperature, "the air", "air 12 C"};
constexpr Measured acidity{QuantityKind::ph, "the pH", "ph 6.5"};
constexpr Measured worms{QuantityKind::mass, "the weight of the worms", "worms 500 g"};
constexpr Measured left_over{QuantityKind::weighed, "what is left", "200 g left"};
constexpr Measured share{QuantityKind::share, "how much is gone", "60 % gone"};

/// The degrees of a thermometer whose unit is missing, or nothing.
std::optional<std::string> bare_degrees(std::string_view text) {
    const auto number = read_number(text);
    if (!number) return std::nullopt;
    const std::string unit = plain_text(text.substr(number->length));
    if (!unit.empty() && unit != "degrees" && unit != "degree" && unit != "deg")
        return std::nullopt;
    return std::string(text.substr(0, number->length));
}

/// Reads the number with its unit at one end of a piece, the words at the other being known.
template <class Take>
Result<Observation> quantity_of(std::string_view text, const Measured& of, Take take) {
    text = detail::trim(text);
    const auto number = parse_quantity(text, of.kind);
    if (!number) {
        const auto degrees =
            of.kind == QuantityKind::temperature ? bare_degrees(text) : std::nullopt;
        if (degrees) {
            const std::string name(of.example.substr(0, of.example.find(' ')));
            return offered(piece_error(text, "Celsius or Fahrenheit?"), " Write ",
                           {name + " " + *degrees + " C", name + " " + *degrees + " F"});
        }
        Errors errors = number.errors();
        for (Error& error : errors) {
            error.field = "note";
            error.message = std::string(of.words) + ": " + error.message;
            error = offered(std::move(error), "; write for instance ", {std::string(of.example)});
        }
        return errors;
    }
    Observation seen;
    take(seen, *number);
    return seen;
}

void take_mass(Observation& seen, double kg) {
    seen.worm_weight = wet_kilograms(kg);
}

/// The places of a thermometer that a note may name; a file may name any. Depths are read beside
/// them ("15 cm deep").
constexpr std::string_view thermometer_places[] = {"middle", "centre",  "center",  "core", "edge",
                                                   "side",   "outside", "surface", "top",  "bottom",
                                                   "corner", "front",   "back"};

/// The place that words name, without "in the" and the like; nothing where they name none.
std::optional<std::string> place_of_words(std::string_view said) {
    std::string words = plain_text(said);
    for (const std::string_view small : {"in ", "at ", "on ", "of ", "the "})
        if (words.substr(0, small.size()) == small) words.erase(0, small.size());
    for (const std::string_view place : thermometer_places)
        if (words == place) return words;
    const bool deep = ends_in(words, " deep") && read_number(words);
    if (!deep || !parse_quantity(words.substr(0, words.size() - 5), QuantityKind::length))
        return std::nullopt;
    return words;
}

/// "55 C middle", "middle 55 C", "55 C at 15 cm deep"; nothing where the words are no temperature
/// with a place.
std::optional<Result<Observation>> read_placed(std::string_view said) {
    for (std::size_t blank = said.find(' '); blank != std::string_view::npos;
         blank = said.find(' ', blank + 1)) {
        const std::string_view parts[] = {detail::trim(said.substr(0, blank)),
                                          detail::trim(said.substr(blank + 1))};
        for (const bool first : {true, false}) {
            const auto place = place_of_words(parts[first ? 1 : 0]);
            const std::string_view number = parts[first ? 0 : 1];
            if (!place || !read_number(number)) continue;
            return quantity_of(number, warmth, [&](Observation& seen, double c) {
                seen.temperatures = {{*place, celsius(c)}};
            });
        }
    }
    return std::nullopt;
}

/// "68 degrees F" as "68 F".
std::string without_degrees(std::string_view piece) {
    std::string text(piece);
    for (const std::string_view word : {" degrees ", " degree ", " deg "}) {
        const auto at = text.find(word);
        if (at != std::string::npos && at + word.size() < text.size())
            text.replace(at, word.size(), " ");
    }
    return text;
}

/// "temperature 24 C", "24 C", "55 C middle", "air 12 C".
std::optional<Result<Observation>> read_warmth(std::string_view written) {
    const std::string named = without_degrees(written);
    std::string_view piece = named;
    const auto degrees = [](Observation& seen, double c) {
        seen.temperatures = {{"", celsius(c)}};
    };
    for (const std::string_view place : {"in there", "inside", "in the bin", "in the bed"})
        if (read_number(piece)) piece = without_end(piece, place).value_or(piece);
    for (const std::string_view word :
         {"temperature", "temp", "it is", "its", "it's", "bed is", "the bed is"}) {
        const auto rest = behind(piece, word);
        if (!rest || (word.substr(0, 4) != "temp" && !read_number(*rest))) continue;
        if (auto placed = read_placed(*rest)) return placed;
        if (read_number(*rest)) return quantity_of(*rest, warmth, degrees);
    }
    if (auto placed = read_placed(piece)) return placed;
    if (const auto rest = behind(piece, "air"); rest && read_number(*rest))
        return quantity_of(*rest, air, [](Observation& seen, double c) {
            seen.air_low = seen.air_high = celsius(c);
        });
    const auto bare = bare_degrees(piece);
    if (parse_quantity(piece, QuantityKind::temperature) || (bare && bare->size() < piece.size()))
        return quantity_of(piece, warmth, degrees);
    return std::nullopt;
}

/// What worms of a number do or look like, which is no weight of them: "3 dead worms". Null where
/// the words say nothing of the kind.
const SeenRow* counted_worms(std::string_view piece) {
    return ends_in(piece, "worms") ? find_seen(piece.substr(piece.find_first_of(' ') + 1))
                                   : nullptr;
}

/// "worms 1 lb", "500 g of worms". A count is asked about: what a worm weighs differs twofold.
std::optional<Result<Observation>> read_worm_weight(std::string_view piece) {
    std::optional<std::string_view> amount;
    for (const std::string_view word :
         {"worms weigh", "the worms weigh", "weighed the worms", "weighed worms", "worms"})
        if (const auto rest = behind(piece, word); rest && !amount && read_number(*rest))
            amount = rest;
    for (const std::string_view tail : {" of worms", " worms"})
        if (ends_in(piece, tail) && !amount && feed::detail::read_count(piece))
            amount = piece.substr(0, piece.size() - tail.size());
    if (!amount) return std::nullopt;
    if (counted_worms(piece) != nullptr) return std::nullopt;
    const auto count = feed::detail::read_count(*amount);
    const double grams_each = usual::worm_grams[0].value;
    constexpr double fewest = 50.0;  // fewer are not all the worms of a bin
    if (count && count->length == amount->size() &&
        (!count->vague.empty() || count->value < fewest))
        return offered(piece_error(piece, "what do all the worms weigh?"), " Write ",
                       {"worms 500 g"}, " or what the scale says");
    if (count && count->length == amount->size()) {
        const std::string weight =
            mass_text(wet_grams(grams_each * count->value).mass(), UnitSystem::metric);
        return offered(
            piece_error(piece, "how much do they weigh? So many red worms are about " + weight),
            "; write ", {"worms " + weight}, " or what the scale says");
    }
    return quantity_of(*amount, worms, take_mass);
}

/// "half gone", "a third left", "60 % eaten", "200 g left".
std::optional<Result<Observation>> read_rest(std::string_view piece) {
    const auto left = [](Observation& seen, double kg) { seen.left = wet_kilograms(kg); };
    const auto gone = [](Observation& seen, double part) { seen.share_gone = part; };
    const auto stays = [](Observation& seen, double part) { seen.share_gone = 1.0 - part; };
    if (const auto rest = behind(piece, "left"); rest && read_number(*rest)) {
        if (rest->find('%') != std::string_view::npos) return quantity_of(*rest, share, stays);
        return quantity_of(*rest, left_over, left);
    }
    for (const std::string_view tail :
         {" is gone", " gone", " is eaten", " eaten", " is left", " left", " remains"}) {
        if (!ends_in(piece, tail)) continue;
        const bool is_left = tail == " left" || tail == " is left" || tail == " remains";
        std::string_view what = piece.substr(0, piece.size() - tail.size());
        if (ends_in(what, " of it")) what.remove_suffix(6);
        bool about = false;
        what.remove_prefix(feed::detail::skip_about(what, 0, about));
        const auto part = feed::detail::share_said(what);
        if (part) {
            Observation seen;
            const double percent = std::round(100.0 * *part);
            is_left ? stays(seen, percent / 100.0) : gone(seen, percent / 100.0);
            return seen;
        }
        if (!read_number(what)) return std::nullopt;
        if (is_left && what.find('%') == std::string_view::npos)
            return quantity_of(what, left_over, left);
        return is_left ? quantity_of(what, share, stays) : quantity_of(what, share, gone);
    }
    return std::nullopt;
}

/// The warmth of a bed, "worms 1 lb", "ph 6.5", "200 g left", "60 % gone".
std::optional<Result<Observation>> read_measured(std::string_view piece) {
    if (auto warm = read_warmth(piece)) return warm;
    if (const auto rest = behind(piece, "ph"))
        return quantity_of(*rest, acidity, [](Observation& seen, double ph) { seen.ph = ph; });
    if (auto weight = read_worm_weight(piece)) return weight;
    return read_rest(piece);
}

/// Words that a note opens with, against which slips of letters are held.
constexpr std::string_view opening_words[] = {
    "added",   "bedding",   "drained", "fed",         "flushed", "fluffed", "gave",
    "harvest", "harvested", "left",    "limed",       "note",    "pests",   "smell",
    "smells",  "squeeze",   "stock",   "temperature", "turned",  "watered", "worms"};

/// Whether all the words of a thing say bedding, water or anything else that is known.
enum class AddedKind { unknown, bedding, water, food };
AddedKind kind_of_added(const ReadThings& read) {
    if (read.things.empty() || !read.questions.empty()) return AddedKind::unknown;
    const auto all = [&](Part part) {
        return std::all_of(read.things.begin(), read.things.end(),
                           [&](const ReadThing& one) { return part_of(*one.feedstock) == part; });
    };
    if (all(Part::bedding)) return AddedKind::bedding;
    const bool water =
        std::all_of(read.things.begin(), read.things.end(),
                    [](const ReadThing& one) { return one.feedstock->has(Role::water); });
    return water ? AddedKind::water : AddedKind::food;
}

/// "added 500 g shredded paper", "added a litre of water", "water 500 ml".
std::optional<Observation> read_added(std::string_view piece) {
    const auto what = added(piece);
    const bool opens_with_water = behind(piece, "water").has_value();
    if (!what && !opens_with_water) return std::nullopt;
    const std::string_view said = what ? *what : piece;
    const ReadThings read = read_things(said);
    const AddedKind kind = kind_of_added(read);
    Observation seen;
    if (kind == AddedKind::bedding && what) {
        seen.bedding = std::string(said);
        return seen;
    }
    if (kind != AddedKind::water) return std::nullopt;
    double litres = 0.0;  // a kilogram of water is a litre
    for (const ReadThing& one : read.things)
        litres += one.mass.wet_mass.in_kilograms();
    seen.action = "added water " + significant(litres, 2) + " L";
    return seen;
}

/// An amount of what the table does not know: the file may, as bedding or as food.
std::optional<Error> added_unknown(std::string_view piece) {
    const std::string what(added(piece).value_or(""));
    if (what.empty() || is_of_new_worms(piece) || !parse_amount_and_words(what))
        return std::nullopt;
    return offered(piece_error(piece, "is \"" + what + "\" bedding? Then write "), "",
                   {"bedding " + what}, "; food begins with \"fed\"");
}

/// Why words of what was done to the bed say no amount of it, though they have a number; nothing
/// where they do, or are words of the keeper's own.
std::optional<Error> wrong_change(const Opening& opening, std::string_view rest,
                                  std::string_view piece) {
    const bool numbers = std::any_of(rest.begin(), rest.end(), feed::detail::is_digit);
    if (opening.field == &Observation::bedding) {
        if (rest.front() == '-')
            return offered(piece_error(piece, "how much bedding went in?"), " Write for instance ",
                           {"bedding 1 kg cardboard"});
        for (const ReadThing& one : read_things(rest).things) {
            const Feedstock& f = *one.feedstock;
            if (part_of(f) == Part::bedding && f.stance != Stance::avoid) continue;
            return offered(piece_error(piece, "\"" + one.words + "\" is no bedding"),
                           "; if it went in, write ", {"fed " + std::string(rest)});
        }
        return std::nullopt;
    }
    const bool out = opening.words == "harvested" || opening.words == "harvest" ||
                     opening.words == "took out" || opening.words == "flushed";
    if (!out || !numbers) return std::nullopt;
    Observation seen;
    seen.action = std::string(piece);
    if (bed_change_of(seen).any()) return std::nullopt;
    const std::string opened(opening.words == "harvest" ? "harvested" : opening.words);
    return offered(piece_error(piece, "how much was it?"), " Write for instance ",
                   {opened + " 5 L"});
}

/// What more words say of the only smell or guests in them: "fruit flies everywhere", "a few ants
/// in the corner". Other words are no look: "moved it out of the wet corner".
std::optional<Observation> read_within(std::string_view piece) {
    if (read_number(piece)) return std::nullopt;
    const auto rows = all_seen_in(piece);
    if (rows.size() != 1) return std::nullopt;
    const bool tells = rows[0]->key == SeenKey::smell || rows[0]->key == SeenKey::pests;
    Observation seen;
    if (!tells || !say_seen(*rows[0], seen)) return std::nullopt;
    return seen;
}

/// What a piece says was seen, with a number before it or without. Null where nothing.
const SeenRow* row_of(std::string_view piece) {
    const SeenRow* const row = find_seen(piece);
    return row == nullptr && read_number(piece) ? counted_worms(piece) : row;
}

/// The keeper's own words, kept as they are.
Observation in_own_words(std::string_view piece) {
    Observation seen;
    seen.note = std::string(piece);
    return seen;
}

/// A look under the diary's key for it, or why it has none; good news is kept in the keeper's
/// words.
Result<Observation> as_seen(const SeenRow& row, std::string_view piece) {
    Observation seen;
    if (say_seen(row, seen)) return seen;
    const Sign sign = *sign_of(row);
    if (sign != Sign::all_well && sign != Sign::cocoons) return not_kept(piece, sign);
    return in_own_words(piece);
}

}  // namespace

std::string without_slip(std::string_view piece) {
    const std::string_view first = piece.substr(0, piece.find(' '));
    const std::string word = plain_text(first);
    std::size_t fewest = feed::detail::slips_allowed(word.size());
    std::string_view meant;
    bool several = false;
    for (const std::string_view known : opening_words) {
        if (known == word) return std::string(piece);
        if (word.empty() || known[0] != word[0] || fewest == 0) continue;
        const std::size_t slips = feed::detail::slips_between(word, known, fewest);
        if (slips > fewest) continue;
        several = !meant.empty() && slips == fewest;
        fewest = slips;
        meant = known;
    }
    if (meant.empty() || several) return std::string(piece);
    return std::string(meant) + std::string(piece.substr(first.size()));
}

std::optional<std::string_view> added_food(std::string_view words) {
    const auto what = added(words);
    if (!what || kind_of_added(read_things(*what)) != AddedKind::food) return std::nullopt;
    return what;
}

Result<Observation> read_seen(std::string_view piece) {
    if (auto measured = read_measured(piece)) return std::move(*measured);
    // Before the openings: "the bedding is dry" adds no bedding.
    if (const SeenRow* const row = row_of(piece)) return as_seen(*row, piece);
    for (const std::string_view word : {"temperature", "temp"})
        if (const auto rest = behind(piece, word); rest && !rest->empty()) return read_seen(*rest);
    for (const Opening& opening : openings) {
        const auto rest = behind(piece, opening.words);
        if (!rest || (rest->empty() && !opening.keeps_word)) continue;
        if (auto wrong = wrong_change(opening, *rest, piece)) return *std::move(wrong);
        Observation seen;
        seen.*opening.field = std::string(opening.keeps_word ? piece : *rest);
        return seen;
    }
    if (auto more = read_added(piece)) return *std::move(more);
    if (feed::detail::says_fire(piece)) return in_own_words(piece);
    if (auto within = read_within(piece)) return *std::move(within);
    if (auto which = added_unknown(piece)) return *std::move(which);
    return not_understood(piece);
}

std::optional<std::string> merge_seen(Observation& all, const Observation& one) {
    std::optional<std::string> clash;
    const auto take = [&](auto& to, const auto& from, const char* key) {
        if (!from) return;
        if (to && *to != *from) clash = key;
        to = from;
    };
    const auto join = [](std::string& to, const std::string& from) {
        if (!from.empty()) to += (to.empty() ? "" : ", ") + from;
    };
    const auto take_mass_of = [&](auto& to, const auto& from, const char* key) {
        if (from && to) clash = key;
        if (from) to = from;
    };
    take_mass_of(all.left, one.left, "left");
    take_mass_of(all.worm_weight, one.worm_weight, "worm_weight");
    take(all.share_gone, one.share_gone, "share_gone");
    if (one.gone != FoodGone::unsaid) {
        if (all.gone != FoodGone::unsaid && all.gone != one.gone) clash = "gone";
        all.gone = one.gone;
    }
    if (all.gone != FoodGone::unsaid && all.share_gone) clash = "gone";
    take(all.worms, one.worms, "worms");
    take(all.vigour, one.vigour, "vigour");
    take(all.squeeze, one.squeeze, "squeeze");
    take(all.pooling, one.pooling, "pooling");
    take(all.smell, one.smell, "smell");
    take(all.ph, one.ph, "ph");
    if (!one.temperatures.empty()) {
        const std::string& place = one.temperatures.front().place;
        for (const PlacedTemperature& known : all.temperatures)
            if (known.place == place || known.place.empty() || place.empty()) clash = "temperature";
        all.temperatures.push_back(one.temperatures.front());
    }
    take(all.air_low, one.air_low, "air_low");
    take(all.air_high, one.air_high, "air_high");
    join(all.bedding, one.bedding);
    join(all.pests, one.pests);
    join(all.action, one.action);
    join(all.note, one.note);
    return clash;
}

}  // namespace feed::io
