#include "reading.hpp"

#include <algorithm>

#include "feed/diary/seen.hpp"
#include "feed/io/human_text.hpp"
#include "feed/quantity/plain_text.hpp"
#include "feed/quantity/printable.hpp"

namespace feed::io {
namespace {

/// "99,980".
std::string with_thousands(std::size_t number) {
    std::string text = std::to_string(number);
    for (std::size_t at = text.size(); at > 3; at -= 3)
        text.insert(at - 3, ",");
    return text;
}

}  // namespace

int Reading::column_of(Place place) const {
    if (place.line < 1) return place.column;
    if (place.line < known_line_) {
        known_line_ = 1;
        known_start_ = 0;
    }
    while (known_line_ < place.line) {
        const auto end = text_.find('\n', known_start_);
        if (end == std::string_view::npos) return place.column;
        known_start_ = end + 1;
        ++known_line_;
    }
    const auto before = text_.substr(std::min(known_start_, text_.size()),
                                     static_cast<std::size_t>(place.column - 1));
    return static_cast<int>(columns_of(before)) + 1;
}

void Reading::report(YamlView at, Error error) {
    if (only_counts()) return;
    error.file = file_;
    error.line = at.place().line;
    error.column = column_of(at.place());
    error.value = shortened(error.value.empty() ? at.text() : std::string_view(error.value));
    error.message = shortened(error.message);
    error.field = shortened(error.field);
    errors_.push_back(std::move(error));
}

void Reading::report(YamlView at, ErrorCode code, std::string field, std::string allowed,
                     std::string message) {
    report(at, make_error(code, std::move(field), "", std::move(allowed), std::move(message)));
}

void Reading::adopt(YamlView at, const std::string& field, const Errors& errors) {
    for (Error error : errors) {
        error.field = field;
        report(at, std::move(error));
    }
}

void Reading::add(const YamlTree& tree) {
    errors_.insert(errors_.end(), tree.problems().begin(), tree.problems().end());
    more_ += tree.more_problems();
}

Errors Reading::take() {
    std::stable_sort(errors_.begin(), errors_.end(), [](const Error& a, const Error& b) {
        return std::pair(a.line, a.column) < std::pair(b.line, b.column);
    });
    if (more_ == 0 && !skipped_) return std::move(errors_);
    Error rest;
    rest.code = errors_.front().code;
    rest.field = "file";
    rest.file = file_;
    const std::string number = more_ == 0 ? "" : with_thousands(more_) + " ";
    rest.message =
        "and " + number + "more problems" + (skipped_ ? "; the rest was not looked at" : "");
    errors_.push_back(std::move(rest));
    return std::move(errors_);
}

bool Reading::fits(YamlView at, const std::string& field, std::size_t most) {
    std::size_t count = 0;
    at.for_each_item([&](YamlView) { ++count; });
    at.for_each_pair([&](YamlView, YamlView) { ++count; });
    if (count <= most) return true;
    report(at, make_error(ErrorCode::too_large, field, with_thousands(count) + " entries",
                          "at most " + with_thousands(most),
                          "this list is longer than any bin's; use one file for each bin"));
    return false;
}

std::optional<std::string_view> Reading::scalar(YamlView at, const std::string& field) {
    if (at.is_scalar()) return at.text();
    const char* found = at.is_sequence() ? "a list" : at.is_mapping() ? "a mapping" : "nothing";
    report(at, at.is_null() ? ErrorCode::missing_value : ErrorCode::wrong_type, field, "a text",
           std::string("a text is due here, but there is ") + found);
    return std::nullopt;
}

namespace {

/// The errors with a text that would be read, where there is no number with a known unit.
Errors with_example(Errors errors, QuantityKind kind) {
    for (Error& error : errors)
        if (error.repairs.empty() &&
            (error.code == ErrorCode::missing_value || error.code == ErrorCode::not_a_number ||
             error.code == ErrorCode::unit_missing || error.code == ErrorCode::unit_unknown))
            error =
                offered(std::move(error), "; write for instance ", {std::string(example_of(kind))});
    return errors;
}

}  // namespace

std::optional<double> Reading::quantity(YamlView at, const std::string& field, QuantityKind kind) {
    const auto text = scalar(at, field);
    if (!text) return std::nullopt;
    const auto number = parse_quantity(*text, kind);
    if (number) return *number;
    adopt(at, field, with_example(number.errors(), kind));
    return std::nullopt;
}

std::optional<double> Reading::quantity(YamlView at, const std::string& field, QuantityKind kind,
                                        const Border& border) {
    const auto number = quantity(at, field, kind);
    return number && holds(at, field, *number, border) ? number : std::nullopt;
}

bool Reading::holds(YamlView at, const std::string& field, double number, const Border& border) {
    if (border.holds(number)) return true;
    report(at, ErrorCode::out_of_range, field, border.allowed(),
           number < border.lowest ? "this is too small" : "this is too large");
    return false;
}

std::optional<WindowText> Reading::window(YamlView at, const std::string& field,
                                          QuantityKind kind) {
    const auto text = scalar(at, field);
    if (!text) return std::nullopt;
    const auto found = parse_window(*text, kind);
    if (found) return *found;
    adopt(at, field, with_example(found.errors(), kind));
    return std::nullopt;
}

std::optional<bool> Reading::yes_or_no(YamlView at, const std::string& field) {
    static constexpr WordFor<bool> words[] = {
        {"yes", true}, {"no", false}, {"true", true}, {"false", false}};
    return word(at, field, words);
}

std::optional<int> Reading::said_value(YamlView at, SeenKey key) {
    if (!at.is_scalar()) return std::nullopt;
    const std::string text(at.text());
    const std::string before = key == SeenKey::smell    ? "smell "
                               : key == SeenKey::worms  ? "worms "
                               : key == SeenKey::vigour ? "worms "
                                                        : "";
    for (const std::string& words : {before + text, text}) {
        const SeenRow* row = find_seen(words);
        if (row != nullptr && row->key == key) return row->value;
    }
    return std::nullopt;
}

std::optional<std::size_t> Reading::word_index(YamlView at, const std::string& field,
                                               std::span<const std::string_view> words) {
    const auto text = scalar(at, field);
    if (!text) return std::nullopt;
    const auto plain = plain_text(*text);
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (plain == plain_text(words[i])) return i;
    }
    if (only_counts()) return std::nullopt;
    std::string message = "\"" + std::string(*text) + "\" is not one of the words for this";
    report(at, with_near(make_error(ErrorCode::out_of_range, field, "", listed(words),
                                    std::move(message)),
                         nearest_word(*text, words)));
    return std::nullopt;
}

Section::Section(Reading& reading, YamlView node, std::string field,
                 std::span<const keys::Key> allowed)
    : reading_(reading), node_(node), field_(std::move(field)) {
    if (!node.is_mapping()) {
        reading.report(node, ErrorCode::wrong_type, field_,
                       "a mapping with the keys " + listed(allowed),
                       "a mapping (key: value) is due here");
        return;
    }
    node.for_each_pair([&](YamlView key, YamlView value) {
        if (!key.is_scalar()) return;
        if (std::find(allowed.begin(), allowed.end(), key.text()) == allowed.end()) {
            if (reading.only_counts()) return;
            reading.report(
                key, with_near(make_error(ErrorCode::unknown_key, field_.empty() ? "file" : field_,
                                          "", listed(allowed), "this key is not known here"),
                               nearest_word(key.text(), allowed)));
            return;
        }
        const bool again = std::any_of(pairs_.begin(), pairs_.end(),
                                       [&](const auto& pair) { return pair.first == key.text(); });
        if (again) return;  // a duplicate is reported by the text layer; the first one counts
        pairs_.emplace_back(key.text(), value);
    });
}

std::optional<YamlView> Section::find(std::string_view key) const {
    for (const auto& [name, value] : pairs_) {
        if (name == key && !value.is_null()) return value;
    }
    return std::nullopt;
}

std::optional<YamlView> Section::require(std::string_view key) const {
    const auto value = find(key);
    if (!value && is_mapping()) {
        reading_.report(node_, ErrorCode::missing_value, field(key), std::string(key) + ": ...",
                        "the key \"" + std::string(key) + "\" is missing");
    }
    return value;
}

std::string Section::field(std::string_view key) const {
    return field_.empty() ? std::string(key) : field_ + ": " + std::string(key);
}

std::string nearest_word(std::string_view written, std::span<const std::string_view> words) {
    const auto plain = plain_text(written);
    std::string_view best;
    std::size_t best_distance = plain.size() / 3 + 2;
    for (const auto word : words) {
        const auto distance = edit_distance(plain, plain_text(word));
        if (distance < best_distance) {
            best = word;
            best_distance = distance;
        }
    }
    return std::string(best);
}

std::string listed(std::span<const std::string_view> words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) text += i + 1 == words.size() ? " or " : ", ";
        text += words[i];
    }
    return text;
}

}  // namespace feed::io
