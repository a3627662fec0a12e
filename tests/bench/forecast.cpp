// A 60-day forecast with 20 feedings, and a year. The reference of the ratios is one plain pass of
// exponentials, as many as the five runs of the 60 days take at least, so that a slow machine
// shifts both. tests/bench/forecast_solve_ivp.py times SciPy on the same equations.
#include "feed/forecast/forecast.hpp"

#include <cmath>
#include <cstdio>
#include <vector>

#include "measure.hpp"
#include "table_portion.hpp"

namespace {

using feed_test::portion;

std::vector<feed::Feeding> feedings(int count, double every_days) {
    std::vector<feed::Feeding> plan;
    for (int i = 0; i < count; ++i)
        plan.push_back({feed::days(every_days * i),
                        {portion("apple-whole", 0.2), portion("banana-peel", 0.1),
                         portion("cardboard-corrugated", 0.05)}});
    return plan;
}

}  // namespace

int main() {
    feed::Bed bed;
    bed.worms.wet_mass = feed::wet_kilograms(0.5);
    bed.temperature = feed::celsius(20);
    bed.squeeze = feed::Squeeze::drops;
    const double plain = feed_bench::median_nanoseconds([] {
        double sum = 0.0;
        for (int i = 0; i < 5 * 60 * 20; ++i)
            sum += std::exp(-1e-4 * i);
        feed_bench::keep(sum);
    });
    std::printf("%-44s %15s %10s\n", "", "median", "x plain exp");
    const auto twenty = feedings(20, 3);
    const double sixty_days = feed_bench::median_nanoseconds(
        [&] { feed_bench::keep(feed::forecast(bed, twenty).moisture.value.back()); });
    feed_bench::report("forecast, 60 days, 20 feedings", sixty_days, plain);
    feed::ForecastOptions year;
    year.days = 365;
    const auto weekly = feedings(52, 7);
    const double whole_year = feed_bench::median_nanoseconds(
        [&] { feed_bench::keep(feed::forecast(bed, weekly, year).moisture.value.back()); });
    feed_bench::report("forecast, 365 days, 52 feedings", whole_year, plain);
    std::printf("60 days with 20 feedings within 200 us: %s\n", sixty_days <= 200e3 ? "yes" : "no");
    return 0;
}
