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

/// Writes a file so that a crash leaves either the old content or the new: written beside under a
/// temporary name, flushed to the disk, renamed over the old one.
/// Returns the number of bytes written. Errors: not_writable. Threads: safe for different paths.
Result<std::size_t> write_text_file(const std::string& path, std::string_view text);

/// Removes what writers that were killed left beside a file: the temporary files of write_text_file
/// whose process is gone. Call it only where nobody else may be writing the file, such as under a
/// lock. Returns how many were removed; what cannot be read or removed stays.
std::size_t remove_abandoned(const std::string& path);

/// Where a text stops being UTF-8 without control characters.
struct TextFault {
    std::size_t offset = 0;  ///< of the first bad byte; the length of the text when all is well
    bool is_nul = false;     ///< the byte is NUL rather than not UTF-8
};
/// The first byte that is NUL or starts an ill-formed, overlong or surrogate UTF-8 sequence.
/// Linear time, no allocation.
TextFault first_text_fault(std::string_view text) noexcept;

}  // namespace feed::io
