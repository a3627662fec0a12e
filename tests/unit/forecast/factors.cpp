#include "feed/forecast/factors.hpp"

#include "catch2.hpp"

using feed_test::Approx;
namespace decay = feed::decay;
using decay::TemperatureResponse;

// Haug 1993, bracket of the rate equation: values of the formula at published constants.
TEST_CASE("the temperature bracket follows Haug") {
    struct Row {
        double temperature_c, bracket, margin;
    };
    const Row rows[] = {{5, 0.3834, 5e-5},  {10, 0.5277, 5e-5}, {15, 0.7263, 5e-5},
                        {20, 0.9995, 5e-5}, {25, 1.3753, 5e-5}, {30, 1.8916, 5e-5},
                        {40, 3.5683, 5e-5}, {50, 6.6546, 5e-5}, {55, 8.9793, 5e-5},
                        {60, 11.891, 5e-4}, {65, 15.151, 5e-4}, {70, 17.699, 5e-4},
                        {75, 16.174, 5e-4}};
    for (const Row& row : rows) {
        CHECK(decay::haug_bracket(row.temperature_c) ==
              Approx(row.bracket).margin(row.margin).epsilon(0));
    }
    CHECK(decay::haug_bracket(71.55) == Approx(17.930).margin(5e-4).epsilon(0));
    CHECK(decay::haug_bracket(80.17) > 0.0);
    CHECK(decay::haug_bracket(80.18) == 0.0);
    CHECK(decay::haug_bracket(120.0) == 0.0);
}

TEST_CASE("the temperature factor is 1 where the rates were measured and 0 in ice") {
    for (const TemperatureResponse response :
         {TemperatureResponse::haug, TemperatureResponse::clm_q10}) {
        CHECK(decay::temperature_factor(25.0, response) == Approx(1.0).epsilon(1e-7));
        CHECK(decay::temperature_factor(-0.1, response) == 0.0);
        CHECK(decay::temperature_factor(20.0, response) < 1.0);
    }
    // CLM5 technical note: Q10 = 1.5, reference 25 C.
    CHECK(decay::temperature_factor(5.0, TemperatureResponse::clm_q10) ==
          Approx(0.444).margin(5e-4).epsilon(0));
    CHECK(decay::temperature_factor(15.0, TemperatureResponse::clm_q10) ==
          Approx(0.667).margin(5e-4).epsilon(0));
    for (const TemperatureResponse response :
         {TemperatureResponse::haug, TemperatureResponse::clm_q10}) {
        CHECK(decay::temperature_factor(90.0, response) ==
              decay::temperature_factor(35.0, response));
        CHECK(decay::temperature_factor(34.0, response) <
              decay::temperature_factor(35.0, response));
    }
    CHECK(decay::temperature_factor(35.0, TemperatureResponse::clm_q10) == Approx(1.5));
}

TEST_CASE("moisture and air factors follow Haug") {
    const double moisture[][2] = {{0.30, 0.1472}, {0.40, 0.5028}, {0.45, 0.7100}, {0.50, 0.8557},
                                  {0.55, 0.9349}, {0.60, 0.9720}, {0.70, 0.9951}, {0.80, 0.9992}};
    for (const auto& row : moisture)
        CHECK(decay::moisture_factor(row[0]) == Approx(row[1]).margin(5e-5).epsilon(0));
    const double air[][2] = {{0.0, 0.0295},  {0.10, 0.2447}, {0.15, 0.5142}, {0.20, 0.7757},
                             {0.25, 0.9187}, {0.30, 0.9736}, {0.40, 0.9975}};
    for (const auto& row : air)
        CHECK(decay::air_factor(row[0]) == Approx(row[1]).margin(5e-5).epsilon(0));
    CHECK(decay::air_factor(-3.0) == decay::air_factor(0.0));
}

// CERES-N / EPIC.
TEST_CASE("nitrogen slows decay above a C:N of 25") {
    CHECK(decay::nitrogen_factor(10) == 1.0);
    CHECK(decay::nitrogen_factor(25) == 1.0);
    CHECK(decay::nitrogen_factor(50) == Approx(0.5).epsilon(1e-3));
    CHECK(decay::nitrogen_factor(75) == Approx(0.25).epsilon(1e-3));
    CHECK(decay::nitrogen_factor(500) == decay::nitrogen_factor(100));
}

// CLM5 technical note, eq. 21.12: break-even C:N is CN_new / (1 - respired).
TEST_CASE("nitrogen is freed below the break-even C:N and taken up above") {
    CHECK(decay::mineralised_share(0.39, 12.0 / 0.61, 12.0) == Approx(0.0).margin(1e-12));
    CHECK(decay::mineralised_share(0.55, 12.0 / 0.45, 12.0) == Approx(0.0).margin(1e-12));
    CHECK(decay::mineralised_share(0.29, 10.0 / 0.71, 10.0) == Approx(0.0).margin(1e-12));
    CHECK(decay::mineralised_share(0.39, 10.0, 12.0) > 0.0);
    CHECK(decay::mineralised_share(0.55, 60.0, 12.0) < 0.0);
}

// Phase volumes with 1600 and 2500 kg/m3 (Richard et al. 2004): bulk density, moisture, organic
// share of the dry mass -> free air space.
TEST_CASE("free air space follows the phase volumes") {
    const double rows[][4] = {{300, 0.60, 0.90, 0.7477},  {500, 0.60, 0.90, 0.5795},
                              {600, 0.60, 0.80, 0.5008},  {800, 0.60, 0.80, 0.3344},
                              {1000, 0.60, 0.80, 0.1680}, {500, 0.75, 0.90, 0.5497},
                              {700, 0.80, 0.85, 0.3572}};
    for (const auto& row : rows) {
        const double dry_kg = row[0] * (1.0 - row[1]);
        CHECK(decay::free_air_space(1000.0, row[0] * row[1], dry_kg * row[2],
                                    dry_kg * (1.0 - row[2])) ==
              Approx(row[3]).margin(1e-4).epsilon(0));
    }
}
