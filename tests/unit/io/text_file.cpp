#include "feed/io/text_file.hpp"

#include <unistd.h>

#include <string>

#include "catch2.hpp"
#include "folder.hpp"

using feed::ErrorCode;
using feed::io::first_text_fault;
using feed::io::read_text_file;
using feed_test::Folder;
using feed_test::put;

TEST_CASE("what cannot be read says why") {
    const Folder folder;
    const auto missing = read_text_file(folder.file("file"));
    REQUIRE_FALSE(missing);
    CHECK(missing.errors()[0].code == ErrorCode::not_readable);
    CHECK(missing.errors()[0].message ==
          "cannot read this file: there is no such file; to begin one write \"feed start " +
              folder.file("file") + "\"");
    // A name that a shell would part is not offered.
    CHECK(read_text_file(folder.file("my bin.yaml")).errors()[0].message ==
          "cannot read this file: there is no such file");
    const auto directory = read_text_file(folder.path());
    REQUIRE_FALSE(directory);
    CHECK(directory.errors()[0].message == "this is a folder, not a file; name a file in it");
}

TEST_CASE("a file of a hundred megabytes is refused by its size") {
    const Folder folder;
    const auto path = folder.file("file");
    put(path, "libfeed: 1\n");
    REQUIRE(::truncate(path.c_str(), 100L * 1024L * 1024L) == 0);
    const auto text = read_text_file(path);
    REQUIRE_FALSE(text);
    CHECK(text.errors()[0].code == ErrorCode::too_large);
}

TEST_CASE("the first byte that is not text is found") {
    CHECK(first_text_fault("plain \xC3\xA9 \xE2\x82\xAC \xF0\x9F\xAA\xB1").offset == 17);
    CHECK(first_text_fault(std::string_view("ab\0c", 4)).offset == 2);
    CHECK(first_text_fault(std::string_view("ab\0c", 4)).is_nul);
    for (const char* bad : {"a\x80", "a\xC1\xBF", "a\xE0\x80\x80", "a\xED\xA0\x80",
                            "a\xF4\x90\x80\x80", "a\xF5\x80\x80\x80", "a\xC3", "a\xE2\x82"}) {
        CHECK(first_text_fault(bad).offset == 1);
    }
}
