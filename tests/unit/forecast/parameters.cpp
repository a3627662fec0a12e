#include "feed/forecast/parameters.hpp"

#include <cmath>

#include "catch2.hpp"
#include "feed/forecast/chain.hpp"

using feed_test::Approx;

TEST_CASE("every constant of the forecast stands in its place and in its range") {
    for (std::size_t i = 0; i < feed::forecast_parameters.size(); ++i) {
        const feed::ParameterKind& kind = feed::forecast_parameters[i];
        INFO(kind.key);
        CHECK(static_cast<std::size_t>(kind.parameter) == i);
        CHECK(kind.low <= kind.value);
        CHECK(kind.value <= kind.high);
        CHECK(kind.low > 0.0);
        CHECK_FALSE(kind.source.empty());
    }
}

// CLM5 technical note: the published ends of the ranges, converted from discrete days and years.
TEST_CASE("rates are the published ones, converted") {
    using feed::ForecastParameter;
    const auto& labile = feed::kind(ForecastParameter::labile_rate_per_day);
    // CERES-N: carbohydrate 0.80 a day, later 0.20 (recalled).
    const double fastest = feed::decay::continuous_rate_per_day(0.7, 1.0);
    const double slowest = 1.0 / (0.066 * 365.0);
    CHECK(labile.value == Approx(std::pow(fastest * slowest * 0.80 * 0.20, 0.25)).epsilon(0.02));
    // Bins spread by 0.75 in the logarithm (5 % and 95 % points).
    CHECK(std::log(labile.high / labile.low) / (2.0 * 1.645) == Approx(0.75).epsilon(0.03));
    const auto& cellulosic = feed::kind(ForecastParameter::cellulosic_rate_per_day);
    CHECK(cellulosic.low == Approx(1.0 / (0.25 * 365.0)).epsilon(0.01));
    CHECK(cellulosic.high ==
          Approx(1.5 * feed::decay::continuous_rate_per_day(0.07, 1.0)).epsilon(0.02));
    const auto& lignin_like = feed::kind(ForecastParameter::lignin_like_rate_per_day);
    CHECK(lignin_like.low < 0.0110);
    CHECK(lignin_like.high > feed::decay::continuous_rate_per_day(0.014, 1.0));
}

// A typical value at the end of its range says that everybody errs to one side.
TEST_CASE("every constant has room on both sides") {
    for (const feed::ParameterKind& kind : feed::forecast_parameters) {
        INFO(kind.key);
        CHECK(kind.low < 0.97 * kind.value);
        CHECK(kind.high > 1.03 * kind.value);
    }
}
