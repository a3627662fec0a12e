#include "feed/io/file_change.hpp"

#include <sys/stat.h>
#include <unistd.h>

#if defined(__linux__)
#include <sys/xattr.h>
#endif

#include <filesystem>
#include <string>

#include "catch2.hpp"
#include "folder.hpp"

using feed::ErrorCode;
using feed::io::change_text_file;
using feed_test::content;
using feed_test::Folder;
using feed_test::put;

namespace {

feed::Result<std::string> more(std::string_view text) {
    return std::string(text) + "more\n";
}

struct stat facts_of(const std::string& path) {
    struct stat facts {};
    REQUIRE(::lstat(path.c_str(), &facts) == 0);
    return facts;
}

}  // namespace

TEST_CASE("a change keeps mode, owner, group and attributes, and leaves nothing beside") {
    const Folder folder;
    const auto path = folder.file("bin.yaml");
    put(path, "one\n");
    REQUIRE(::chmod(path.c_str(), 0640) == 0);
    // Only the superuser may give a file away.
    const bool given = ::getuid() == 0 && ::chown(path.c_str(), 12, 34) == 0;
    bool marked = false;
#if defined(__linux__)
    marked = ::setxattr(path.c_str(), "user.bin", "green", 5, 0) == 0;
#endif
    REQUIRE(change_text_file(path, more));
    CHECK(content(path) == "one\nmore\n");
    const auto facts = facts_of(path);
    CHECK((facts.st_mode & 07777) == 0640);
    if (given) {
        CHECK(facts.st_uid == 12);
        CHECK(facts.st_gid == 34);
    }
#if defined(__linux__)
    char value[8] = {};
    if (marked) CHECK(::getxattr(path.c_str(), "user.bin", value, sizeof value) == 5);
    if (marked) CHECK(std::string(value) == "green");
#endif
    CHECK(folder.names() == std::vector<std::string>{"bin.yaml"});
}

TEST_CASE("a change through links is in the file behind them, and the links stay") {
    const Folder folder;
    REQUIRE(::mkdir(folder.file("synced").c_str(), 0700) == 0);
    const auto target = folder.file("synced/bin.yaml");
    put(target, "one\n");
    REQUIRE(::symlink("synced/bin.yaml", folder.file("near.yaml").c_str()) == 0);
    REQUIRE(::symlink("near.yaml", folder.file("far.yaml").c_str()) == 0);
    REQUIRE(change_text_file(folder.file("far.yaml"), more));
    CHECK(content(target) == "one\nmore\n");
    CHECK(S_ISREG(facts_of(target).st_mode));
    CHECK(S_ISLNK(facts_of(folder.file("near.yaml")).st_mode));
    CHECK(S_ISLNK(facts_of(folder.file("far.yaml")).st_mode));
    CHECK(folder.names() == std::vector<std::string>{"far.yaml", "near.yaml", "synced"});
}

TEST_CASE("what a change would harm is refused with the reason, and stays") {
    const Folder folder;
    const auto path = folder.file("bin.yaml");
    put(path, "one\n");
    const auto why = [&](const std::string& name) {
        const auto changed = change_text_file(folder.file(name), more, 0);
        REQUIRE_FALSE(changed);
        return changed.errors()[0].message;
    };
    REQUIRE(::link(path.c_str(), folder.file("second.yaml").c_str()) == 0);
    CHECK(why("bin.yaml").find("2 names (hard links)") != std::string::npos);
    REQUIRE(::unlink(folder.file("second.yaml").c_str()) == 0);
    REQUIRE(::chmod(path.c_str(), 0444) == 0);
    CHECK(why("bin.yaml").find("may only be read") != std::string::npos);
    CHECK(why("bin.yaml").find("it is as it was") != std::string::npos);
    REQUIRE(::mkfifo(folder.file("pipe").c_str(), 0600) == 0);
    CHECK(why("pipe").find("a pipe") != std::string::npos);
    CHECK(why(".").find("folder") != std::string::npos);
    CHECK(why("missing.yaml").find("no such file") != std::string::npos);
    REQUIRE(::symlink("missing.yaml", folder.file("dangling.yaml").c_str()) == 0);
    CHECK(why("dangling.yaml").find("no such file") != std::string::npos);
    REQUIRE(::symlink("round.yaml", folder.file("round.yaml").c_str()) == 0);
    CHECK_FALSE(why("round.yaml").empty());
    CHECK(content(path) == "one\n");
}

TEST_CASE("a change that is refused leaves the file") {
    const Folder folder;
    const auto path = folder.file("bin.yaml");
    put(path, "one\n");
    const auto before = facts_of(path);
    const auto changed = change_text_file(path, [](std::string_view) -> feed::Result<std::string> {
        feed::Error error;
        error.message = "no";
        return error;
    });
    REQUIRE_FALSE(changed);
    CHECK(changed.errors()[0].message == "no");
    CHECK(content(path) == "one\n");
    CHECK(facts_of(path).st_ino == before.st_ino);
    CHECK(folder.names() == std::vector<std::string>{"bin.yaml"});
}
