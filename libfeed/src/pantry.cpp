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
    const auto found = find_thing(words, {file_.containers, file_.own_feedstocks, file_.words});
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

std::optional<MassFromAmount> Pantry::weigh(YamlView at, const std::string& field,
                                            const Amount& amount, const Feedstock& feedstock) {
    auto found = wet_mass_of(amount, feedstock);
    if (!found) {
        reading_.adopt(at, field, found.errors());
        return std::nullopt;
    }
    if (!found->how.empty()) assume(feedstock.name + ": " + found->how, found->grade);
    return *std::move(found);
}

std::optional<Portion> Pantry::portion_of(YamlView at, const std::string& field,
                                          const Amount& amount,
                                          const std::shared_ptr<const Feedstock>& feedstock) {
    const auto found = weigh(at, field, amount, *feedstock);
    if (!found) return std::nullopt;
    return Portion{feedstock, found->wet_mass, found->low_share(), found->high_share()};
}

std::optional<WetMass> Pantry::mass(YamlView at, const std::string& field, const Amount& amount,
                                    const Feedstock& feedstock) {
    const auto found = weigh(at, field, amount, feedstock);
    return found ? std::optional(found->wet_mass) : std::nullopt;
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
    const auto read = read_things(text, {file_.containers, file_.own_feedstocks, file_.words});
    for (const auto& thing : read.things) {
        // What is never fed is said first of all; it is no assumption.
        for (const auto& sentence : thing.said)
            if (!thing.barred) assume(sentence, Grade::d, true);
        if (!thing.mass.how.empty() && !thing.barred)
            assume(thing.words + ": " + thing.mass.how, thing.mass.grade);
        Portion portion{shared(thing.feedstock), thing.mass.wet_mass, thing.mass.low_share(),
                        thing.mass.high_share()};
        list.push_back({std::move(portion), thing.amount, thing.words});
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
    auto weighed = portion_of(*written, section.field("amount"), *quantity, feedstock);
    if (!weighed) return {};
    return {{std::move(*weighed), *quantity, std::string(*words)}};
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
