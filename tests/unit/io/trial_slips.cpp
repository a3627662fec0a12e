// What a keeper of a trial could trip over: each of these once went through or was said wrongly.
#include <string>

#include "catch2.hpp"
#include "feed/io/note.hpp"
#include "feed/io/trial_answer.hpp"
#include "feed/io/trial_pictures.hpp"
#include "trial_files.hpp"

namespace io = feed::io;
using feed_test::first_problem;
using feed_test::has;
using feed_test::plan_of;
using feed_test::read_file;

namespace {

// Invented, like all bins here.
std::string file_of(std::string_view rest) {
    return "libfeed: 1\nbed:\n  date: 2026-09-01\n  container: {inside: 60 x 40 x 35 cm}\n"
           "  worms: 900 g\n  squeeze: drops\n  age: 40 weeks\n  temperature: 20 C\n"
           "trial:\n  feeds: [watermelon rind, pumpkin]\n" +
           std::string(rest);
}

io::TrialPlan planned(const std::string& text) {
    const auto plan = plan_of(read_file(text));
    if (!plan) FAIL(io::errors_text(plan.errors()));
    return *plan;
}

std::string lines_of(const io::TrialPlan& plan) {
    std::string all;
    for (const std::string& line : io::trial_plan_lines(plan, io::UnitSystem::metric))
        all += line + "\n";
    return all;
}

std::string lines_of(const io::FeedFile& file) {
    const auto reading = io::trial_reading_of(file);
    if (!reading) FAIL(io::errors_text(reading.errors()));
    std::string all;
    for (const std::string& line : io::trial_reading_lines(*file.trial, *reading))
        all += line + "\n";
    return all;
}

constexpr std::string_view laid =
    "  bins: 3\n  portion: 60 g\n  seed: 7\n  last_day: 24\n  start: 2026-09-01\n";
constexpr std::string_view small_bin =
    "  bins:\n    - tote\n    - name: tray\n      bed: {container: 20 L tray, worms: 200 g, "
    "temperature: 12 C, squeeze: drops}\n";
/// Two rounds of feeds alone, so many days of looks in each.
std::string alone(int first, int second) {
    std::string text = file_of(
        "  kind: alone\n  bins: 4\n  seed: 7\n  last_day: 18\n  start: [2026-09-01, 2026-10-01]\n"
        "observations:\n");
    for (int day = 3; day <= first; day += 3)
        text += "  - {date: 2026-09-" + std::string(day < 9 ? "0" : "") + std::to_string(day + 1) +
                ", plots: plots 1-4 not gone}\n";
    for (int day = 3; day <= second; day += 3)
        text += "  - {date: 2026-10-" + std::string(day < 9 ? "0" : "") + std::to_string(day + 1) +
                ", plots: plots 5-8 not gone}\n";
    return text;
}

}  // namespace

TEST_CASE("a note at a trial of bins unlike each other gives one bin's ration to that bin alone") {
    const std::string looks = "observations: [{date: 2026-09-04, plots: plot 1 half left}]\n";
    const std::string days = "  seed: 7\n  last_day: 24\n  start: 2026-09-01\n";
    const std::string unlike =
        io::trial_progress(read_file(file_of(std::string(small_bin) + days + looks)));
    CHECK_FALSE(has(unlike, "all bins alike"));
    CHECK(has(unlike, "What follows is for tote alone"));
    CHECK(has(io::trial_progress(read_file(file_of("  bins: 2\n" + days + looks))),
              "all bins alike"));
}

TEST_CASE("the sheet says to wait where the plan does") {
    std::string wet = file_of("  bins: 3\n");
    wet.replace(wet.find("drops"), 5, "pooling");
    const auto wait = planned(wet);
    REQUIRE(has(wait.wait, "Wait with the trial"));
    const auto pages = io::trial_sheet(wait, "", io::Paper::a4);
    CHECK(has(pages.front(), "Wait with the trial"));
    CHECK_FALSE(has(io::trial_sheet(planned(file_of("  bins: 3\n")), "", io::Paper::a4).front(),
                    "Wait with the trial"));
}

TEST_CASE("that nobody judged the bins is said before what only blurs the answer") {
    const auto plan =
        planned("libfeed: 1\ntrial: {feeds: [apple, carrot, coffee grounds], bins: 3}\n");
    REQUIRE(plan.notes.size() > 1);
    CHECK(plan.notes.front().find("No bed is described") == 0);
    CHECK(has(lines_of(plan), "No bed is described and judged: add bed:"));
}

TEST_CASE("a plan says what is made equal and why, and to weigh what is prepared before") {
    CHECK(has(lines_of(planned(file_of("  bins: 3\n"))), "equal dry matter, as much to eat."));
    CHECK(has(lines_of(planned(file_of("  bins: 3\n  question: found\n"))),
              "equal volume, as a larger heap is met sooner."));
    std::string two = file_of("  bins: 3\n");
    two.replace(two.find("pumpkin"), 7,
                "{feedstock: watermelon rind, preparation: frozen and thawed}");
    const auto plan = planned(two);
    CHECK(has(lines_of(plan), "equal fresh weight, as it is one food. Weigh it fresh; its drip"));
    CHECK(has(lines_of(plan), "A portion of each is 100 g"));
    CHECK(has(io::trial_sheet(plan, "", io::Paper::a4).front(), "Weigh it fresh; its drip"));
}

TEST_CASE("rounds are told apart: days count from the start of each") {
    CHECK(has(lines_of(planned(file_of("  kind: alone\n  bins: 4\n"))), "in each round. On day "));
    const std::string second = lines_of(read_file(alone(18, 6)));
    CHECK(has(second, "Round 2, the last, ends on its day 18; the last look was on day 6."));
    CHECK_FALSE(has(second, "before its end"));
    // A round broken off before its planned end: nothing is clear any more.
    const auto broken = read_file(alone(9, 18));
    CHECK(has(lines_of(broken), "Round 1 was last looked at on day 9, before its end on day 18"));
    const auto reading = io::trial_reading_of(broken);
    REQUIRE(reading);
    CHECK(reading->ended);
    CHECK_FALSE(reading->valid);
    std::string first = alone(18, 0);
    first.replace(first.find(", 2026-10-01"), 12, "");
    CHECK(has(lines_of(read_file(first)), "Round 2 of 2 is not laid yet."));
    CHECK(has(lines_of(read_file(first)), "0 of 2 watermelon rind and 0 of 2 pumpkin"));
}

TEST_CASE("a weight above what was laid is asked back, and the looker stays blind") {
    const std::string text = file_of(laid);
    const auto noted = io::with_note(text, "plot 3 500 g left", {2026, 9, 8}, "Ada", "bin.yaml");
    REQUIRE_FALSE(noted);
    const feed::Error& error = noted.errors()[0];
    CHECK(error.field == "plots");
    CHECK(error.value == "plot 3");
    CHECK(has(error.message, "\"500 g left\". More than was laid: is the weight right?"));
    CHECK_FALSE(has(error.message + error.allowed, "60 g"));
    CHECK(io::with_note(text, "plot 3 20 g left", {2026, 9, 8}, "Ada", "bin.yaml"));
    // Written by hand it is read, said, and nothing is clear.
    const auto file =
        read_file(text + "observations: [{date: 2026-09-08, plots: plot 3 500 g left}]\n");
    const auto reading = io::trial_reading_of(file);
    REQUIRE(reading);
    CHECK_FALSE(reading->valid);
    CHECK(has(reading->flaws.front(), "More than was laid"));
}

TEST_CASE("an amount at one feed only, or beside a portion, is not dropped in silence") {
    std::string text = file_of("  bins: 3\n");
    text.replace(text.find("pumpkin"), 7, "100 g pumpkin");
    auto error = first_problem(text);
    CHECK(error.field == "trial: feeds");
    CHECK(error.value == "pumpkin");
    CHECK(error.line == 10);
    text.replace(text.find("watermelon"), 10, "60 g watermelon");
    CHECK(read_file(text).trial->feeds[1].written->in_kilograms() == feed_test::Approx(0.1));
    error = first_problem(text + "  portion: 60 g\n");
    CHECK(error.field == "trial: portion");
    CHECK(error.line == 12);
}

TEST_CASE("two bins of one name are refused") {
    const auto error = first_problem(file_of("  bins: [porch, shed, porch]\n"));
    CHECK(error.code == feed::ErrorCode::duplicate_entry);
    CHECK(error.value == "porch");
    CHECK(error.line == 11);
}

TEST_CASE("what shows only when a trial is planned or read names its line too") {
    const auto unseeded = io::trial_reading_of(read_file(file_of("  bins: 3\n  last_day: 24\n")));
    REQUIRE_FALSE(unseeded);
    CHECK(unseeded.errors()[0].line == 10);  // the section: the key is not there
    const auto large = plan_of(read_file(file_of("  bins: 3\n  portion: 90 kg\n")));
    REQUIRE_FALSE(large);
    CHECK(large.errors()[0].line == 12);
    CHECK(large.errors()[0].value == "90 kg");
    const auto noted = io::with_note(file_of("  bins: 3\n  seed: 7\n  last_day: 24\n"),
                                     "plot 1 gone", {2026, 9, 8}, "", "bin.yaml");
    REQUIRE_FALSE(noted);
    CHECK(noted.errors()[0].line == 10);
}

TEST_CASE("a bin unlike the first has looks of its own, and smaller portions say which bin") {
    const std::string seen =
        "      observations: [{date: 2026-09-01, squeeze: pooling, smell: sour}]\n";
    CHECK(planned(file_of(small_bin)).wait.empty());
    CHECK(has(planned(file_of(std::string(small_bin) + seen)).wait, "Wait with the trial: tray "));
    CHECK(
        has(planned(file_of(std::string(small_bin) + "  portion: 300 g\n")).why_smaller, "tray: "));
    const auto error = first_problem(file_of(
        std::string(small_bin) + "      observations: [{date: 2026-09-01, plots: plot 1 gone}]\n"));
    CHECK(error.field == "trial: bins: entry 2: observations: entry 1: plots");
}

TEST_CASE("long names stay within their places on the sheet") {
    const auto plan = planned(
        file_of("  bins: [the tote under the stairs beside the old green garden door, b, c]\n"));
    for (const std::string& page : io::trial_sheet(plan, "", io::Paper::a4))
        CHECK_FALSE(has(page, "garden door</text>"));
    CHECK(has(io::trial_sheet(plan, "", io::Paper::a4).front(), "the tote under the stairs"));
}

TEST_CASE("more than eight bins have their number beside the shape; early looks have room") {
    std::string text = file_of("  bins: 9\n  seed: 7\n  last_day: 24\n  start: 2026-09-01\n");
    text += "observations: [{date: 2026-09-03, plots: plots 1-18 not gone}]\n";
    const auto file = read_file(text);
    const auto reading = io::trial_reading_of(file);
    REQUIRE(reading);
    const std::string svg = io::trial_svg(*file.trial, *reading, "");
    CHECK(has(svg, ">9</text>"));
    CHECK_FALSE(has(svg, "text-anchor=\"end\">not yet"));
}

TEST_CASE("a plan that waits says what to do first, and what to lay only behind --why") {
    std::string wet = file_of("  bins: 3\n");
    wet.replace(wet.find("drops"), 5, "pooling");
    const auto plan = planned(wet);
    const std::string first = io::trial_plan_text(plan, io::UnitSystem::metric, false);
    CHECK(first.find("Wait with the trial: the bin needs help first.") == 0);
    CHECK_FALSE(has(first, "Lay "));
    CHECK_FALSE(has(first, "seed:"));
    CHECK(has(io::trial_plan_text(plan, io::UnitSystem::metric, true), "- Lay 2 plots"));
}

TEST_CASE("unequal portions are said by the plan and by the reading, and nothing is told") {
    std::string text = file_of("  bins: 6\n  seed: 7\n  last_day: 24\n  start: 2026-09-01\n");
    text.replace(text.find("[watermelon rind, pumpkin]"), 26,
                 "[200 g watermelon rind, 30 g pumpkin]");
    const std::string plan = lines_of(planned(text));
    CHECK(has(plan, "With this you can tell nothing: the portions are unequal."));
    CHECK_FALSE(has(plan, "What helps most"));
    text += "observations: [{date: 2026-09-25, plots: plots 1-12 gone}]\n";
    const std::string read = lines_of(read_file(text));
    CHECK(has(read, "first: it was no fair trial.\nThe portions were unequal from the start"));
    CHECK_FALSE(has(read, "-fold"));
}

TEST_CASE("who laid the trial and looked gets no number and no clear answer") {
    const auto layout = feed::draw_layout({feed::TrialKind::choice, 2, 6, 1, 1, false}, 7);
    std::string text = file_of(
        "  bins: 6\n  seed: 7\n  last_day: 24\n  start: 2026-09-01\n  laid_by: Noor\n"
        "observations:\n");
    for (int day = 3; day <= 24; day += 3) {
        const feed::Date date{2026, 9, 1 + day};
        text += "  - date: " + feed::text(date) + "\n    by: noor\n    plots:\n";
        for (const auto& plot : layout->plots)
            text += "      - plot " + std::to_string(plot.number) +
                    (day >= (*plot.feed == 0 ? 6 : 18) ? " gone\n" : " not gone\n");
    }
    // Said at each look as well, while another may still take the next.
    CHECK(has(io::trial_progress(read_file(text)), "Noor laid it and knows the key: let another"));
    const std::string said = lines_of(read_file(text));
    CHECK(has(said,
              "\nProbably watermelon rind is gone before pumpkin. It is not clear, as who "
              "looked knew the key.\nNoor laid the portions and also looked"));
    for (const char* number : {"Clear", " sure)", "luck alone", "times as long"})
        CHECK_FALSE(has(said, number));
}

TEST_CASE("portions that the bin has no room for are made smaller, however little worms mind") {
    std::string text = file_of("  bins: 2\n  question: found\n  portion: 2 kg\n");
    text.replace(text.find("[watermelon rind, pumpkin]"), 26,
                 "[shredded corrugated cardboard, shredded newspaper]");
    const auto plan = planned(text);
    CHECK(plan.asked_share < 1.0);
    CHECK(has(plan.why_smaller, "no room for so much"));
}

TEST_CASE("a trial at which nobody looked says that alone") {
    CHECK(lines_of(read_file(file_of(laid))) ==
          "Nobody has looked yet; the trial ends on day 24.\n");
}
