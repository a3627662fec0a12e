#include <string>
#include <utility>

#include "feed/io/door.hpp"
#include "feed/io/to_json.hpp"
#include "guard.hpp"
#include "handles.hpp"
#include "memory.hpp"

namespace {

/// Hands out an answer, or its problems as JSON beside their code.
feed_code hand_out_json(feed::Result<std::string> made, const feed_allocator* allocator,
                        feed_text** out, feed_error* error) {
    using namespace feed::c;
    if (made) {
        *out = make_handle<feed_text>(allocator, std::move(made).value());
        return succeed(error);
    }
    *out = make_handle<feed_text>(allocator, feed::io::to_json(made.errors()));
    return fail(error, made.errors());
}

}  // namespace

extern "C" {

feed_code feed_call(const char* request, const feed_allocator* allocator, feed_text** out,
                    feed_error* error) {
    using namespace feed::c;
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (request == nullptr) return null_argument(error, "request");
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        return hand_out_json(feed::io::answer_request(request), allocator, out, error);
    });
}

feed_code feed_json(const char* verb, const char* text, const char* name,
                    const feed_allocator* allocator, feed_text** out, feed_error* error) {
    using namespace feed::c;
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (const feed_code code = need_text(error, "verb", verb)) return code;
    if (text == nullptr) return null_argument(error, "text");
    if (const feed_code code = need_text(error, "name", name)) return code;
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        return hand_out_json(feed::io::answer_text(verb, text, name), allocator, out, error);
    });
}

}  // extern "C"
