#pragma once
#include <cstddef>
#include <string>
#include <string_view>

#include "feed/quantity/error.hpp"

namespace feed::io {

/// Largest file that is read, in bytes. A diary of ten thousand entries is about a tenth of it.
inline constexpr std::size_t largest_file_bytes = 8u * 1024u * 1024u;

/// The bytes of a file.
/// path: name of a regular file of at most `largest_file_bytes`; "-" is a file name like any other.
/// Errors: not_readable (missing, a directory, no permission), too_large (told from the size,
/// before anything is read). Threads: safe; reads the file system.
Result<std::string> read_text_file(const std::string& path);

/// Where a text stops being UTF-8 without control characters.
struct TextFault {
    std::size_t offset = 0;  ///< of the first bad byte; the length of the text when all is well
    bool is_nul = false;     ///< the byte is NUL rather than not UTF-8
};
/// The first byte that is NUL or starts an ill-formed, overlong or surrogate UTF-8 sequence.
/// Linear time, no allocation.
TextFault first_text_fault(std::string_view text) noexcept;

}  // namespace feed::io
