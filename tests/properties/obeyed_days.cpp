// The day that a ration names stays put: whoever lays what is printed, writes it down and asks
// again, on any day, finds the same day, and on that day is told to feed. Random invented bins.
#include <array>
#include <catch2.hpp>
#include <cstdint>
#include <long_forms.hpp>
#include <ration_kitchen.hpp>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/diary/diary.hpp"
#include "feed/ration/from_diary.hpp"

using namespace feed;

namespace {

constexpr std::int64_t first_day = 20500;

/// A well bin on `first_day`, some weeks or years old, with some of its past feedings.
Diary random_bin(kitchen::Dice& dice) {
    Diary diary;
    diary.bed = kitchen::tote();
    diary.bed.worms.wet_mass = wet_kilograms(dice.between(0.15, 1.2));
    diary.bed.temperature = celsius(dice.between(14.0, 24.0));
    diary.bed.age = days(dice.below(2) == 0 ? dice.between(5.0, 80.0) : dice.between(90.0, 700.0));
    diary.bed_date = date_of(first_day - 10);
    for (std::size_t i = dice.below(3); i > 0; --i) {
        const auto ago = static_cast<std::int64_t>(2 + dice.below(9));
        const double kg = dice.between(0.1, 0.5) * diary.bed.worms.wet_mass->in_kilograms();
        diary.feedings.push_back(
            {date_of(first_day - ago), {kitchen::portion("carrot", kg)}, "", ""});
    }
    return diary;
}

std::vector<ThingAtHand> random_caddy(kitchen::Dice& dice) {
    constexpr std::array<std::string_view, 6> soft{"carrot",      "lettuce-leaf", "melon-peel",
                                                   "apple-flesh", "potato-peel",  "tomato"};
    std::vector<ThingAtHand> things;
    for (std::size_t i = 1 + dice.below(3); i > 0; --i)
        things.push_back({kitchen::from_table(soft[dice.below(soft.size())]),
                          "",
                          wet_kilograms(dice.between(0.1, 1.0)),
                          {}});
    return things;
}

Ration on(const Diary& diary, std::int64_t day, std::vector<ThingAtHand> things) {
    RationInput in = ration_input_of(diary, date_of(day));
    in.things = std::move(things);
    return ration(in);
}

bool feeds(const Ration& r) {
    return r.answer == RationAnswer::feed || r.answer == RationAnswer::feed_less;
}

/// Somewhat dry, wet or sour, or as it is.
void make_watched(kitchen::Dice& dice, Bed& bed) {
    constexpr std::array<Squeeze, 4> wetness{Squeeze::damp, Squeeze::drops, Squeeze::many_drops,
                                             Squeeze::crumbly};
    if (dice.below(3) != 0) bed.squeeze = wetness[dice.below(wetness.size())];
    if (dice.below(4) == 0) bed.ph = dice.between(5.4, 6.6);
    bed.moisture.reset();
}

}  // namespace

TEST_CASE("the day of the next feeding stays put while the ration is obeyed") {
    kitchen::Dice dice(31);
    int followed = 0;
    int young = 0;
    for (int i = 0; i < feed_test::draws(40); ++i) {
        Diary diary = random_bin(dice);
        const auto things = random_caddy(dice);
        std::int64_t day = first_day;
        Ration r = on(diary, day, things);
        INFO("bin " << i << ": " << kitchen::told(r));
        if (feeds(r)) diary.feedings.push_back({date_of(day), portions_of(r.put_in), "", ""});
        if (!r.raised.empty() || !r.next_feeding || r.next_feeding->day < 2) continue;
        const std::int64_t promised = day + r.next_feeding->day;
        CAPTURE(promised - first_day);
        for (; day < promised; ++day) {
            CAPTURE(day - first_day);
            const Ration meanwhile = on(diary, day, things);
            REQUIRE(meanwhile.answer == RationAnswer::wait);
            REQUIRE(meanwhile.next_feeding.has_value());
            REQUIRE(day + meanwhile.next_feeding->day == promised);
        }
        const Ration then = on(diary, promised, things);
        INFO("then " << kitchen::told(then));
        REQUIRE(feeds(then));
        ++followed;
        young += in_days(*diary.bed.age) < 80.0 ? 1 : 0;
    }
    CHECK(feed_test::enough(followed, 20));
    CHECK(feed_test::enough(young, 5));
}

// Bed and caddy are others once a feeding lies in the bed: a dry bed is watered, a touchy material
// is out of the caddy. What was said for the day is fed by then.
TEST_CASE("asked again on the same day, a ration that was fed gives nothing more") {
    kitchen::Dice dice(77);
    int fed = 0;
    int watched = 0;
    for (int i = 0; i < feed_test::draws(90); ++i) {
        Diary diary = random_bin(dice);
        make_watched(dice, diary.bed);
        const auto things = random_caddy(dice);
        const Ration r = on(diary, first_day, things);
        if (!feeds(r)) continue;
        INFO("bin " << i << ": " << kitchen::told(r));
        diary.feedings.push_back({date_of(first_day), portions_of(r.put_in), "", ""});
        for (const auto& caddy : {things, random_caddy(dice), std::vector<ThingAtHand>{}}) {
            const Ration again = on(diary, first_day, caddy);
            INFO("again " << kitchen::told(again));
            REQUIRE_FALSE(feeds(again));
            REQUIRE(again.answer == RationAnswer::wait);
            REQUIRE(again.next_feeding.has_value() == r.next_feeding.has_value());
            if (r.next_feeding) REQUIRE(again.next_feeding->day == r.next_feeding->day);
        }
        ++fed;
        watched += r.raised.empty() ? 0 : 1;
    }
    CHECK(feed_test::enough(fed, 40));
    CHECK(feed_test::enough(watched, 10));
}

// A bed dries and its acid fades while nobody looks, and with either it comes to be watched or no
// more. That moves how much goes in, and not the day.
TEST_CASE("looks without news do not move the day, whatever a watched bed is watched for") {
    kitchen::Dice dice(83);
    int followed = 0;
    int watched = 0;
    int fed_then = 0;
    for (int i = 0; i < feed_test::draws(60); ++i) {
        Diary diary = random_bin(dice);
        make_watched(dice, diary.bed);
        const double kg = dice.between(0.3, 0.7) * diary.bed.worms.wet_mass->in_kilograms();
        diary.feedings.push_back(
            {date_of(first_day - 3), {kitchen::portion("carrot", kg)}, "", ""});
        const auto things = random_caddy(dice);
        const Ration r = on(diary, first_day, things);
        if (!r.next_feeding || r.next_feeding->day < 2) continue;
        INFO("bin " << i << ": " << kitchen::told(r));
        if (!r.put_in.empty())
            diary.feedings.push_back({date_of(first_day), portions_of(r.put_in), "", ""});
        const int promised = r.next_feeding->day;
        CAPTURE(promised);
        bool well = true;
        for (int ahead = 1; ahead < promised && well; ++ahead) {
            CAPTURE(ahead);
            Observation look;
            look.date = date_of(first_day + ahead);
            look.note = "all as before";
            diary.observations.push_back(look);
            const Ration meanwhile = on(diary, first_day + ahead, things);
            INFO("meanwhile " << kitchen::told(meanwhile));
            // Past an act limit the bed comes first, and no day is named.
            well = meanwhile.answer != RationAnswer::act_first;
            if (!well) break;
            REQUIRE(meanwhile.answer == RationAnswer::wait);
            REQUIRE(meanwhile.next_feeding.has_value());
            REQUIRE(ahead + meanwhile.next_feeding->day == promised);
            if (!meanwhile.put_in.empty())
                diary.feedings.push_back({look.date, portions_of(meanwhile.put_in), "", ""});
        }
        if (!well) continue;
        ++followed;
        watched += r.raised.empty() ? 0 : 1;
        const Ration then = on(diary, first_day + promised, things);
        INFO("then " << kitchen::told(then));
        // What is not fed on its day waits for the bed, and so for no other day.
        if (feeds(then))
            ++fed_then;
        else
            REQUIRE_FALSE(then.next_feeding.has_value());
    }
    CHECK(feed_test::enough(followed, 25));
    CHECK(feed_test::enough(watched, 10));
    CHECK(10 * fed_then > 8 * followed);
}
