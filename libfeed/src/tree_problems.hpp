#pragma once
// What the readers of YAML and of JSON have in common: the checks of a text before it is read, and
// of the keys of a mapping that was.
#include <optional>
#include <string>
#include <string_view>

#include "feed/io/yaml_tree.hpp"

namespace feed::io {

/// A problem of a text as such, with its place.
Error text_error(ErrorCode code, std::string_view name, Place place, std::string value,
                 std::string allowed, std::string message);

/// Line and column of a byte.
Place place_of_offset(std::string_view text, std::size_t offset);

/// What forbids reading a text at all: its size, bytes that are no UTF-8, a NUL.
std::optional<Error> unreadable(std::string_view text, std::string_view name);

/// Notes keys of a mapping that stand in it twice or are no words. Linear but for sorting.
struct TreeProblems {
    static void find_duplicates(YamlTree& tree, std::uint32_t mapping, std::string_view name);
};

}  // namespace feed::io
