#include "feed/bed/free_ammonia.hpp"

#include "catch2.hpp"

using feed_test::Approx;

// Emerson, Russo, Lund & Thurston 1975: free share in per cent, rows of temperature.
TEST_CASE("free ammonia follows Emerson") {
    const double ph[] = {6, 6.5, 7, 7.5, 8, 8.5, 9};
    struct Row {
        double temperature_c;
        double percent[7];
        double pka;
    };
    const Row rows[] = {{10, {0.019, 0.059, 0.185, 0.583, 1.822, 5.544, 15.654}, 9.7314},
                        {15, {0.027, 0.086, 0.272, 0.855, 2.656, 7.942, 21.434}, 9.5641},
                        {20, {0.040, 0.125, 0.394, 1.236, 3.807, 11.123, 28.355}, 9.4025},
                        {25, {0.057, 0.179, 0.564, 1.762, 5.366, 15.205, 36.186}, 9.2464},
                        {30, {0.080, 0.253, 0.796, 2.476, 7.432, 20.248, 44.533}, 9.0954}};
    for (const Row& row : rows) {
        const feed::Temperature temperature = feed::celsius(row.temperature_c);
        CHECK(feed::decay::ammonium_pka(temperature) == Approx(row.pka).margin(5e-5).epsilon(0));
        for (int i = 0; i < 7; ++i) {
            CHECK(100.0 * feed::decay::free_ammonia_share(ph[i], temperature) ==
                  Approx(row.percent[i]).margin(5.1e-4).epsilon(0));
        }
    }
    // Independent printed check: about 11 % at pH 8.5 and 20 C (CCREM 1987 as quoted).
    CHECK(feed::decay::free_ammonia_share(8.5, feed::celsius(20)) ==
          Approx(0.11).margin(0.005).epsilon(0));
    CHECK(feed::decay::ammonium_pka(feed::celsius(70)) ==
          feed::decay::ammonium_pka(feed::celsius(50)));
}
