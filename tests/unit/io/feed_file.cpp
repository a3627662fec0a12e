#include "feed/io/feed_file.hpp"

#include <clocale>
#include <locale>
#include <string>

#include "catch2.hpp"
#include "feed/io/to_json.hpp"

using namespace feed;
using namespace feed::io;
using feed_test::Approx;

namespace {

FeedFile read(const std::string& text) {
    auto file = read_feed_text("libfeed: 1\n" + text, "test.yaml");
    if (!file) FAIL(file.errors().front().message);
    return std::move(file).value();
}

Errors problems(const std::string& text) {
    auto file = read_feed_text("libfeed: 1\n" + text, "test.yaml");
    REQUIRE_FALSE(file);
    return file.errors();
}

}  // namespace

TEST_CASE("a feedstock of one's own goes before the table") {
    const auto file = read(
        "feedstocks:\n  carrot:\n    moisture: 50 %\n    nitrogen: 1 %\nblend: [1 kg carrots]\n");
    REQUIRE(file.blend);
    const auto& carrot = *file.blend->front().portion.feedstock;
    CHECK(carrot[Property::moisture_wet]->value == 0.5);
    CHECK(file.blend->front().portion.wet_mass.in_kilograms() == 1.0);
}

TEST_CASE("containers are units from then on") {
    const auto file = read("containers: {caddy: 5 L}\nblend: [1/2 caddy coffee grounds]\n");
    const auto& portion = file.blend->front().portion;
    const double density = (*portion.feedstock)[Property::bulk_density_loose]->value;
    CHECK(portion.wet_mass.in_kilograms() == Approx(0.0025 * density));
    CHECK(file.blend->front().amount.unit == "caddy");
}

TEST_CASE("all content problems come at once, in the order of the file") {
    const auto errors = problems(
        "bed: {ph: 15, lid: shut}\nblend: [1 kg unobtainium, -1 kg carrot]\nnonsense: 1\n");
    REQUIRE(errors.size() == 5);
    CHECK(errors[0].line == 2);
    CHECK(errors[2].code == ErrorCode::unknown_feedstock);
    CHECK(errors[4].code == ErrorCode::unknown_key);
    for (std::size_t i = 1; i < errors.size(); ++i)
        CHECK(errors[i - 1].line <= errors[i].line);
}

TEST_CASE("columns count characters, not bytes") {
    const auto errors = problems("blend: [\"\xC2\xBD kg carrot\", 1 kg unobtainium]\n");
    REQUIRE(errors.size() == 1);
    CHECK(errors[0].line == 2);
    CHECK(errors[0].column == 24);  // 25 in bytes
}

TEST_CASE("a use of a feedstock whose definition is wrong is no second problem") {
    CHECK(problems("feedstocks: {pulp: {moisture: 140 %}}\nblend: [1 kg pulp]\n").size() == 1);
}

TEST_CASE("targets change the window or only the aim") {
    const auto one = read("balance: {at_hand: [1 kg carrot], targets: {cn_ratio: 35}}\n");
    const auto& aimed = one.balance->problem.targets.front();
    CHECK(aimed.aim == 35.0);
    CHECK(aimed.low == 15.0);
    CHECK(aimed.wish_low == 20.0);
    const auto two = read("balance: {at_hand: [1 kg carrot], targets: {cn_ratio: 22 to 28}}\n");
    const auto& window = two.balance->problem.targets.front();
    CHECK(window.low == 22.0);
    CHECK(window.high == 28.0);
    CHECK_FALSE(window.aim);  // the aim of the set lies outside and is dropped
    CHECK(problems("balance: {at_hand: [1 kg carrot], targets: {cn_ratio: 8}}\n")[0].code ==
          ErrorCode::out_of_range);
    const auto none =
        read("balance: {at_hand: [1 kg carrot], targets: {set: none, moisture: 60 to 70 %}}\n");
    CHECK(none.balance->problem.targets.size() == 1);
}

TEST_CASE("day 0 is told by the bed, the looks and the blend") {
    const std::string diary =
        "bed: {date: 2026-03-01}\nfeedings:\n  - {date: 2026-03-02, portions: [1 kg carrot]}\n"
        "  - {date: 2026-03-09, portions: [1 kg carrot]}\n";
    // What a diary has is done: the last day that it names is today.
    const auto done = read(diary);
    CHECK(text(*day_zero(done)) == "2026-03-09");
    CHECK(planned_feedings(done).empty());
    CHECK(bed_on_day_zero(done).earlier.size() == 2);
    const auto looked = read(diary + "observations: [{date: 2026-03-11}]\n");
    CHECK(text(*day_zero(looked)) == "2026-03-11");
    CHECK(bed_on_day_zero(looked).earlier.size() == 2);
    const auto blended = read(diary + "blend: [200 g carrot]\n");
    CHECK(text(*day_zero(blended)) == "2026-03-09");
    CHECK(planned_feedings(blended).size() == 1);
    // Asked for an earlier day, what comes after it is planned.
    auto earlier = read(diary);
    earlier.today = parse_date("2026-03-05");
    CHECK(planned_feedings(earlier).size() == 1);
    CHECK(bed_on_day_zero(earlier).earlier.size() == 1);
    CHECK_FALSE(day_zero(read("blend: [1 kg carrot]\n")));
}

TEST_CASE("a bed is read with its container, worms and temperatures") {
    const auto file = read(
        "bed:\n  container: {kind: tray, inside: 60 x 40 x 15 cm, stacked: 3}\n"
        "  worms: 1 lb as bought\n  temperature: [18 C, 68 F]\n");
    const Bed& bed = file.diary.bed;
    CHECK(bed.container.kind == ContainerKind::tray);
    CHECK(in_metres(bed.container.inside->length) == Approx(0.6));
    CHECK(in_metres(bed.container.inside->depth) == Approx(0.15));
    CHECK(bed.container.stacked == 3);
    CHECK(bed.worms.known == WormsKnown::as_bought);
    CHECK(bed.worms.wet_mass->in_kilograms() == Approx(0.45359237));
    const auto& daily = std::get<DailyTemperatures>(bed.temperature);
    REQUIRE(daily.size() == 2);
    CHECK(in_celsius(daily[1]) == Approx(20.0));
    const auto round = read("bed: {container: {diameter: 40 cm, depth: 30 cm}}\n");
    const auto& inside = *round.diary.bed.container.inside;
    // The area of a circle of 40 cm is 1256.6 cm2.
    CHECK(in_metres(inside.length) * in_metres(inside.width) == Approx(0.12566370614));
    CHECK(read("bed: {worms: 1000 worms}\n").diary.bed.worms.count == 1000.0);
}

namespace {

/// A decimal comma and dots between thousands, as many locales have them.
class CommaMarks : public std::numpunct<char> {
protected:
    char do_decimal_point() const override { return ','; }
    char do_thousands_sep() const override { return '.'; }
    std::string do_grouping() const override { return "\3"; }
};

}  // namespace

TEST_CASE("a global locale with a decimal comma changes nothing") {
    const std::string source = "blend: [1234.5 g carrot, 0.5 kg coffee grounds]\n";
    const auto answer = [&] {
        const auto file = read(source);
        JsonWriter json;
        json.begin_array();
        for (const auto& one : *file.blend)
            json.value(one.portion.wet_mass.in_kilograms());
        json.end_array();
        return json.take();
    };
    const auto plain = answer();
    const auto before = std::locale::global(std::locale(std::locale::classic(), new CommaMarks));
    const auto comma = answer();
    std::locale::global(before);
    CHECK(plain == comma);
    CHECK(plain.find("1.2345") != std::string::npos);
}

TEST_CASE("portions from a command line name their entry and no line") {
    const auto errors = read_portions({"1 kg carrot", "2 kg unobtainium"});
    REQUIRE_FALSE(errors);
    CHECK(errors.errors()[0].field == "entry 2");
    CHECK(errors.errors()[0].line == 0);
    CHECK(errors.errors()[0].file.empty());
}

TEST_CASE("what is at hand weighs what its words name, as a portion does") {
    const char* const things[] = {
        "5 cherry tomatoes",    "3 celery sticks", "4 baby potatoes", "6 baby carrots",
        "2 slices of cucumber", "3 crab apples",   "2 beef tomatoes", "3 carrot peels",
        "1 little gem",         "4 large carrots", "half a melon",    "200 g cherry tomatoes"};
    for (const std::string thing : things) {
        INFO(thing);
        const auto portion = read("blend: [" + thing + "]\n").blend->front();
        const auto file = read("balance: {at_hand: [" + thing + "]}\n");
        const Entry& entry = file.balance->problem.entries.front();
        CHECK(entry.least == portion.portion.wet_mass);
        CHECK(entry.most == portion.portion.wet_mass);
        CHECK(entry.label == portion.label);
        CHECK(same_material(*entry.feedstock, *portion.portion.feedstock));
        const auto up_to = read("balance: {at_hand: [up to " + thing + "]}\n");
        CHECK(up_to.balance->problem.entries.front().most == portion.portion.wet_mass);
    }
    // A cherry tomato is 17 g (common practice), a medium one 123 g (USDA-SR26).
    const auto some =
        read("balance:\n  at_hand: [1 to 5 cherry tomatoes, 2 crab apples to 6 crab apples]\n");
    const auto& entries = some.balance->problem.entries;
    CHECK(entries[0].least.in_kilograms() == Approx(0.017));
    CHECK(entries[0].most->in_kilograms() == Approx(0.085));
    CHECK(entries[1].least.in_kilograms() == Approx(0.04));
    CHECK(entries[1].most->in_kilograms() == Approx(0.12));
    const auto apart = read(
        "blend:\n  - {feedstock: cherry tomatoes, amount: 5 pieces}\n"
        "balance:\n  at_hand: [{feedstock: cherry tomatoes, amount: up to 5 pieces}]\n");
    CHECK(apart.blend->front().portion.wet_mass.in_kilograms() == Approx(0.085));
    CHECK(apart.balance->problem.entries.front().most->in_kilograms() == Approx(0.085));
}

TEST_CASE("bedding put in by a note counts as what the file says it is") {
    const std::string own =
        "feedstocks:\n"
        "  spent hops straw: {like: straw, roles: [bedding], moisture: 60 %, bulk_density: 80 kg/m3}\n"
        "containers: {crate: 20 L}\nwords: {fluff: shredded cardboard}\n"
        "bed: {date: 2026-03-01, container: 60 L tote, worms: 500 g}\n";
    const auto added = [&](const std::string& words) {
        const auto file =
            read(own + "observations: [{date: 2026-03-04, bedding: \"" + words + "\"}]\n");
        return bed_change_of(file.diary.observations.front()).bedding;
    };
    const auto hops = added("2 kg spent hops straw and 1 crate of fluff");
    REQUIRE(hops.size() == 2);
    CHECK(hops[0].feedstock->name == "spent hops straw");
    CHECK((*hops[0].feedstock)[Property::moisture_wet]->value == 0.6);
    CHECK(hops[0].wet_mass.in_kilograms() == 2.0);
    CHECK(hops[1].feedstock->id == "cardboard-corrugated");
    const double loose = (*hops[1].feedstock)[Property::bulk_density_loose]->value;
    CHECK(hops[1].wet_mass.in_kilograms() == Approx(0.020 * loose));
    CHECK(added("two scoops").empty());
    CHECK(added("1 kg cardboard").size() == 1);
    // Water comes with it: 1.2 kg of 2 kg. The bed of the next day has it.
    const auto file =
        read(own + "observations: [{date: 2026-03-04, bedding: 2 kg spent hops straw}]\n");
    const Bed today = bed_today(file.diary.bed, file.diary, {2026, 3, 5}).bed;
    REQUIRE(today.added.size() == 1);
    CHECK(today.added.front().portion.feedstock->name == "spent hops straw");
}
