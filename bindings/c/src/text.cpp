#include "feed/io/error_name.hpp"
#include "guard.hpp"
#include "handles.hpp"
#include "memory.hpp"

namespace {

const char* name_of(feed_code code) noexcept {
    // The names are literals, which end with NUL.
    return code == FEED_OK ? "ok" : feed::io::error_name(static_cast<feed::ErrorCode>(code)).data();
}

}  // namespace

extern "C" {

feed_code feed_text_get(const feed_text* text, const char** data, size_t* length,
                        feed_error* error) {
    using namespace feed::c;
    if (length != nullptr) *length = 0;
    if (data == nullptr) return null_argument(error, "data");
    *data = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (text == nullptr) return null_argument(error, "text");
    *data = text->content.c_str();
    if (length != nullptr) *length = text->content.size();
    return succeed(error);
}

void feed_text_free(feed_text* text) {
    feed::c::free_handle(text);
}

feed_code feed_code_name(feed_code code, const char** name, feed_error* error) {
    using namespace feed::c;
    if (name == nullptr) return null_argument(error, "name");
    *name = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    *name = name_of(code);
    return succeed(error);
}

}  // extern "C"
