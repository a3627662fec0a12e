#include "feed/feedstock/laboratory_report.hpp"

#include <algorithm>

#include <own_named.hpp>
#include "catch2.hpp"

using feed::ErrorCode;
using feed::feedstock_from_report;
using feed::LaboratoryReport;
using feed::Property;
using feed::ReportBasis;
using feed_test::Approx;
using feed_test::own_named;

TEST_CASE("a report on dry mass and the same as received give one feedstock") {
    LaboratoryReport dry;
    dry.moisture = 0.70;
    dry.carbon = 0.42;
    dry.nitrogen = 0.028;
    dry.ash = 0.10;
    LaboratoryReport wet = dry;
    wet.basis = ReportBasis::as_received;
    wet.carbon = 0.42 * 0.30;
    wet.nitrogen = 0.028 * 0.30;
    wet.ash = 0.10 * 0.30;
    const auto a = feedstock_from_report(own_named("Pomace"), dry);
    const auto b = feedstock_from_report(own_named("Pomace"), wet);
    REQUIRE(a);
    REQUIRE(b);
    for (const auto property : {Property::moisture_wet, Property::carbon_dry,
                                Property::nitrogen_dry, Property::cn_ratio, Property::ash_dry})
        CHECK(a->feedstock[property]->value == Approx(b->feedstock[property]->value));
    CHECK(a->feedstock[Property::cn_ratio]->value == Approx(15.0));
    CHECK(a->said.empty());
}

// Layer manure of the handbook example (Rynk 1992): moisture 70 %, N 6.0 % of dry mass, C:N 10.
TEST_CASE("carbon follows from nitrogen and the ratio") {
    LaboratoryReport report;
    report.moisture = 0.70;
    report.nitrogen = 0.06;
    report.cn_ratio = 10.0;
    const auto made = feedstock_from_report(own_named("Layer manure"), report);
    REQUIRE(made);
    CHECK(made->feedstock[Property::carbon_dry]->value == Approx(0.60));
    CHECK(made->said.empty());
}

// Adams et al. 1951: carbon = volatile solids / 1.8; 45 to 60 % of volatile solids.
TEST_CASE("volatile solids over 1.8 only where nothing else is there, and said") {
    LaboratoryReport report;
    report.moisture = 0.50;
    report.nitrogen = 0.02;
    report.volatile_solids = 0.90;
    const auto made = feedstock_from_report(own_named("Litter"), report);
    REQUIRE(made);
    const auto& carbon = *made->feedstock[Property::carbon_dry];
    CHECK(carbon.value == Approx(0.50));
    CHECK(carbon.low == Approx(0.405));
    CHECK(carbon.high == Approx(0.54));
    CHECK(made->feedstock[Property::ash_dry]->value == Approx(0.10));
    REQUIRE(made->said.size() == 1);
    CHECK(made->said.front().find("1.8") != std::string::npos);
    report.carbon = 0.41;
    CHECK(feedstock_from_report(own_named("Litter"), report)
              ->feedstock[Property::carbon_dry]
              ->value == Approx(0.41));
    CHECK(feedstock_from_report(own_named("Litter"), report)->said.empty());
}

TEST_CASE("reports that cannot be are refused") {
    LaboratoryReport report;
    CHECK(feedstock_from_report(own_named("x"), report).errors().front().code ==
          ErrorCode::missing_value);
    report.moisture = 70.0;
    CHECK(feedstock_from_report(own_named("x"), report).errors().front().code ==
          ErrorCode::out_of_range);
    report.moisture = 0.70;
    report.basis = ReportBasis::as_received;
    report.carbon = 0.42;  // more than the 30 % that is dry
    CHECK(feedstock_from_report(own_named("x"), report).errors().front().message.find("dry mass") !=
          std::string::npos);
    report.basis = ReportBasis::dry;
    report.nitrogen = 0.02;
    report.cn_ratio = 30.0;
    CHECK(feedstock_from_report(own_named("x"), report).errors().front().code ==
          ErrorCode::contradiction);
    report.cn_ratio.reset();
    report.ash = 0.2;
    report.volatile_solids = 0.9;
    CHECK(feedstock_from_report(own_named("x"), report).errors().front().code ==
          ErrorCode::contradiction);
}
