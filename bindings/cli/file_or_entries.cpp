#include "file_or_entries.hpp"

#include "feed/quantity/number_text.hpp"

namespace feed_command {

feed::Result<feed::io::FeedFile> read_file_or_entries(const std::vector<std::string>& words) {
    const bool is_file = words.size() == 1 && !feed::read_number(words[0]);
    if (is_file) return feed::io::read_feed_file(words[0]);
    return feed::io::read_portions(words);
}

}  // namespace feed_command
