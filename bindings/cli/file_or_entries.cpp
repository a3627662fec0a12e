#include "file_or_entries.hpp"

#include "feed/quantity/number_text.hpp"

namespace feed_command {

feed::Result<feed::io::FeedFile> read_file_or_entries(const std::vector<std::string>& words) {
    const bool is_file = words.size() == 1 && !feed::read_number(words[0]);
    if (is_file) return feed::io::read_feed_file(words[0]);
    return feed::io::read_portions(words);
}

feed::Errors missing_section(const feed::io::FeedFile& file, std::string_view section,
                             std::string_view example) {
    feed::Error error;
    error.code = feed::ErrorCode::missing_value;
    error.field = std::string(section);
    error.allowed = std::string(section) + ": " + std::string(example);
    error.message = "the file has no section \"" + std::string(section) + "\"";
    error.file = file.name;
    return {error};
}

}  // namespace feed_command
