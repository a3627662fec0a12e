#pragma once
#include <sys/stat.h>

#include <optional>
#include <string>
#include <string_view>

#include "feed/quantity/error.hpp"

namespace feed::io {

/// A problem with a file, in the words of the one who named it.
Error file_error(ErrorCode code, const std::string& path, std::string allowed, std::string message);
/// The operating system's reason in words of our own: strerror follows the locale.
std::string reason_of(int number);
/// A file that cannot be read, by the operating system's number; where there is none, how to begin
/// one.
Error unreadable(const std::string& path, int number);
/// The folder a path lies in: "." for a bare name.
std::string folder_of(const std::string& path);

/// What lstat says of a path, or nothing where there is nothing.
std::optional<struct stat> facts_of(const std::string& path) noexcept;
/// What a path is when it is not a plain file ("a link", "a folder", "a device", ...), else "".
std::string_view odd_kind(const struct stat& facts) noexcept;

/// A file being written beside the one it will become, under a name that nobody else has. Goes away
/// unless it is committed.
class BesideFile {
public:
    BesideFile() = default;
    BesideFile(BesideFile&& other) noexcept;
    BesideFile& operator=(BesideFile&&) = delete;
    BesideFile(const BesideFile&) = delete;
    BesideFile& operator=(const BesideFile&) = delete;
    ~BesideFile();

    /// Writes the text beside `path` and flushes it to the disk. Where the path is a plain file,
    /// the new one gets its owner, group, mode and extended attributes.
    /// Errors: not_writable, with the reason; nothing is left then.
    static Result<BesideFile> write(const std::string& path, std::string_view text);
    /// Puts it in the place of the path. False: it could not be, and the old file stands.
    bool commit() noexcept;
    /// The same, but only where nothing stands yet.
    bool commit_new() noexcept;

private:
    std::string path_;
    std::string beside_;  ///< empty once committed
};

/// Removes what writers that were killed left beside a file; call it only under a lock.
/// Returns how many were removed; what cannot be read or removed stays.
std::size_t remove_abandoned(const std::string& path);

}  // namespace feed::io
