#include "feed/blend/blend.hpp"

#include <vector>

#include "convert.hpp"
#include "guard.hpp"
#include "portions.hpp"

extern "C" feed_code feed_blend(const feed_portion* portions, size_t count,
                                feed_blend_properties* out, feed_error* error) {
    using namespace feed::c;
    if (!has_room(out)) return no_room(error, out, "out");
    Filled<feed_blend_properties> filled(out, no_blend);
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    return guarded(error, [&] {
        std::vector<feed::Portion> parts;
        if (const feed_code code = read_portions(portions, count, "portions", parts, error)) {
            return code;
        }
        if (parts.empty()) return no_portion(error);
        fill(*filled, feed::blend(parts));
        return succeed(error);
    });
}
