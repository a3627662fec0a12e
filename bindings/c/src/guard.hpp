#pragma once
// What every C function has in common: nothing escapes, errors are copied into the caller's struct,
// outputs are cleared on failure.
#include <cmath>
#include <cstddef>
#include <cstring>
#include <exception>
#include <limits>
#include <new>
#include <string_view>

#include "feed/feed.h"
#include "feed/quantity/error.hpp"

namespace feed::c {

inline constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

/// Copies text into a field of `size` bytes (at least 1), cut at a whole UTF-8 character.
inline void copy_text(char* field, std::size_t size, std::string_view text) noexcept {
    std::size_t length = text.size() < size ? text.size() : size - 1;
    while (length < text.size() && length > 0 &&
           (static_cast<unsigned char>(text[length]) & 0xC0U) == 0x80U) {
        --length;
    }
    std::memcpy(field, text.data(), length);
    field[length] = '\0';
}

template <std::size_t size>
void copy_text(char (&field)[size], std::string_view text) noexcept {
    copy_text(field, size, text);
}

/// Fills the caller's error struct as far as it has room.
inline feed_code fail(feed_error* out, feed_code code, std::string_view field,
                      std::string_view value, std::string_view allowed, std::string_view message,
                      int line = 0, int column = 0, std::size_t problems = 1) noexcept {
    if (out != nullptr && out->struct_size >= sizeof(feed_error)) {
        out->code = code;
        out->line = line;
        out->column = column;
        out->problem_count = static_cast<std::int32_t>(problems);
        copy_text(out->field, field);
        copy_text(out->value, value);
        copy_text(out->allowed, allowed);
        copy_text(out->message, message);
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

inline feed_code bad_index(feed_error* out, std::string_view name) noexcept {
    return fail(out, FEED_OUT_OF_RANGE, name, "", "below the count", "there is no such member");
}

inline feed_code succeed(feed_error* out) noexcept {
    if (out != nullptr && out->struct_size >= sizeof(feed_error)) {
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

/// True when the caller's struct is at least as large as version 0.1 of it.
template <class Struct>
bool has_room(const Struct* out) noexcept {
    return out != nullptr && out->struct_size >= sizeof(Struct);
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
