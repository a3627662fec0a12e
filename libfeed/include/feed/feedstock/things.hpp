#pragma once
#include <algorithm>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/feedstock/plain_name.hpp"
#include "feed/feedstock/thing_parts.hpp"

namespace feed {
namespace detail {

/// The amount of a piece as it stands for this feedstock: sticks of celery, a bought bag of leaves.
inline Amount amount_for(const ThingText& piece, const Feedstock& feedstock) {
    Amount amount = *piece.amount;
    // "4 watermelon slices" are no four melons, even where nobody weighed a slice.
    const bool smaller = piece.last_word_measure == Measure::slice ||
                         piece.last_word_measure == Measure::leaf ||
                         piece.last_word_measure == Measure::stalk;
    if (piece.last_word_measure && ((piece.without_last_word && smaller) ||
                                    measured(feedstock, *piece.last_word_measure) != nullptr)) {
        amount.measure = *piece.last_word_measure;
        amount.unit = text(amount.measure);
        amount.counted = false;
    }
    take_wedges(piece, feedstock, amount);
    return own_pack(amount, feedstock).value_or(amount);
}

/// What is barred is known without an amount; of all else it is asked.
inline Result<ReadThing> without_amount(ReadThing thing) {
    if (!thing.barred) return no_amount(thing.words);
    thing.amount.kind = AmountKind::measure;
    thing.amount.count = 1.0;
    thing.amount.unit = text(Measure::piece);
    thing.mass = mass_of_barred(thing.amount);
    return thing;
}

/// What the amount of a piece weighs, by what its words are counted in: slices, stalks, small
/// parts. `thing` has the feedstock. Errors: an amount that says no size or has no weight.
inline Result<ReadThing> weigh_piece(const ThingText& piece, ReadThing thing) {
    const Feedstock& feedstock = *thing.feedstock;
    thing.amount = amount_for(piece, feedstock);
    if (const auto question = size_of_vessel(thing.amount, piece.words, feedstock))
        return *question;
    if (const auto question = size_of_piece(thing.amount, piece, feedstock)) return *question;
    auto mass = wet_mass_of(thing.amount, feedstock);
    if (mass) {
        thing.mass = *std::move(mass);
        take_small_part(thing);
    } else if (!take_slices(thing)) {
        return as_written(mass.errors(), feedstock, piece.words);
    }
    return thing;
}

/// "Some lettuce", "a little rice": a loose word before what nobody counts, or before one of what
/// people do, says nothing; "some apples" are a few.
inline bool says_no_amount(const ThingText& piece, const Feedstock& feedstock) {
    if (!piece.amount->counted) return false;
    const bool is_counted = counted_measure(feedstock).has_value();
    if (!is_counted && take_word(piece.words, 0, "little")) return true;
    if (piece.amount->said.find("\"some\"") != 0) return false;
    const auto words = words_of(plain_text(piece.words));
    return !is_counted || words.empty() || singular(words.back()) == words.back();
}

/// One piece of a text as a thing, or what has to be asked.
inline Result<ReadThing> finish_thing(const ThingReader& reader, const ThingText& piece) {
    ReadThing thing;
    thing.written = piece.written;
    thing.words = piece.words;
    auto reading = read_name(piece.words);
    if (piece.amount) {
        thing.amount = *piece.amount;
        prefer_what_is_counted(reading, thing.amount);
    }
    const auto found = reader.find(piece.words, &reading);
    if (piece.question && (!found || found->feedstock->stance != Stance::avoid))
        return *piece.question;
    if (!found) return found.errors();
    thing.feedstock = found->feedstock;
    thing.preparations = found->preparations;
    thing.barred = found->feedstock->stance == Stance::avoid;
    if (thing.barred) {
        const BarWords bar = bar_words(*found->feedstock);
        thing.said.push_back(never_fed(found->feedstock->name) + ": " + std::string(bar.why) +
                             "; instead: " + std::string(bar.instead));
    }
    if (!piece.amount) return without_amount(std::move(thing));
    if (!thing.barred && says_no_amount(piece, *thing.feedstock)) return no_amount(thing.words);
    thing.feedstock = with_own_piece(thing.feedstock, piece.words);
    auto weighed = weigh_piece(piece, std::move(thing));
    if (!weighed) return weighed;
    thing = *std::move(weighed);
    if (!thing.amount.said.empty()) thing.said.push_back(thing.amount.said);
    // What only says the preparation is carried by the feedstock's own words.
    const bool only_prepared =
        reading.loosely && reading.slips_to.empty() && !found->left_aside.empty() &&
        std::all_of(found->left_aside.begin(), found->left_aside.end(),
                    [](const std::string& word) { return parse_preparation(word).has_value(); });
    if (only_prepared && found->alternatives.empty()) return thing;
    std::string taken = found->alternatives.empty() ? found->said : other_parts(thing, *found);
    if (!taken.empty()) thing.said.push_back(std::move(taken));
    return thing;
}

/// A thing or a mixture with what is barred, which weighs as much as what it is in.
inline Result<ReadThing> finish_piece(const ThingReader& reader, const ThingText& piece) {
    if (piece.mixed_with.empty()) return finish_thing(reader, piece);
    ThingText barred;
    barred.words = piece.mixed_with;
    auto thing = finish_thing(reader, barred);
    if (!thing) return thing;
    thing.value().written = piece.written;
    thing.value().words = piece.words + " with " + piece.mixed_with;
    if (!piece.amount) return thing;
    if (const auto whole = finish_thing(reader, piece)) thing.value().mass = whole->mass;
    thing.value().amount = *piece.amount;
    return thing;
}

}  // namespace detail

/// Whether words say how wet something is ("damp cardboard").
inline bool says_how_wet(std::string_view words) {
    return detail::said_wetness(words).has_value();
}

/// The feedstock that words mean: by the meanings and feedstocks of the keeper's file, then by
/// `look_up`; one of the table prepared as the words say ("frozen peel", "damp cardboard").
/// Errors: those of look_up; words that contradict the row ("dry rice" of cooked rice). Threads:
/// pure.
inline Result<Found> find_thing(std::string_view words, const KeeperWords& keeper = {}) {
    return detail::ThingReader(keeper).find(words);
}

/// What is longer is no list of scraps.
inline constexpr std::size_t longest_list = 4000;

/// Reads what people write about what they have: one thing or several, the amount before or behind,
/// counts without a unit, loose words, ranges, preparations ("3 apples, a cup of coffee and 2
/// frozen banana peels"). Parts are parted by commas, semicolons, lines, "and", "&" or "+". What is
/// never fed is found by name, even without an amount. What cannot be told is asked: the error
/// names the part, both readings or the nearest names, and a repair that can be typed.
/// Time: linear in the text but for names that join words ("core and peel"). Threads: pure.
inline ReadThings read_things(std::string_view text, const KeeperWords& keeper = {}) {
    ReadThings all;
    if (text.size() > longest_list) {
        all.questions.push_back(detail::amount_error(
            ErrorCode::too_large, text.substr(0, 40), "at most 4000 characters",
            "this text is too long for a list of things; write it in parts"));
        return all;
    }
    const detail::ThingReader reader(keeper);
    for (const auto& piece : detail::split_things(text, reader)) {
        if (piece.question && piece.words.empty()) {
            all.questions.push_back(*piece.question);
            continue;
        }
        auto thing = detail::finish_piece(reader, piece);
        if (thing) {
            all.things.push_back(*std::move(thing));
        } else {
            for (const auto& error : thing.errors())
                all.questions.push_back(error);
        }
    }
    if (all.things.empty() && all.questions.empty())
        all.questions.push_back(offered(
            detail::amount_error(ErrorCode::empty, text, "an amount and a thing, such as 3 apples",
                                 "nothing is written here"),
            "; write for instance ", {"3 apples, a cup of coffee grounds"}));
    return all;
}

/// A name that is read back as this material of the table, for what a keeper is told to type: its
/// plain name, else its id; with how it is prepared. Threads: pure. Time: a search by name or two.
inline std::string name_to_type(const Feedstock& feedstock) {
    const std::string how = feedstock.prepared_as.empty() ? "" : feedstock.prepared_as + " ";
    for (const std::string& name : {plain_name("", feedstock), feedstock.id}) {
        std::string typed = how;
        typed += name;
        const auto read = read_things("1 kg " + typed).things;
        if (read.size() == 1 && same_material(*read.front().feedstock, feedstock)) return typed;
    }
    return how + plain_name("", feedstock);
}

}  // namespace feed
