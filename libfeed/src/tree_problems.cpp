#include "tree_problems.hpp"

#include <algorithm>
#include <utility>
#include <vector>

#include "feed/io/text_file.hpp"
#include "feed/quantity/printable.hpp"

namespace feed::io {

Error text_error(ErrorCode code, std::string_view name, Place place, std::string value,
                 std::string allowed, std::string message) {
    Error error;
    error.code = code;
    error.field = "file";
    error.value = std::move(value);
    error.allowed = std::move(allowed);
    error.message = std::move(message);
    error.file = std::string(name);
    error.line = place.line;
    error.column = place.column;
    return error;
}

Place place_of_offset(std::string_view text, std::size_t offset) {
    Place place{1, 1};
    for (std::size_t at = 0; at < offset; ++at) {
        if (text[at] == '\n') {
            ++place.line;
            place.column = 1;
        } else {
            ++place.column;
        }
    }
    return place;
}

std::optional<Error> unreadable(std::string_view text, std::string_view name) {
    if (text.size() > largest_file_bytes) {
        return text_error(ErrorCode::too_large, name, {}, "", "at most 8 MB",
                          "this text is too large to be a feed file");
    }
    const auto fault = first_text_fault(text);
    if (fault.offset < text.size()) {
        return text_error(ErrorCode::not_utf8, name, place_of_offset(text, fault.offset), "",
                          "text in UTF-8",
                          fault.is_nul ? "this is not a text file: it holds a NUL byte"
                                       : "this text is not UTF-8; save it as UTF-8");
    }
    return std::nullopt;
}

void TreeProblems::find_duplicates(YamlTree& tree, std::uint32_t mapping, std::string_view name) {
    const auto note = [&](ErrorCode code, YamlView at, std::string value, std::string allowed,
                          std::string message) {
        if (tree.problems_.size() >= most_problems) {
            ++tree.more_problems_;
            return;
        }
        value = shortened(value);
        auto error =
            text_error(code, name, at.place(), value, std::move(allowed), std::move(message));
        if (!value.empty()) error.field = std::move(value);
        tree.problems_.push_back(std::move(error));
    };
    std::vector<YamlView> keys;
    YamlView(tree, mapping).for_each_pair([&](YamlView key, YamlView) {
        if (key.is_scalar()) {
            keys.push_back(key);
        } else {
            note(ErrorCode::wrong_type, key, "", "a word as the key",
                 "a key must be a word, not a list, a mapping or nothing");
        }
    });
    std::stable_sort(keys.begin(), keys.end(),
                     [](YamlView a, YamlView b) { return a.text() < b.text(); });
    for (std::size_t i = 1; i < keys.size(); ++i) {
        if (keys[i].text() != keys[i - 1].text()) continue;
        note(ErrorCode::duplicate_entry, keys[i], std::string(keys[i].text()), "each key once",
             "this key stands here twice; the first is in line " +
                 std::to_string(keys[i - 1].place().line));
    }
}

}  // namespace feed::io
