// The day that a ration names stays put: whoever lays what is printed, writes it down and asks
// again, on any day, finds the same day, and on that day is told to feed. Random invented bins.
#include <array>
#include <catch2.hpp>
#include <cstdint>
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

}  // namespace

TEST_CASE("the day of the next feeding stays put while the ration is obeyed") {
    kitchen::Dice dice(31);
    int followed = 0;
    int young = 0;
    for (int i = 0; i < 40; ++i) {
        Diary diary = random_bin(dice);
        const auto things = random_caddy(dice);
        std::int64_t day = first_day;
        Ration r = on(diary, day, things);
        INFO("bin " << i << ": " << kitchen::told(r));
        if (r.answer == RationAnswer::feed || r.answer == RationAnswer::feed_less) {
            diary.feedings.push_back({date_of(day), portions_of(r.put_in), "", ""});
        }
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
        REQUIRE((then.answer == RationAnswer::feed || then.answer == RationAnswer::feed_less));
        ++followed;
        young += in_days(*diary.bed.age) < 80.0 ? 1 : 0;
    }
    CHECK(followed > 20);
    CHECK(young > 5);
}
