#include "feed/io/bed_work_text.hpp"

#include <catch2.hpp>
#include <string>

#include "feed/io/answers.hpp"
#include "feed/io/note.hpp"
#include "feed/io/to_json.hpp"

using namespace feed;

namespace {

// An invented bin with a diary.
const std::string tote =
    "libfeed: 1\n"
    "bed: {date: 2026-03-01, container: 60 L tray, worms: 1 lb, squeeze: drops, temperature: 20 C, "
    "age: 8 months}\n"
    "feedings:\n"
    "  - {date: 2026-03-05, portions: [300 g carrot, 30 g shredded cardboard]}\n"
    "  - {date: 2026-03-12, portions: [300 g carrot, 30 g shredded cardboard]}\n";

io::FeedFile file_of(const std::string& text) {
    auto file = io::read_feed_text(text, "tote.yaml");
    REQUIRE(file);
    file->today = Date{2026, 3, 20};
    return *file;
}

/// The ration of the file once the note is in it.
std::string ration_once_noted(const std::string& note) {
    const auto noted = io::with_note(tote, note, {2026, 3, 20}, "", "tote.yaml");
    INFO(note);
    REQUIRE(noted);
    return io::to_json(io::ration_of(file_of(noted->text)));
}

}  // namespace

TEST_CASE("what a harvest or a refresh tells to write gives the bed that it told of") {
    const io::FeedFile file = file_of(tote);
    for (const HarvestWay way :
         {HarvestWay::aside, HarvestWay::light, HarvestWay::trays, HarvestWay::half}) {
        const HarvestAnswer answer = io::harvest_of(file, way);
        const std::string note = io::note_of(answer.after.change, UnitSystem::metric);
        CHECK(ration_once_noted(note) == io::to_json(answer.after.ration));
    }
    for (const RefreshChange change : {RefreshChange::bedding, RefreshChange::split}) {
        const RefreshAnswer answer = io::refresh_of(file, change);
        const std::string note = io::note_of(answer.after.change, UnitSystem::metric);
        CHECK(ration_once_noted(note) == io::to_json(answer.after.ration));
    }
    BedChange flush;
    flush.flushed_kg = 40.0;
    const auto in = io::ration_input(file);
    CHECK(ration_once_noted(io::note_of(flush, UnitSystem::metric)) ==
          io::to_json(ration(with_change(in, flush))));
}

TEST_CASE("the day of the harvest is one for every verb") {
    const io::FeedFile file = file_of(tote);
    const HarvestAnswer harvest = io::harvest_of(file);
    REQUIRE(harvest.time.day);
    CHECK(io::forecast_of(file, 28).harvest_day == harvest.time.day);
}

TEST_CASE("the options of work on a bed are read, and each slip is named") {
    const auto wrong = [](std::string_view verb, const io::WorkWords& words) {
        io::AnswerOptions options;
        const auto errors = io::read_work(verb, words, "--", options);
        return errors ? errors->front().field : std::string();
    };
    CHECK(wrong("refresh", {}) == "--change");
    CHECK(wrong("refresh", {"", "bedding", "", "", ""}).empty());
    CHECK(wrong("refresh", {"", "bedding", "all", "", ""}) == "--share");
    CHECK(wrong("refresh", {"", "bedding", "5 %", "", ""}) == "--share");
    CHECK(wrong("refresh", {"", "winter", "", "", ""}) == "--temperature");
    CHECK(wrong("refresh", {"", "winter", "", "cold", ""}) == "--temperature");
    CHECK(wrong("refresh", {"", "away", "", "", ""}) == "--away");
    CHECK(wrong("harvest", {"sieve", "", "", "", ""}) == "--way");
    CHECK(io::share_of_bed("half", "share").value() == 0.5);
    CHECK(io::share_of_bed("30 %", "share").value() == 0.3);
}
