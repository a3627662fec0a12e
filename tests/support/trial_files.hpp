#pragma once
#include <string>

#include "catch2.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/human_text.hpp"

// Files of trials as tests read them.
namespace feed_test {

/// The file in a text; the test fails where it cannot be read.
inline feed::io::FeedFile read_file(const std::string& text) {
    const auto file = feed::io::read_feed_text(text, "bin.yaml");
    if (!file) FAIL(feed::io::errors_text(file.errors()));
    return *file;
}

/// The first problem of a text that must not be read.
inline feed::Error first_problem(const std::string& text) {
    const auto file = feed::io::read_feed_text(text, "bin.yaml");
    REQUIRE_FALSE(file);
    return file.errors()[0];
}

}  // namespace feed_test
