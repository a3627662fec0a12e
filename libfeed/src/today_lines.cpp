#include "feed/io/today_lines.hpp"

#include "feed/io/answers.hpp"
#include "feed/io/heap_answer.hpp"
#include "feed/io/ration_text.hpp"

namespace feed::io {

std::vector<std::string> today_lines(const FeedFile& file, Date today, UnitSystem units,
                                     ScreenRoom room) {
    FeedFile on = file;
    on.today = today;
    if (on.is_of_a_heap()) {
        const auto heap = heap_of(on, "", units);
        if (heap) return heap_lines(*heap, units, room);
    }
    return ration_lines(ration_of(on, units), units, room, on.name);
}

}  // namespace feed::io
