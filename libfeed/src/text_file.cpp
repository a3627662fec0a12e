#include "feed/io/text_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <utility>

#include "beside_file.hpp"

namespace feed::io {
namespace {

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

}  // namespace

Result<std::string> read_text_file(const std::string& path) {
    const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    if (file.get() < 0) {
        return file_error(ErrorCode::not_readable, path, "a file that can be read",
                          "cannot read this file: " + reason_of(errno));
    }
    struct stat facts {};
    if (::fstat(file.get(), &facts) != 0) {
        return file_error(ErrorCode::not_readable, path, "a file that can be read",
                          "cannot read this file: " + reason_of(errno));
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
                              "cannot read this file: " + reason_of(errno));
        }
        if (count == 0) return text;
        text.append(buffer, static_cast<std::size_t>(count));
        // A pipe has no size beforehand, and a file may grow while it is read.
        if (text.size() > largest_file_bytes) return too_large();
    }
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
