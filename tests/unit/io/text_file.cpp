#include "feed/io/text_file.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <cstdlib>
#include <string>

#include "catch2.hpp"

using feed::ErrorCode;
using feed::io::first_text_fault;
using feed::io::read_text_file;
using feed::io::write_text_file;

namespace {

/// A folder of its own for one test, removed with what the test names.
struct Folder {
    std::string path;
    Folder() {
        char name[] = "/tmp/feed-test-XXXXXX";
        path = ::mkdtemp(name);
    }
    ~Folder() {
        ::unlink((path + "/file").c_str());
        ::rmdir(path.c_str());
    }
};

}  // namespace

TEST_CASE("a written file reads back and keeps its permissions") {
    const Folder folder;
    const auto path = folder.path + "/file";
    REQUIRE(write_text_file(path, "one"));
    REQUIRE(::chmod(path.c_str(), 0600) == 0);
    REQUIRE(write_text_file(path, "two\n").value() == 4);
    CHECK(read_text_file(path).value() == "two\n");
    struct stat facts {};
    REQUIRE(::stat(path.c_str(), &facts) == 0);
    CHECK((facts.st_mode & 0777) == 0600);
    // Nothing is left beside it: the folder can be removed once the file is gone.
    REQUIRE(::unlink(path.c_str()) == 0);
    REQUIRE(::rmdir(folder.path.c_str()) == 0);
    REQUIRE(::mkdir(folder.path.c_str(), 0700) == 0);
}

TEST_CASE("what cannot be read or written says why") {
    const Folder folder;
    const auto missing = read_text_file(folder.path + "/file");
    REQUIRE_FALSE(missing);
    CHECK(missing.errors()[0].code == ErrorCode::not_readable);
    CHECK(missing.errors()[0].message == "cannot read this file: there is no such file");
    const auto directory = read_text_file(folder.path);
    REQUIRE_FALSE(directory);
    CHECK(directory.errors()[0].message == "this is a folder, not a file; name a file in it");
    CHECK(write_text_file(folder.path, "x").errors()[0].code == ErrorCode::not_writable);
    CHECK(write_text_file(folder.path + "/no/file", "x").errors()[0].code ==
          ErrorCode::not_writable);
}

TEST_CASE("a file of a hundred megabytes is refused by its size") {
    const Folder folder;
    const auto path = folder.path + "/file";
    REQUIRE(write_text_file(path, "libfeed: 1\n"));
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
