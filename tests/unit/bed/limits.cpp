#include "feed/bed/limits.hpp"

#include <catch2.hpp>

#include <bed_kitchen.hpp>
#include "feed/bed/pool_rates.hpp"
#include "feed/bed/usual_bed.hpp"
#include "feed/forecast/parameters.hpp"

using namespace feed;
using feed_test::Approx;

TEST_CASE("every factor lies in its range and names its unit and source") {
    const Factor factors[] = {limits::released_water_share,
                              limits::planned_capacity_share,
                              limits::unknown_bedding_capacity,
                              limits::evaporation_open_top,
                              limits::evaporation_holes,
                              limits::evaporation_closed,
                              limits::acid_from_labile,
                              limits::bed_buffer,
                              limits::grams_citric_per_gram_lime,
                              limits::ground_lime_acting,
                              limits::coarse_lime_acting,
                              limits::unknown_acid_sour,
                              limits::unknown_acid_mild,
                              limits::most_lime,
                              limits::ph_after_lime,
                              limits::heat_of_respiration,
                              limits::surface_resistance,
                              limits::layer_conductivity,
                              limits::usual_spread_share,
                              limits::salt_of_sodium,
                              limits::bed_salt,
                              limits::rate_weekly,
                              limits::rate_half_daily,
                              limits::rate_best_castings,
                              limits::rate_most_worms,
                              limits::rate_by_surface,
                              limits::rate_by_surface_tested,
                              limits::usual_interval,
                              limits::ramp_start_share,
                              limits::ramp_start_days,
                              limits::ramp_full_days,
                              limits::underfed_days,
                              limits::collapsed_scraps_volume,
                              limits::bed_ash,
                              limits::settled_over_loose,
                              limits::mixed_bed_depth,
                              limits::organic_density,
                              limits::ash_density,
                              usual::bed_capacity,
                              usual::dry_density_new,
                              usual::dry_density_settled,
                              usual::worms_by_volume,
                              usual::bought_share};
    for (const Factor& factor : factors) {
        CHECK(factor.low <= factor.value);
        CHECK(factor.value <= factor.high);
        CHECK_FALSE(factor.source.empty());
    }
    const Limit bounds[] = {limits::acid_per_air_litre,    limits::ammonia_nitrogen,
                            limits::free_ammonia_nitrogen, limits::salt,
                            limits::underfed_rate,         limits::free_air_space,
                            limits::layer_depth,           limits::fat};
    for (const Limit& bound : bounds) {
        CHECK((bound.higher_is_worse ? bound.watch < bound.act : bound.watch > bound.act));
        CHECK_FALSE(bound.source.empty());
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
    CHECK(limits::salt_of_sodium.value == Approx(58.44 / 22.99).margin(0.005));
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
