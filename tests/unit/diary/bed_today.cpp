// The bed today: what a look replaces, and what stands until when.
#include "feed/diary/bed_today.hpp"

#include "catch2.hpp"
#include "feed/bed/bed_numbers.hpp"
#include "feed/diary/look_back_on.hpp"
#include "feed/forecast/forecast.hpp"
#include "feed/ration/next_feeding.hpp"
#include "table_portion.hpp"

using namespace feed;
using feed_test::Approx;
using feed_test::portion;

namespace {

Diary fed_on_the_first(double wet_kg = 1.0) {
    Diary diary;
    diary.bed.container.kind = ContainerKind::tote;
    diary.bed.worms.wet_mass = wet_kilograms(0.5);
    diary.bed.temperature = celsius(21);
    diary.bed.squeeze = Squeeze::drops;
    diary.bed.age = days(200);
    diary.bed_date = Date{2026, 3, 1};
    diary.feedings.push_back({{2026, 3, 1}, {portion("apple-flesh", wet_kg)}, "", ""});
    return diary;
}

Observation look_on(int day) {
    Observation look;
    look.date = {2026, 3, day};
    return look;
}

BedToday on(const Diary& diary, int day) {
    return bed_today(diary.bed, diary, {2026, 3, day});
}

}  // namespace

TEST_CASE("without looks the food goes at the published rates") {
    const Diary diary = fed_on_the_first();
    const BedToday today = on(diary, 8);
    REQUIRE(today.food.size() == 1);
    CHECK(today.food[0].soft_left.value > 0.1);
    CHECK(today.food[0].soft_left.value < 0.6);
    CHECK(today.food[0].soft_left.low < 0.1);
    CHECK(today.food[0].soft_left.high > 0.8);
    CHECK(today.looks_learned_from == 0);
    CHECK(today.alarms.empty());
    CHECK(on(diary, 15).soft_food_wet_kg.value < today.soft_food_wet_kg.value);
}

TEST_CASE("gone leaves nothing soft, in every verb that starts from the bed") {
    Diary diary = fed_on_the_first(2.0);
    Observation look = look_on(6);
    look.gone = FoodGone::yes;
    diary.observations.push_back(look);
    const BedToday today = on(diary, 6);
    CHECK(today.food.at(0).seen_gone == true);
    CHECK(today.soft_food_wet_kg.high == 0.0);
    REQUIRE(today.bed.earlier.at(0).soft_left);
    CHECK(today.bed.earlier[0].soft_left->high == 0.0);
    const BedNumbers numbers = bed_numbers(today.bed, completed(today.bed), {});
    CHECK(numbers.labile_kg.high == 0.0);
    CHECK(numbers.acid_g.value == 0.0);
    const Forecast f = forecast(today.bed, {});
    CHECK(f.soft_food_left_wet_kg.high[0] < 1e-6);
}

TEST_CASE("a look that found over half left tells until when") {
    Diary diary = fed_on_the_first();
    Observation look = look_on(5);
    look.share_gone = 0.3;
    diary.observations.push_back(look);
    const BedToday today = on(diary, 5);
    REQUIRE(today.food.at(0).half_gone_in);
    const auto [day, earliest, latest] = *today.food[0].half_gone_in;
    CHECK(day >= 1);
    CHECK(earliest <= day);
    CHECK(latest >= day);
    // The day stays put as it comes nearer, and then there is nothing to wait for.
    const auto later = on(diary, 6).food.at(0).half_gone_in;
    CHECK((later ? (*later)[0] : 0) <= day - 1 + 1);
    CHECK_FALSE(on(diary, 5 + 2 * day + 5).food.at(0).half_gone_in);
    // "Not gone" is no word of how much is left: for two days half of it may be; and half gone is
    // not less than half.
    diary.observations[0].share_gone.reset();
    diary.observations[0].gone = FoodGone::no;
    CHECK((*on(diary, 5).food.at(0).half_gone_in)[0] >= 2);
    CHECK_FALSE(on(diary, 7).food.at(0).half_gone_in);
    diary.observations[0].gone = FoodGone::unsaid;
    diary.observations[0].share_gone = 0.5;
    CHECK_FALSE(on(diary, 5).food.at(0).half_gone_in);
}

TEST_CASE("not gone says that it is still there, however fast the bin is thought to be") {
    Diary diary = fed_on_the_first();
    Observation look = look_on(21);
    look.gone = FoodGone::no;
    diary.observations.push_back(look);
    const BedToday today = on(diary, 21);
    CHECK(today.food.at(0).seen_gone == false);
    CHECK(today.food[0].share_left.value >= gone_share);
    CHECK(today.food[0].soft_left.high > 0.3);
    CHECK(today.soft_food_wet_kg.value > on(fed_on_the_first(), 21).soft_food_wet_kg.value);
}

TEST_CASE("a share that was seen is the state, and goes on from there") {
    Diary diary = fed_on_the_first();
    Observation look = look_on(9);
    look.share_gone = 0.5;
    diary.observations.push_back(look);
    const BedToday today = on(diary, 9);
    CHECK(today.food.at(0).share_left.value == Approx(0.5).margin(0.1));
    // A reading in tenths, an eye that errs by a tenth and leans by 0.08: 0.21 about the middle.
    CHECK(today.food[0].share_left.low >= 0.2);
    CHECK(today.food[0].share_left.high <= 0.8);
    const BedToday later = on(diary, 14);
    CHECK(later.food[0].share_left.value < today.food[0].share_left.value - 0.05);
    // Weighed is nearer.
    diary.observations[0].share_gone.reset();
    diary.observations[0].left = wet_kilograms(0.5);
    const BedToday weighed = on(diary, 9);
    CHECK(weighed.food.at(0).share_left.high - weighed.food[0].share_left.low <
          today.food[0].share_left.high - today.food[0].share_left.low);
}

TEST_CASE("a look against all experience still sets the state") {
    Diary diary = fed_on_the_first();
    diary.feedings.clear();
    for (int day = 1; day <= 25; day += 3) {
        diary.feedings.push_back({{2026, 3, day}, {portion("apple-flesh", 0.3)}, "", ""});
        Observation look = look_on(day + 2);
        look.of_feeding = Date{2026, 3, day};
        look.share_gone = day < 25 ? 0.9 : 0.0;
        diary.observations.push_back(look);
    }
    const BedToday today = on(diary, 27);
    CHECK(today.food.back().share_left.value > 0.75);
}

TEST_CASE(
    "looks after the day say nothing of it, and the day's own feeding is not in the bed yet") {
    Diary diary = fed_on_the_first();
    Observation look = look_on(12);
    look.gone = FoodGone::yes;
    diary.observations.push_back(look);
    diary.feedings.push_back({{2026, 3, 8}, {portion("apple-flesh", 1.0)}, "", ""});
    const BedToday today = on(diary, 8);
    CHECK(today.food.size() == 1);
    CHECK(today.soft_food_wet_kg.value > 0.0);
    CHECK(today.looks_learned_from == 0);
}

TEST_CASE("what was measured replaces what was said, with its age") {
    Diary diary = fed_on_the_first();
    Observation look = look_on(3);
    look.ph = 6.2;
    look.squeeze = Squeeze::streams;
    look.temperatures = {{"middle", celsius(24)}};
    diary.observations.push_back(look);
    const BedToday today = on(diary, 9);
    CHECK(today.bed.ph == 6.2);
    CHECK(today.bed.squeeze == Squeeze::streams);
    CHECK(in_celsius(std::get<Temperature>(today.bed.temperature)) == Approx(24.0));
    CHECK(today.temperature_days_old == 6);
    CHECK_FALSE(on(fed_on_the_first(), 9).temperature_days_old);
}

TEST_CASE("an alarm stands until a later look says otherwise, at most a week") {
    Diary diary = fed_on_the_first();
    Observation look = look_on(5);
    look.worms = WormPlace::leaving;
    look.smell = Smell::ammonia;
    diary.observations.push_back(look);
    CHECK(on(diary, 5).has(AlarmKind::worms_leaving));
    CHECK(on(diary, 5).must_act());
    const BedToday last = on(diary, 12);
    REQUIRE(last.has(AlarmKind::worms_leaving));
    CHECK(last.alarms[0].ends == Date{2026, 3, 12});
    CHECK_FALSE(on(diary, 13).has(AlarmKind::worms_leaving));
    // A look that does not speak of the worms ends nothing; one that does ends it.
    Observation other = look_on(7);
    other.squeeze = Squeeze::drops;
    diary.observations.push_back(other);
    CHECK(on(diary, 8).has(AlarmKind::worms_leaving));
    Observation calm = look_on(9);
    calm.worms = WormPlace::spread;
    calm.smell = Smell::earthy;
    diary.observations.push_back(calm);
    CHECK(on(diary, 9).alarms.empty());
    CHECK(on(diary, 8).has(AlarmKind::ammonia_smell));
}

// bed-model, section 3: an alarm stands at most 7 days; then the answer is to look.
TEST_CASE("an alarm of over a week ago asks for a look, until there is one") {
    Diary diary = fed_on_the_first();
    Observation look = look_on(2);
    look.worms = WormPlace::leaving;
    look.smell = Smell::sour;
    look.temperatures = {{"", celsius(36)}};
    diary.observations.push_back(look);
    CHECK(on(diary, 9).unanswered.empty());
    CHECK(on(diary, 10).alarms.empty());
    const BedToday later = on(diary, 10);
    // A temperature stays in the bed and says itself that it is old.
    REQUIRE(later.unanswered.size() == 2);
    CHECK(later.unanswered[0].kind == AlarmKind::worms_leaving);
    CHECK(later.unanswered[1].kind == AlarmKind::sour_smell);
    CHECK(on(diary, 28).unanswered.size() == 2);
    // Words alone, and a look of the week in which it stood, tell nothing.
    Observation early = look_on(8);
    early.squeeze = Squeeze::drops;
    diary.observations.push_back(early);
    Observation words = look_on(11);
    words.note = "forgot the lid";
    diary.observations.push_back(words);
    CHECK(on(diary, 12).unanswered.size() == 2);
    Observation looked = look_on(13);
    looked.share_gone = 0.9;
    diary.observations.push_back(looked);
    CHECK(on(diary, 12).unanswered.size() == 2);
    CHECK(on(diary, 13).unanswered.empty());
    // Found again, it stands again.
    looked.smell = Smell::sour;
    diary.observations.back() = looked;
    CHECK(on(diary, 13).has(AlarmKind::sour_smell));
    CHECK(on(diary, 13).unanswered.empty());
}

TEST_CASE("worms wander in the first week of a bin, unless they have a reason") {
    Diary diary = fed_on_the_first();
    diary.bed.age = days(1);
    Observation look = look_on(4);
    look.worms = WormPlace::leaving;
    diary.observations.push_back(look);
    CHECK(on(diary, 4).alarms.empty());
    diary.observations[0].squeeze = Squeeze::streams;
    CHECK(on(diary, 4).has(AlarmKind::worms_leaving));
    diary.observations[0].squeeze.reset();
    diary.observations[0].temperatures = {{"", celsius(33)}};
    CHECK(on(diary, 4).has(AlarmKind::worms_leaving));
    diary.observations[0].temperatures.clear();
    diary.bed.age = days(30);
    CHECK(on(diary, 4).has(AlarmKind::worms_leaving));
}

TEST_CASE("beyond what worms bear: an old temperature is only to be watched") {
    Diary diary = fed_on_the_first();
    Observation look = look_on(5);
    look.temperatures = {{"back", celsius(36)}, {"front", celsius(22)}};
    look.pooling = true;
    look.ph = 4.5;
    diary.observations.push_back(look);
    const BedToday fresh = on(diary, 8);
    REQUIRE(fresh.has(AlarmKind::too_hot));
    CHECK(fresh.has(AlarmKind::pooling));
    CHECK(fresh.has(AlarmKind::too_sour));
    const auto level = [](const BedToday& today) {
        for (const Alarm& alarm : today.alarms) {
            if (alarm.kind == AlarmKind::too_hot) return alarm.level;
        }
        return Level::none;
    };
    CHECK(level(fresh) == Level::act);
    CHECK(level(on(diary, 9)) == Level::watch);
    CHECK(level(on(diary, 13)) == Level::none);
}

TEST_CASE("the next feeding stays put when looks without news are added") {
    Diary diary = fed_on_the_first(1.5);
    const auto next_on = [&](int day) {
        const BedToday today = on(diary, day);
        ForecastOptions options;
        options.ranges = today.ranges;
        options.new_food = today.new_food;
        const Forecast f = forecast(today.bed, {}, options);
        CheckOptions week;
        week.until_next = days(7);
        const auto next =
            next_feeding_day(f, bed_numbers(today.bed, completed(today.bed), week), 0.0, 0);
        return next ? next->day + day : -1;
    };
    const int from_the_second = next_on(2);
    CHECK(from_the_second > 6);
    for (int day = 3; day < from_the_second && day < 28; ++day) {
        Observation look = look_on(day);
        look.squeeze = Squeeze::drops;
        look.worms = WormPlace::spread;
        diary.observations.push_back(look);
        CAPTURE(day);
        CHECK(next_on(day) == from_the_second);
    }
    // Overdue is today.
    CHECK(next_on(30) == 30);
}

// A slow bin that has been slow for weeks is not told at each look that it is slow.
TEST_CASE("a look is compared with this bin's own rates") {
    Diary diary = fed_on_the_first();
    diary.feedings.clear();
    for (int week = 0; week < 8; ++week) {
        const std::int64_t day = day_number({2026, 3, 1}) + 7 * week;
        diary.feedings.push_back({date_of(day), {portion("apple-flesh", 0.3)}, "", ""});
        Observation look;
        look.date = date_of(day + 6);
        look.share_gone = 0.2;
        diary.observations.push_back(look);
    }
    const Observation last = diary.observations.back();
    const auto said = look_back_on(diary, last);
    REQUIRE(said);
    CHECK(said->said.share_left == Approx(0.8).margin(0.12));
    CHECK(close_look_back(said->said, last, said->scraps_fed, said->all_left).verdict ==
          LookBackVerdict::as_forecast);
    Diary young = diary;
    young.observations = {diary.observations.front()};
    const auto usual = look_back_on(young, young.observations.front());
    REQUIRE(usual);
    CHECK(usual->said.share_left < said->said.share_left - 0.1);
}
