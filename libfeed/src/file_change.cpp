#include "feed/io/file_change.hpp"

#include <fcntl.h>
#include <stdlib.h>
#include <sys/file.h>
#include <time.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <optional>

#include "beside_file.hpp"
#include "feed/io/text_file.hpp"

namespace feed::io {
namespace {

/// Holds an advisory lock on a folder until it goes out of scope; leaves nothing behind.
class FolderLock {
public:
    FolderLock(const std::string& folder, int wait_seconds) {
        descriptor_ = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
        if (descriptor_ < 0) return;
        constexpr long pause_ns = 5'000'000;
        long tries = 1 + 200L * wait_seconds;
        while (tries-- > 0) {
            if (::flock(descriptor_, LOCK_EX | LOCK_NB) == 0) {
                held_ = true;
                return;
            }
            if (errno != EWOULDBLOCK && errno != EINTR) return;
            const timespec pause{0, pause_ns};
            ::nanosleep(&pause, nullptr);
        }
    }
    FolderLock(const FolderLock&) = delete;
    FolderLock& operator=(const FolderLock&) = delete;
    ~FolderLock() {
        if (descriptor_ >= 0) ::close(descriptor_);
    }
    bool held() const noexcept { return held_; }
    /// The new name of a file survives a power cut from here on.
    bool sync() const noexcept { return ::fsync(descriptor_) == 0; }

private:
    int descriptor_ = -1;
    bool held_ = false;
};

/// The file that a path names once all links are followed, or nothing.
std::optional<std::string> linked_file(const std::string& path) {
    char* const found = ::realpath(path.c_str(), nullptr);
    if (found == nullptr) return std::nullopt;
    const std::string name(found);
    ::free(found);
    return name;
}

/// Why a file must not be replaced, or nothing. path: as the keeper named it; target: behind links.
std::optional<Error> must_stay(const std::string& path, const std::string& target,
                               const struct stat& facts) {
    const auto refused = [&](std::string allowed, std::string message) {
        return file_error(ErrorCode::not_writable, path, std::move(allowed),
                          std::move(message) + "; it is as it was");
    };
    const std::string_view kind = odd_kind(facts);
    if (!kind.empty())
        return refused("a plain file",
                       "this is " + std::string(kind) + ", not a file that can be added to");
    // The superuser may write anything: the keeper's wish stands in the mode.
    const bool read_only = (facts.st_mode & (S_IWUSR | S_IWGRP | S_IWOTH)) == 0;
    if (read_only || ::faccessat(AT_FDCWD, target.c_str(), W_OK, AT_EACCESS) != 0)
        return refused("a file that may be written (chmod u+w)", "this file may only be read");
    if (facts.st_nlink > 1)
        return refused("a file with one name; cp makes a copy of its own",
                       "this file has " + std::to_string(facts.st_nlink) +
                           " names (hard links), and they would part");
    return std::nullopt;
}

}  // namespace

Result<bool> change_text_file(const std::string& path, const TextChange& change, int wait_seconds) {
    const auto named = facts_of(path);
    const auto target = linked_file(path);
    if (!named || !target) {
        const auto readable = read_text_file(path);  // says why in the words of reading
        if (!readable) return readable.errors();
        return file_error(ErrorCode::not_readable, path, "a file that can be read",
                          "cannot read this file");
    }
    const FolderLock lock(folder_of(*target), std::clamp(wait_seconds, 0, 600));
    if (!lock.held())
        return file_error(ErrorCode::not_writable, path, "a folder that can be locked",
                          "the folder of this file could not be locked: another program is writing "
                          "there; the file is as it was");
    const auto facts = facts_of(*target);
    if (!facts) return unreadable(path, ENOENT);
    if (auto problem = must_stay(path, *target, *facts)) return std::move(*problem);
    const auto before = read_text_file(path);
    if (!before) return before.errors();
    const auto after = change(*before);
    if (!after) return after.errors();
    // All who change it hold the lock, so what a dead one left beside the file is nobody's.
    remove_abandoned(*target);
    auto beside = BesideFile::write(*target, *after);
    if (!beside) return std::move(beside).errors();
    if (!beside->commit())
        return file_error(ErrorCode::not_writable, path, "a place that can be written",
                          "cannot write this file: " + reason_of(errno) + "; it is as it was");
    return lock.sync();
}

}  // namespace feed::io
