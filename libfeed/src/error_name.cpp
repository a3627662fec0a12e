#include "feed/io/error_name.hpp"

namespace feed::io {

std::string_view error_name(ErrorCode code) noexcept {
    switch (code) {
        case ErrorCode::bad_argument:
            return "bad_argument";
        case ErrorCode::out_of_memory:
            return "out_of_memory";
        case ErrorCode::not_a_number:
            return "not_a_number";
        case ErrorCode::out_of_range:
            return "out_of_range";
        case ErrorCode::unit_missing:
            return "unit_missing";
        case ErrorCode::unit_unknown:
            return "unit_unknown";
        case ErrorCode::percent_slip:
            return "percent_slip";
        case ErrorCode::low_above_high:
            return "low_above_high";
        case ErrorCode::unknown_feedstock:
            return "unknown_feedstock";
        case ErrorCode::ambiguous_feedstock:
            return "ambiguous_feedstock";
        case ErrorCode::ambiguous_amount:
            return "ambiguous_amount";
        case ErrorCode::unknown_property:
            return "unknown_property";
        case ErrorCode::duplicate_entry:
            return "duplicate_entry";
        case ErrorCode::missing_value:
            return "missing_value";
        case ErrorCode::syntax:
            return "syntax";
        case ErrorCode::unknown_key:
            return "unknown_key";
        case ErrorCode::wrong_type:
            return "wrong_type";
        case ErrorCode::wrong_version:
            return "wrong_version";
        case ErrorCode::too_large:
            return "too_large";
        case ErrorCode::not_readable:
            return "not_readable";
        case ErrorCode::not_writable:
            return "not_writable";
        case ErrorCode::not_utf8:
            return "not_utf8";
        case ErrorCode::no_amount_fixed:
            return "no_amount_fixed";
        case ErrorCode::contradiction:
            return "contradiction";
        case ErrorCode::empty:
            return "empty";
        case ErrorCode::internal:
            return "internal";
        case ErrorCode::failed:
            break;
    }
    return "failed";
}

}  // namespace feed::io
