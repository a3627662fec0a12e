#include "catch2.hpp"
#include "feed/io/diary_append.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/note.hpp"
#include "feed/io/observation_text.hpp"
#include "feed/io/trial_answer.hpp"

namespace io = feed::io;

namespace {

constexpr std::string_view head = "libfeed: 1\nobservations:\n  - date: 2026-03-16\n    by: Ada\n";

// Invented: two feeds side by side in three bins, and one look.
constexpr std::string_view trial = R"(libfeed: 1
trial:
  feeds: [watermelon rind, pumpkin]
  bins: 3
  seed: 7
  last_day: 24
  start: 2026-03-10
observations:
  - date: 2026-03-16
    plots: [plots 1-2 half left, plot 5 gone]
)";

std::vector<std::string> noted(std::string_view words) {
    const auto with = io::with_note(trial, words, {2026, 3, 18}, "Ada", "bin.yaml");
    INFO(words);
    if (!with) FAIL(with.errors()[0].message);
    CHECK(with->file.diary.observations.back().by == "Ada");
    std::vector<std::string> looks;
    for (const auto& look : with->file.diary.observations.back().plots)
        looks.push_back(text(look));
    return looks;
}

feed::Error refused(std::string_view words, std::string_view file = trial) {
    const auto with = io::with_note(file, words, {2026, 3, 18}, "", "bin.yaml");
    INFO(words);
    REQUIRE_FALSE(with);
    return with.errors()[0];
}

using Texts = std::vector<std::string>;

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

TEST_CASE("a note takes looks at plots in the words of the sheet") {
    CHECK(noted("plot 3 gone") == Texts{"plot 3 gone"});
    CHECK(noted("Plots 3 and 4: worms few, photo A.JPG") ==
          Texts{"plot 3 worms few, photo A.JPG", "plot 4 worms few, photo A.JPG"});
    CHECK(noted("plot 3 gone; plot 4 30 g left") == Texts{"plot 3 gone", "plot 4 30 g left"});
    CHECK(noted("plot 3 gone and 4 half left, worms many") ==
          Texts{"plot 3 gone", "plot 4 half left, worms many"});
    CHECK(noted("plots 1, 2 and 4 not gone") ==
          Texts{"plot 1 not gone", "plot 2 not gone", "plot 4 not gone"});
    CHECK(noted("plots 1, 2 half left and 3, 4 gone") ==
          Texts{"plot 1 half left", "plot 2 half left", "plot 3 gone", "plot 4 gone"});
    CHECK(noted("yesterday plot 3 gone").size() == 1);
    // Two words on one plot are one look.
    CHECK(noted("plot 3 gone, plot 3 worms none") == Texts{"plot 3 gone, worms none"});
}

TEST_CASE("what is said of the bed beside the plots stays the bed's") {
    const auto with = io::with_note(trial,
                                    "plot 3 half left, smell sour, worms 500 g, note plot 4 "
                                    "looks dug up",
                                    {2026, 3, 18}, "", "bin.yaml");
    REQUIRE(with);
    const auto& seen = with->file.diary.observations.back();
    REQUIRE(seen.plots.size() == 1);
    CHECK(seen.smell == feed::Smell::sour);
    CHECK(seen.worm_weight);
    CHECK(seen.note == "plot 4 looks dug up");
    CHECK_FALSE(seen.share_gone);
}

TEST_CASE("plots of which the same was seen share a line of the diary") {
    const auto with =
        io::with_note(trial, "plots 1-3 and 6 worms few", {2026, 3, 18}, "", "bin.yaml");
    REQUIRE(with);
    CHECK(with->entry.find("      - \"plots 1-3 and 6 worms few\"\n") != std::string::npos);
}

TEST_CASE("more left than before is asked back with the line of the other look") {
    const auto error = refused("plot 2 three quarters left");
    CHECK(error.code == feed::ErrorCode::contradiction);
    CHECK(error.message.find("Plot 2: on 2026-03-16 \"half left\", on 2026-03-18 \"three quarters "
                             "left\"") == 0);
    CHECK(error.file == "bin.yaml");
    CHECK(error.line == 10);
    CHECK(refused("plot 5 not gone").line == 10);
    // A look of an earlier day is asked back against the later one.
    CHECK(refused("2026-03-12 plot 1 a quarter left").line == 10);
    // As much as before, or less, is no question; nor is one that stood there already.
    CHECK(noted("plot 2 half left").size() == 1);
    const std::string torn =
        std::string(trial) + "  - {date: 2026-03-17, plots: plot 5 not gone}\n";
    CHECK(io::with_note(torn, "plot 1 gone", {2026, 3, 18}, "", "bin.yaml"));
}

TEST_CASE("looks that cannot be are refused and say how they could") {
    CHECK(refused("plot 3").message.find("what was seen") != std::string::npos);
    CHECK(refused("plot 3 gone, plot 3 half left").code == feed::ErrorCode::contradiction);
    CHECK(refused("plot 3 vanished").message.find("vanished") != std::string::npos);
    CHECK(refused("plot 7 gone").allowed == "plot 1 to 6");
    CHECK(refused("2026-03-09 plot 3 gone").message ==
          "plot 3 was laid on 2026-03-10, after this look");
    CHECK(refused("plot 3 gone", "libfeed: 1\n").message.find("no trial") != std::string::npos);
    std::string unlaid(trial.substr(0, trial.find("  start")));
    CHECK(refused("plot 3 gone", unlaid).allowed.find("start: ") == 0);
    // A file that says so itself names its line.
    const auto early = io::read_feed_text(
        std::string(trial) + "  - {date: 2026-03-09, plots: plot 3 gone}\n", "bin.yaml");
    REQUIRE_FALSE(early);
    CHECK(early.errors()[0].line == 11);
}

TEST_CASE("whoever looks is told how far the trial is, and nothing of the feeds") {
    const auto with = io::with_note(trial, "plot 3 gone", {2026, 3, 18}, "", "bin.yaml");
    REQUIRE(with);
    CHECK(io::trial_progress(with->file) ==
          "Trial, day 8 of 24: 2 of 6 portions are gone. Feed away from its places, and all bins "
          "alike.");
    const auto end = io::with_note(trial, "plots 1-6 gone", {2026, 3, 18}, "", "bin.yaml");
    REQUIRE(end);
    CHECK(io::trial_progress(end->file).find("feed trial read") != std::string::npos);
    const auto other = io::with_note(trial, "smell sour", {2026, 3, 18}, "", "bin.yaml");
    REQUIRE(other);
    CHECK(io::trial_progress(other->file).empty());
}
