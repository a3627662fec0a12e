// Writes invented beds and what the forecast makes of them, one JSON object a line, with every
// digit, so that another solver can integrate the same equations from the same start.
#include <array>
#include <cstdio>
#include <span>
#include <vector>

#include "feed/forecast/bed_step.hpp"
#include "feed/forecast/ranges.hpp"

namespace decay = feed::decay;

namespace {

struct Scenario {
    const char* name;
    decay::BedState state;
    decay::Surroundings around;
    feed::ForecastParameters with;
    double air_c = 20.0;
    double step_days = 1.0;
    int steps = 60;
    int feed_on_step = -1;
    decay::Intake fed;
};

decay::PoolStock stock(double organic_kg, double cn, double capacity, double litres_per_kg,
                       double scraps_wet_per_kg) {
    decay::PoolStock made;
    made.organic_kg = organic_kg;
    made.ash_kg = 0.08 * organic_kg;
    made.warming_kg = organic_kg;
    made.carbon_kg = 0.46 * organic_kg;
    made.nitrogen_kg = made.carbon_kg / cn;
    made.capacity_kg = capacity * organic_kg;
    made.volume_l = litres_per_kg * organic_kg;
    made.scraps_wet_kg = scraps_wet_per_kg * organic_kg;
    return made;
}

Scenario tote() {
    Scenario s{"tote", {}, {}, feed::typical_parameters(), 20.0, 1.0, 60, -1, {}};
    s.state.pools = {stock(0.10, 14.0, 0.0, 12.0, 8.0), stock(0.40, 45.0, 3.0, 14.0, 1.0),
                     stock(0.30, 120.0, 3.0, 14.0, 0.3)};
    s.state.settled = {2.0, 0.8, 1.0, 0.07, 0.05, 0.02};
    s.state.cell_water_kg = 0.7;
    s.state.bed_water_kg = 9.0;
    s.state.acid_kg = 0.004;
    s.state.ammonium_kg = 0.0002;
    s.state.warm = {{23.0, 21.0, 0.15, 0.02}, 0.2, 1.2, 0.0017};
    s.around.castings_density = 220.0;
    return s;
}

std::vector<Scenario> scenarios() {
    std::vector<Scenario> all{tote()};

    Scenario limed = tote();
    limed.name = "limed";
    limed.state.lime_kg = 0.003;
    limed.state.acid_kg = 0.012;
    all.push_back(limed);

    Scenario draining = tote();
    draining.name = "draining";
    draining.state.bed_water_kg = 22.0;
    draining.around.castings_density = 110.0;
    all.push_back(draining);

    Scenario hungry = tote();
    hungry.name = "few_worms";
    hungry.around.worms_wet_kg = 0.05;
    hungry.state.pools[0] = stock(0.5, 10.0, 0.0, 12.0, 8.0);
    all.push_back(hungry);

    Scenario rates_meet = tote();
    rates_meet.name = "equal_rates";
    rates_meet.with[feed::ForecastParameter::castings_rate_per_day] = 0.07;
    rates_meet.with[feed::ForecastParameter::cellulosic_rate_per_day] = 0.07;
    rates_meet.with[feed::ForecastParameter::acid_fading_rate_per_day] = 0.22;
    all.push_back(rates_meet);

    Scenario warm = tote();
    warm.name = "warm_alkaline";
    warm.air_c = 28.0;
    warm.around.ph_without_acid = 8.5;
    warm.state.pools[0] = stock(0.4, 6.0, 0.0, 12.0, 8.0);
    warm.state.warm = {{28.0, 28.0, 0.6, 0.0}, 0.6, 5.0, 0.0071};
    all.push_back(warm);

    Scenario parched = tote();
    parched.name = "parched";
    parched.state.bed_water_kg = 1.5;
    parched.with[feed::ForecastParameter::evaporation_kg_per_m2_day] = 3.0;
    all.push_back(parched);

    Scenario quarter = tote();
    quarter.name = "quarter_days_fed";
    quarter.step_days = 0.25;
    quarter.steps = 120;
    quarter.feed_on_step = 20;
    quarter.fed.pools = {stock(0.08, 12.0, 0.0, 12.0, 9.0), stock(0.05, 30.0, 2.0, 14.0, 1.0),
                         stock(0.01, 90.0, 2.0, 14.0, 0.2)};
    quarter.fed.cell_water_kg = 0.6;
    quarter.fed.bed_water_kg = 0.2;
    quarter.fed.acid_kg = 0.003;
    all.push_back(quarter);

    Scenario clm = tote();
    clm.name = "clm_q10_cold";
    clm.around.response = decay::TemperatureResponse::clm_q10;
    clm.air_c = 8.0;
    all.push_back(clm);
    return all;
}

void number(const char* key, double value, const char* after = ", ") {
    std::printf("\"%s\": %.17g%s", key, value, after);
}

void pools(const std::array<decay::PoolStock, decay::pool_count>& stocks) {
    std::printf("\"pools\": [");
    for (std::size_t p = 0; p < stocks.size(); ++p) {
        const decay::PoolStock& pool = stocks[p];
        std::printf("%s{", p == 0 ? "" : ", ");
        number("organic", pool.organic_kg);
        number("ash", pool.ash_kg);
        number("carbon", pool.carbon_kg);
        number("nitrogen", pool.nitrogen_kg);
        number("capacity", pool.capacity_kg);
        number("volume", pool.volume_l);
        number("scraps", pool.scraps_wet_kg, "}");
    }
    std::printf("], ");
}

void state(const decay::BedState& bed) {
    std::printf("{");
    pools(bed.pools);
    number("castings_organic", bed.settled.castings_organic_kg);
    number("castings_ash", bed.settled.castings_ash_kg);
    number("castings_carbon", bed.settled.carbon_kg);
    number("castings_nitrogen", bed.settled.nitrogen_kg);
    number("inert", bed.settled.inert_kg);
    number("mineral", bed.settled.mineral_kg);
    number("cell_water", bed.cell_water_kg);
    number("bed_water", bed.bed_water_kg);
    number("acid", bed.acid_kg);
    number("lime", bed.lime_kg);
    number("ammonium", bed.ammonium_kg);
    number("bed_c", bed.warm.stores.bed_c);
    number("pocket_c", bed.warm.stores.pocket_c);
    number("pocket_labile", bed.warm.stores.pocket_labile_kg);
    number("bed_labile", bed.warm.stores.bed_labile_kg);
    number("respired", bed.respired_kg);
    number("evaporated", bed.evaporated_kg);
    number("drained", bed.drained_kg);
    number("metabolic", bed.metabolic_water_kg);
    number("nitrogen_lost", bed.nitrogen_lost_kg);
    number("castings_formed", bed.castings_formed_kg, "}");
}

void write(Scenario s) {
    std::printf("{\"name\": \"%s\", \"parameters\": {", s.name);
    for (const feed::ParameterKind& kind : feed::forecast_parameters) {
        std::printf("\"%.*s\": %.17g%s", static_cast<int>(kind.key.size()), kind.key.data(),
                    s.with[kind.parameter],
                    &kind == &feed::forecast_parameters.back() ? "}, " : ", ");
    }
    number("surface", s.around.surface_m2);
    number("outer", s.around.outer_m2);
    number("spread", s.around.spread_m2);
    number("pocket_wet", s.state.warm.wet_kg);
    number("pocket_volume", s.state.warm.volume_m3);
    number("depth", s.around.depth_m);
    number("humidity", s.around.humidity);
    number("drainage", s.around.drainage_share);
    number("worms", s.around.worms_wet_kg);
    number("castings_density", s.around.castings_density);
    number("ph", s.around.ph_without_acid);
    number("air_c", s.air_c);
    number("step_days", s.step_days);
    std::printf("\"haug\": %s, \"feed_on_step\": %d, ",
                s.around.response == decay::TemperatureResponse::haug ? "true" : "false",
                s.feed_on_step);
    std::printf("\"fed\": {");
    pools(s.fed.pools);
    number("cell_water", s.fed.cell_water_kg);
    number("bed_water", s.fed.bed_water_kg);
    number("acid", s.fed.acid_kg, "}, ");
    std::printf("\"start\": ");
    state(s.state);
    std::printf(", \"after\": [");
    for (int i = 0; i < s.steps; ++i) {
        if (i == s.feed_on_step) decay::take_in(s.state, s.fed);
        decay::step(s.state, s.with, s.around, s.air_c, s.step_days);
        if (i > 0) std::printf(", ");
        state(s.state);
    }
    std::printf("]}\n");
}

}  // namespace

int main() {
    for (const Scenario& scenario : scenarios())
        write(scenario);
    return 0;
}
