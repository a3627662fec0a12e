#include "feed/io/text_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <utility>

#include "beside_file.hpp"
#include "descriptor.hpp"

namespace feed::io {
Result<std::string> read_text_file(const std::string& path) {
    const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    if (file.get() < 0) {
        return unreadable(path, errno);
    }
    struct stat facts {};
    if (::fstat(file.get(), &facts) != 0) {
        return unreadable(path, errno);
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
            return unreadable(path, errno);
        }
        if (count == 0) return text;
        text.append(buffer, static_cast<std::size_t>(count));
        // A pipe has no size beforehand, and a file may grow while it is read.
        if (text.size() > largest_file_bytes) return too_large();
    }
}

}  // namespace feed::io
