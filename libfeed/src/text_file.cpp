#include "feed/io/text_file.hpp"

#include <dirent.h>
#include <fcntl.h>
#include <signal.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <utility>

namespace feed::io {
namespace {

Error file_error(ErrorCode code, const std::string& path, std::string allowed,
                 std::string message) {
    Error error;
    error.code = code;
    error.field = "file";
    error.value = path;
    error.allowed = std::move(allowed);
    error.message = std::move(message);
    error.file = path;
    return error;
}

/// The operating system's reason in words of our own: strerror follows the locale.
std::string reason(int number) {
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
            return "the disk is full";
        case EROFS:
            return "the disk can only be read";
        case ENAMETOOLONG:
            return "the name is too long";
        default:
            return "the system says error " + std::to_string(number);
    }
}

constexpr std::string_view beside_mark = ".new-";

/// The process that a file beside another one belongs to, or 0 where the name is none of ours.
pid_t owner_of(std::string_view file, std::string_view name) noexcept {
    const std::size_t before = name.size() + beside_mark.size();
    if (file.size() <= before || file.size() > before + 9 || file.substr(0, name.size()) != name ||
        file.substr(name.size(), beside_mark.size()) != beside_mark)
        return 0;
    pid_t owner = 0;
    for (const char c : file.substr(before)) {
        if (c < '0' || c > '9') return 0;
        owner = 10 * owner + (c - '0');
    }
    return owner;
}

/// Closes the descriptor when it goes out of scope.
class Descriptor {
public:
    explicit Descriptor(int number) noexcept : number_(number) {}
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor() {
        if (number_ >= 0) ::close(number_);
    }
    int get() const noexcept { return number_; }

private:
    int number_;
};

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

}  // namespace

Result<std::string> read_text_file(const std::string& path) {
    const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    if (file.get() < 0) {
        return file_error(ErrorCode::not_readable, path, "a file that can be read",
                          "cannot read this file: " + reason(errno));
    }
    struct stat facts {};
    if (::fstat(file.get(), &facts) != 0) {
        return file_error(ErrorCode::not_readable, path, "a file that can be read",
                          "cannot read this file: " + reason(errno));
    }
    if (S_ISDIR(facts.st_mode)) {
        return file_error(ErrorCode::not_readable, path, "a file, not a folder",
                          "this is a folder, not a file; name a file in it");
    }
    const auto too_large = [&] {
        return file_error(ErrorCode::too_large, path, "at most 8 MB",
                          "this file is too large to be a feed file");
    };
    if (S_ISREG(facts.st_mode) && static_cast<std::size_t>(facts.st_size) > largest_file_bytes) {
        return too_large();
    }
    std::string text;
    text.reserve(static_cast<std::size_t>(facts.st_size) + 1);
    char buffer[16384];
    for (;;) {
        const auto count = ::read(file.get(), buffer, sizeof buffer);
        if (count < 0) {
            if (errno == EINTR) continue;
            return file_error(ErrorCode::not_readable, path, "a file that can be read",
                              "cannot read this file: " + reason(errno));
        }
        if (count == 0) return text;
        text.append(buffer, static_cast<std::size_t>(count));
        // A pipe has no size beforehand, and a file may grow while it is read.
        if (text.size() > largest_file_bytes) return too_large();
    }
}

Result<std::size_t> write_text_file(const std::string& path, std::string_view text) {
    const std::string beside = path + std::string(beside_mark) + std::to_string(::getpid());
    const auto failed = [&](int number) {
        ::unlink(beside.c_str());
        return file_error(
            ErrorCode::not_writable, path, "a place that can be written",
            "cannot write this file: " +
                (number == ENOENT ? "the folder it should go to does not exist" : reason(number)));
    };
    struct stat facts {};
    // A file that is replaced keeps its permissions; a new one follows the user's mask.
    const bool replaces = ::stat(path.c_str(), &facts) == 0;
    if (replaces && S_ISDIR(facts.st_mode)) return failed(EISDIR);
    {
        const Descriptor file(
            ::open(beside.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
        if (file.get() < 0) return failed(errno);
        if (replaces && ::fchmod(file.get(), facts.st_mode & 07777) != 0) return failed(errno);
        if (!write_all(file.get(), text) || ::fsync(file.get()) != 0) return failed(errno);
    }
    if (::rename(beside.c_str(), path.c_str()) != 0) return failed(errno);
    return text.size();
}

std::size_t remove_abandoned(const std::string& path) {
    const std::size_t slash = path.rfind('/');
    const std::string folder = slash == std::string::npos ? "." : path.substr(0, slash + 1);
    const std::string name = slash == std::string::npos ? path : path.substr(slash + 1);
    DIR* const open_folder = ::opendir(folder.c_str());
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

TextFault first_text_fault(std::string_view text) noexcept {
    const auto byte = [&](std::size_t at) { return static_cast<unsigned char>(text[at]); };
    const auto continues = [&](std::size_t at) {
        return at < text.size() && (byte(at) & 0xC0) == 0x80;
    };
    std::size_t at = 0;
    while (at < text.size()) {
        const unsigned char first = byte(at);
        if (first == 0) return {at, true};
        if (first < 0x80) {
            ++at;
            continue;
        }
        std::size_t length = 0;
        if (first >= 0xC2 && first <= 0xDF) length = 2;
        if (first >= 0xE0 && first <= 0xEF) length = 3;
        if (first >= 0xF0 && first <= 0xF4) length = 4;
        if (length == 0) return {at, false};
        for (std::size_t next = 1; next < length; ++next) {
            if (!continues(at + next)) return {at, false};
        }
        const unsigned char second = byte(at + 1);
        const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
        const bool surrogate = first == 0xED && second > 0x9F;
        const bool beyond = first == 0xF4 && second > 0x8F;
        if (overlong || surrogate || beyond) return {at, false};
        at += length;
    }
    return {text.size(), false};
}

}  // namespace feed::io
