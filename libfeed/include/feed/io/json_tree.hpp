#pragma once
#include <string_view>

#include "feed/io/json_writer.hpp"
#include "feed/io/yaml_tree.hpp"

namespace feed::io {

/// Reads one JSON text (RFC 8259, nothing more) into the tree that YAML is read into: texts are
/// quoted scalars, numbers, true and false plain ones as written.
/// text: UTF-8, at most 8 MB; name: what errors call it.
/// Errors: empty, too_large, not_utf8, syntax (the first only). Duplicate keys stand in
/// `problems()`. Linear time, no recursion. Threads: pure.
Result<YamlTree> parse_json(std::string_view text, std::string_view name,
                            const YamlLimits& limits = {});

/// Writes a node of a tree as a value. Scalars become texts; where the tree was read from JSON
/// (`from_json`), plain ones stay numbers, true and false.
void write_node(JsonWriter& json, YamlView node, bool from_json);

}  // namespace feed::io
