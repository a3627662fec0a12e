#pragma once
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <system_error>
#include <vector>

#include "catch2.hpp"

namespace feed_test {

/// A folder of its own for one test, that goes away with all in it.
class Folder {
public:
    Folder() {
        char name[] = "/tmp/feed_test_XXXXXX";
        REQUIRE(::mkdtemp(name) != nullptr);
        path_ = name;
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    const std::string& path() const { return path_; }
    std::string file(const std::string& name) const { return path_ + "/" + name; }
    /// Everything in it, in alphabetical order.
    std::vector<std::string> names() const {
        std::vector<std::string> found;
        for (const auto& item : std::filesystem::directory_iterator(path_))
            found.push_back(item.path().filename().string());
        std::sort(found.begin(), found.end());
        return found;
    }

private:
    std::string path_;
};

inline void put(const std::string& path, const std::string& text) {
    std::ofstream file(path, std::ios::binary);
    file << text;
    REQUIRE(file.flush());
}

inline std::string content(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    REQUIRE(file);
    return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace feed_test
