#include <string>

#include "catch2.hpp"
#include "feed/io/note.hpp"
#include "feed/io/trial_answer.hpp"
#include "trial_files.hpp"

// The plan as a whole file: laid, noted in and read.

namespace io = feed::io;
using feed_test::has;
using feed_test::plan_of;
using feed_test::read_file;

namespace {

// Invented: a keeper's own file, with remarks, a word of their own and unlike bins.
constexpr std::string_view written = R"(# my bins
libfeed: 1
title: 'rinds: which first?'
words: {rind: watermelon rind}
bed:
  date: 2026-09-01
  container: {inside: 60 x 40 x 35 cm}  # the blue one
  depth_of_contents: 25 cm
  worms: 900 g
  squeeze: drops
  age: 40 weeks
  temperature: 20 C
trial:
  # two rinds
  feeds: [rind, pumpkin]
  bins:
    - tote
    - name: "shed: left"
      bed: {container: 60 L tote, worms: 500 g, squeeze: drops, age: 40 weeks, temperature: 18 C}
  portion: 60 g  # of the rind
  laid_by: Noor
feedings:
  - {date: 2026-08-20, portions: [200 g carrot]}
)";

std::string plan_as_file(const std::string& text, io::TrialPlan* plan = nullptr) {
    const auto file = read_file(text);
    const auto found = plan_of(file);
    if (!found) FAIL(io::errors_text(found.errors()));
    if (plan != nullptr) *plan = *found;
    const auto whole = io::trial_plan_yaml(file, *found);
    if (!whole) FAIL(io::errors_text(whole.errors()));
    return *whole;
}

}  // namespace

TEST_CASE("the plan as a file keeps all that the keeper wrote and has all that the plan adds") {
    io::TrialPlan plan;
    const std::string whole = plan_as_file(std::string(written), &plan);
    INFO(whole);
    // Every line of the keeper's, in order.
    std::size_t at = 0;
    std::string_view rest = written;
    while (!rest.empty()) {
        const std::string_view line = rest.substr(0, rest.find('\n') + 1);
        at = whole.find(line, at);
        REQUIRE(at != std::string::npos);
        rest.remove_prefix(line.size());
    }
    CHECK(has(whole, "\n# plot 1: tote, round 1, place 1: "));
    const auto again = read_file(whole);
    CHECK(again.has_bed);
    CHECK(again.trial_bins[1].has_value());
    CHECK(again.trial->seed == plan.layout.seed);
    CHECK(again.trial->last_day == plan.trial.last_day);
    CHECK(again.trial->design.portions == plan.trial.design.portions);
    // Planned again it is as it was.
    CHECK(plan_as_file(whole) == whole);
}

TEST_CASE("the plan as a file is laid, noted in and read") {
    io::TrialPlan plan;
    std::string text = plan_as_file(std::string(written), &plan);
    const auto at = text.find("# start: the day on which it is laid");
    REQUIRE(at != std::string::npos);
    text.replace(at, 36, "start: 2026-09-05");
    for (const auto& [day, word] : {std::pair{9, " not gone"}, std::pair{20, " gone"}}) {
        const auto noted =
            io::with_note(text, "plots 1-" + std::to_string(plan.layout.plots.size()) + word,
                          {2026, 9, day}, "Ada", "bin.yaml");
        if (!noted) FAIL(io::errors_text(noted.errors()));
        text = noted->text;
    }
    const auto file = read_file(text);
    const auto reading = io::trial_reading_of(file);
    REQUIRE(reading);
    REQUIRE(reading->layout.plots.size() == plan.layout.plots.size());
    for (std::size_t i = 0; i < plan.layout.plots.size(); ++i)
        CHECK(reading->layout.plots[i].feed == plan.layout.plots[i].feed);
    CHECK(reading->ended);
    CHECK(reading->counts[0].by_end == reading->counts[0].of);
}

TEST_CASE("a portion that the bed does not bear stands in the file as it is to be laid") {
    std::string text(written);
    text.replace(text.find("portion: 60 g"), 13, "portion: 2 kg");
    io::TrialPlan plan;
    const std::string whole = plan_as_file(text, &plan);
    REQUIRE(plan.asked_share < 1.0);
    CHECK(has(whole, "  # of the rind"));
    CHECK(read_file(whole).trial->portion->in_kilograms() ==
          feed_test::Approx(plan.portions.fresh.front().in_kilograms()).epsilon(0.01));
}

TEST_CASE("files in one line, in JSON and with other line ends are written as well") {
    const std::string line =
        "libfeed: 1\ntrial: {feeds: [watermelon rind, pumpkin], bins: [a, 'b, c']}\n";
    CHECK(has(plan_as_file(line), "trial: {portions: 1, seed: "));
    const std::string json =
        R"({"libfeed": 1, "trial": {"feeds": ["watermelon rind", "pumpkin"], "bins": 2}})";
    const std::string whole = plan_as_file(json);
    CHECK(whole.front() == '{');
    CHECK(whole.back() == '}');
    CHECK(has(whole, "\"trial\": {\"portions\": 1, \"seed\": "));
    std::string other;
    for (const char c : written)
        other += c == '\n' ? std::string("\r\n") : std::string(1, c);
    CHECK(has(plan_as_file(other), "\r\n  seed: "));
    // Behind an alias there is no place to write to: said, with the line.
    const auto file =
        read_file("libfeed: 1\nwords: &none {}\ntrial: &a {feeds: [apple, carrot], bins: 2}\n");
    const auto plan = plan_of(file);
    REQUIRE(plan);
    const auto anchored = io::trial_plan_yaml(file, *plan);
    if (!anchored) CHECK(anchored.errors()[0].line == 3);
    if (anchored) CHECK(read_file(*anchored).trial->seed == plan->layout.seed);
}
