#include "pantry.hpp"

#include <algorithm>

#include "feed/feedstock/amount_mass.hpp"
#include "feed/feedstock/lookup.hpp"
#include "feed/feedstock/things.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed::io {

std::string entry_field(std::string_view section, std::size_t number) {
    return std::string(section) + ": entry " + std::to_string(number);
}

void Pantry::assume(std::string text, Grade grade, bool of_words) {
    const bool known = std::any_of(file_.assumed.begin(), file_.assumed.end(),
                                   [&](const Assumption& one) { return one.text == text; });
    if (!known) file_.assumed.push_back({std::move(text), grade, of_words});
}

void Pantry::excuse(std::string_view name) {
    excused_.insert(singular_text(plain_text(name)));
}

std::shared_ptr<const Feedstock> Pantry::find(YamlView at, const std::string& field,
                                              std::string_view words,
                                              const Preparations& preparations) {
    const auto key = std::pair(singular_text(plain_text(words)), preparations);
    const auto known = found_.find(key);
    if (known != found_.end()) return known->second;
    if (excused_.count(key.first) != 0) return nullptr;
    if (const auto failed = failed_.find(key.first); failed != failed_.end()) {
        reading_.adopt(at, field, failed->second);
        return nullptr;
    }
    // The nearest names are dear to find, and there are problems enough.
    if (reading_.is_full()) {
        reading_.skip();
        return nullptr;
    }
    const auto found = find_thing(words, this->words());
    if (!found) {
        reading_.adopt(at, field, found.errors());
        failed_.emplace(key.first, found.errors());
        return nullptr;
    }
    auto feedstock = found->feedstock;
    if (!found->said.empty()) assume(found->said, Grade::d, true);
    // "frozen peel" that is said to be frozen was frozen once.
    Preparations more = preparations;
    std::erase_if(more, [&](Preparation one) {
        const auto& said = found->preparations;
        return std::find(said.begin(), said.end(), one) != said.end();
    });
    if (!more.empty()) feedstock = std::make_shared<const Feedstock>(prepared(*feedstock, more));
    feedstock = shared(std::move(feedstock));
    found_.emplace(key, feedstock);
    return feedstock;
}

Preparations Pantry::preparations(std::optional<YamlView> at, const std::string& field) {
    Preparations list;
    if (!at) return list;
    const auto add = [&](YamlView node, std::string_view word) {
        if (const auto preparation = parse_preparation(word)) {
            list.push_back(*preparation);
            return;
        }
        if (reading_.only_counts()) return;
        std::string message =
            "\"" + std::string(detail::trim(word)) + "\" is not a preparation that is known";
        reading_.report(node, with_near(make_error(ErrorCode::out_of_range, field, "",
                                                   listed(preparation_words), std::move(message)),
                                        nearest_word(word, preparation_words)));
    };
    if (at->is_sequence()) {
        at->for_each_item([&](YamlView item) {
            if (const auto text = reading_.scalar(item, field)) add(item, *text);
        });
        return list;
    }
    const auto text = reading_.scalar(*at, field);
    if (!text) return list;
    for (auto rest = *text;;) {
        const auto comma = rest.find(',');
        add(*at, rest.substr(0, comma));
        if (comma == std::string_view::npos) return list;
        rest.remove_prefix(comma + 1);
    }
}

std::optional<Amount> Pantry::amount(YamlView at, const std::string& field, std::string_view text) {
    const auto found = parse_amount(text, file_.containers);
    if (!found) {
        reading_.adopt(at, field, found.errors());
        return std::nullopt;
    }
    if (!found->said.empty()) assume(found->said, Grade::d, true);
    return *found;
}

feed::detail::ThingText Pantry::piece(const Amount& amount, std::string_view words) const {
    feed::detail::ThingText piece;
    piece.written = piece.words = std::string(words);
    piece.amount = amount;
    if (amount.counted)
        feed::detail::take_measure_at_end(piece, feed::detail::ThingReader(this->words()));
    return piece;
}

std::optional<feed::detail::ThingText> Pantry::one_piece(std::string_view text) const {
    auto pieces = feed::detail::split_things(text, feed::detail::ThingReader(words()));
    if (pieces.size() != 1 || pieces[0].question || !pieces[0].amount || pieces[0].words.empty() ||
        !pieces[0].mixed_with.empty())
        return std::nullopt;
    return std::move(pieces[0]);
}

std::optional<ReadThing> Pantry::weigh(YamlView at, const std::string& field,
                                       const feed::detail::ThingText& piece,
                                       std::shared_ptr<const Feedstock> feedstock) {
    ReadThing thing;
    thing.words = piece.words;
    thing.barred = feedstock->stance == Stance::avoid;
    // What was weighed is shown by volume or weight as before: "30 L of newspaper", no "6 pieces".
    thing.feedstock = piece.amount && piece.amount->kind == AmountKind::measure
                          ? feed::detail::with_own_piece(feedstock, piece.words)
                          : std::move(feedstock);
    auto weighed = feed::detail::weigh_piece(piece, std::move(thing));
    if (!weighed) {
        reading_.adopt(at, field, weighed.errors());
        return std::nullopt;
    }
    assume_of(*weighed);
    weighed.value().feedstock = shared(weighed->feedstock);
    return std::move(weighed).value();
}

void Pantry::assume_of(const ReadThing& thing) {
    // What is never fed is said first of all; it is no assumption.
    if (thing.barred) return;
    for (const auto& sentence : thing.said)
        assume(sentence, Grade::d, true);
    if (!thing.mass.how.empty()) assume(thing.words + ": " + thing.mass.how, thing.mass.grade);
}

WrittenPortion Pantry::portion_of(ReadThing thing) {
    Portion portion{shared(std::move(thing.feedstock)), thing.mass.wet_mass, thing.mass.low_share(),
                    thing.mass.high_share()};
    return {std::move(portion), std::move(thing.amount), std::move(thing.words)};
}

std::shared_ptr<const Feedstock> Pantry::shared(std::shared_ptr<const Feedstock> feedstock) {
    // A cherry tomato is a tomato of another weight.
    std::string as = feedstock->prepared_as;
    if (const auto* piece = feed::detail::measured(*feedstock, Measure::piece))
        as += " " + feed::detail::weight_text(piece->wet_mass);
    const auto key = std::pair(feedstock->id, as);
    return shared_.emplace(key, std::move(feedstock)).first->second;
}

std::vector<WrittenPortion> Pantry::portions_of(YamlView at, const std::string& field,
                                                std::string_view text) {
    std::vector<WrittenPortion> list;
    // The nearest names are dear to find, and there are problems enough.
    if (reading_.is_full()) {
        reading_.skip();
        return list;
    }
    const auto read = read_things(text, words());
    for (const auto& thing : read.things) {
        assume_of(thing);
        list.push_back(portion_of(thing));
    }
    for (const auto& question : read.questions) {
        const auto name = singular_text(plain_text(question.value));
        if (excused_.count(name) != 0) continue;
        reading_.adopt(at, field, Errors{question});
    }
    return list;
}

std::vector<WrittenPortion> Pantry::portion(YamlView at, const std::string& field) {
    if (!at.is_mapping()) {
        const auto text = reading_.scalar(at, field);
        return text ? portions_of(at, field, *text) : std::vector<WrittenPortion>{};
    }
    const Section section(reading_, at, field, keys::portion);
    const auto name = section.require("feedstock");
    const auto written = section.require("amount");
    const auto how = preparations(section.find("preparation"), section.field("preparation"));
    std::optional<std::string_view> words;
    if (name) words = reading_.scalar(*name, section.field("feedstock"));
    std::shared_ptr<const Feedstock> feedstock;
    if (words) feedstock = find(*name, section.field("feedstock"), *words, how);
    std::optional<Amount> quantity;
    if (written) {
        const auto text = reading_.scalar(*written, section.field("amount"));
        if (text) quantity = amount(*written, section.field("amount"), *text);
    }
    if (!feedstock || !quantity) return {};
    auto weighed = weigh(*written, section.field("amount"), piece(*quantity, *words), feedstock);
    if (!weighed) return {};
    weighed->words = std::string(*words);
    return {portion_of(*std::move(weighed))};
}

std::vector<WrittenPortion> Pantry::portions(YamlView at, const std::string& field) {
    std::vector<WrittenPortion> list;
    if (!at.is_sequence()) {
        reading_.report(at, ErrorCode::wrong_type, field, "a list of portions",
                        "a list is due here, one portion a line, each starting with \"- \"");
        return list;
    }
    if (!reading_.fits(at, field, keys::most_portions)) return list;
    std::size_t number = 0;
    at.for_each_item([&](YamlView item) {
        for (auto& one : portion(item, entry_field(field, ++number)))
            list.push_back(std::move(one));
    });
    if (number == 0) {
        reading_.report(at, ErrorCode::empty, field, "at least one portion", "this list is empty");
    }
    return list;
}

}  // namespace feed::io
