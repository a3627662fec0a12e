#pragma once
#include <string_view>

#include "feed/io/feed_file.hpp"
#include "feed/io/yaml_tree.hpp"

namespace feed::io {

/// Reads a feed file that stands in a larger text, such as a request.
/// text: all of it, for places; object: the file alone, as JSON; name: what errors call it.
/// Errors: as read_feed_text, and the problems of the tree.
Result<FeedFile> read_feed_node(const YamlTree& tree, YamlView root, std::string_view text,
                                std::string_view object, std::string_view name);

}  // namespace feed::io
