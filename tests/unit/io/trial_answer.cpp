#include "feed/io/trial_answer.hpp"

#include <algorithm>

#include "catch2.hpp"
#include "feed/io/trial_pictures.hpp"
#include "trial_files.hpp"

namespace io = feed::io;
using feed_test::first_problem;
using feed_test::plan_of;
using feed_test::read_file;

namespace {

// Invented: two rinds in six totes, watched to the end.
constexpr std::string_view watched_head = R"(libfeed: 1
bed:
  date: 2026-09-01
  container: {inside: 60 x 40 x 35 cm}
  depth_of_contents: 25 cm
  worms: 900 g
  squeeze: drops
  age: 40 weeks
  temperature: 20 C
trial:
  feeds: [watermelon rind, pumpkin]
)";

std::string watched_file(std::string_view rest) {
    return std::string(watched_head) + std::string(rest);
}

/// The words of a text with one blank between them.
std::string flat(const std::string& text) {
    std::string words;
    for (const char c : text) {
        const bool blank = c == ' ' || c == '\n';
        if (!blank || (!words.empty() && words.back() != ' ')) words += blank ? ' ' : c;
    }
    return words;
}

std::size_t lines_in(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

std::string watched(std::size_t until) {
    const auto layout = feed::draw_layout({feed::TrialKind::choice, 2, 6, 1, 1, false}, 7);
    std::string text =
        watched_file("  bins: 6\n  seed: 7\n  last_day: 24\n  start: 2026-09-01\nobservations:\n");
    for (std::size_t day = 3; day <= until; day += 3) {
        text += "  - date: 2026-09-" + std::string(day < 9 ? "0" : "") + std::to_string(day + 1) +
                "\n    plots:\n";
        for (const auto& plot : layout->plots)
            text += "      - plot " + std::to_string(plot.number) +
                    (day >= (*plot.feed == 0 ? 9U : 18U) ? " gone\n" : " not gone\n");
    }
    return text;
}

}  // namespace

TEST_CASE("a plan names portions, days, what it can tell, and the lines to write") {
    const auto file = read_file(watched_file("  bins: 4\n"));
    const auto plan = plan_of(file);
    REQUIRE(plan);
    const std::string text = io::trial_plan_text(*plan, io::UnitSystem::metric, false);
    INFO(text);
    CHECK(lines_in(text) <= 12);
    CHECK(text.find("Choice") == 0);
    CHECK(text.find("watermelon rind") != std::string::npos);
    CHECK(flat(text).find("equal dry matter") != std::string::npos);
    CHECK(flat(text).find("With this you can") != std::string::npos);
    CHECK(text.find("seed: " + std::to_string(plan->layout.seed)) != std::string::npos);
    // The looker may read it: no place is named with its feed.
    CHECK(text.find("plot 1:") == std::string::npos);
    CHECK(plan->look_days.back() == *plan->trial.last_day);
    // Two of each have room in every tote: six ways to lay them, in four totes.
    CHECK(plan->smallest.overall == feed_test::Approx(2.0 / 1296));
    // The same file gives the same plan.
    CHECK(plan_of(file)->layout.seed == plan->layout.seed);
}

TEST_CASE("a plan too small to tell anything says so") {
    const auto plan = plan_of(read_file(watched_file("  bins: 3\n  portions: 1\n")));
    REQUIRE(plan);
    const std::string text = io::trial_plan_text(*plan, io::UnitSystem::metric, false);
    INFO(text);
    CHECK(flat(text).find("tell nothing for certain") != std::string::npos);
    // Three more bins would show more, but a second portion is far less work.
    CHECK(flat(text).find("What helps most: one more portion") != std::string::npos);
    CHECK(plan->changes.back().text == "three more bins");
}

TEST_CASE("a change that nobody granted looks for is told with what it costs") {
    const auto plan = plan_of(read_file(watched_file("  bins: 6\n  portions: 1\n  looks: 3\n")));
    REQUIRE(plan);
    CHECK(plan->look_days.size() == 3);
    const std::string why = flat(io::trial_plan_text(*plan, io::UnitSystem::metric, true));
    INFO(why);
    CHECK(why.find(" looks instead of 3, a 1.5-fold difference would show in ") !=
          std::string::npos);
    CHECK(plan->changes.front().power > plan->power[1][1]);
}

TEST_CASE("without a number of portions a plan lays two or three where there is room") {
    const auto chosen = [](const std::string& rest) {
        const auto plan = plan_of(read_file(watched_file(rest)));
        if (!plan) FAIL(io::errors_text(plan.errors()));
        return *plan;
    };
    // Four totes with two of each tell a 2-fold difference; three totes do not and take a third.
    const auto two = chosen("  bins: 4\n");
    CHECK(two.trial.design.portions == 2);
    const auto three = chosen("  bins: 3\n");
    CHECK(three.trial.design.portions == 3);
    const std::string text = io::trial_plan_text(three, io::UnitSystem::metric, false);
    CHECK(flat(text).find("Lay 6 plots in each of 3 bins, 3 of each feed,") != std::string::npos);
    const std::string line = "portions: 3   seed: " + std::to_string(three.layout.seed);
    CHECK(text.find("Write under trial:  " + line + "   last_day: ") != std::string::npos);
    CHECK(io::to_json(three).find("\"portions\": 3") != std::string::npos);
    // The lines of the screen, whole, for whoever shows it.
    const auto lines = io::trial_plan_lines(three, io::UnitSystem::metric);
    CHECK(lines.front().find("Choice: ") == 0);
    for (const std::string& line : lines)
        CHECK(io::to_json(three).find("\"" + line + "\"") != std::string::npos);
    // The same number, written by the keeper, is the same plan.
    const auto written = chosen("  bins: 4\n  portions: 2\n");
    CHECK(written.layout.seed == two.layout.seed);
    CHECK(io::trial_plan_text(written, io::UnitSystem::metric, false).find("portions:") ==
          std::string::npos);
    // No room: portions so large that the bed bears one of each at most; more plots than anyone
    // looks at; one feed a bin; a seed that was drawn already.
    CHECK(chosen("  bins: 3\n  portion: 1 kg\n").trial.design.portions == 1);
    CHECK(chosen("  bins: 13\n").trial.design.portions == 1);
    CHECK(chosen("  kind: alone\n  bins: 4\n").trial.design.portions == 1);
    CHECK(chosen("  bins: 3\n  seed: 7\n").trial.design.portions == 1);
    // Nobody knows whether there is room.
    const auto bare =
        plan_of(read_file("libfeed: 1\ntrial: {feeds: [watermelon rind, pumpkin], bins: 3}\n"));
    REQUIRE(bare);
    CHECK(bare->trial.design.portions == 1);
    CHECK(flat(io::trial_plan_text(*bare, io::UnitSystem::metric, true))
              .find("1 portion of each feed in a bin: no bed is described") != std::string::npos);
}

TEST_CASE("a seed drawn for several portions does not read as one of each") {
    const auto plan = plan_of(read_file(watched_file("  bins: 4\n")));
    REQUIRE(plan);
    const std::string seed = "  seed: " + std::to_string(plan->layout.seed) + "\n";
    const auto error = first_problem(watched_file("  bins: 4\n  start: 2026-09-05\n" + seed));
    CHECK(error.field == "trial: portions");
    CHECK(error.allowed == "portions: 2");
    CHECK(error.line == 14);
    const auto mended = read_file(watched_file("  bins: 4\n  portions: 2\n" + seed));
    CHECK(feed::plots_of(mended.trial->design) == 16);
}

TEST_CASE("the bin that bears least decides of bins that are described one by one") {
    const std::string bins = "  portion: 300 g\n  bins:\n    - tote\n    - name: bucket\n";
    const std::string bucket =
        "      bed: {container: 15 L bucket, worms: 150 g, age: 40 weeks, temperature: 12 C, "
        "squeeze: ";
    const auto alike = plan_of(read_file(watched_file(bins)));
    const auto unlike = plan_of(read_file(watched_file(bins + bucket + "drops}\n")));
    REQUIRE(alike);
    REQUIRE(unlike);
    CHECK(alike->asked_share == 1.0);
    CHECK(unlike->asked_share < 1.0);
    // The cold bucket is the slower one.
    CHECK(unlike->expected_days[0] > 1.2 * alike->expected_days[0]);
    CHECK(*unlike->trial.last_day > *alike->trial.last_day);
    const auto wet = plan_of(read_file(watched_file(bins + bucket + "pooling}\n")));
    REQUIRE(wet);
    CHECK(wet->wait.find("Wait with the trial: bucket ") == 0);
    // What went into it yesterday counts as well.
    const auto fed = plan_of(
        read_file(watched_file(bins + bucket + "drops, date: 2026-08-20}\n" +
                               "      feedings: [{date: 2026-08-31, portions: [2 kg carrot]}]\n")));
    REQUIRE(fed);
    CHECK(fed->wait.find("Wait with the trial: bucket ") == 0);

    auto error =
        first_problem(watched_file("  bins: [{name: tote, bed: {worms: 1 kg}}, bucket]\n"));
    CHECK(error.field == "trial: bins: entry 1");
    CHECK(error.line == 12);
    error =
        first_problem(watched_file(bins + "      bed: {container: 15 L bucket, worms: many}\n"));
    CHECK(error.field == "trial: bins: entry 2: bed: worms");
    CHECK(error.line == 16);
    error = first_problem(watched_file(bins + "      feedings: []\n"));
    CHECK(error.field == "trial: bins: entry 2: bed");
}

TEST_CASE("a plan of too few bins alone names how many more could tell anything") {
    // Two feeds swapped: 6 bins have 20 ways, 7 have 35 with either order once more: 2 in 70.
    const auto plan = plan_of(read_file(watched_file("  kind: alone\n  bins: 4\n")));
    REQUIRE(plan);
    const std::string text = io::trial_plan_text(*plan, io::UnitSystem::metric, false);
    INFO(text);
    CHECK(flat(text).find("What helps most: three more bins") != std::string::npos);
}

TEST_CASE("a bed that bears less gets smaller portions and the line to write") {
    const auto plan = plan_of(read_file(watched_file("  bins: 2\n  portion: 3 kg\n")));
    REQUIRE(plan);
    CHECK(plan->asked_share < 1.0);
    CHECK(io::trial_plan_text(*plan, io::UnitSystem::metric, false).find("portion: ") !=
          std::string::npos);
    const auto none = plan_of(read_file(watched_file("  bins: 2\n  portion: 90 kg\n")));
    REQUIRE_FALSE(none);
    CHECK(none.errors()[0].field == "trial: portion");
}

TEST_CASE("a bed that needs help first is said before the plan") {
    std::string text = watched_file("  bins: 2\n");
    const auto at = text.find("  squeeze: drops\n");
    text.replace(at, 17, "  squeeze: pooling\n");
    const auto plan = plan_of(read_file(text));
    REQUIRE(plan);
    CHECK(io::trial_plan_text(*plan, io::UnitSystem::metric, false).find("Wait with the trial") ==
          0);
}

TEST_CASE("a trial watched to its end is read in plain counts and one clear sentence") {
    const auto file = read_file(watched(24));
    const auto reading = io::trial_reading_of(file);
    REQUIRE(reading);
    const std::string text = io::trial_reading_text(*file.trial, *reading, false);
    INFO(text);
    CHECK(lines_in(text) <= 12);
    CHECK(flat(text).find(
              "By day 9, 6 of 6 watermelon rind and 0 of 6 pumpkin portions were gone") == 0);
    CHECK(
        flat(text).find("Clear: watermelon rind is gone before pumpkin; luck alone would do this 3 "
                        "times in 100.") != std::string::npos);
    const std::string why = io::trial_reading_text(*file.trial, *reading, true);
    CHECK(flat(why).find("all 64 arrangements") != std::string::npos);
    CHECK(flat(why).find("never changes the bin's own rates") != std::string::npos);
}

TEST_CASE("of several pairs that differ the one that is surest comes first, with its ratio") {
    // Invented: apple is gone on day 6, pumpkin on day 12, the rind on day 24, in all eight totes.
    const std::string head_of_three =
        "libfeed: 1\ntrial:\n  feeds: [watermelon rind, pumpkin, apple]\n";
    const auto layout = feed::draw_layout({feed::TrialKind::choice, 3, 8, 1, 1, false}, 7);
    std::string text = head_of_three +
                       "  bins: 8\n  seed: 7\n  last_day: 24\n  start: 2026-09-01\nobservations:\n";
    constexpr std::size_t gone[] = {24, 12, 6};
    for (std::size_t day = 6; day <= 24; day += 6) {
        text += "  - date: 2026-09-" + std::string(day < 9 ? "0" : "") + std::to_string(day + 1) +
                "\n    plots:\n";
        for (const auto& plot : layout->plots)
            text += "      - plot " + std::to_string(plot.number) +
                    (day >= gone[*plot.feed] ? " gone\n" : " not gone\n");
    }
    const auto file = read_file(text);
    const auto reading = io::trial_reading_of(file);
    REQUIRE(reading);
    const std::string said = flat(io::trial_reading_text(*file.trial, *reading, false));
    INFO(said);
    const auto first = said.find("Clear: apple is gone before watermelon rind;");
    CHECK(first != std::string::npos);
    CHECK(said.find("Clear: ") == first);
    CHECK(said.find("Watermelon rind takes about ") != std::string::npos);
    CHECK(said.find("All 3 pairs can be told apart; --why lists them.") != std::string::npos);
}

TEST_CASE("read before its end a trial says so far") {
    const auto file = read_file(watched(12));
    const auto reading = io::trial_reading_of(file);
    REQUIRE(reading);
    const std::string text = io::trial_reading_text(*file.trial, *reading, false);
    INFO(text);
    CHECK(text.find("Clear") == std::string::npos);
    CHECK(text.find("So far: ") != std::string::npos);
    CHECK(text.find("ends on day 24") != std::string::npos);
}

TEST_CASE("a reading without seed, start or last day asks for all three") {
    const auto reading = io::trial_reading_of(read_file(watched_file("  bins: 6\n")));
    REQUIRE_FALSE(reading);
    REQUIRE(reading.errors().size() == 3);
    CHECK(reading.errors()[0].field == "trial: seed");
    CHECK(reading.errors()[1].field == "trial: last_day");
    CHECK(reading.errors()[2].field == "trial: start");
}

TEST_CASE("impossible trials name field and line") {
    auto error = first_problem(watched_file("  kind: alone\n  bins: 4\n  rounds: 1\n"));
    CHECK(error.field == "trial: rounds");
    CHECK(error.line == 14);
    CHECK(error.message.find("compares bins, not feeds") != std::string::npos);
    error = first_problem("libfeed: 1\ntrial:\n  feeds: [pumpkin]\n");
    CHECK(error.field == "trial: feeds");
    CHECK(error.line == 3);
    error = first_problem("libfeed: 1\ntrial:\n  feeds:\n    - pumpkin\n    - cat litter\n");
    CHECK(error.line == 5);
    error = first_problem("libfeed: 1\ntrial:\n  feeds: [pumpkin, pumpkin]\n");
    CHECK(error.message.find("twice") != std::string::npos);
    error = first_problem(watched(3) + "  - date: 2026-09-20\n    plots: plot 13 gone\n");
    CHECK(error.allowed == "plot 1 to 12");
    CHECK(error.field == "observations: entry 2: plots");
    error = first_problem(watched_file("  seed: many\n"));
    CHECK(error.field == "trial: seed");
    error = first_problem(watched_file("  start: [2026-09-05, 2026-09-01]\n  rounds: 2\n"));
    CHECK(error.field == "trial: start");
}

TEST_CASE("what a trial laid is part of the diary; only feeds alone teach through looks") {
    const auto choice = read_file(watched(3));
    REQUIRE(choice.diary.feedings.size() == 1);
    CHECK(choice.diary.feedings[0].portions.size() == 2);
    CHECK_FALSE(choice.diary.observations[0].of_feeding);
    const auto alone = read_file(watched_file(
        "  kind: alone\n  bins: 4\n  seed: 7\n  last_day: 24\n  start: [2026-09-01, 2026-10-01]\n"
        "observations:\n  - date: 2026-10-10\n    plots: plots 1-8 half left\n"));
    REQUIRE(alone.diary.feedings.size() == 2);
    CHECK(alone.diary.feedings[1].portions.size() == 1);
    REQUIRE(alone.diary.observations[0].of_feeding);
    CHECK(alone.diary.observations[0].share_gone == 0.5);
}

namespace {

/// Invented: two feeds alone in six bins and swapped; the rind is gone on day 6, pumpkin on day 12.
std::string swapped(std::string_view kind) {
    const bool alone = kind == "alone";
    const feed::TrialDesign design{
        alone ? feed::TrialKind::alone : feed::TrialKind::choice, 2, 6, 1, alone ? 2U : 1U, false};
    const auto layout = feed::draw_layout(design, 7);
    std::string text =
        watched_file("  kind: " + std::string(kind) +
                     "\n  bins: 6\n  seed: 7\n  last_day: 18\n  start: [2026-09-01" +
                     (alone ? ", 2026-10-01" : "") +
                     "]\nblend: [100 g watermelon rind, 100 g pumpkin]\nobservations:\n");
    for (std::size_t round = 0; round < design.rounds; ++round) {
        for (int day = 2; day <= 18; day += 2) {
            text += "  - date: 2026-" + std::string(round == 0 ? "09-" : "10-") +
                    (day < 9 ? "0" : "") + std::to_string(day + 1) + "\n    plots:\n";
            for (const auto& plot : layout->plots) {
                if (plot.round != round) continue;
                text += "      - plot " + std::to_string(plot.number) +
                        (day >= (*plot.feed == 0 ? 6 : 12) ? " gone\n" : " not gone\n");
            }
        }
    }
    return text;
}

}  // namespace

TEST_CASE("feeds alone move how fast they go in this bin with their error; side by side never") {
    const auto alone = read_file(swapped("alone"));
    REQUIRE(alone.own_feeds.size() == 2);
    CHECK(alone.own_feeds[0].label == "watermelon rind");
    const auto& rind = *(*alone.blend)[0].portion.feedstock;
    const auto& pumpkin = *(*alone.blend)[1].portion.feedstock;
    CHECK(rind.decay_rate_factor.value > 1.2 * pumpkin.decay_rate_factor.value);
    CHECK(rind.decay_rate_factor.low < rind.decay_rate_factor.value);
    CHECK(rind.decay_rate_factor.high > rind.decay_rate_factor.value);
    // What lies in the bed goes as fast as what is planned.
    for (const auto& feeding : alone.diary.feedings) {
        for (const auto& portion : feeding.portions)
            CHECK(portion.feedstock->decay_rate_factor.value ==
                  (portion.feedstock->id == rind.id ? rind : pumpkin).decay_rate_factor.value);
    }
    CHECK(alone.assumed.back().text.find("By your own trial, pumpkin goes ") == 0);
    const auto told = io::trial_reading_of(alone);
    REQUIRE(told);
    CHECK(flat(io::trial_reading_text(*alone.trial, *told, true))
              .find("By your own trial, watermelon rind goes ") != std::string::npos);

    const auto choice = read_file(swapped("choice"));
    CHECK(choice.own_feeds.empty());
    CHECK((*choice.blend)[0].portion.feedstock->decay_rate_factor.value == 1.0);
    // Not before the planned end, either.
    std::string early = swapped("alone");
    const auto half = read_file(early.substr(0, early.find("  - date: 2026-10-11")));
    CHECK(half.own_feeds.empty());
}

TEST_CASE(
    "the sheet has a map, boxes for every plot and look, and the key on the last page alone") {
    const auto plan = plan_of(read_file(watched_file("  bins: 3\n  portions: 2\n")));
    REQUIRE(plan);
    const auto pages = io::trial_sheet(*plan, "Rinds <1>", io::Paper::letter);
    REQUIRE(pages.size() >= 3);
    CHECK(pages[0].find("width=\"215.9mm\"") != std::string::npos);
    CHECK(pages[0].find("Rinds &lt;1&gt;") != std::string::npos);
    std::string looked;
    for (const auto& page : pages) {
        const bool key = &page == &pages.back();
        CHECK((page.find("the key</text>") != std::string::npos) == key);
        if (!key) looked += page;
    }
    for (std::size_t number = 1; number <= 12; ++number)
        CHECK(looked.find(">plot " + std::to_string(number) + "<") != std::string::npos);
    // No page but the key says which feed lies where.
    CHECK(looked.find("(bin 1)") == std::string::npos);
    CHECK(pages.back().find("watermelon rind (bin 1)") != std::string::npos);
    const auto html = io::trial_sheet_html(pages, "Rinds", io::Paper::letter);
    CHECK(html.find("size: letter") != std::string::npos);
}

TEST_CASE("the picture of a reading has a bar and a shape for every portion, and words") {
    const auto file = read_file(watched(24));
    const auto reading = io::trial_reading_of(file);
    REQUIRE(reading);
    const auto svg = io::trial_svg(*file.trial, *reading, "Rinds");
    CHECK(svg.find("Clear: watermelon rind") != std::string::npos);
    for (std::size_t number = 1; number <= 12; ++number)
        CHECK(svg.find("plot " + std::to_string(number) + "<") != std::string::npos);
    CHECK(svg.find("stroke-dasharray") != std::string::npos);
}
