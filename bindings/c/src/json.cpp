#include <string>
#include <string_view>

#include "feed/feedstock/lookup.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/to_json.hpp"
#include "guard.hpp"
#include "handles.hpp"
#include "memory.hpp"

namespace {

feed::Result<std::string> answer(std::string_view verb, const char* text, const char* name) {
    if (verb == "show") {
        // The reader of feed files finds the place of a bad byte itself; a name has no places.
        if (feed::c::check_text(nullptr, "text", text) != FEED_OK) {
            feed::Error error;
            error.code = feed::ErrorCode::not_utf8;
            error.field = "text";
            error.allowed = "text in UTF-8";
            error.message = "this text is not UTF-8";
            return error;
        }
        const auto found = feed::look_up(text);
        if (!found) return found.errors();
        return feed::io::to_json(*found->feedstock);
    }
    const auto file = feed::io::read_feed_text(text, name);
    if (!file) return file.errors();
    return feed::io::answer_json(verb, *file);
}

}  // namespace

extern "C" feed_code feed_json(const char* verb, const char* text, const char* name,
                               const feed_allocator* allocator, feed_text** out,
                               feed_error* error) {
    using namespace feed::c;
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (const feed_code code = need_text(error, "verb", verb)) return code;
    if (text == nullptr) return null_argument(error, "text");
    if (const feed_code code = need_text(error, "name", name)) return code;
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        auto made = answer(verb, text, name);
        if (made) {
            *out = make_handle<feed_text>(allocator, std::move(made).value());
            return succeed(error);
        }
        *out = make_handle<feed_text>(allocator, feed::io::to_json(made.errors()));
        return fail(error, made.errors());
    });
}
