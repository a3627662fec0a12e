#include "planned_feeding.hpp"

#include "file_or_entries.hpp"

namespace feed_command {

using namespace feed;

Result<std::vector<Portion>> planned_feeding(const io::FeedFile& file) {
    const auto planned = io::planned_feedings(file);
    if (!planned.empty()) return planned.front().portions;
    return missing_section(file, "blend", "- 500 g carrot");
}

}  // namespace feed_command
