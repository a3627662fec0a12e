// One file, one day, one answer: every verb, the note, the sheet, C and JSON give the same amounts,
// the same first word and the same next day. Random invented bins, seeded.
#include <algorithm>
#include <array>
#include <bed_kitchen.hpp>
#include <catch2.hpp>
#include <long_forms.hpp>
#include <set>
#include <string>
#include <string_view>

#include "feed/feed.h"
#include "feed/io/answers.hpp"
#include "feed/io/bed_work_text.hpp"
#include "feed/io/bin_sheet.hpp"
#include "feed/io/diary_append.hpp"
#include "feed/io/note.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/to_json.hpp"
#include "feed/io/today_lines.hpp"
#include "feed/io/week_answer.hpp"
#include "feed/io/worms_answer.hpp"
#include "feed/ration/signs.hpp"

using namespace feed;

namespace {

constexpr std::int64_t first_day = 20500;

std::string_view one_of(kitchen::Dice& dice, std::initializer_list<std::string_view> words) {
    return *(words.begin() + static_cast<std::ptrdiff_t>(dice.below(words.size())));
}

std::string grams(kitchen::Dice& dice, int low, int high) {
    const auto steps = static_cast<std::size_t>((high - low) / 10);
    return std::to_string(low + 10 * static_cast<int>(dice.below(steps))) + " g ";
}

/// Some scraps, once in a while with something that is never fed; each thing once.
std::string some_things(kitchen::Dice& dice, bool bounds) {
    std::set<std::string_view> names;
    const std::size_t kinds = 1 + dice.below(4);
    while (names.size() < kinds)
        names.insert(one_of(dice, {"carrot", "banana peels", "coffee grounds", "lemon", "onion",
                                   "lettuce", "bread", "melon", "potato peel", "tea leaves"}));
    std::string list;
    for (const std::string_view name : names) {
        if (!list.empty()) list += ", ";
        if (bounds && dice.below(3) == 0) list += "up to ";
        list += grams(dice, 30, 900) + std::string(name);
    }
    if (dice.below(6) == 0) list += ", 100 g bacon";
    if (dice.below(2) == 0) list += bounds ? ", any cardboard" : ", 200 g cardboard";
    if (bounds && dice.below(2) == 0) list += ", any water";
    return list;
}

std::string random_look(kitchen::Dice& dice) {
    switch (dice.below(9)) {
        case 0:
            return "share_gone: " + std::to_string(10 * dice.below(11)) + " %";
        case 1:
            return "gone: " + std::string(one_of(dice, {"true", "false"}));
        case 2:
            return "squeeze: " +
                   std::string(one_of(dice, {"crumbly", "damp", "drops", "many drops", "streams"}));
        case 3:
            return "smell: " + std::string(one_of(dice, {"earthy", "sour", "rotten", "ammonia"}));
        case 4:
            return "temperature: " + std::to_string(8 + dice.below(26)) + " C";
        case 5:
            return "ph: " + std::string(one_of(dice, {"5", "6", "7", "8"}));
        case 6:
            return "action: \"harvested " + std::to_string(1 + dice.below(12)) + " L\"";
        case 7:
            return "bedding: \"" + std::to_string(1 + dice.below(9)) + "00 g cardboard\"";
        default:
            return "worms: " + std::string(one_of(dice, {"spread", "gathered", "leaving"}));
    }
}

/// An invented bin, without its diary.
std::string random_bed(kitchen::Dice& dice) {
    std::string text = "libfeed: 1\nbed:\n  container: " +
                       std::string(one_of(dice, {"40 L tote", "60 L tote", "tray", "bucket"})) +
                       "\n";
    if (dice.below(4) != 0) text += "  worms: " + grams(dice, 100, 1500) + "\n";
    if (dice.below(4) != 0) text += "  temperature: " + std::to_string(8 + dice.below(23)) + " C\n";
    if (dice.below(2) == 0)
        text += "  squeeze: " + std::string(one_of(dice, {"damp", "drops", "many drops"})) + "\n";
    if (dice.below(2) == 0) text += "  age: " + std::to_string(1 + dice.below(60)) + " weeks\n";
    if (dice.below(6) == 0) text += "  ph: 6.5\n";
    return text;
}

/// An invented bin with its diary and what is at hand today.
std::string random_file(kitchen::Dice& dice) {
    std::string text = random_bed(dice);
    const bool dated = dice.below(2) == 0;
    if (dated) {
        text += "  date: " + feed::text(date_of(first_day)) + "\n";
        std::int64_t day = first_day;
        std::string feedings;
        std::string looks;
        for (std::size_t i = dice.below(4); i > 0; --i) {
            day += static_cast<std::int64_t>(1 + dice.below(8));
            feedings += "  - date: " + feed::text(date_of(day)) + "\n    portions: [" +
                        some_things(dice, false) + "]\n";
            if (dice.below(3) == 0) continue;
            day += static_cast<std::int64_t>(1 + dice.below(6));
            looks += "  - date: " + feed::text(date_of(day)) + "\n    " + random_look(dice) + "\n";
        }
        if (!feedings.empty()) text += "feedings:\n" + feedings;
        if (!looks.empty()) text += "observations:\n" + looks;
    }
    if (dice.below(2) == 0)
        text += "blend: [" + some_things(dice, false) + "]\n";
    else if (dice.below(3) != 0)
        text += "balance:\n  at_hand: [" + some_things(dice, true) + "]\n";
    return text;
}

/// JSON without the blanks between its tokens.
std::string compact(std::string_view json) {
    std::string out;
    bool inside = false;
    for (std::size_t i = 0; i < json.size(); ++i) {
        const char c = json[i];
        if (inside && c == '\\') {
            out += c;
            out += json[++i];
            continue;
        }
        if (c == '"') inside = !inside;
        if (!inside && (c == ' ' || c == '\n')) continue;
        out += c;
    }
    return out;
}

std::string one_line(std::string_view text) {
    std::string out;
    for (const char c : text) {
        const bool blank = c == ' ' || c == '\n';
        if (!blank)
            out += c;
        else if (!out.empty() && out.back() != ' ')
            out += ' ';
    }
    return out;
}

/// The answer that C gives for a verb.
std::string c_json(const char* verb, const std::string& text) {
    feed_text* out = nullptr;
    REQUIRE(feed_json(verb, text.c_str(), "bin.yaml", nullptr, &out, nullptr) == FEED_OK);
    const char* data = nullptr;
    std::size_t length = 0;
    REQUIRE(feed_text_get(out, &data, &length, nullptr) == FEED_OK);
    std::string json(data, length);
    feed_text_free(out);
    return json;
}

/// C's ration of a diary against that of the core.
void check_c(const std::string& text, const Ration& ration) {
    feed_diary* diary = nullptr;
    REQUIRE(feed_diary_from_text(text.c_str(), "bin.yaml", nullptr, &diary, nullptr) == FEED_OK);
    feed_check_result* result = nullptr;
    REQUIRE(feed_diary_check(diary, nullptr, &result, nullptr) == FEED_OK);
    feed_ration said{};
    said.struct_size = sizeof said;
    REQUIRE(feed_check_ration(result, &said, nullptr) == FEED_OK);
    CHECK(said.answer == static_cast<int>(ration.answer));
    CHECK(said.next_feeding_day == (ration.next_feeding ? ration.next_feeding->day : -1));
    CHECK(said.next_look_day == ration.next_look);
    CHECK(said.scraps_wet_kg == ration.scraps.in_kilograms());
    CHECK(said.take_out_count == ration.take_out.size());
    REQUIRE(said.put_in_count == ration.put_in.size());
    for (std::size_t i = 0; i < ration.put_in.size(); ++i) {
        feed_ration_thing thing{};
        thing.struct_size = sizeof thing;
        REQUIRE(feed_check_put_in(result, i, &thing, nullptr) == FEED_OK);
        CHECK(thing.wet_kg == ration.put_in[i].wet_mass.in_kilograms());
        CHECK(thing.feedstock_id == ration.put_in[i].thing.feedstock->id);
        CHECK(thing.measure == io::measure_of(ration.put_in[i], UnitSystem::metric));
    }
    feed_check_result_free(result);
    feed_diary_free(diary);
}

/// The lines of a ration stand in what `feed note` prints and on the sheet for the bin.
void check_pages(const io::FeedFile& file, const Ration& ration, Date today) {
    std::string printed;
    for (const std::string& line : io::today_lines(file, today, UnitSystem::metric))
        printed += line + "\n";
    CHECK(one_line(printed) ==
          one_line(io::ration_text(ration, UnitSystem::metric, io::first_screen, file.name)));
    const auto ahead = io::forecast_and_ration_of(file, io::usual_forecast_days);
    const std::string sheet =
        one_line(io::bin_sheet_text(io::bin_sheet_of("", ahead.ration, UnitSystem::metric)));
    for (const std::string& line : io::ration_lines(ration, UnitSystem::metric)) {
        INFO(line);
        const std::string plain = one_line(line.substr(line.find_first_not_of(' ')));
        CHECK(sheet.find(plain) != std::string::npos);
    }
}

/// JSON of every verb, from C too, and what is printed: the note and the sheet.
void check_texts(const std::string& text, const io::FeedFile& file, const Ration& ration,
                 const std::string& told) {
    for (const char* verb : {"ration", "check", "forecast"}) {
        INFO(verb);
        const std::string json = c_json(verb, text);
        CHECK(compact(json).find(compact(told)) != std::string::npos);
        CHECK(json == *io::answer_json(verb, file));
    }
    const auto today = io::day_zero(file);
    if (!today) return;
    check_pages(file, ration, *today);
    // A note without news leaves the answer where it is.
    const auto noted = io::with_note(text, "note all is well", *today, "", "bin.yaml");
    REQUIRE(noted);
    const Ration after = io::ration_of(noted->file);
    CHECK(feed::text(after.answer) == feed::text(ration.answer));
    CHECK(after.scraps.in_kilograms() == ration.scraps.in_kilograms());
    REQUIRE(after.next_feeding.has_value() == ration.next_feeding.has_value());
    if (ration.next_feeding) CHECK(after.next_feeding->day == ration.next_feeding->day);
}

}  // namespace

TEST_CASE("nobody finds two answers for one file and day") {
    kitchen::Dice dice(20261129);
    std::array<int, 4> seen{};
    int balances = 0;
    for (int i = 0; i < feed_test::draws(300); ++i) {
        const std::string text = random_file(dice);
        INFO("file " << i << "\n" << text);
        const auto file = io::read_feed_text(text, "bin.yaml");
        REQUIRE(file);
        const Ration ration = io::ration_of(*file);
        ++seen[static_cast<std::size_t>(ration.answer)];
        const std::string told = io::to_json(ration);
        CHECK(io::to_json(io::check_of(*file).ration) == told);
        CHECK(io::to_json(io::forecast_and_ration_of(*file, 28).ration) == told);
        if (file->balance) {
            ++balances;
            const auto json = io::answer_json("balance", *file);
            REQUIRE(json);
            CHECK(compact(*json).find(compact(told)) != std::string::npos);
        }
        check_c(text, ration);
        // The rest only writes what was worked out: one file in four, for the time it takes.
        if (i % 4 == 0) check_texts(text, *file, ration, told);
    }
    for (const int count : seen)
        CHECK(feed_test::enough(count, 10));
    CHECK(feed_test::enough(balances, 50));
}

TEST_CASE("in US units too every verb gives one answer, in the measures asked for") {
    kitchen::Dice dice(7);
    int measures = 0;
    for (int i = 0; i < feed_test::draws(40); ++i) {
        const std::string text = random_file(dice);
        INFO("file " << i << "\n" << text);
        const auto file = io::read_feed_text(text, "bin.yaml");
        REQUIRE(file);
        const Ration ration = io::ration_of(*file, UnitSystem::us);
        const std::string told = io::to_json(ration);
        CHECK(io::to_json(io::check_of(*file, UnitSystem::us).ration) == told);
        CHECK(io::to_json(io::forecast_and_ration_of(*file, 28, UnitSystem::us).ration) == told);
        for (const PutIn& put : ration.put_in) {
            const std::string measure = io::measure_of(put, UnitSystem::us);
            CHECK(told.find("\"measure\": \"" + measure + "\"") != std::string::npos);
            ++measures;
        }
        for (const std::string& line : io::ration_lines(ration, UnitSystem::us))
            CHECK(told.find(line.substr(line.find_first_not_of(' '))) != std::string::npos);
    }
    CHECK(feed_test::enough(measures, 40));
}

namespace {

/// What the other verbs about a bed say first where its step, or a look, comes before all work.
void check_work(const io::FeedFile& file, const Ration& ration) {
    const std::string headline = io::ration_lines(ration, UnitSystem::metric).front();
    CHECK(io::harvest_lines(io::harvest_of(file), UnitSystem::metric, "bin.yaml").front() ==
          headline);
    for (const RefreshChange change :
         {RefreshChange::bedding, RefreshChange::dry, RefreshChange::flush, RefreshChange::split,
          RefreshChange::move}) {
        CAPTURE(text(change));
        const auto lines =
            io::refresh_lines(io::refresh_of(file, change), {}, UnitSystem::metric, "bin.yaml");
        CHECK(lines.front() == headline);
    }
    io::WormsAsked worms;
    worms.file = file;
    worms.today = file.today;
    const auto counted = io::worms_of(worms);
    REQUIRE(counted);
    CHECK(io::worms_lines(*counted, "bin.yaml").front() == headline);
    io::WeekAsked week;
    week.bins = {file};
    week.have = {"500 g carrot"};
    week.today = file.today;
    const auto plan = io::week_of(week);
    REQUIRE(plan);
    CHECK(plan->bins.front().openings.empty());
    const std::string words = looks_first(ration) ? "look first, no food" : "act first, no food";
    CHECK(io::week_text(*plan, UnitSystem::metric).find(words) != std::string::npos);
    const std::array<Sign, 1> climbing{Sign::worms_climbing};
    for (const Diagnosis& cause : causes_of(io::ration_input(file), climbing).causes) {
        CAPTURE(cause.name, cause.remedy.text);
        CHECK(cause.remedy.feed_now.in_kilograms() == 0.0);
    }
}

}  // namespace

// The worms were seen to leave, and nobody looked since: for a week that asks for a step, later for
// a look. Harvest, changed bedding, a count of worms and the week of several bins wait for it too.
TEST_CASE("what comes before food comes before all work, in the same words") {
    kitchen::Dice dice(411);
    int acts = 0;
    int looks = 0;
    for (int i = 0; i < feed_test::draws(40); ++i) {
        const std::string text =
            random_bed(dice) + "  date: " + feed::text(date_of(first_day)) +
            "\nobservations:\n  - {date: " + feed::text(date_of(first_day + 1)) +
            ", worms: leaving}\n";
        auto file = io::read_feed_text(text, "bin.yaml");
        REQUIRE(file);
        const auto later = static_cast<std::int64_t>(1 + dice.below(25));
        file->today = date_of(first_day + later);
        INFO("file " << i << " after " << later << " days\n" << text);
        const Ration ration = io::ration_of(*file);
        // Worms that wander in a new bin's first days are no alarm.
        if (!comes_before_work(ration)) continue;
        ++(looks_first(ration) ? looks : acts);
        check_work(*file, ration);
    }
    CHECK(feed_test::enough(acts, 5));
    CHECK(feed_test::enough(looks, 10));
}
