#pragma once
#include <string>
#include <vector>

#include "feed/io/feed_file.hpp"

namespace feed_command {

/// A file when there is one word that is not an amount ("kitchen.yaml"), else portions
/// ("1.2 kg coffee grounds").
feed::Result<feed::io::FeedFile> read_file_or_entries(const std::vector<std::string>& words);

}  // namespace feed_command
