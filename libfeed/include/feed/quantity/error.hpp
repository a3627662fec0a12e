#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace feed {

/// What kind of thing is wrong. The numbers are the codes of the C interface: never reused.
enum class ErrorCode : std::int32_t {
    failed = 1,        ///< anything without a code of its own
    bad_argument = 2,  ///< a null pointer, a handle of the wrong kind, a size that is too small
    out_of_memory = 3,
    not_a_number = 4,  ///< NaN or infinity where a finite number is due
    out_of_range = 5,  ///< a number outside what is allowed
    unit_missing = 6,
    unit_unknown = 7,
    percent_slip = 8,  ///< per cent where a fraction is due, or the reverse
    low_above_high = 9,
    unknown_feedstock = 10,
    ambiguous_feedstock = 11,
    unknown_property = 12,
    duplicate_entry = 13,
    missing_value = 14,  ///< a value that is needed was not given and the table has none
    syntax = 15,         ///< the text is not well-formed
    unknown_key = 16,
    wrong_type = 17,
    wrong_version = 18,
    too_large = 19,
    not_readable = 20,  ///< missing file, directory, no permission
    not_writable = 21,
    not_utf8 = 22,
    no_amount_fixed = 23,  ///< a balance without a scale
    contradiction = 24,    ///< two entries that cannot both hold
    empty = 25,
    internal = 26,
    ambiguous_amount = 27,  ///< an amount with two readings
};

/// One thing that is wrong, in the words of the person who wrote the input.
struct Error {
    ErrorCode code = ErrorCode::failed;
    std::string
        field;  ///< which entry, in the words of the input ("moisture of shredded till roll")
    std::string value;    ///< what was given, with its unit
    std::string allowed;  ///< what is allowed
    std::string message;  ///< one sentence, with the likely slip where there is one
    std::string file;     ///< name of the file, or empty
    int line = 0;         ///< from 1; 0 where there is no place
    int column = 0;       ///< from 1
    /// What may be written instead of the value, the likeliest first; the message says it too.
    std::vector<std::string> repairs = {};
};

/// An error of these parts, without a place.
/// @param file  name of the file it is about, or empty
inline Error make_error(ErrorCode code, std::string field, std::string value, std::string allowed,
                        std::string message, std::string file = {}) {
    Error error;
    error.code = code;
    error.field = std::move(field);
    error.value = std::move(value);
    error.allowed = std::move(allowed);
    error.message = std::move(message);
    error.file = std::move(file);
    return error;
}

/// The error with what may be written instead, said at the end of its message: `lead`, the texts
/// between quotation marks, `tail`.
/// @param repairs  at least one; each is understood when it is typed.
inline Error offered(Error error, std::string_view lead, std::vector<std::string> repairs,
                     std::string_view tail = {}) {
    error.message += lead;
    for (std::size_t i = 0; i < repairs.size(); ++i) {
        const bool last = i + 1 == repairs.size();
        error.message += (i == 0 ? "\"" : last ? " or \"" : ", \"") + repairs[i] + "\"";
    }
    error.message += tail;
    error.repairs = std::move(repairs);
    return error;
}

/// The error with the nearest word that is known; as it is where none is near.
inline Error with_near(Error error, std::string near) {
    if (near.empty()) return error;
    return offered(std::move(error), "; is ", {std::move(near)}, " meant?");
}

/// Takes the place out of an error: it is about something that the keeper has no file of.
inline void forget_place(Error& error) {
    error.line = error.column = 0;
    error.file.clear();
}

/// All problems found at once, in the order of the input.
using Errors = std::vector<Error>;

/// The same problems, the first of them about a field as the keeper wrote it.
inline Errors about(Errors errors, std::string_view field, std::string_view value) {
    errors.front().field = std::string(field);
    errors.front().value = std::string(value);
    return errors;
}

/// Either a value or the problems that prevented it. Never empty of both.
template <class T>
class [[nodiscard]] Result {
public:
    Result(T value) : value_(std::move(value)) {}
    Result(Error error) { errors_.push_back(std::move(error)); }
    Result(Errors errors) : errors_(std::move(errors)) {}

    bool has_value() const noexcept { return value_.has_value(); }
    explicit operator bool() const noexcept { return has_value(); }
    /// The value; only when has_value().
    const T& value() const& { return *value_; }
    T& value() & { return *value_; }
    T&& value() && { return std::move(*value_); }
    const T& operator*() const& { return value(); }
    T& operator*() & { return value(); }
    const T* operator->() const { return &value(); }
    T* operator->() { return &value(); }
    /// The problems; only when not has_value().
    const Errors& errors() const& { return errors_; }
    Errors&& errors() && { return std::move(errors_); }

private:
    // Two members and no std::variant: it would be the dearest thing to compile in this library.
    std::optional<T> value_;
    Errors errors_;
};

}  // namespace feed
