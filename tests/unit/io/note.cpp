#include "feed/io/note.hpp"

#include <string>

#include "catch2.hpp"
#include "feed/io/bin_start.hpp"

using feed::io::read_note;
using feed::io::start_bin;
using feed::io::with_note;

namespace {

constexpr feed::Date today{2026, 3, 14};

/// The lines of the entry behind its date, parted by "; ".
std::string noted(const char* words) {
    const auto entry = read_note(words, today);
    INFO(words);
    if (!entry) return "error: " + entry.errors()[0].message;
    std::string lines = entry->lines.substr(entry->lines.find('\n') + 1);
    std::string text;
    for (std::size_t at = 0; at < lines.size();) {
        const auto end = lines.find('\n', at);
        text += (text.empty() ? "" : "; ") + lines.substr(at + 2, end - at - 2);
        at = end + 1;
    }
    return text;
}

}  // namespace

TEST_CASE("the words of keepers are taken") {
    CHECK(noted("smell sour") == "smell: sour");
    CHECK(noted("It smells sour") == "smell: sour");
    CHECK(noted("sour smell") == "smell: sour");
    CHECK(noted("smells like rotten eggs") == "smell: rotten");
    CHECK(noted("rotten eggs") == "smell: rotten");
    CHECK(noted("gone") == "gone: true");
    CHECK(noted("all gone") == "gone: true");
    CHECK(noted("not gone") == "gone: false");
    CHECK(noted("half gone") == "share_gone: 50 %");
    CHECK(noted("mostly gone") == "share_gone: 75 %");
    CHECK(noted("60 % gone") == "share_gone: 60 %");
    CHECK(noted("40 % left") == "share_gone: 60 %");
    CHECK(noted("wet") == "squeeze: many drops");
    CHECK(noted("too wet") == "squeeze: many drops");
    CHECK(noted("the bed is soggy") == "squeeze: streams");
    CHECK(noted("dry") == "squeeze: crumbly");
    CHECK(noted("worms escaping") == "worms: leaving");
    CHECK(noted("escaping") == "worms: leaving");
    CHECK(noted("worms are at the lid") == "worms: at the lid");
    CHECK(noted("room temperature") == "temperature: 20 C");
    CHECK(noted("temperature 24 C") == "temperature: 24 C");
    CHECK(noted("temperature 55 C in the middle, 38 C edge, 31 C at 15 cm deep") ==
          "temperature: {\"middle\": 55 C, \"edge\": 38 C, \"15 cm deep\": 31 C}");
    CHECK(noted("middle 55 C") == "temperature: {\"middle\": 55 C}");
    CHECK(noted("20 C left").find("error") == 0);
    CHECK(noted("air 12 C") == "air_low: 12 C; air_high: 12 C");
    CHECK(noted("75 F") == "temperature: 75 F");
    CHECK(noted("worms 1 lb") == "worm_weight: 1 lb");
    CHECK(noted("500 g of worms") == "worm_weight: 0.5 kg");
    CHECK(noted("200 g left") == "left: 0.2 kg");
    CHECK(noted("ph 6.5") == "ph: 6.5");
    CHECK(noted("harvested 5 L") == "action: \"harvested 5 L\"");
    CHECK(noted("bedding 1 kg card and 2 L leaves") == "bedding: \"1 kg card and 2 L leaves\"");
    CHECK(noted("fruit flies") == "pests: \"fruit flies\"");
    CHECK(noted("note moved it, and fed the cat") == "note: \"moved it, and fed the cat\"");
    CHECK(noted("standing water") == "pooling: true");
}

TEST_CASE("what has no key is not kept as another thing") {
    CHECK(noted("the bedding is dry") == "squeeze: crumbly");
    CHECK(noted("dead worms") == "vigour: dying");
    CHECK(noted("hot").find("write the temperature, such as \"temperature 28 C\"") !=
          std::string::npos);
    CHECK(noted("cocoons") == "note: \"cocoons\"");  // good news, in the keeper's words
    CHECK(noted("no flies").find("error") == 0);
    CHECK(noted("3 apples").find("write \"fed 3 apples\"") != std::string::npos);
    CHECK(noted("worms not escaping").find("error") == 0);
    CHECK(noted("worms leaving food").find("error") == 0);
}

TEST_CASE("several things seen are one entry") {
    CHECK(noted("half gone, smell sour and wet") ==
          "share_gone: 50 %; squeeze: many drops; smell: sour");
    CHECK(noted("HALF GONE AND WET") == "share_gone: 50 %; squeeze: many drops");
    CHECK(noted("wet, dry").find("cannot both be") != std::string::npos);
    CHECK(noted("gone, half gone").find("cannot both be") != std::string::npos);
    CHECK(noted("wet, wet") == "squeeze: many drops");
}

TEST_CASE("words around the only guests or smell say no more than it") {
    CHECK(noted("fruit flies everywhere") == "pests: \"fruit flies\"");
    CHECK(noted("clouds of little flies when i open it") == "pests: \"fruit flies\"");
    CHECK(noted("smells sour when i lift the lid") == "smell: sour");
    CHECK(noted("no more fruit flies").find("error") == 0);
    CHECK(noted("moved it out of the wet corner") == "action: \"moved it out of the wet corner\"");
}

TEST_CASE("a reading is kept in the unit in which it was said") {
    CHECK(noted("worms 12 oz") == "worm_weight: 12 oz");
    CHECK(noted("worms 1.25 lb") == "worm_weight: 1.25 lb");
    CHECK(noted("worms 453 g") == "worm_weight: 0.453 kg");
    CHECK(noted("71 F") == "temperature: 71 F");
    CHECK(noted("worms 0.5 kg") == "worm_weight: 0.5 kg");
    CHECK(noted("21.5 C") == "temperature: 21.5 C");
}

TEST_CASE("what was seen beside what was fed is a second entry") {
    for (const char* words : {"fed 3 apples, smell sour", "smell sour and fed 3 apples",
                              "we fed 3 apples and smell sour"}) {
        CAPTURE(words);
        const auto entry = read_note(words, today);
        REQUIRE(entry);
        CHECK(entry->section == "feedings");
        CHECK(entry->lines.find("portions: [\"3 apples\"]") != std::string::npos);
        REQUIRE(entry->more.size() == 1);
        CHECK(entry->more[0].section == "observations");
        CHECK(entry->more[0].lines.find("smell: sour") != std::string::npos);
        CHECK(entry->has_look());
    }
    const auto both = with_note("libfeed: 1\nbed:\n  worms: 1 lb\n", "fed 3 apples, half gone, wet",
                                today, "", "bin.yaml");
    REQUIRE(both);
    CHECK(both->text.find("portions: [\"3 apples\"]") != std::string::npos);
    CHECK(both->text.find("share_gone: 50 %\n    squeeze: many drops") != std::string::npos);
    // An amount of a thing is fed, however near its name is spelled to a sign.
    for (const char* words : {"fed half a bag of leaves", "fed 3 apples, a bag of leaves",
                              "fed 3 apples and a handful of leaves"}) {
        CAPTURE(words);
        const auto entry = read_note(words, today);
        REQUIRE(entry);
        CHECK(entry->section == "feedings");
        CHECK(entry->lines.find("of leaves\"]") != std::string::npos);
        CHECK(entry->more.empty());
    }
    // What only describes the food is no look; a smell that fits several is asked about.
    CHECK(read_note("fed dry leaves 1 L", today)->more.empty());
    const auto asked = read_note("fed 3 apples, stinks", today);
    REQUIRE_FALSE(asked);
    CHECK(asked.errors().front().message.find("smell sour") != std::string::npos);
}

TEST_CASE("a day is said in words or figures") {
    using feed::io::day_said;
    CHECK(day_said("2026-02-27", today) == feed::Date{2026, 2, 27});
    CHECK(day_said("today", today) == today);
    CHECK(day_said("Yesterday", today) == feed::Date{2026, 3, 13});
    CHECK(day_said("2 days ago", today) == feed::Date{2026, 3, 12});
    CHECK(day_said("last Monday", today) == feed::Date{2026, 3, 9});
    CHECK_FALSE(day_said("last week some time", today));
    CHECK_FALSE(day_said("", today));
    CHECK_FALSE(day_said("it", today));
}

TEST_CASE("what is fed is written as it was said") {
    CHECK(noted("fed 3 apples and a cup of coffee grounds") ==
          "portions: [\"3 apples\", \"a cup of coffee grounds\"]");
    CHECK(noted("fed: 1,5 kg carrot; 2 L leaves") ==
          "portions: [\"1,5 kg carrot\", \"2 L leaves\"]");
    CHECK(noted("fed say \"hi\"") == "portions: [\"say \\\"hi\\\"\"]");
    CHECK(noted("fed").find("what was fed") != std::string::npos);
}

TEST_CASE("a day may stand before it") {
    CHECK(read_note("gone", today)->date == today);
    CHECK(read_note("yesterday gone", today)->date == feed::Date{2026, 3, 13});
    CHECK(read_note("yesterday gone", {2026, 3, 1})->date == feed::Date{2026, 2, 28});
    CHECK(read_note("2026-02-27 fed 1 kg carrot", today)->date == feed::Date{2026, 2, 27});
    CHECK(read_note("on 2026-02-27: half gone", today)->date == feed::Date{2026, 2, 27});
}

TEST_CASE("a day of a month stands at either end") {
    for (const auto* const written :
         {"on Feb 20 fed 2 apples", "20 Feb: fed 2 apples", "20th of February fed 2 apples",
          "Fri 20 February, fed 2 apples", "fed 2 apples on 20 Feb", "fed 2 apples Feb 20th",
          "fed 2 apples on the 20th of February 2026", "February 20, 2026: fed 2 apples"}) {
        const auto note = read_note(written, today);
        INFO(written);
        REQUIRE(note);
        CHECK(note->date == feed::Date{2026, 2, 20});
        CHECK(note->lines.find("[\"2 apples\"]") != std::string::npos);
    }
    // The last such day; one that comes soon is asked about by who calls, and is not last year's.
    CHECK(read_note("20 Dec gone", today)->date == feed::Date{2025, 12, 20});
    CHECK(read_note("29 Feb gone", today)->date == feed::Date{2024, 2, 29});
    CHECK(read_note("20 Mar gone", today)->date == feed::Date{2026, 3, 20});
    CHECK(read_note("5 Dec gone", {2026, 11, 30})->date == feed::Date{2026, 12, 5});
    CHECK(read_note("5 Dec gone", {2027, 1, 5})->date == feed::Date{2026, 12, 5});
    CHECK(day_said("Feb 20", today) == feed::Date{2026, 2, 20});
    CHECK_FALSE(day_said("Feb 31", today));
    // Amounts and words of one's own stay.
    CHECK(read_note("fed 3 apples", today)->date == today);
    CHECK(read_note("note lid open since 20 Feb", today)->date == today);
}

TEST_CASE("what is put by goes into the stock, and what is thawed is noted when it is fed") {
    const auto written = [](std::string_view words) {
        const auto note = read_note(words, today);
        return note ? note->section + ": " + note->lines : note.errors()[0].message;
    };
    for (const auto* const words :
         {"froze 1 kg apples", "stock frozen 1 kg apples", "put frozen 1 kg apples in the freezer"})
        CHECK(written(words).find("portions: [\"frozen 1 kg apples\"]") != std::string::npos);
    CHECK(written("put 1 kg apples in the freezer").find("[\"frozen 1 kg apples\"]") !=
          std::string::npos);
    CHECK(written("put aside 2 kg shredded cardboard in the shed").substr(0, 6) == "stock:");
    CHECK(written("put 3 apples in the bin").find("feedings: ") == 0);
    CHECK(written("fed 3 apples in the bin").find("[\"3 apples\"]") != std::string::npos);
    CHECK(written("put 2 lb scraps in the fridge").substr(0, 6) == "stock:");
    // What is no food is not put by.
    CHECK(written("put the lid in the shed").substr(0, 6) != "stock:");
    CHECK(written("put 3 apples in").find("[\"3 apples\"]") != std::string::npos);
    CHECK(written("fed 300 g pumpkin from the freezer").find("[\"frozen 300 g pumpkin\"]") !=
          std::string::npos);
    CHECK(written("fed from stock 500 g frozen pumpkin").find("[\"500 g frozen pumpkin\"]") !=
          std::string::npos);
    for (const auto* const words :
         {"thawed 500 g pumpkin", "took 500 g pumpkin out of the freezer"}) {
        CHECK(written(words).find("write \"fed frozen 500 g pumpkin\"") != std::string::npos);
        CHECK(read_note("fed frozen 500 g pumpkin", today));
    }
}

TEST_CASE("what is not understood names what is near, and that works") {
    // A slip with one near word is taken.
    CHECK(noted("smel sour") == "smell: sour");
    CHECK(noted("fruit flys") == "pests: \"fruit flies\"");
    const auto slip = read_note("smell souerr", today);
    REQUIRE_FALSE(slip);
    CHECK(slip.errors()[0].message.find("is \"smell sour\" meant?") != std::string::npos);
    CHECK(noted("smell sour") == "smell: sour");
    CHECK_FALSE(read_note("", today));
    CHECK_FALSE(read_note("  ", today));
    CHECK_FALSE(read_note("yesterday", today));
    CHECK_FALSE(read_note("temperature 300 C", today));
    CHECK_FALSE(read_note("worms many", today));
}

TEST_CASE("a note goes into the text and every remark stays") {
    const std::string before = "libfeed: 1\n# my bin\nbed:\n  container: tote  # green\n";
    const auto fed = with_note(before, "fed 500 g carrot", today, "Ama", "bin.yaml");
    REQUIRE(fed);
    CHECK(fed->text == before +
                           "\nfeedings:\n  - date: 2026-03-14\n    portions: [\"500 g carrot\"]\n"
                           "    by: \"Ama\"\n");
    CHECK(fed->file.diary.feedings.size() == 1);
    const auto seen = with_note(fed->text, "worms 500 g", today, "", "bin.yaml");
    REQUIRE(seen);
    CHECK(seen->text.find("# my bin") != std::string::npos);
    const feed::Bed bed = feed::bed_on(seen->file.diary, today);
    REQUIRE(bed.worms.wet_mass);
    CHECK(bed.worms.wet_mass->in_kilograms() == feed_test::Approx(0.5));
    const auto wrong = with_note(before, "fed 500 g qqqq", today, "", "bin.yaml");
    REQUIRE_FALSE(wrong);
    CHECK(wrong.errors()[0].field == "note");
    CHECK(wrong.errors()[0].line == 0);
    // A file that has errors of its own says where they are.
    const auto broken = with_note("libfeed: 1\nbeds: {}\n", "gone", today, "", "bin.yaml");
    REQUIRE_FALSE(broken);
    CHECK(broken.errors()[0].line == 2);
}

TEST_CASE("a started file is short, has remarks and reads back") {
    feed::io::BinStart said;
    const auto bare = start_bin(said, today);
    REQUIRE(bare);
    CHECK(bare->text.find("# worms: 1 lb as bought") != std::string::npos);
    CHECK(bare->to_set_up);  // nothing says that worms live in it
    said.container = "tote";
    said.size = "60 L";
    said.worms = "1 lb as bought";
    said.bedding = "2 kg shredded cardboard";
    said.squeeze = "damp";
    said.temperature = "20 C";
    said.title = "Ama's \"green\" bin";
    const auto full = start_bin(said, today);
    REQUIRE(full);
    const auto file = feed::io::read_feed_text(full->text, "bin.yaml");
    REQUIRE(file);
    CHECK(file->title == said.title);
    CHECK(file->diary.bed_date == today);
    CHECK(feed::in_litres(*file->diary.bed.container.volume) == feed_test::Approx(60.0));
    CHECK(file->diary.bed.bedding.size() == 1);
    CHECK(full->text.size() < 600);
    CHECK_FALSE(full->to_set_up);  // somebody squeezed a handful: it has its bedding
    said.worms = "many";
    const auto wrong = start_bin(said, today);
    REQUIRE_FALSE(wrong);
    CHECK(wrong.errors()[0].field == "--worms");
}

TEST_CASE("a new bin is written as it will be, with every bedding of the table") {
    feed::io::BinStart said;
    said.container = "60 L tote";
    for (std::size_t i = 0; i < feed::feedstock_count(); i += 3) {
        const feed::Feedstock& f = feed::feedstock_at(i);
        if (part_of(f) != feed::Part::bedding || f.stance == feed::Stance::avoid) continue;
        INFO(f.id);
        said.bedding = f.id;
        const auto started = start_bin(said, today);
        if (!started) continue;  // an id that a list would part ("core and peel")
        REQUIRE(started->to_set_up);
        const auto file = feed::io::read_feed_text(started->text, "bin.yaml");
        REQUIRE(file);
        const auto& planned = started->to_set_up->bed.bedding;
        REQUIRE(file->diary.bed.bedding.size() == planned.size());
        for (std::size_t j = 0; j < planned.size(); ++j) {
            CHECK(file->diary.bed.bedding[j].feedstock->id == planned[j].feedstock->id);
            CHECK(file->diary.bed.bedding[j].wet_mass.in_kilograms() ==
                  feed_test::Approx(planned[j].wet_mass.in_kilograms()).epsilon(1e-4));
        }
        CHECK(file->diary.bed_date == started->to_set_up->bed_date);
    }
    said.bedding = "3 carrots";
    const auto food = start_bin(said, today);
    REQUIRE_FALSE(food);
    CHECK(food.errors()[0].field == "--bedding");
}
