#include "planned_feeding.hpp"

#include "file_or_entries.hpp"

namespace feed_command {

using namespace feed;

Result<std::vector<Portion>> planned_feeding(const io::FeedFile& file) {
    std::vector<Portion> portions;
    if (file.blend) {
        for (const auto& one : *file.blend)
            portions.push_back(one.portion);
        return portions;
    }
    const auto planned = io::feedings_from_day_zero(file);
    if (!planned.empty()) return planned.front().portions;
    return missing_section(file, "blend", "- 500 g carrot");
}

}  // namespace feed_command
