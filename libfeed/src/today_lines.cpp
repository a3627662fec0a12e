#include "feed/io/today_lines.hpp"

#include <algorithm>

#include "feed/io/answers.hpp"
#include "feed/io/ration_text.hpp"

namespace feed::io {

std::vector<std::string> today_lines(const FeedFile& file, Date today, UnitSystem units) {
    FeedFile on = file;
    on.today = today;
    const std::string text = ration_text(ration_of(on, units), units);
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        lines.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return lines;
}

}  // namespace feed::io
