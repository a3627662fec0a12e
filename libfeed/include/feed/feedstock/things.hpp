#pragma once
#include <algorithm>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/feedstock/amount_mass.hpp"
#include "feed/feedstock/lookup.hpp"
#include "feed/feedstock/place.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/feedstock/preparation.hpp"
#include "feed/feedstock/thing_list.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/sorted.hpp"

namespace feed {

/// A word of the keeper's that stands for other words: "bananas" for "banana peels".
struct Meaning {
    std::string said;
    std::string means;
};

/// What a keeper's file says about words: vessels, feedstocks of its own, meanings.
struct KeeperWords {
    std::span<const Container> containers;
    std::span<const std::shared_ptr<const Feedstock>> own;
    std::span<const Meaning> meanings;
};

/// One thing of a text: how much of what.
struct ReadThing {
    std::string written;                         ///< the piece of the text
    std::string words;                           ///< the keeper's words for the feedstock
    std::shared_ptr<const Feedstock> feedstock;  ///< prepared as the words say
    std::vector<Preparation> preparations;       ///< those that were said
    Amount amount;
    MassFromAmount mass;
    /// It is never fed; bar_words() say why and where with it instead. The amount may be missing
    /// then and counts as one piece.
    bool barred = false;
    std::vector<std::string> said;  ///< what was taken for granted, a sentence each
};

/// What a text holds: the things that are clear, and what has to be asked.
struct ReadThings {
    std::vector<ReadThing> things;  ///< in the order of the text
    Errors questions;               ///< ambiguous, vague or unknown parts, each with its repair
};

namespace detail {

/// What one piece of a name weighs by its own words, or null.
inline const table::NumberWord* piece_by_name(const std::vector<std::string>& words) {
    const auto& known = table::en::piece_grams;
    const std::string key = key_of(words);
    const auto at = std::lower_bound(
        known.begin(), known.end(), key,
        [](const table::NumberWord& one, const std::string& text) { return one.text < text; });
    return at != known.end() && key == at->text ? &*at : nullptr;
}

/// A word of how wet bedding is, and what that makes of it.
struct WaterWord {
    std::string_view word;
    Preparation preparation;
};
inline constexpr WaterWord water_words[] = {
    {"damp", Preparation::damped},       {"dampened", Preparation::damped},
    {"moist", Preparation::damped},      {"moistened", Preparation::damped},
    {"soaked", Preparation::soaked},     {"soggy", Preparation::soaked},
    {"wet", Preparation::soaked},        {"sodden", Preparation::soaked},
    {"waterlogged", Preparation::soaked}};

/// How wet words say that something is, or nothing.
inline std::optional<Preparation> said_wetness(std::string_view words) {
    const auto said = name_words(words);
    for (const WaterWord& water : water_words)
        if (std::find(said.begin(), said.end(), water.word) != said.end()) return water.preparation;
    return std::nullopt;
}

/// The preparations that a name says: among the words that were left aside, and, of a bedding that
/// the table has dry, how wet it is. Those of cutting say nothing new of what is described as cut.
inline std::vector<Preparation> said_preparations(std::string_view words,
                                                  const std::vector<std::string>& left_aside,
                                                  const Feedstock& feedstock) {
    std::vector<Preparation> list;
    const auto& moisture = feedstock[Property::moisture_wet];
    const bool is_wet = moisture && moisture->value > 0.5;
    for (const auto& word : left_aside) {
        const auto preparation = parse_preparation(word);
        const bool says_more = preparation && *preparation != Preparation::chopped &&
                               *preparation != Preparation::damped;
        if (says_more) list.push_back(*preparation);
        if (word == "dry" && is_wet && feedstock.group == Group::scraps)
            list.push_back(Preparation::dried);
    }
    const bool soaked = std::find(list.begin(), list.end(), Preparation::soaked) != list.end();
    if (is_wet || soaked || !feedstock.has(Role::bedding)) return list;
    if (const auto how = said_wetness(words)) list.push_back(*how);
    return list;
}

/// Words that make another thing of it than the table describes: "dry rice" where the row is
/// cooked.
inline std::string_view contradiction_in(const std::vector<std::string>& left_aside,
                                         const Feedstock& feedstock) {
    const bool is_cooked = feedstock.id.find("-cooked") != std::string::npos;
    const auto& moisture = feedstock[Property::moisture_wet];
    const bool soaked_row = feedstock.has(Role::bedding) && moisture && moisture->value > 0.5 &&
                            feedstock.name.find("soaked") != std::string::npos;
    for (const auto& word : left_aside) {
        const bool dry = word == "dry" || word == "dried" || word == "uncooked";
        if (dry && (is_cooked || soaked_row)) return word;
        if (word == "raw" && is_cooked) return word;
    }
    return {};
}

inline Error swells(std::string_view written, std::string_view word, const Feedstock& feedstock) {
    const bool cooked = feedstock.id.find("-cooked") != std::string::npos;
    const std::string how = cooked ? "cooked" : "soaked";
    return offered(lookup_error(ErrorCode::ambiguous_feedstock, written, {feedstock.name},
                                "\"" + std::string(written) + "\" is known here only " + how +
                                    ", not " + std::string(word)),
                   "; weigh it " + how + " and write ", {feedstock.name});
}

/// What was found in the table, prepared as the words describe it. Errors: words that contradict
/// the row (ambiguous_feedstock).
inline Result<Found> described(std::string_view words, Found found) {
    if (found.feedstock->stance == Stance::avoid) return found;
    if (const auto word = contradiction_in(found.left_aside, *found.feedstock); !word.empty())
        return swells(words, word, *found.feedstock);
    found.preparations = said_preparations(words, found.left_aside, *found.feedstock);
    if (!found.preparations.empty())
        found.feedstock =
            std::make_shared<const Feedstock>(prepared(*found.feedstock, found.preparations));
    return found;
}

/// What the words of one thing mean, with the feedstocks and words of the keeper's file first.
class ThingReader {
public:
    explicit ThingReader(const KeeperWords& keeper) : keeper_(keeper) {
        for (const auto& own : keeper.own)
            own_keys_.push_back(own_key(own->name));
        for (const auto& meaning : keeper.meanings)
            meaning_keys_.push_back(own_key(meaning.said));
    }

    /// The feedstock that words name. `reading` is what the table says; a feedstock of the keeper's
    /// own has no alternatives.
    Result<Found> find(std::string_view words, const NameReading* reading = nullptr) const {
        const std::string key = has_own_words() ? own_key(words) : std::string();
        for (std::size_t i = 0; i < meaning_keys_.size(); ++i) {
            if (meaning_keys_[i] != key) continue;
            const auto& meant = keeper_.meanings[i].means;
            if (own_key(meant) != key) return find_meant(meant);
        }
        for (std::size_t i = 0; i < own_keys_.size(); ++i) {
            if (own_keys_[i] != key) continue;
            Found found;
            found.feedstock = keeper_.own[i];
            return found;
        }
        return of_table(words, reading);
    }

    /// Whether words name something without guessing.
    bool names(std::string_view words) const {
        if (words.empty() || words.size() > longest_name) return false;
        if (has_own_words()) {
            const std::string key = own_key(words);
            const auto is_key = [&](const std::string& one) { return one == key; };
            if (std::any_of(meaning_keys_.begin(), meaning_keys_.end(), is_key)) return true;
            if (std::any_of(own_keys_.begin(), own_keys_.end(), is_key)) return true;
        }
        const auto list = name_words(words);
        if (list.size() > 8) return false;
        return !match_strictly(list).matches.empty();
    }

    /// Whether the longer words name one thing as they stand where the shorter may be several, or
    /// have a weight of their own ("bunch of grapes").
    bool names_one_better(std::string_view longer, std::string_view shorter) const {
        const auto list = name_words(longer);
        const auto known = match_key(key_of(list));
        if (known.empty()) return false;
        if (piece_by_name(list) != nullptr) return true;
        const auto several = match_strictly(name_words(shorter)).matches;
        return several.size() > 1 && several[0].rank == several[1].rank;
    }

    std::span<const Container> containers() const noexcept { return keeper_.containers; }

private:
    bool has_own_words() const noexcept { return !own_keys_.empty() || !meaning_keys_.empty(); }

    /// A name of the keeper's, made comparable: the singular, without joining words before it ("my
    /// mix"); those inside tell names apart ("mix a").
    static std::string own_key(std::string_view name) {
        std::string key = singular_text(plain_text(name));
        for (auto blank = key.find(' '); blank != std::string::npos; blank = key.find(' ')) {
            if (!is_joining_word(std::string_view(key).substr(0, blank))) break;
            key.erase(0, blank + 1);
        }
        return key;
    }

    /// What a meaning means, without looking for another meaning: two may not lead in a circle.
    Result<Found> find_meant(std::string_view words) const {
        const std::string key = own_key(words);
        for (std::size_t i = 0; i < own_keys_.size(); ++i) {
            if (own_keys_[i] != key) continue;
            Found found;
            found.feedstock = keeper_.own[i];
            return found;
        }
        return of_table(words, nullptr);
    }

    static Result<Found> of_table(std::string_view words, const NameReading* reading) {
        auto found = reading != nullptr ? found_by(words, *reading) : look_up(words);
        return found ? described(words, *std::move(found)) : std::move(found);
    }

    KeeperWords keeper_;
    std::vector<std::string> own_keys_;
    std::vector<std::string> meaning_keys_;
};

/// What the other parts of a counted fruit would weigh, once: "as cores about 60 g".
inline std::string other_parts(const ReadThing& thing, const Found& found) {
    if (found.alternatives.empty()) return "";
    std::string text = "\"" + thing.words + "\" is taken as " + found.feedstock->name;
    if (!found.part.empty() && text.find(found.part) == std::string::npos)
        text += " (" + found.part + ")";
    const bool weighed = thing.amount.kind == AmountKind::mass;
    if (!weighed) text += ", about " + weight_text(thing.mass.wet_mass);
    const auto& other = found.alternatives.front();
    text +=
        "; for " + (other.part.empty() ? other.name : other.part) + " write \"" + other.name + "\"";
    if (!weighed) {
        const auto mass = wet_mass_of(thing.amount, feedstock_at(other.index));
        if (mass) text += ", about " + weight_text(mass->wet_mass);
    }
    return text;
}

inline Error no_amount(std::string_view written) {
    for (const std::string_view whose : {"my", "our", "the", "some", "this", "these"})
        if (const auto behind = take_word(written, 0, whose))
            written = trim(written.substr(*behind));
    const std::string name(written);
    return offered(amount_error(ErrorCode::missing_value, written,
                                "an amount and a thing, such as 1 kg or a cup of it",
                                "how much is \"" + name + "\"?"),
                   " Write for instance ", {"1 kg " + name, "a cup of " + name});
}

/// Of several materials a counted word may name, the only one that people count: "2 limes" are
/// fruit.
inline void prefer_what_is_counted(NameReading& reading, const Amount& amount) {
    auto& matches = reading.matches;
    if (!amount.counted || matches.size() < 2 || matches[1].rank != matches[0].rank) return;
    std::vector<std::size_t> countable;
    for (std::size_t i = 0; i < matches.size() && matches[i].rank == matches[0].rank; ++i) {
        if (is_barred(matches[i].index)) return;
        if (counted_measure(feedstock_at(matches[i].index))) countable.push_back(i);
    }
    if (countable.size() != 1) return;
    for (std::size_t i = 0; i < matches.size(); ++i)
        matches[i].rank =
            static_cast<std::uint8_t>(i == countable.front() ? 0 : 1 + matches[i].rank);
    sort_by(matches, [](const NameMatch& match) { return match.rank; });
}

/// What a part weighs where only the whole is known, as a share of it (grade D).
struct PartShare {
    std::string_view word;  ///< "" for a peel, core, stone or stalk
    double share, low, high;
};
/// The last: the span of the refuse that food tables give for fruit and vegetables, peach stones to
/// potato peel. The others are common practice: slices of cucumber to wedges of melon.
inline constexpr PartShare part_shares[] = {
    {"half", 0.5, 0.4, 0.6},      {"slice", 0.1, 0.02, 0.25}, {"wedge", 0.1, 0.04, 0.25},
    {"chunk", 0.1, 0.02, 0.25},   {"cube", 0.03, 0.01, 0.1},  {"strip", 0.05, 0.01, 0.15},
    {"segment", 0.1, 0.05, 0.15}, {"ring", 0.1, 0.03, 0.2},   {"leaf", 0.15, 0.05, 0.35},
    {"", 0.15, 0.05, 0.35}};
/// Of a loaf: all its crusts, and one end.
inline constexpr PartShare loaf_shares[] = {{"crust", 0.3, 0.15, 0.5}, {"heel", 0.08, 0.04, 0.15}};

constexpr const PartShare& part_share(std::string_view word) noexcept {
    const PartShare* share = part_shares;
    while (!share->word.empty() && share->word != word)
        ++share;
    return *share;
}

/// The word that makes a part of what is a whole in the table ("peel" of "carrot peel"), or ""
/// where the row is that part itself.
inline std::string part_in(std::string_view words, const Feedstock& feedstock) {
    std::string part;
    for (const auto& word : name_words(words))
        if (has_word(table::en::small_parts, word) || part_share(word).word == word) part = word;
    if (part.empty() || feedstock.group != Group::scraps) return "";
    constexpr std::string_view parts_with_rows[] = {"pomace", "pulp",   "skin",  "grounds", "shell",
                                                    "cob",    "pods",   "peel",  "core",    "rind",
                                                    "stalk",  "leaves", "stone", "tops"};
    for (const auto word : parts_with_rows)
        if (feedstock.id.find(word) != std::string::npos) return "";
    return part;
}

inline void take_share(ReadThing& thing, const std::string& part, const PartShare& share) {
    MassFromAmount& mass = thing.mass;
    mass.low = share.low * mass.low;
    mass.high = share.high * mass.high;
    mass.wet_mass = share.share * mass.wet_mass;
    mass.grade = Grade::d;
    const std::string percent = significant(100.0 * share.share, 2);
    mass.how += ", the " + part + " as " + percent + " % of it";
    thing.said.push_back("the " + part + " is taken as " + percent + " % of the whole, about " +
                         weight_text(mass.wet_mass) + " in all; weigh it to be sure");
}

/// Takes the part for the whole where whole pieces or loaves were counted, and says so.
inline void take_small_part(ReadThing& thing) {
    const bool slices = thing.amount.unit == text(Measure::slice);
    if (thing.amount.unit == "loaf" || slices) {
        for (const std::string& word : name_words(thing.words))
            for (const PartShare& share : loaf_shares)
                if (word == share.word && (!slices || word == "crust"))
                    return take_share(thing, word, share);
        return;
    }
    const auto counted = counted_measure(*thing.feedstock).value_or(Measure::cup);
    const bool whole = counted <= Measure::piece_large || counted == Measure::head;
    if (!thing.amount.counted || !whole || piece_by_name(name_words(thing.words)) != nullptr)
        return;
    const std::string part = part_in(thing.words, *thing.feedstock);
    if (part == "leaf" && counted != Measure::head) return;
    if (!part.empty()) take_share(thing, part, part_share(part));
}

/// "3 slices of cucumber" where nobody weighed a slice: as shares of the whole, said. False where
/// no whole one has a weight.
inline bool take_slices(ReadThing& thing) {
    if (thing.amount.unit != text(Measure::slice)) return false;
    const auto counted = counted_measure(*thing.feedstock);
    if (!counted || (*counted > Measure::piece_large && *counted != Measure::head)) return false;
    Amount whole = thing.amount;
    whole.counted = true;
    whole.measure = *counted;
    whole.unit = text(*counted);
    auto mass = wet_mass_of(whole, *thing.feedstock);
    if (!mass) return false;
    thing.mass = *std::move(mass);
    std::string word(text(Measure::slice));
    for (const std::string& said : words_of(plain_text(thing.written)))
        if (!part_share(singular(said)).word.empty()) word = singular(said);
    take_share(thing, word, part_share(word));
    return true;
}

/// Rinds of which the table weighs one wedge: the wedges of a whole fruit (the words of the source
/// of their measures).
struct Wedges {
    std::string_view id;
    double in_a_fruit;
};
inline constexpr Wedges wedges[] = {{"watermelon-rind", 16.0}, {"melon-peel", 8.0}};

/// "Half a watermelon rind" and "rind of 2 melons" are of the fruit, "3 melon rinds" of wedges.
inline void take_wedges(const ThingText& piece, const Feedstock& feedstock, Amount& amount) {
    for (const Wedges& one : wedges) {
        if (feedstock.id != one.id || !amount.counted) continue;
        const bool of_fruit = amount.count < 1.0 ||
                              piece.written.find(" of ") != std::string::npos ||
                              piece.written.find(" from ") != std::string::npos;
        if (of_fruit)
            amount.count *= one.in_a_fruit;
        else
            say(amount.said, "\"" + piece.words + "\" is taken as that of one wedge; for a whole " +
                                 "fruit write \"rind of a melon\" or its weight");
    }
}

/// "3 cardboard boxes" of a material that is counted in sheets: boxes have any size.
inline std::optional<Error> size_of_vessel(const Amount& amount, std::string_view words,
                                           const Feedstock& feedstock) {
    if (!amount.counted || feedstock.stance == Stance::avoid) return std::nullopt;
    auto list = words_of(plain_text(words));
    while (list.size() > 1 && has_word(table::en::left_aside, list.back()))
        list.pop_back();
    if (list.empty()) return std::nullopt;
    const auto unit = find_unit(singular_text(unit_text(list.back())));
    const auto counted = counted_measure(feedstock);
    if (!unit || !unit->unit->is_vessel() || counted == Measure::piece) return std::nullopt;
    return offered(amount_error(ErrorCode::ambiguous_amount, words, measures_text(feedstock),
                                "a " + std::string(unit->unit->plain_name) + " may be of any size"),
                   "; weigh it and write for instance ", {"500 g " + std::string(words)});
}

/// "A piece of watermelon" is no whole one, nor "3 pieces of apple" three apples; how much of one
/// they are is not known. A piece of any fruit is a whole one.
inline std::optional<Error> size_of_piece(const Amount& amount, const ThingText& piece,
                                          const Feedstock& feedstock) {
    constexpr double large_kg = 0.1;
    const auto* whole = measured(feedstock, Measure::piece);
    const bool said = amount.unit == text(Measure::piece) && !amount.counted &&
                      piece.written.find(" of ") != std::string::npos;
    const bool any = feedstock.id.find("mixed") != std::string::npos;
    if (!said || any || whole == nullptr || whole->wet_mass.in_kilograms() < large_kg ||
        feedstock.stance == Stance::avoid)
        return std::nullopt;
    return offered(
        amount_error(ErrorCode::ambiguous_amount, piece.written, measures_text(feedstock),
                     "a piece of " + piece.words + " may be of any size"),
        "; weigh it, or write how much of one it is, such as ", {"half a " + piece.words});
}

/// Errors that name a thing as the keeper wrote it.
inline Errors as_written(Errors errors, const Feedstock& feedstock, const std::string& words) {
    const auto rename = [&](std::string& text) {
        for (std::size_t at = 0; (at = text.find(feedstock.name, at)) != std::string::npos;
             at += words.size())
            text.replace(at, feedstock.name.size(), words);
    };
    for (Error& error : errors) {
        rename(error.message);
        for (std::string& repair : error.repairs)
            rename(repair);
    }
    return errors;
}

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
    return own_bag(amount, feedstock).value_or(amount);
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

/// The feedstock with the weight that one piece has by its name: a cherry tomato is no medium
/// tomato. The same where the name has none.
inline std::shared_ptr<const Feedstock> with_own_piece(std::shared_ptr<const Feedstock> feedstock,
                                                       std::string_view words) {
    auto list = name_words(words);
    const auto* own = piece_by_name(list);
    std::erase_if(list, [](const auto& word) { return has_word(table::en::left_aside, word); });
    if (own == nullptr) own = piece_by_name(list);
    if (own == nullptr) return feedstock;
    auto changed = std::make_shared<Feedstock>(*feedstock);
    std::erase_if(changed->measures, [](const MeasuredMass& one) {
        return one.measure <= Measure::piece_large || one.measure == Measure::head;
    });
    // What was soaked or drained weighs more or less by its water.
    const auto dry_share = [](const Feedstock& f) {
        const auto& moisture = f[Property::moisture_wet];
        return moisture && moisture->value < 1.0 ? 1.0 - moisture->value : 1.0;
    };
    const auto row = find_id(feedstock->id);
    const double times = row ? dry_share(feedstock_at(*row)) / dry_share(*feedstock) : 1.0;
    changed->measures.push_back({Measure::piece, wet_grams(times * own->value), Grade::d,
                                 "common practice", own->low / own->value, own->high / own->value});
    return changed;
}

/// Whether a feedstock is what the table says of the words, and none of the keeper's own.
inline bool is_of_table(const Feedstock& feedstock, const NameReading& reading) {
    return !reading.matches.empty() &&
           feedstock.id == table::feedstocks[reading.matches.front().index].id;
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
    if (is_of_table(*thing.feedstock, reading))
        thing.feedstock = with_own_piece(thing.feedstock, piece.words);
    const Amount amount = amount_for(piece, *thing.feedstock);
    if (const auto question = size_of_vessel(amount, piece.words, *thing.feedstock))
        return *question;
    if (const auto question = size_of_piece(amount, piece, *thing.feedstock)) return *question;
    thing.amount = amount;
    auto mass = wet_mass_of(amount, *thing.feedstock);
    if (mass) {
        thing.mass = *std::move(mass);
        take_small_part(thing);
    } else if (!take_slices(thing)) {
        return as_written(mass.errors(), *thing.feedstock, piece.words);
    }
    const auto say_once = [&](std::string sentence) {
        if (!sentence.empty()) thing.said.push_back(std::move(sentence));
    };
    say_once(amount.said);
    // What only says the preparation is carried by the feedstock's own words.
    const bool only_prepared =
        reading.loosely && reading.slips_to.empty() && !found->left_aside.empty() &&
        std::all_of(found->left_aside.begin(), found->left_aside.end(),
                    [](const std::string& word) { return parse_preparation(word).has_value(); });
    if (only_prepared && found->alternatives.empty()) return thing;
    say_once(found->alternatives.empty() ? found->said : other_parts(thing, *found));
    return thing;
}

/// What is barred without an amount of its own bars what it is mixed with: nobody picks the chicken
/// out of the rice, or the herbicide off the straw. False where `with` is anything else.
inline bool bar_mixture(const ThingReader& reader, const std::vector<ThingText>& pieces,
                        std::size_t at, ReadThing& thing) {
    if (at + 1 >= pieces.size() || !pieces[at + 1].is_with || pieces[at + 1].amount) return false;
    auto barred = finish_thing(reader, pieces[at + 1]);
    if (!barred || !barred->barred) return false;
    thing = *std::move(barred);
    const ThingText& first = pieces[at];
    thing.written = first.written + " with " + thing.written;
    thing.words = first.words + " with " + thing.words;
    if (!first.amount) return true;
    if (const auto whole = finish_thing(reader, first)) thing.mass = whole->mass;
    thing.amount = *first.amount;
    return true;
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
    auto pieces = detail::split_things(text, reader);
    for (std::size_t at = 0; at < pieces.size(); ++at) {
        if (ReadThing mixture; detail::bar_mixture(reader, pieces, at, mixture)) {
            all.things.push_back(std::move(mixture));
            ++at;
            continue;
        }
        const auto& piece = pieces[at];
        if (piece.question && piece.words.empty()) {
            all.questions.push_back(*piece.question);
            continue;
        }
        auto thing = detail::finish_thing(reader, piece);
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
