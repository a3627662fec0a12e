// A forecast allocates its answer and nothing within a day: a longer one makes no more calls.
#include <vector>

#include "catch2.hpp"
#include "counting_new.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/forecast/forecast.hpp"

TEST_CASE("the days of a forecast allocate nothing") {
    const auto portion = [](const char* id, double wet_kg) {
        return feed::Portion{
            std::make_shared<const feed::Feedstock>(feed::feedstock_at(*feed::find_id(id))),
            feed::wet_kilograms(wet_kg)};
    };
    feed::Bed bed;
    bed.temperature = feed::celsius(20);
    std::vector<feed::Feeding> plan;
    for (int i = 0; i < 5; ++i)
        plan.push_back({feed::days(i), {portion("apple-whole", 0.1)}});
    const auto calls = [&](std::size_t days, std::size_t steps_per_day) {
        feed::ForecastOptions options;
        options.days = days;
        options.steps_per_day = steps_per_day;
        const std::size_t before = feed_test::allocation_count();
        const feed::Forecast f = feed::forecast(bed, plan, options);
        const std::size_t after = feed_test::allocation_count();
        CHECK(f.days == days);
        return after - before;
    };
    const std::size_t short_one = calls(50, 1);
    CHECK(short_one > 0);
    CHECK(calls(360, 1) <= short_one + 8);  // a few longer sentences about the timing
    CHECK(calls(50, 24) == short_one);
}
