#include "feed/bed/limits_list.hpp"

#include <catch2.hpp>
#include <fstream>
#include <sstream>

#include <bed_kitchen.hpp>
#include "feed/bed/pool_rates.hpp"
#include "feed/bed/usual_bed.hpp"
#include "feed/forecast/parameters.hpp"

using namespace feed;
using feed_test::Approx;

TEST_CASE("every factor lies in its range and names its source") {
    for (const limits::NamedFactor& named : limits::all_factors) {
        const Factor& factor = *named.factor;
        INFO(named.name);
        CHECK(factor.low <= factor.value);
        CHECK(factor.value <= factor.high);
        CHECK_FALSE(factor.source.empty());
    }
    for (const limits::NamedLimit& named : limits::all_limits) {
        const Limit& bound = *named.limit;
        INFO(named.name);
        CHECK((bound.higher_is_worse ? bound.watch < bound.act : bound.watch > bound.act));
        CHECK_FALSE(bound.source.empty());
    }
}

TEST_CASE("docs/bed.md shows every factor and limit as it is") {
    std::ifstream file(FEED_SOURCE_DIR "/docs/bed.md");
    REQUIRE(file.good());
    std::stringstream page;
    page << file.rdbuf();
    for (const limits::NamedFactor& named : limits::all_factors) {
        const Factor& f = *named.factor;
        const std::string row = "| " + std::string(named.name) + " | " + significant(f.value, 3) +
                                " | " + significant(f.low, 3) + " to " + significant(f.high, 3) +
                                " | " + std::string(f.unit) + " | " + text(f.grade) + " | " +
                                std::string(f.source) + " |";
        INFO(row);
        CHECK(page.str().find(row) != std::string::npos);
    }
    for (const limits::NamedLimit& named : limits::all_limits) {
        const Limit& l = *named.limit;
        const std::string row = "| " + std::string(named.name) + " | " + significant(l.watch, 3) +
                                " | " + significant(l.act, 3) + " | " + std::string(l.unit) +
                                " | " + text(l.grade) + " | " + std::string(l.source) + " |";
        INFO(row);
        CHECK(page.str().find(row) != std::string::npos);
    }
}

TEST_CASE("published limits stand as printed") {
    CHECK(limits::salt.watch == 0.002);  // Wu et al. 2019
    CHECK(limits::salt.act == 0.005);    // Kaplan et al. 1980; Edwards
    CHECK(limits::rate_weekly.value == Approx(0.14).margin(0.005));
    // 0.1 % ammonium acetate as nitrogen, and the no-effect level of ammonium hydroxide.
    CHECK(1.0 * 14.007 / 77.08 == Approx(0.182).margin(0.001));
    CHECK(limits::ammonia_nitrogen.act == Approx(0.5 * 14.007 / 35.05).margin(0.002));
    // Avoidance at 0.05 g NH4OH a kg.
    CHECK(limits::free_ammonia_nitrogen.act < 0.05 * 14.007 / 35.05);
    CHECK(assumed::salt_of_sodium.value == Approx(58.44 / 22.99).margin(0.005));
    const SpeciesLimits& red = limits_of(Species::eisenia_fetida);
    CHECK(red.moisture_low.value() == 0.70);
    CHECK(red.driest.value() == 0.60);
    CHECK(in_celsius(red.warmest) == Approx(30));
}

TEST_CASE("check and forecast decay at the same rates") {
    const ForecastParameters typical = typical_parameters();
    CHECK(pool_rates[0].rate_per_day.value == typical[ForecastParameter::labile_rate_per_day]);
    CHECK(pool_rates[1].rate_per_day.value == typical[ForecastParameter::cellulosic_rate_per_day]);
    CHECK(pool_rates[2].rate_per_day.value == typical[ForecastParameter::lignin_like_rate_per_day]);
    CHECK(pool_rates[0].respired_share == typical[ForecastParameter::labile_respired_share]);
    CHECK(pool_rates[1].respired_share == typical[ForecastParameter::cellulosic_respired_share]);
    CHECK(pool_rates[2].respired_share == typical[ForecastParameter::lignin_like_respired_share]);
}

TEST_CASE("species limits are in order") {
    for (int s = 0; s < 4; ++s) {
        const SpeciesLimits& l = limits_of(static_cast<Species>(s));
        CHECK(l.species == static_cast<Species>(s));
        CHECK(l.coldest < l.optimum_low);
        CHECK(l.optimum_low < l.optimum_high);
        CHECK(l.optimum_high < l.warmest);
        CHECK(l.warmest < l.deadly);
        CHECK(l.driest < l.moisture_low);
        CHECK(l.moisture_low < l.moisture_high);
        CHECK(l.moisture_high < l.wettest);
    }
}
