#include "beside_file.hpp"

#include <dirent.h>
#include <fcntl.h>
#include <signal.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <utility>
#include <vector>

#if defined(__linux__)
#include <sys/xattr.h>
#endif

#include "descriptor.hpp"

namespace feed::io {
namespace {

// "tote.yaml.feed-1234-0123456789abcdef": the process, then a number nobody else draws.
constexpr std::string_view beside_mark = ".feed-";
constexpr std::size_t random_digits = 16;

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
bool is_hex(char c) {
    return is_digit(c) || (c >= 'a' && c <= 'f');
}

/// The process that a file beside another one belongs to, or 0 where the name is none of ours.
pid_t owner_of(std::string_view file, std::string_view name) noexcept {
    const std::size_t mark = name.size() + beside_mark.size();
    if (file.size() < mark + 2 + random_digits || file.substr(0, name.size()) != name ||
        file.substr(name.size(), beside_mark.size()) != beside_mark)
        return 0;
    const std::size_t dash = file.size() - random_digits - 1;
    if (file[dash] != '-' || dash > mark + 9) return 0;
    for (const char c : file.substr(dash + 1))
        if (!is_hex(c)) return 0;
    pid_t owner = 0;
    for (const char c : file.substr(mark, dash - mark)) {
        if (!is_digit(c)) return 0;
        owner = 10 * owner + (c - '0');
    }
    return owner;
}

std::string random_name(const std::string& path) {
    std::uint64_t number = 0;
    if (::getentropy(&number, sizeof number) != 0)
        number = static_cast<std::uint64_t>(reinterpret_cast<std::uintptr_t>(&number));
    constexpr std::string_view digits = "0123456789abcdef";
    std::string name = path + std::string(beside_mark) + std::to_string(::getpid()) + "-";
    for (std::size_t i = 0; i < random_digits; ++i, number >>= 4U)
        name += digits[number & 0xFU];
    return name;
}

bool write_all(int descriptor, std::string_view text) noexcept {
    while (!text.empty()) {
        const auto count = ::write(descriptor, text.data(), text.size());
        if (count < 0) {
            if (errno == EINTR) continue;
            return false;
        }
        text.remove_prefix(static_cast<std::size_t>(count));
    }
    return true;
}

#if defined(__linux__)
/// The extended attributes of the old file, access lists among them, for the new one.
bool keep_attributes(const std::string& path, int descriptor) {
    const auto size = ::listxattr(path.c_str(), nullptr, 0);
    if (size < 0) return errno == ENOTSUP || errno == ENOSYS;
    if (size == 0) return true;
    std::vector<char> names(static_cast<std::size_t>(size));
    const auto filled = ::listxattr(path.c_str(), names.data(), names.size());
    if (filled < 0) return false;
    for (std::size_t at = 0; at < static_cast<std::size_t>(filled);) {
        const std::string name(&names[at]);
        at += name.size() + 1;
        const auto length = ::getxattr(path.c_str(), name.c_str(), nullptr, 0);
        if (length < 0) return false;
        std::vector<char> value(static_cast<std::size_t>(length) + 1);
        const auto got = ::getxattr(path.c_str(), name.c_str(), value.data(), value.size());
        if (got < 0) return false;
        std::vector<char> now(value.size());
        const auto has = ::fgetxattr(descriptor, name.c_str(), now.data(), now.size());
        if (has == got && now == value) continue;  // a label that the system gave it by itself
        if (::fsetxattr(descriptor, name.c_str(), value.data(), static_cast<std::size_t>(got), 0) !=
            0)
            return false;
    }
    return true;
}
#else
bool keep_attributes(const std::string&, int) {
    return true;
}
#endif

/// What of the old file the new one would not have, or "" when it has all.
std::string_view lost_by(const std::string& path, const struct stat& old, int descriptor) {
    struct stat now {};
    if (::fstat(descriptor, &now) != 0) return "its owner";
    if ((now.st_uid != old.st_uid || now.st_gid != old.st_gid) &&
        ::fchown(descriptor, old.st_uid, old.st_gid) != 0)
        return "its owner or group";
    if (::fchmod(descriptor, old.st_mode & 07777) != 0) return "its permissions";
    if (!keep_attributes(path, descriptor)) return "its extended attributes";
    return "";
}

}  // namespace

Error file_error(ErrorCode code, const std::string& path, std::string allowed,
                 std::string message) {
    return make_error(code, "file", path, std::move(allowed), std::move(message), path);
}

std::string reason_of(int number) {
    switch (number) {
        case ENOENT:
            return "there is no such file";
        case EACCES:
        case EPERM:
            return "you may not open it";
        case ENOTDIR:
            return "a folder on the way to it is missing";
        case EISDIR:
            return "it is a folder";
        case ENOSPC:
        case EDQUOT:
            return "the disk is full";
        case EROFS:
            return "the disk can only be read";
        case ENAMETOOLONG:
            return "the name is too long";
        case ELOOP:
            return "its links lead round in a circle";
        default:
            return "the system says error " + std::to_string(number);
    }
}

Error unreadable(const std::string& path, int number) {
    auto error = file_error(ErrorCode::not_readable, path, "a file that can be read",
                            "cannot read this file: " + reason_of(number));
    const bool plain = std::all_of(path.begin(), path.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
               c == '.' || c == '_' || c == '/' || c == '-';
    });
    if (number != ENOENT || !plain || path.empty() || path.front() == '-') return error;
    return offered(std::move(error), "; to begin one write ", {"feed start " + path});
}

std::string folder_of(const std::string& path) {
    const std::size_t slash = path.rfind('/');
    if (slash == std::string::npos) return ".";
    return slash == 0 ? "/" : path.substr(0, slash);
}

std::optional<struct stat> facts_of(const std::string& path) noexcept {
    struct stat facts {};
    if (::lstat(path.c_str(), &facts) != 0) return std::nullopt;
    return facts;
}

std::string_view odd_kind(const struct stat& facts) noexcept {
    if (S_ISREG(facts.st_mode)) return "";
    if (S_ISLNK(facts.st_mode)) return "a link";
    if (S_ISDIR(facts.st_mode)) return "a folder";
    if (S_ISFIFO(facts.st_mode)) return "a pipe";
    if (S_ISSOCK(facts.st_mode)) return "a socket";
    return "a device";
}

BesideFile::BesideFile(BesideFile&& other) noexcept
    : path_(std::move(other.path_)), beside_(std::exchange(other.beside_, std::string())) {}

BesideFile::~BesideFile() {
    if (!beside_.empty()) ::unlink(beside_.c_str());
}

Result<BesideFile> BesideFile::write(const std::string& path, std::string_view text) {
    BesideFile made;
    made.path_ = path;
    const auto failed = [&](const std::string& why, std::string_view outcome) {
        return file_error(ErrorCode::not_writable, path, "a place that can be written",
                          "cannot write this file: " + why + std::string(outcome));
    };
    const auto old = facts_of(path);
    const std::string_view outcome = old ? "; it is as it was" : "; nothing was written";
    const std::string name = random_name(path);
    const Descriptor file(::open(name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
    if (file.get() < 0) {
        const bool no_folder = errno == ENOENT;
        return failed(no_folder ? "the folder it should go to does not exist" : reason_of(errno),
                      outcome);
    }
    made.beside_ = name;
    if (old && S_ISREG(old->st_mode)) {
        const std::string_view lost = lost_by(path, *old, file.get());
        if (!lost.empty()) return failed("the new one would lose " + std::string(lost), outcome);
    }
    if (!write_all(file.get(), text) || ::fsync(file.get()) != 0)
        return failed(reason_of(errno), outcome);
    return made;
}

bool BesideFile::commit() noexcept {
    if (::rename(beside_.c_str(), path_.c_str()) != 0) return false;
    beside_.clear();
    return true;
}

bool BesideFile::commit_new() noexcept {
    // A link fails where something stands, in one step; where links are not to be had, look first.
    if (::link(beside_.c_str(), path_.c_str()) == 0) {
        ::unlink(beside_.c_str());
        beside_.clear();
        return true;
    }
    if (errno == EEXIST || ::access(path_.c_str(), F_OK) == 0) return false;
    return commit();
}

std::size_t remove_abandoned(const std::string& path) {
    const std::size_t slash = path.rfind('/');
    const std::string name = slash == std::string::npos ? path : path.substr(slash + 1);
    DIR* const open_folder = ::opendir(folder_of(path).c_str());
    if (open_folder == nullptr) return 0;
    std::size_t removed = 0;
    // Each call has a stream of its own, on which readdir is safe (POSIX.1-2024).
    while (const dirent* entry = ::readdir(open_folder)) {  // NOLINT(concurrency-mt-unsafe)
        const pid_t owner = owner_of(entry->d_name, name);
        if (owner <= 0) continue;
        const bool dead = owner == ::getpid() || (::kill(owner, 0) != 0 && errno == ESRCH);
        if (!dead) continue;
        const int place = ::dirfd(open_folder);
        struct stat facts {};
        if (::fstatat(place, entry->d_name, &facts, AT_SYMLINK_NOFOLLOW) != 0 ||
            !S_ISREG(facts.st_mode))
            continue;
        if (::unlinkat(place, entry->d_name, 0) == 0) ++removed;
    }
    ::closedir(open_folder);
    return removed;
}

}  // namespace feed::io
