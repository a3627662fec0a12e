#include "guard.hpp"
#include "handles.hpp"
#include "memory.hpp"

namespace {

const char* name_of(feed_code code) noexcept {
    switch (code) {
        case FEED_OK:
            return "ok";
        case FEED_BAD_ARGUMENT:
            return "bad_argument";
        case FEED_OUT_OF_MEMORY:
            return "out_of_memory";
        case FEED_NOT_A_NUMBER:
            return "not_a_number";
        case FEED_OUT_OF_RANGE:
            return "out_of_range";
        case FEED_UNIT_MISSING:
            return "unit_missing";
        case FEED_UNIT_UNKNOWN:
            return "unit_unknown";
        case FEED_PERCENT_SLIP:
            return "percent_slip";
        case FEED_LOW_ABOVE_HIGH:
            return "low_above_high";
        case FEED_UNKNOWN_FEEDSTOCK:
            return "unknown_feedstock";
        case FEED_AMBIGUOUS_FEEDSTOCK:
            return "ambiguous_feedstock";
        case FEED_UNKNOWN_PROPERTY:
            return "unknown_property";
        case FEED_DUPLICATE_ENTRY:
            return "duplicate_entry";
        case FEED_MISSING_VALUE:
            return "missing_value";
        case FEED_SYNTAX:
            return "syntax";
        case FEED_UNKNOWN_KEY:
            return "unknown_key";
        case FEED_WRONG_TYPE:
            return "wrong_type";
        case FEED_WRONG_VERSION:
            return "wrong_version";
        case FEED_TOO_LARGE:
            return "too_large";
        case FEED_NOT_READABLE:
            return "not_readable";
        case FEED_NOT_WRITABLE:
            return "not_writable";
        case FEED_NOT_UTF8:
            return "not_utf8";
        case FEED_NO_AMOUNT_FIXED:
            return "no_amount_fixed";
        case FEED_CONTRADICTION:
            return "contradiction";
        case FEED_EMPTY:
            return "empty";
        case FEED_INTERNAL:
            return "internal";
        default:
            return "failed";
    }
}

}  // namespace

extern "C" {

feed_code feed_text_get(const feed_text* text, const char** data, size_t* length,
                        feed_error* error) {
    using namespace feed::c;
    if (length != nullptr) *length = 0;
    if (data == nullptr) return null_argument(error, "data");
    *data = nullptr;
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
    *name = name_of(code);
    return succeed(error);
}

}  // extern "C"
