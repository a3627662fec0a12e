#pragma once
// What every C function has in common: nothing escapes, errors are copied into the caller's struct,
// outputs are cleared on failure.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <exception>
#include <limits>
#include <new>
#include <string_view>

#include "bounded.hpp"
#include "feed/feed.h"
#include "feed/quantity/error.hpp"
#include "feed/quantity/printable.hpp"

namespace feed::c {

inline constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

/// Copies text into a field of `size` bytes (at least 1), made printable and cut at a whole
/// character.
inline void copy_text(char* field, std::size_t size, std::string_view text) noexcept {
    std::size_t filled = 0;
    bool full = false;
    for_each_printable(text, [&](std::string_view piece) {
        std::size_t length = full ? 0 : std::min(piece.size(), size - 1 - filled);
        full = full || length < piece.size();
        while (length < piece.size() && length > 0 &&
               (static_cast<unsigned char>(piece[length]) & 0xC0U) == 0x80U) {
            --length;
        }
        std::memcpy(field + filled, piece.data(), length);
        filled += length;
    });
    field[filled] = '\0';
}

template <std::size_t size>
void copy_text(char (&field)[size], std::string_view text) noexcept {
    copy_text(field, size, text);
}

/// Whether an error can be told: there is none to fill, or its struct_size was set. A call that
/// could not tell what went wrong fails before it does anything.
inline bool can_tell(const feed_error* error) noexcept {
    return error == nullptr || has_room(error);
}

/// Fills the caller's error struct as far as it has room.
inline feed_code fail(feed_error* out, feed_code code, std::string_view field,
                      std::string_view value, std::string_view allowed, std::string_view message,
                      int line = 0, int column = 0, std::size_t problems = 1) noexcept {
    if (has_room(out)) {
        feed_error told = FEED_ERROR_INIT;
        told.code = code;
        told.line = line;
        told.column = column;
        told.problem_count = static_cast<std::int32_t>(problems);
        copy_text(told.field, field);
        copy_text(told.value, value);
        copy_text(told.allowed, allowed);
        copy_text(told.message, message);
        give(out, told);
    }
    return code;
}

inline feed_code fail(feed_error* out, const Errors& errors) noexcept {
    if (errors.empty())
        return fail(out, FEED_INTERNAL, "", "", "", "an error without a description");
    const Error& first = errors.front();
    return fail(out, static_cast<feed_code>(first.code), first.field, first.value, first.allowed,
                first.message, first.line, first.column, errors.size());
}

inline feed_code bad_argument(feed_error* out, std::string_view name, std::string_view allowed,
                              std::string_view message) noexcept {
    return fail(out, FEED_BAD_ARGUMENT, name, "", allowed, message);
}

inline feed_code null_argument(feed_error* out, std::string_view name) noexcept {
    return fail(out, FEED_BAD_ARGUMENT, name, "NULL", "a pointer", "a pointer is missing");
}

/// FEED_OK for a text in UTF-8; NULL counts as one, the caller says whether it may be.
inline feed_code check_text(feed_error* out, std::string_view name, const char* text) noexcept {
    if (text == nullptr) return FEED_OK;
    const std::string_view bytes(text);
    for (std::size_t at = 0; at < bytes.size();) {
        const CodePoint c = code_point_at(bytes, at);
        if (!c.valid)
            return fail(out, FEED_NOT_UTF8, name, "", "text in UTF-8", "this text is not UTF-8");
        at += c.length;
    }
    return FEED_OK;
}

/// The same for a text that must be there.
inline feed_code need_text(feed_error* out, std::string_view name, const char* text) noexcept {
    return text == nullptr ? null_argument(out, name) : check_text(out, name, text);
}

/// FEED_OK for a truth value, 0 or 1.
inline feed_code check_truth(feed_error* out, std::string_view name, std::int32_t value) noexcept {
    if (value == 0 || value == 1) return FEED_OK;
    return fail(out, FEED_OUT_OF_RANGE, name, "neither 0 nor 1", "0 or 1",
                "a truth value is 0 for no and 1 for yes");
}

inline feed_code bad_index(feed_error* out, std::string_view name) noexcept {
    return fail(out, FEED_OUT_OF_RANGE, name, "", "below the count", "there is no such member");
}

inline feed_code succeed(feed_error* out) noexcept {
    if (has_room(out)) {
        out->code = FEED_OK;
        out->problem_count = 0;
    }
    return FEED_OK;
}

/// Runs the body of a C function; whatever C++ throws becomes a code.
template <class Body>
feed_code guarded(feed_error* error, Body&& body) noexcept {
    try {
        return body();
    } catch (const std::bad_alloc&) {
        return fail(error, FEED_OUT_OF_MEMORY, "memory", "", "", "there is not enough memory");
    } catch (const std::exception& problem) {
        return fail(error, FEED_INTERNAL, "", "", "", problem.what());
    } catch (...) {
        return fail(error, FEED_INTERNAL, "", "", "", "an unexpected failure");
    }
}

template <class Struct>
feed_code no_room(feed_error* error, const Struct* out, std::string_view name) noexcept {
    if (out == nullptr) return null_argument(error, name);
    return bad_argument(error, name, "struct_size set to sizeof the struct",
                        "struct_size is not set or too small");
}

inline feed_code bad_allocator(feed_error* error) noexcept {
    return bad_argument(error, "allocator", "NULL, or struct_size and both functions set",
                        "the allocator is incomplete");
}

}  // namespace feed::c
