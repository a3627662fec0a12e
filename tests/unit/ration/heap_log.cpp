#include "feed/ration/heap_log.hpp"

#include <string>
#include <vector>

#include "catch2.hpp"

using namespace feed;
using feed_test::Approx;

namespace {

constexpr Date built{2026, 5, 1};

struct Seen {
    int day;
    std::vector<PlacedTemperature> temperatures;
    bool turned = false;
    std::optional<double> air_c{};
    std::optional<Squeeze> squeeze{};
};

PlacedTemperature middle(double c) {
    return {"middle", celsius(c)};
}
PlacedTemperature edge(double c) {
    return {"edge", celsius(c)};
}

HeapLog log_of(const std::vector<Seen>& all, int today = -1) {
    Diary diary;
    for (const Seen& one : all) {
        Observation seen;
        seen.date = date_of(day_number(built) + one.day);
        seen.temperatures = one.temperatures;
        if (one.turned) seen.action = "turned it";
        if (one.air_c) seen.air_low = seen.air_high = celsius(*one.air_c);
        seen.squeeze = one.squeeze;
        diary.observations.push_back(seen);
    }
    return heap_log(diary, day_number(built) + (today < 0 ? all.back().day : today));
}

HeapStep step_of(const std::vector<Seen>& all, int today = -1) {
    return log_of(all, today).step;
}

}  // namespace

// Cornell, Compost Physics (1996): below about 65 C. North Carolina DEQ: turn at 160 F (71 C).
// Surrey County Council: remedial action before 70 to 80 C; above 80 C ask the fire service before
// the pile is opened.
TEST_CASE("heat: leave, turn, cool, stand back") {
    CHECK(step_of({{4, {middle(58)}}}) == HeapStep::leave);
    CHECK(step_of({{4, {middle(65)}}}) == HeapStep::leave);
    CHECK(step_of({{4, {middle(66)}}}) == HeapStep::turn);
    CHECK(step_of({{4, {middle((160 - 32) / 1.8)}}}) == HeapStep::cool);
    CHECK(step_of({{4, {middle(79)}}}) == HeapStep::cool);
    CHECK(step_of({{4, {middle(81)}}}) == HeapStep::stand_back);
    CHECK(step_of({{4, {edge(82), middle(60)}}}) == HeapStep::stand_back);
}

TEST_CASE("an alarm stands until a newer look or a turning") {
    CHECK(step_of({{4, {middle(82)}}}, 20) == HeapStep::stand_back);
    CHECK(step_of({{4, {middle(74)}}}, 20) == HeapStep::cool);
    CHECK(step_of({{4, {middle(74)}}, {5, {middle(60)}}}) == HeapStep::leave);
    CHECK(step_of({{4, {middle(74)}}, {5, {}, true}}) == HeapStep::leave);
}

// UC Santa Cruz, unit 1.7: turned once, ideally at three weeks or when the curve has clearly
// started back down. NRCS job sheet 317: 43 C (110 F) and more for the rest of the time.
TEST_CASE("it is turned when the curve is clearly down, and not before") {
    const std::vector<Seen> hot{{0, {middle(15)}}, {4, {middle(60)}}, {10, {middle(62)}}};
    auto down = hot;
    down.push_back({15, {middle(58)}});
    CHECK(step_of(down) == HeapStep::leave);
    down.push_back({21, {middle(50)}});
    CHECK(step_of(down) == HeapStep::turn);
    auto cold = hot;
    cold.push_back({17, {middle((110 - 32) / 1.8 - 1)}});
    CHECK(step_of(cold) == HeapStep::turn);
    // Five turnings in fifteen days is the most that any rule asks.
    cold.push_back({18, {}, true});
    cold.push_back({19, {middle(50)}});
    cold.push_back({20, {middle(40)}});
    CHECK(step_of(cold) == HeapStep::leave);
    cold.push_back({21, {middle(38)}});
    CHECK(step_of(cold) == HeapStep::turn);
}

// NRCS job sheet 317: at its temperature within about 7 days, else look for what is wrong.
TEST_CASE("a heap that is not hot in a week is mended") {
    CHECK(step_of({{0, {middle(14)}}, {5, {middle(30)}}}) == HeapStep::leave);
    CHECK(step_of({{0, {middle(14)}}, {7, {middle(31)}}}) == HeapStep::mend);
    CHECK(step_of({{0, {middle(14)}}, {7, {middle(31)}, false, {}, Squeeze::crumbly}}) ==
          HeapStep::water);
}

// AgriFutures Australia, Curing: it begins when it stays below 45 C even after turning, takes 3 to
// 6 weeks, and is complete within about 5 C of the air.
TEST_CASE("it has cooled for good when it does not heat after turning and is as cool as the air") {
    std::vector<Seen> log{{0, {middle(15)}}, {5, {middle(60)}}, {20, {middle(40)}}};
    log.push_back({21, {middle(40)}, true});
    log.push_back({24, {middle(36)}});
    CHECK(step_of(log) == HeapStep::leave);
    log.push_back({29, {middle(30)}});
    CHECK(step_of(log) == HeapStep::ripen);
    auto early = log;
    early.push_back({45, {middle(16)}, false, 14.0});
    CHECK(step_of(early) == HeapStep::cooled);  // 2 C above the air
    auto warm = log;
    warm.push_back({45, {middle(22)}, false, 14.0});
    CHECK(step_of(warm) == HeapStep::ripen);
    auto no_air = log;
    no_air.push_back({45, {middle(16)}});
    CHECK(step_of(no_air) == HeapStep::ripen);
    auto dry = log;
    dry.push_back({45, {middle(16)}, false, 14.0, Squeeze::crumbly});
    CHECK(step_of(dry) == HeapStep::water);
    // Never turned: air may heat it again.
    CHECK(step_of({{0, {middle(15)}}, {5, {middle(60)}}, {40, {middle(14)}, false, 13.0}}) ==
          HeapStep::turn);
    // Only three weeks after it was hot.
    CHECK(step_of({{0, {middle(60)}}, {2, {}, true}, {12, {middle(15)}, false, 14.0}}) ==
          HeapStep::ripen);
}

TEST_CASE("only what is inside tells that a heap has cooled") {
    CHECK(is_inside_heap("middle"));
    CHECK(is_inside_heap(""));
    CHECK(is_inside_heap("40 cm deep"));
    CHECK(is_inside_heap("1 ft deep"));
    CHECK_FALSE(is_inside_heap("15 cm deep"));
    CHECK_FALSE(is_inside_heap("6 in deep"));
    for (const auto* outer : {"edge", "left side", "the Top", "front", "bottom"})
        CHECK_FALSE(is_inside_heap(outer));
    CHECK(step_of({{0, {middle(60)}}, {9, {edge(20)}}}) == HeapStep::measure);
    CHECK(step_of({{0, {edge(20)}}}) == HeapStep::measure);
    CHECK(step_of({{0, {middle(60), edge(20)}}}) == HeapStep::leave);
}

TEST_CASE("a log without a look of the last week asks for one") {
    CHECK(step_of({{0, {}, true}}, 2) == HeapStep::measure);
    CHECK(step_of({{0, {middle(55)}}}, 7) == HeapStep::leave);
    CHECK(step_of({{0, {middle(55)}}}, 8) == HeapStep::measure);
    CHECK(step_of({{0, {middle(55)}}, {1, {}, true}}, 9) == HeapStep::measure);
    // What lies ahead of the day is left out, and the order of the entries does not matter.
    const std::vector<Seen> mixed{{8, {middle(60)}}, {2, {middle(30)}}, {4, {middle(50)}}};
    CHECK(log_of(mixed, 5).last.day == day_number(built) + 4);
    CHECK(log_of(mixed, 5).looks == 2);
    CHECK(log_of(mixed, 9).peak_c == 60.0);
}

// Pre-composted is what lay two to three weeks in a heap; Eisenia fetida is harmed above 30 C
// (Edwards, Earthworm Ecology).
TEST_CASE("a heap goes to the worms when it was hot, lay two weeks and is cool all over") {
    const auto ready = [](const std::vector<Seen>& log) {
        return is_cool_for_worms(log_of(log), 30.0);
    };
    const Seen hot{4, {middle(60)}};
    CHECK(ready({{0, {middle(15)}}, hot, {20, {middle(28), edge(20)}}}));
    CHECK_FALSE(ready({{0, {middle(15)}}, hot, {20, {middle(28), edge(32)}}}));
    CHECK_FALSE(ready({{0, {middle(15)}}, hot, {12, {middle(28)}}}));
    CHECK_FALSE(ready({{0, {middle(15)}}, {20, {middle(28)}}}));
    CHECK_FALSE(ready({{0, {middle(15)}}, hot, {20, {edge(20)}}}));
    // A turning heats it again, and an old look tells nothing of today.
    const std::vector<Seen> cool{{0, {middle(15)}}, hot, {20, {middle(28)}}};
    CHECK_FALSE(ready({{0, {middle(15)}}, hot, {20, {middle(28)}, true}}));
    CHECK(is_cool_for_worms(log_of(cool, 26), 30.0));
    CHECK_FALSE(is_cool_for_worms(log_of(cool, 30), 30.0));
}

TEST_CASE("each number gone by stands in a rule that is marked so and was read") {
    const auto has = [](std::string_view about, std::string_view number) {
        for (const HeapRule& rule : heap_rules)
            if (rule.taken && rule.about == about && rule.says.find(number) != rule.says.npos)
                return rule.read;
        return false;
    };
    CHECK(has("fire", "80 C"));
    CHECK(has("too hot", "71 C"));
    CHECK(has("too hot", "65 C"));
    CHECK(has("turning", "clearly started back down"));
    CHECK(has("heating up", "7 days"));
    CHECK(has("ripening", "45 C"));
    CHECK(has("ripening", "3 to 6"));
    CHECK(has("cooled", "5 C"));
    for (const HeapRule& rule : heap_rules) {
        INFO(rule.says);
        CHECK_FALSE(rule.source.empty());
        CHECK((rule.about.find("germs") == rule.about.npos || !rule.taken));
    }
}

TEST_CASE("smoke is never opened, whatever the thermometer said before") {
    Diary diary;
    Observation seen;
    seen.date = built;
    seen.temperatures = {middle(58)};
    diary.observations.push_back(seen);
    const auto step_after = [&](const char* words, std::optional<double> c = std::nullopt) {
        Diary with = diary;
        Observation note;
        note.date = date_of(day_number(built) + 1);
        note.note = words;
        if (c) note.temperatures = {middle(*c)};
        with.observations.push_back(note);
        return heap_log(with, day_number(built) + 1).step;
    };
    for (const char* words : {"smoke", "it smokes at the top", "a burning smell", "smouldering"}) {
        INFO(words);
        CHECK(step_after(words) == HeapStep::stand_back);
        CHECK(step_after(words, 60.0) == HeapStep::stand_back);
    }
    CHECK(step_after("no smoke") == HeapStep::leave);
    CHECK(step_after("moved the barrow") == HeapStep::leave);
    Diary later = diary;
    Observation note;
    note.date = date_of(day_number(built) + 1);
    note.note = "smoke";
    later.observations.push_back(note);
    seen.date = date_of(day_number(built) + 2);
    later.observations.push_back(seen);  // 58 C: it was seen to
    CHECK(heap_log(later, day_number(built) + 2).step == HeapStep::leave);
    later.observations.back().temperatures = {middle(68)};
    CHECK(heap_log(later, day_number(built) + 2).step == HeapStep::stand_back);
}
