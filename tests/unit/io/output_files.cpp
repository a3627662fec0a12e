#include "feed/io/output_files.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <string>
#include <vector>

#include "catch2.hpp"
#include "folder.hpp"

using feed::io::create_text_file;
using feed::io::OutputFile;
using feed::io::write_output_files;
using feed_test::content;
using feed_test::Folder;
using feed_test::put;

namespace {

/// Why these outputs are refused, the input being "bin.yaml".
std::string why(const Folder& folder, const std::string& first, const std::string& second = "") {
    const auto before = folder.names();
    std::vector<OutputFile> outputs{{"--svg", folder.file(first), "new"}};
    if (!second.empty()) outputs.push_back({"--sheet", folder.file(second), "new"});
    const std::vector<std::string> inputs{folder.file("bin.yaml")};
    const auto written = write_output_files(outputs, inputs);
    REQUIRE_FALSE(written);
    CHECK(written.errors()[0].message.find("nothing was written") != std::string::npos);
    CHECK(folder.names() == before);
    return written.errors()[0].field + ": " + written.errors()[0].message;
}

bool says(const std::string& text, const char* words) {
    return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("outputs are written together, over older ones too") {
    const Folder folder;
    put(folder.file("bin.svg"), "old");
    REQUIRE(::chmod(folder.file("bin.svg").c_str(), 0640) == 0);
    const std::vector<OutputFile> outputs{{"--svg", folder.file("bin.svg"), "picture"},
                                          {"--sheet", folder.file("bin.html"), "page"}};
    REQUIRE(write_output_files(outputs, {}));
    CHECK(content(folder.file("bin.svg")) == "picture");
    CHECK(content(folder.file("bin.html")) == "page");
    struct stat facts {};
    REQUIRE(::stat(folder.file("bin.svg").c_str(), &facts) == 0);
    CHECK((facts.st_mode & 07777) == 0640);
    CHECK(folder.names() == std::vector<std::string>{"bin.html", "bin.svg"});
}

TEST_CASE("an output never destroys what it should not") {
    const Folder folder;
    put(folder.file("bin.yaml"), "libfeed: 1\n");
    CHECK(says(why(folder, "bin.yaml"), "the file that is read"));
    CHECK(says(why(folder, "../" + folder.path().substr(5) + "/bin.yaml"), "that is read"));
    REQUIRE(::link(folder.file("bin.yaml").c_str(), folder.file("twin.svg").c_str()) == 0);
    CHECK(says(why(folder, "twin.svg"), "that is read"));
    put(folder.file("other.txt"), "# my diary\nlibfeed: 1\n");
    CHECK(says(why(folder, "other.txt"), "a feed file stands there"));
    put(folder.file("json.txt"), "{\"libfeed\": 1}\n");
    CHECK(says(why(folder, "json.txt"), "a feed file stands there"));
    CHECK(says(why(folder, "new.yaml"), "a name of a feed file"));
    put(folder.file("aim.svg"), "aim");
    REQUIRE(::symlink("aim.svg", folder.file("link.svg").c_str()) == 0);
    CHECK(says(why(folder, "link.svg"), "this is a link"));
    REQUIRE(::mkfifo(folder.file("pipe").c_str(), 0600) == 0);
    CHECK(says(why(folder, "pipe"), "this is a pipe"));
    REQUIRE(::mkdir(folder.file("folder").c_str(), 0700) == 0);
    CHECK(says(why(folder, "folder"), "this is a folder"));
    REQUIRE(::chmod(folder.file("aim.svg").c_str(), 0444) == 0);
    CHECK(says(why(folder, "aim.svg"), "may only be read"));
    const std::vector<OutputFile> device{{"--svg", "/dev/null", "x"}};
    CHECK(says(write_output_files(device, {}).errors()[0].message, "this is a device"));
    CHECK(content(folder.file("bin.yaml")) == "libfeed: 1\n");
    CHECK(content(folder.file("aim.svg")) == "aim");
}

TEST_CASE("all outputs of a call are written, or none") {
    const Folder folder;
    CHECK(says(why(folder, "same.svg", "same.svg"), "--sheet: this is the file that --svg writes"));
    CHECK(says(why(folder, "same.svg", "./same.svg"), "that --svg writes"));
    put(folder.file("old.svg"), "old");
    CHECK(says(why(folder, "old.svg", "no/such/folder/page.html"), "does not exist"));
    CHECK(content(folder.file("old.svg")) == "old");
}

TEST_CASE("a new file is created once and never over another") {
    const Folder folder;
    const auto path = folder.file("bin.yaml");
    REQUIRE(create_text_file(path, "one\n"));
    CHECK(content(path) == "one\n");
    CHECK_FALSE(create_text_file(path, "two\n"));
    CHECK(content(path) == "one\n");
    REQUIRE(::symlink("nowhere", folder.file("link.yaml").c_str()) == 0);
    CHECK_FALSE(create_text_file(folder.file("link.yaml"), "two\n"));
    CHECK_FALSE(create_text_file(folder.file("no/such/bin.yaml"), "two\n"));
    CHECK(folder.names() == std::vector<std::string>{"bin.yaml", "link.yaml"});
}
