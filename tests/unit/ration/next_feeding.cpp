#include "feed/ration/next_feeding.hpp"

#include <bed_kitchen.hpp>
#include <catch2.hpp>
#include <vector>

using namespace feed;
using kitchen::portion;

namespace {

/// The next feeding by the one rule, with some apple fed today.
std::optional<RationDay> next_after(const Bed& bed, double wet_kg) {
    const std::vector<Feeding> plan{{days(0), {portion("apple-flesh", wet_kg)}, {}, {}}};
    const Forecast f = wet_kg > 0.0 ? forecast(bed, plan) : forecast(bed, {});
    CheckOptions week;
    week.until_next = days(7);
    return next_feeding_day(f, bed_numbers(bed, completed(bed), week), wet_kg,
                            wet_kg > 0.0 ? 1 : 0);
}

}  // namespace

TEST_CASE("the next feeding is due when half of a week's soft food is left") {
    const Bed bed = kitchen::tote();
    const std::vector<Feeding> plan{{days(0), {portion("apple-flesh", 1.4)}, {}, {}}};
    const Forecast f = forecast(bed, plan);
    const BedNumbers numbers = bed_numbers(bed, completed(bed), {});
    const auto next = next_after(bed, 1.4);
    REQUIRE(next);
    const auto day = static_cast<std::size_t>(next->day);
    // Half of a week's ration (bed-model, section 4), of which the soft part counts.
    const double week = 7.0 * feeding_rules(numbers).start_wet_kg_per_day;
    const double limit = 0.5 * week * f.portions[0].pool_shares[0];
    CHECK(f.soft_food_left_wet_kg.value[day] <= limit);
    CHECK(f.soft_food_left_wet_kg.value[day - 1] > limit);
    CHECK(next->earliest <= next->day);
    CHECK(next->latest >= next->day);
}

// Cases that the old rule (a quarter of the last feeding) got wrong: however much or little was
// fed, it waited as long. Seen by a judge of this library: 9 days for 50 g and for 1.5 kg.
TEST_CASE("much food is waited for longer, and little not at all") {
    const Bed bed = kitchen::tote();
    CHECK(next_after(bed, 0.05)->day == 1);
    CHECK(next_after(bed, 1.5)->day >= next_after(bed, 0.5)->day + 4);
    // Earlier food counts too.
    Bed with_food = bed;
    with_food.earlier = {{days(-1), {portion("apple-flesh", 1.5)}, {}, {}}};
    CHECK(next_after(with_food, 0.0)->day > 3);
    // Overdue is today.
    with_food.earlier = {{days(-60), {portion("apple-flesh", 0.5)}, {}, {}}};
    CHECK(next_after(with_food, 0.0)->day == 0);
    Bed frozen = bed;
    frozen.temperature = celsius(-5);
    CHECK_FALSE(next_after(frozen, 0.0));
}

// A useful portion is a quarter of a week's ration: where the week is full, room comes as its
// feedings leave the window of the rate, however fast the food goes.
TEST_CASE("the next feeding waits for room in the week too") {
    Bed fast = kitchen::tote();
    fast.temperature = celsius(25);
    ForecastOptions options;
    options.ranges.value[ForecastParameter::labile_rate_per_day] = 1.0;
    CheckOptions usual;
    usual.until_next = days(7);
    const BedNumbers numbers = bed_numbers(fast, completed(fast), usual);
    const double week = 7.0 * feeding_rules(numbers).start_wet_kg_per_day;
    const std::vector<Feeding> plan{{days(0), {portion("apple-flesh", week)}, {}, {}}};
    const Forecast f = forecast(fast, plan, options);
    const int by_food = next_feeding_day(f, numbers, 0.0, 1)->day;
    const int by_both = next_feeding_day(f, numbers, week, 1)->day;
    CHECK(by_food <= 1);
    CHECK(by_both == 2);  // a quarter of seven days, on whole days
}
