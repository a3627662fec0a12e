#include "catch2.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/observation_text.hpp"

namespace io = feed::io;

namespace {

constexpr std::string_view head = "libfeed: 1\nobservations:\n  - date: 2026-03-16\n    by: Ada\n";

}  // namespace

TEST_CASE("looks at plots are read from a diary and written back as the same words") {
    const auto file = io::read_feed_text(
        std::string(head) + "    plots: [plot 3 gone, 'plots 1-2 half left']\n", "");
    REQUIRE(file);
    const auto& seen = file->diary.observations.at(0);
    REQUIRE(seen.plots.size() == 3);
    CHECK(seen.plots[0].gone == true);
    CHECK(seen.plots[2].plot == 2);
    CHECK(seen.plots[2].share_left == 0.5);
    const auto again =
        io::read_feed_text("libfeed: 1\nobservations:\n" + io::observation_yaml(seen), "");
    REQUIRE(again);
    REQUIRE(again->diary.observations.at(0).plots.size() == 3);
    for (std::size_t i = 0; i < 3; ++i)
        CHECK(text(again->diary.observations[0].plots[i]) == text(seen.plots[i]));
}

TEST_CASE("one look needs no list") {
    const auto file = io::read_feed_text(std::string(head) + "    plots: plot 3 gone\n", "");
    REQUIRE(file);
    CHECK(file->diary.observations.at(0).plots.size() == 1);
}

TEST_CASE("a look that is not understood names entry, words and line") {
    const auto file = io::read_feed_text(
        std::string(head) + "    plots:\n      - plot 3 gone\n      - plot 4 vanished\n",
        "bin.yaml");
    REQUIRE_FALSE(file);
    REQUIRE(file.errors().size() == 1);
    const auto& error = file.errors()[0];
    CHECK(error.field == "observations: entry 1: plots");
    CHECK(error.line == 7);
    CHECK(error.message.find("vanished") != std::string::npos);
    CHECK(error.allowed.find("half left") != std::string::npos);
}
