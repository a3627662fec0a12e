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
    CHECK(labile.high == Approx(feed::decay::continuous_rate_per_day(0.7, 1.0)).epsilon(0.01));
    CHECK(labile.low == Approx(1.0 / (0.066 * 365.0)).epsilon(0.05));
    CHECK(labile.value == Approx(std::sqrt(labile.low * labile.high)).epsilon(0.01));
    CHECK(feed::kind(ForecastParameter::cellulosic_rate_per_day).value ==
          Approx(feed::decay::continuous_rate_per_day(0.07, 1.0)).epsilon(0.04));
    CHECK(feed::kind(ForecastParameter::lignin_like_rate_per_day).high ==
          Approx(feed::decay::continuous_rate_per_day(0.014, 1.0)).epsilon(0.01));
}
