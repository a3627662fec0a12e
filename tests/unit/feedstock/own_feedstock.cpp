#include "feed/feedstock/own_feedstock.hpp"

#include <algorithm>
#include <limits>

#include "catch2.hpp"
#include "feed/feedstock/table.hpp"

using feed::ErrorCode;
using feed::own_feedstock;
using feed::OwnFeedstock;
using feed::Property;
using feed_test::Approx;

namespace {

OwnFeedstock till_roll(std::vector<feed::OwnValue> values) {
    OwnFeedstock own;
    own.name = "Shredded till roll";
    own.values = std::move(values);
    return own;
}

bool has(const feed::Errors& errors, ErrorCode code) {
    return std::any_of(errors.begin(), errors.end(),
                       [code](const feed::Error& e) { return e.code == code; });
}

}  // namespace

TEST_CASE("a full definition keeps what was given and derives the rest") {
    const auto made = own_feedstock(till_roll({{Property::moisture_wet, 0.06, 0.04, 0.08},
                                               {Property::carbon_dry, 0.40, {}, {}},
                                               {Property::nitrogen_dry, 0.002, 0.001, 0.004}}));
    REQUIRE(made);
    const auto& feedstock = made->feedstock;
    CHECK(feedstock.id == "shredded-till-roll");
    CHECK(feedstock[Property::moisture_wet]->high == 0.08);
    CHECK(feedstock[Property::cn_ratio]->value == Approx(200.0));
    // Of 36.8 to 43.2 % carbon, the default range, over 0.1 to 0.4 % nitrogen.
    CHECK(feedstock[Property::cn_ratio]->low == Approx(92.0));
    CHECK(feedstock[Property::cn_ratio]->high == Approx(432.0));
    CHECK(feedstock[Property::carbon_dry]->low < 0.40);
    CHECK(feedstock[Property::carbon_dry]->range_grade == feed::Grade::d);
    CHECK_FALSE(feedstock[Property::sodium_wet]);
    CHECK(feedstock[Property::labile_share]);
    CHECK(made->said.empty());
}

TEST_CASE("one value of a table feedstock can be replaced and the ratio follows") {
    const auto paper = feed::feedstock_at(*feed::find_id("paper-office"));
    const auto moisture =
        own_feedstock(till_roll({{Property::moisture_wet, 0.10, {}, {}}}), &paper);
    REQUIRE(moisture);
    CHECK(moisture->feedstock[Property::moisture_wet]->value == 0.10);
    CHECK(moisture->feedstock[Property::cn_ratio]->value == paper[Property::cn_ratio]->value);
    CHECK(moisture->feedstock.roles == paper.roles);

    const auto ratio = own_feedstock(till_roll({{Property::cn_ratio, 150.0, {}, {}}}), &paper);
    REQUIRE(ratio);
    CHECK(ratio->feedstock[Property::carbon_dry]->value == paper[Property::carbon_dry]->value);
    CHECK(ratio->feedstock[Property::nitrogen_dry]->value ==
          Approx(paper[Property::carbon_dry]->value / 150.0));

    const auto nitrogen =
        own_feedstock(till_roll({{Property::nitrogen_dry, 0.004, {}, {}}}), &paper);
    REQUIRE(nitrogen);
    CHECK(nitrogen->feedstock[Property::cn_ratio]->value ==
          Approx(paper[Property::carbon_dry]->value / 0.004));
}

TEST_CASE("a C:N alone takes carbon as 45 % of dry mass and says so") {
    const auto made = own_feedstock(
        till_roll({{Property::moisture_wet, 0.80, {}, {}}, {Property::cn_ratio, 15.0, {}, {}}}));
    REQUIRE(made);
    CHECK(made->feedstock[Property::nitrogen_dry]->value == Approx(0.03));
    REQUIRE(made->said.size() == 1);
    CHECK(made->said.front().find("45 %") != std::string::npos);
    CHECK(made->feedstock[Property::carbon_dry]->grade == feed::Grade::d);
}

TEST_CASE("a C:N that contradicts carbon and nitrogen is refused") {
    const auto with_ratio = [](double ratio) {
        return own_feedstock(till_roll({{Property::moisture_wet, 0.5, {}, {}},
                                        {Property::carbon_dry, 0.40, {}, {}},
                                        {Property::nitrogen_dry, 0.02, {}, {}},
                                        {Property::cn_ratio, ratio, {}, {}}}));
    };
    CHECK(with_ratio(20.0));
    CHECK(with_ratio(20.9));
    const auto wrong = with_ratio(30.0);
    REQUIRE_FALSE(wrong);
    CHECK(wrong.errors().front().code == ErrorCode::contradiction);
    CHECK(wrong.errors().front().field == "cn_ratio of Shredded till roll");
    CHECK(wrong.errors().front().message.find("which give 20") != std::string::npos);
}

TEST_CASE("wrong values are refused all at once") {
    const auto nan = std::numeric_limits<double>::quiet_NaN();
    const auto made = own_feedstock(till_roll({{Property::moisture_wet, 14.0, {}, {}},
                                               {Property::carbon_dry, -0.1, {}, {}},
                                               {Property::nitrogen_dry, nan, {}, {}},
                                               {Property::ash_dry, 0.1, 0.2, 0.3},
                                               {Property::ash_dry, 0.1, {}, {}}}));
    REQUIRE_FALSE(made);
    const auto& errors = made.errors();
    CHECK(has(errors, ErrorCode::percent_slip));
    CHECK(has(errors, ErrorCode::out_of_range));
    CHECK(has(errors, ErrorCode::not_a_number));
    CHECK(has(errors, ErrorCode::low_above_high));
    CHECK(has(errors, ErrorCode::duplicate_entry));
    CHECK(errors.front().message.find("14 %") != std::string::npos);
    CHECK(has(own_feedstock(till_roll({{Property::carbon_dry, 0.4, {}, {}}})).errors(),
              ErrorCode::missing_value));
    CHECK(has(own_feedstock(till_roll({{Property::moisture_wet, 0.4, {}, {}},
                                       {Property::carbon_dry, 0.6, {}, {}},
                                       {Property::ash_dry, 0.5, {}, {}}}))
                  .errors(),
              ErrorCode::contradiction));
    CHECK(has(own_feedstock(till_roll({{Property::moisture_wet, 0.4, {}, {}},
                                       {Property::cn_ratio, 0.0, {}, {}}}))
                  .errors(),
              ErrorCode::out_of_range));
    OwnFeedstock nameless;
    nameless.values = {{Property::moisture_wet, 0.5, {}, {}}};
    CHECK(has(own_feedstock(nameless).errors(), ErrorCode::empty));
}

TEST_CASE("default ranges hold their value and stay possible") {
    for (std::size_t p = 0; p < feed::property_count; ++p) {
        const auto& limits = feed::property_kinds[p];
        for (const double at : {0.0, 0.1, 0.5, 0.9, 1.0}) {
            feed::Datum datum;
            datum.value = limits.lowest + at * (limits.highest - limits.lowest);
            feed::set_default_range(datum, limits.property);
            CAPTURE(limits.key, datum.value);
            CHECK(datum.low <= datum.value);
            CHECK(datum.value <= datum.high);
            CHECK(datum.low >= limits.lowest);
            CHECK(datum.high <= limits.highest);
        }
    }
    for (const auto& pools : feed::assumed::pools)
        CHECK(pools[0] + pools[1] + pools[2] == Approx(1.0));
}

TEST_CASE("a loose density that is given moves the settled one") {
    const auto card = feed::feedstock_at(*feed::find_id("cardboard-corrugated"));
    const double loose = card[Property::bulk_density_loose]->value;
    const double settled = card[Property::bulk_density_settled]->value;
    auto own = till_roll({{Property::bulk_density_loose, 2.0 * loose, {}, {}}});
    auto made = own_feedstock(own, &card);
    REQUIRE(made);
    CHECK(made->feedstock[Property::bulk_density_settled]->value == Approx(2.0 * settled));
    CHECK(made->feedstock[Property::bulk_density_settled]->grade == feed::Grade::d);
    own.values.push_back({Property::bulk_density_settled, 300.0, {}, {}});
    made = own_feedstock(own, &card);
    REQUIRE(made);
    CHECK(made->feedstock[Property::bulk_density_settled]->value == 300.0);
}
