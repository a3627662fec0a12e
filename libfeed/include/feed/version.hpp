#pragma once
// The library's version, written from CMakeLists.txt; the build fails if the two differ.
#include <string_view>

#define FEED_VERSION_MAJOR 0
#define FEED_VERSION_MINOR 1
#define FEED_VERSION_PATCH 0

namespace feed {

// The version of the code, "major.minor.patch". The table has versions of its own.
inline constexpr std::string_view library_version = "0.1.0";

}  // namespace feed
