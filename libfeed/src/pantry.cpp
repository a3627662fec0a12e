#include "pantry.hpp"

#include <algorithm>

#include "feed/feedstock/amount_mass.hpp"
#include "feed/feedstock/lookup.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed::io {

std::string entry_field(std::string_view section, std::size_t number) {
    return std::string(section) + ": entry " + std::to_string(number);
}

void Pantry::assume(std::string text, Grade grade) {
    const bool known = std::any_of(file_.assumed.begin(), file_.assumed.end(),
                                   [&](const Assumption& one) { return one.text == text; });
    if (!known) file_.assumed.push_back({std::move(text), grade});
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
    for (; own_known_ < file_.own_feedstocks.size(); ++own_known_) {
        const auto& own = file_.own_feedstocks[own_known_];
        own_[singular_text(plain_text(own->name))] = own;
    }
    std::shared_ptr<const Feedstock> feedstock;
    if (const auto own = own_.find(key.first); own != own_.end()) feedstock = own->second;
    if (!feedstock) {
        if (const auto failed = failed_.find(key.first); failed != failed_.end()) {
            reading_.adopt(at, field, failed->second);
            return nullptr;
        }
        // The nearest names are dear to find, and there are problems enough.
        if (reading_.is_full()) {
            reading_.skip();
            return nullptr;
        }
        const auto found = look_up(words);
        if (!found) {
            reading_.adopt(at, field, found.errors());
            failed_.emplace(key.first, found.errors());
            return nullptr;
        }
        feedstock = found->feedstock;
        if (!found->said.empty()) assume(found->said, Grade::d);
    }
    if (!preparations.empty())
        feedstock = std::make_shared<const Feedstock>(prepared(*feedstock, preparations));
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
        const auto near = nearest_word(word, preparation_words);
        if (!near.empty()) message += "; is \"" + near + "\" meant?";
        reading_.report(node, ErrorCode::out_of_range, field, listed(preparation_words),
                        std::move(message));
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
    if (!found->said.empty()) assume(found->said, Grade::d);
    return *found;
}

std::optional<WetMass> Pantry::mass(YamlView at, const std::string& field, const Amount& amount,
                                    const Feedstock& feedstock) {
    const auto found = wet_mass_of(amount, feedstock);
    if (!found) {
        reading_.adopt(at, field, found.errors());
        return std::nullopt;
    }
    if (!found->how.empty()) assume(feedstock.name + ": " + found->how, found->grade);
    return found->wet_mass;
}

namespace {

/// A portion with the range of an amount that was not weighed.
WrittenPortion written_portion(std::shared_ptr<const Feedstock> feedstock, WetMass wet_mass,
                               const Amount& amount, std::string_view words) {
    WrittenPortion written;
    written.amount = amount;
    written.label = std::string(words);
    const double typical = wet_mass.in_kilograms();
    const auto mass = wet_mass_of(amount, *feedstock);
    if (mass && typical > 0.0) {
        written.portion.low_share = mass->low.in_kilograms() / typical;
        written.portion.high_share = mass->high.in_kilograms() / typical;
    }
    written.portion.feedstock = std::move(feedstock);
    written.portion.wet_mass = wet_mass;
    return written;
}

}  // namespace

std::optional<WrittenPortion> Pantry::finish(YamlView at, const std::string& field,
                                             std::string_view words, const Amount& amount) {
    const auto feedstock = find(at, field, words, {});
    if (!feedstock) return std::nullopt;
    const auto wet_mass = mass(at, field, amount, *feedstock);
    if (!wet_mass) return std::nullopt;
    return written_portion(feedstock, *wet_mass, amount, words);
}

std::optional<WrittenPortion> Pantry::portion(YamlView at, const std::string& field) {
    if (!at.is_mapping()) {
        const auto text = reading_.scalar(at, field);
        if (!text) return std::nullopt;
        const auto split = parse_amount_and_words(*text, file_.containers);
        if (!split) {
            reading_.adopt(at, field, split.errors());
            return std::nullopt;
        }
        if (!split->amount.said.empty()) assume(split->amount.said, Grade::d);
        return finish(at, field, split->words, split->amount);
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
    if (!feedstock || !quantity) return std::nullopt;
    const auto wet_mass = mass(*written, section.field("amount"), *quantity, *feedstock);
    if (!wet_mass) return std::nullopt;
    return written_portion(feedstock, *wet_mass, *quantity, *words);
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
        if (auto one = portion(item, entry_field(field, ++number))) list.push_back(std::move(*one));
    });
    if (number == 0) {
        reading_.report(at, ErrorCode::empty, field, "at least one portion", "this list is empty");
    }
    return list;
}

}  // namespace feed::io
