#include "feed/io/diary_append.hpp"

#include <signal.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <string>
#include <vector>

#include "catch2.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/observation_text.hpp"
#include "feed/io/yaml_tree.hpp"
#include "folder.hpp"

using feed::Observation;
using feed::io::with_observation;
using feed_test::content;
using feed_test::Folder;
using feed_test::put;

namespace {

Observation look(std::string note = "") {
    Observation seen;
    seen.date = {2026, 3, 14};
    seen.share_gone = 0.6;
    seen.note = std::move(note);
    return seen;
}

std::string appended(const std::string& diary, const Observation& seen) {
    const auto text = with_observation(diary, seen, "bin.yaml");
    REQUIRE(text);
    return *text;
}

/// Entries of `observations`, counted by the YAML reader.
std::size_t entries_of(const std::string& text) {
    const auto tree = feed::io::parse_yaml(text, "bin.yaml");
    REQUIRE(tree);
    std::size_t count = 0;
    tree->root().for_each_pair([&](feed::io::YamlView key, feed::io::YamlView value) {
        if (key.text() == "observations") value.for_each_item([&](feed::io::YamlView) { ++count; });
    });
    return count;
}

const std::string entry = "  - date: 2026-03-14\n    share_gone: 60 %\n";

}  // namespace

TEST_CASE("an entry goes to the end of the list and nothing else changes") {
    const std::string before =
        "libfeed: 1  # the school bin\n"
        "observations:\n"
        "  # first week\n"
        "  - date: 2026-03-01\n"
        "    note: |\n"
        "      two lines\n"
        "\n"
        "      of words\n";
    const std::string after =
        "\n"
        "# the bed\n"
        "bed:\n"
        "  squeeze: damp\n";
    CHECK(appended(before + after, look()) == before + entry + after);
    CHECK(entries_of(appended(before + after, look())) == 2);
}

TEST_CASE("a note that ends in lines beginning with # keeps them") {
    for (const char* mark : {"|", ">", "|-", "|+"}) {
        const std::string before =
            std::string("libfeed: 1\nobservations:\n  - date: 2026-03-01\n") + "    note: " + mark +
            "\n      bought:\n      # 3 bags of leaves\n";
        CHECK(appended(before, look()) == before + entry);
        CHECK(appended(before + "bed:\n  squeeze: damp\n", look()) ==
              before + entry + "bed:\n  squeeze: damp\n");
    }
    // A text that keeps its blank lines keeps them, though a section follows.
    const std::string kept =
        "libfeed: 1\nobservations:\n  - date: 2026-03-01\n    note: |+\n      words\n\n";
    CHECK(appended(kept + "bed: {}\n", look()) == kept + entry + "bed: {}\n");
    // The last section of a file without observations may be such a text, too.
    const std::string title = "libfeed: 1\ntitle: |+\n  my bin\n  # the green one\n\n";
    CHECK(appended(title, look()) == title + "observations:\n" + entry);
}

TEST_CASE("the key of the list may be written in any way") {
    for (const char* key : {"\"observations\"", "'observations'", "\"\\x6fbservations\"",
                            "observations ", "? observations\n"}) {
        const std::string before = std::string("libfeed: 1\n") + key + ":\n  - date: 2026-03-01\n";
        CHECK(appended(before, look()) == before + entry);
    }
    CHECK(appended("libfeed: 1\nobservations: ~\n", look()) ==
          "libfeed: 1\nobservations: \n" + entry);
}

TEST_CASE("a diary without observations, or with an empty list, gets them") {
    CHECK(appended("libfeed: 1\n", look()) == "libfeed: 1\n\nobservations:\n" + entry);
    CHECK(appended("libfeed: 1", look()) == "libfeed: 1\n\nobservations:\n" + entry);
    CHECK(entries_of(appended("libfeed: 1\nobservations:\n", look())) == 1);
    CHECK(entries_of(appended("libfeed: 1\nobservations: [] # none yet\nbed: {}\n", look())) == 1);
    CHECK(entries_of(appended("libfeed: 1\nobservations: # none yet\n# end\n", look())) == 1);
}

TEST_CASE("the keeper's indentation and line ends are kept") {
    const std::string flush = "observations:\n- date: 2026-03-01\n  gone: true\nlibfeed: 1\n";
    const std::string extended = appended(flush, look());
    CHECK(extended ==
          "observations:\n- date: 2026-03-01\n  gone: true\n"
          "- date: 2026-03-14\n  share_gone: 60 %\nlibfeed: 1\n");
    const std::string windows = "libfeed: 1\r\nobservations:\r\n  - date: 2026-03-01\r\n";
    const std::string both = appended(windows, look());
    CHECK(both.find("\r\n    share_gone: 60 %\r\n") != std::string::npos);
    CHECK(entries_of(both) == 2);
    CHECK(entries_of(appended(both, look())) == 3);
}

TEST_CASE("a note cannot break out of its line") {
    for (const char* note :
         {"say \"hello\"", "a: b\n- date: 2020-01-01", "back\\slash", "# no comment", "{[&*!|>%@`",
          "tab\there", "\x01\x7f", "caf\xC3\xA9"}) {
        const std::string text =
            appended("libfeed: 1\nobservations:\n  - date: 2026-03-01\n", look(note));
        CHECK(entries_of(text) == 2);
        const auto tree = feed::io::parse_yaml(text, "bin.yaml");
        std::string read;
        tree->root().for_each_pair([&](feed::io::YamlView key, feed::io::YamlView value) {
            if (key.text() != "observations") return;
            value.for_each_item([&](feed::io::YamlView item) {
                item.for_each_pair([&](feed::io::YamlView name, feed::io::YamlView words) {
                    if (name.text() == "note") read = std::string(words.text());
                });
            });
        });
        CHECK(read == note);
    }
}

namespace {

/// Everything a site records, in one look.
Observation full_look() {
    Observation seen = look("n");
    seen.by = "Ama";
    seen.of_feeding = feed::Date{2026, 3, 1};
    seen.left = feed::wet_kilograms(0.125);
    seen.gone = feed::FoodGone::yes;
    seen.worms = feed::WormPlace::at_lid;
    seen.vigour = feed::WormVigour::sluggish;
    seen.worm_weight = feed::wet_kilograms(0.4);
    seen.squeeze = feed::Squeeze::many_drops;
    seen.moisture = feed::Moisture(0.815);
    seen.pooling = false;
    seen.smell = feed::Smell::vinegar;
    seen.ph = 6.5;
    seen.temperatures = {{"back", feed::celsius(21)}, {"middle", feed::celsius(23.5)}};
    seen.air_low = feed::celsius(-2);
    seen.air_high = feed::celsius(18);
    seen.weight_in = feed::wet_kilograms(1.2);
    seen.running_total = feed::wet_kilograms(26.12);
    seen.bedding = "2 scoops";
    seen.pests = "none";
    seen.action = "fed less";
    return seen;
}

}  // namespace

TEST_CASE("an entry that was written is read back as it was") {
    const Observation seen = full_look();
    const auto file = feed::io::read_feed_text(appended("libfeed: 1\n", seen), "bin.yaml");
    REQUIRE(file);
    REQUIRE(file->diary.observations.size() == 1);
    const Observation& read = file->diary.observations[0];
    CHECK(read.date == seen.date);
    CHECK(read.by == seen.by);
    CHECK(read.of_feeding == seen.of_feeding);
    CHECK(read.left->in_kilograms() == feed_test::Approx(seen.left->in_kilograms()));
    CHECK(*read.share_gone == feed_test::Approx(*seen.share_gone));
    CHECK(read.gone == seen.gone);
    CHECK(read.worms == seen.worms);
    CHECK(read.vigour == seen.vigour);
    CHECK(read.worm_weight->in_kilograms() == feed_test::Approx(0.4));
    CHECK(read.squeeze == seen.squeeze);
    CHECK(read.moisture->value() == feed_test::Approx(seen.moisture->value()));
    CHECK(read.pooling == seen.pooling);
    CHECK(read.smell == seen.smell);
    CHECK(read.ph == seen.ph);
    REQUIRE(read.temperatures.size() == 2);
    CHECK(read.temperatures[1].place == "middle");
    CHECK(feed::in_celsius(read.temperatures[1].temperature) == feed_test::Approx(23.5));
    CHECK(feed::in_celsius(*read.air_low) == feed_test::Approx(-2));
    CHECK(feed::in_celsius(*read.air_high) == feed_test::Approx(18));
    CHECK(read.weight_in->in_kilograms() == feed_test::Approx(1.2));
    CHECK(read.running_total->in_kilograms() == feed_test::Approx(26.12));
    CHECK(read.bedding == seen.bedding);
    CHECK(read.pests == seen.pests);
    CHECK(read.action == seen.action);
    CHECK(read.note == seen.note);
}

TEST_CASE("everything a site records is written once and under its key") {
    const Observation seen = full_look();
    CHECK(feed::io::observation_yaml(seen, 0) ==
          "- date: 2026-03-14\n"
          "  by: \"Ama\"\n"
          "  of_feeding: 2026-03-01\n"
          "  left: 0.125 kg\n"
          "  share_gone: 60 %\n"
          "  gone: true\n"
          "  worms: at the lid\n"
          "  vigour: sluggish\n"
          "  worm_weight: 0.4 kg\n"
          "  squeeze: many drops\n"
          "  moisture: 81.5 %\n"
          "  pooling: false\n"
          "  smell: vinegar\n"
          "  ph: 6.5\n"
          "  temperature: {\"back\": 21 C, \"middle\": 23.5 C}\n"
          "  air_low: -2 C\n"
          "  air_high: 18 C\n"
          "  weight_in: 1.2 kg\n"
          "  running_total: 26.12 kg\n"
          "  bedding: \"2 scoops\"\n"
          "  pests: \"none\"\n"
          "  action: \"fed less\"\n"
          "  note: \"n\"\n");
}

TEST_CASE("what cannot be extended safely is refused with its place") {
    const auto line_of = [](const char* text) {
        const auto result = with_observation(text, look(), "bin.yaml");
        REQUIRE_FALSE(result);
        CHECK(result.errors()[0].file == "bin.yaml");
        return result.errors()[0].line;
    };
    CHECK(line_of("{\"libfeed\": 1}") == 1);
    CHECK(line_of("libfeed: 1\nobservations: [{date: 2026-03-01}]\n") == 2);
    CHECK(line_of("libfeed: 1\nobservations: none\n") >= 1);
    CHECK(line_of("libfeed: 1\nobservations:\n  - date: [\n") >= 3);
    CHECK(line_of("libfeed: 1\n...\n") == 2);
    // A section that stands twice, and one whose words another section takes over.
    CHECK(line_of("libfeed: 1\nobservations:\n  - date: 2026-03-01\nobservations: []\n") == 4);
    CHECK(line_of("libfeed: 1\nobservations: &o\n  - date: 2026-03-01\nfeedings: *o\n") >= 2);
}

TEST_CASE("appending to a file says what was added") {
    const Folder folder;
    const std::string path = folder.file("bin.yaml");
    put(path, "libfeed: 1\n");
    REQUIRE(::chmod(path.c_str(), 0640) == 0);
    const auto done = feed::io::append_observation(path, look());
    REQUIRE(done);
    CHECK(done->entry == entry);
    CHECK(done->entries == 1);
    struct stat facts {};
    REQUIRE(::stat(path.c_str(), &facts) == 0);
    CHECK((facts.st_mode & 07777) == 0640);
    CHECK(done->text == content(path));
    CHECK(done->file.diary.observations.size() == 1);
    CHECK(done->confirmed);
    CHECK_FALSE(feed::io::append_observation(folder.file("missing.yaml"), look()));
    CHECK_FALSE(feed::io::append_observation(folder.file("no/such/bin.yaml"), look(), 0));
}

TEST_CASE("four that append at once lose nothing") {
    const Folder folder;
    const std::string path = folder.file("bin.yaml");
    put(path, "libfeed: 1\nobservations:\n");
    constexpr int writers = 4;
    constexpr int entries = 10;
    std::vector<pid_t> children;
    for (int w = 0; w < writers; ++w) {
        const pid_t child = ::fork();
        REQUIRE(child >= 0);
        if (child == 0) {
            int failures = 0;
            for (int i = 0; i < entries; ++i)
                failures += feed::io::append_observation(path, look(), 60) ? 0 : 1;
            ::_exit(failures);
        }
        children.push_back(child);
    }
    for (const pid_t child : children) {
        int status = 0;
        REQUIRE(::waitpid(child, &status, 0) == child);
        CHECK(WIFEXITED(status));
        CHECK(WEXITSTATUS(status) == 0);
    }
    CHECK(entries_of(content(path)) == writers * entries);
}

TEST_CASE("a writer that is killed loses nothing that it had reported") {
    const Folder folder;
    const std::string path = folder.file("bin.yaml");
    put(path, "libfeed: 1\nobservations:\n");
    std::size_t reported = 0;
    for (int round = 0; round < 12; ++round) {
        int ends[2];
        REQUIRE(::pipe(ends) == 0);
        const pid_t child = ::fork();
        REQUIRE(child >= 0);
        if (child == 0) {
            ::close(ends[0]);
            for (;;) {
                if (!feed::io::append_observation(path, look(), 60)) ::_exit(1);
                const char done = '+';
                if (::write(ends[1], &done, 1) != 1) ::_exit(2);
            }
        }
        ::close(ends[1]);
        char done = 0;
        // Let it report a few, then kill it wherever it happens to be.
        for (int i = 0; i <= round % 4; ++i) {
            REQUIRE(::read(ends[0], &done, 1) == 1);
            ++reported;
        }
        ::usleep(static_cast<useconds_t>(137 * round));
        REQUIRE(::kill(child, SIGKILL) == 0);
        int status = 0;
        REQUIRE(::waitpid(child, &status, 0) == child);
        REQUIRE(WIFSIGNALED(status));
        while (::read(ends[0], &done, 1) == 1)
            ++reported;
        ::close(ends[0]);
        const std::size_t kept = entries_of(content(path));
        // At most the one entry that was renamed into place but not yet reported is more.
        CHECK(kept >= reported);
        CHECK(kept <= reported + static_cast<std::size_t>(round) + 1);
    }
    CHECK(reported > 12);
    // What the killed left beside the diary goes with the next entry.
    REQUIRE(feed::io::append_observation(path, look(), 60));
    CHECK(folder.names() == std::vector<std::string>{"bin.yaml"});
}

TEST_CASE("a writer killed in the middle of its file leaves the diary, and its rest is cleared") {
    const Folder folder;
    const std::string path = folder.file("bin.yaml");
    const std::string before = "libfeed: 1\nobservations:\n" + entry;
    put(path, before);
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        // The system kills a process whose file grows past this many bytes.
        const rlimit few{40, 40};
        const rlimit no_core{0, 0};
        ::signal(SIGXFSZ, SIG_DFL);
        ::setrlimit(RLIMIT_CORE, &no_core);
        ::setrlimit(RLIMIT_FSIZE, &few);
        (void)feed::io::append_observation(path, look(), 60);
        ::_exit(0);
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    REQUIRE(WIFSIGNALED(status));
    const auto left = folder.names();
    REQUIRE(left.size() == 2);
    CHECK(left[1].substr(0, 14) == "bin.yaml.feed-");
    CHECK(content(path) == before);
    REQUIRE(feed::io::append_observation(path, look(), 60));
    CHECK(folder.names() == std::vector<std::string>{"bin.yaml"});
    CHECK(content(path) == before + entry);
}

TEST_CASE("only what a dead writer of the same diary left is cleared") {
    const Folder folder;
    const std::string path = folder.file("bin.yaml");
    const pid_t dead = ::fork();
    REQUIRE(dead >= 0);
    if (dead == 0) ::_exit(0);
    REQUIRE(::waitpid(dead, nullptr, 0) == dead);
    const std::string number = std::to_string(dead);
    const std::string random = "-0123456789abcdef";
    std::vector<std::string> kept{
        "bin.yaml",                                               // the diary
        "bin.yaml.new-2026",                                      // the keeper's own
        "bin.yaml.new-" + number,                                 // the keeper's own
        "bin.yaml.feed-",                                         // no number
        "bin.yaml.feed-" + number,                                // nothing random
        "bin.yaml.feed-1234567890123" + random,                   // no process
        "bin.yaml.feed-" + number + "-0123456789abcdeg",          // not ours
        "bin.yaml.feed-" + number + random + ".txt",              // the keeper's own
        "bin.yaml.feed-" + std::to_string(::getppid()) + random,  // somebody who lives
        "other.yaml.feed-" + number + random,                     // another diary
    };
    for (const auto& name : kept)
        put(folder.file(name), "libfeed: 1\n");
    const std::string gone = path + ".feed-" + number + random;
    put(gone, "x");
    REQUIRE(feed::io::append_observation(path, look()));
    std::sort(kept.begin(), kept.end());
    CHECK(folder.names() == kept);
    // A folder of that name is nobody's rest.
    REQUIRE(::mkdir(gone.c_str(), 0777) == 0);
    REQUIRE(feed::io::append_observation(path, look()));
    CHECK(folder.names().size() == kept.size() + 1);
}
