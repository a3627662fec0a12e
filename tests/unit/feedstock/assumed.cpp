#include "feed/feedstock/assumed.hpp"

#include <fstream>
#include <set>
#include <sstream>
#include <string>

#include "catch2.hpp"
#include "feed/feedstock/own_feedstock.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/quantity/number_print.hpp"

using feed::Property;
using feed::taken;
using feed_test::Approx;

namespace {

constexpr Property guessed[] = {Property::moisture_wet,
                                Property::ash_dry,
                                Property::lignin_dry,
                                Property::labile_share,
                                Property::cellulosic_share,
                                Property::lignin_like_share,
                                Property::bulk_density_loose,
                                Property::bulk_density_settled,
                                Property::titratable_acidity_wet};

}  // namespace

TEST_CASE("each assumed value has a range around it, a unit, a source and a name of its own") {
    std::set<std::string_view> names;
    for (const auto& one : feed::assumed::all) {
        CAPTURE(std::string(one.name));
        CHECK(one.factor->low <= one.factor->value);
        CHECK(one.factor->value <= one.factor->high);
        CHECK_FALSE(one.factor->source.empty());
        CHECK(names.insert(one.name).second);
    }
    for (const auto& pools : feed::assumed::pools)
        CHECK(pools[0] + pools[1] + pools[2] == Approx(1.0));
}

TEST_CASE("what is known is taken as it stands, what is not as the table of assumed values says") {
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i) {
        const auto f = feed::feedstock_at(i);
        CAPTURE(f.id);
        for (std::size_t p = 0; p < feed::property_count; ++p) {
            const auto property = static_cast<Property>(p);
            const auto got = taken(f, property);
            CHECK((got && !got->is_assumed) == f[property].has_value());
            if (f[property]) {
                CHECK(got->range.value == f[property]->value);
                CHECK(got->grade == f[property]->grade);
            } else if (got) {
                CHECK(got->grade == feed::Grade::d);
            }
            if (!got) continue;
            CHECK(got->range.low <= got->range.value);
            CHECK(got->range.value <= got->range.high);
            CHECK(got->range.low >= feed::kind(property).lowest);
            CHECK(got->range.high <= feed::kind(property).highest);
        }
        for (const Property property : guessed)
            CHECK(taken(f, property));
        for (const Property property :
             {Property::nitrogen_dry, Property::cn_ratio, Property::ph, Property::potassium_wet})
            CHECK(taken(f, property).has_value() == f[property].has_value());
    }
}

TEST_CASE("nothing is settled denser than its water and solids") {
    feed::Feedstock heavy;
    heavy[Property::moisture_wet] = feed::Datum{0.9, 0.9, 0.9, {}, {}, "", ""};
    heavy[Property::bulk_density_loose] = feed::Datum{1000.0, 900.0, 1000.0, {}, {}, "", ""};
    const auto settled = taken(heavy, Property::bulk_density_settled);
    // 90 % water at 1000 kg/m3 and 10 % solids at 1600 and 2500: about 1043 kg/m3.
    CHECK(settled->range.high < 1045.0);
    CHECK(settled->range.value > 1035.0);
}

// Set free: 0.8 of a scrap's own water from 80 % moisture upward, falling to 0 at 60 % (linear): a
// judgement of this project.
TEST_CASE("wet scraps set their water free and dry ones hold it") {
    CHECK(feed::released_share(0.95).value == Approx(0.8));
    CHECK(feed::released_share(0.80).value == Approx(0.8));
    CHECK(feed::released_share(0.70).value == Approx(0.4));
    CHECK(feed::released_share(0.60).value == 0.0);
    CHECK(feed::released_share(0.40).high == 0.0);
    double before = 0.0;
    for (int percent = 0; percent <= 100; ++percent) {
        const auto share = feed::released_share(percent / 100.0);
        CHECK(share.value >= before);
        CHECK(share.low <= share.value);
        CHECK(share.value <= share.high);
        before = share.value;
    }
}

TEST_CASE("lime given by its neutralising value is a mineral, bran is not") {
    feed::OwnFeedstock own;
    own.name = "Marl";
    own.values = {{Property::moisture_wet, 0.1, {}, {}},
                  {Property::neutralising_value_wet, 0.8, {}, {}}};
    const auto marl = feed::own_feedstock(own)->feedstock;
    CHECK(taken(marl, Property::ash_dry)->range.value == 1.0);
    CHECK(taken(marl, Property::carbon_dry)->range.value == 0.0);
    own.values.pop_back();
    own.name = "Bran";
    const auto bran = feed::own_feedstock(own)->feedstock;
    CHECK(taken(bran, Property::ash_dry)->range.value == feed::assumed::ash.value);
    CHECK(taken(bran, Property::carbon_dry)->range.value == feed::assumed::carbon.value);
}

TEST_CASE("docs/methods.md shows every assumed value as it is") {
    std::ifstream file(FEED_SOURCE_DIR "/docs/methods.md");
    REQUIRE(file.good());
    std::stringstream page;
    page << file.rdbuf();
    for (const auto& one : feed::assumed::all) {
        const feed::Factor& f = *one.factor;
        const std::string row = "| " + std::string(one.name) + " | " +
                                feed::significant(f.value, 3) + " | " +
                                feed::significant(f.low, 3) + " to " +
                                feed::significant(f.high, 3) + " | " + std::string(f.unit) + " | " +
                                feed::text(f.grade) + " | " + std::string(f.source) + " |";
        INFO(row);
        CHECK(page.str().find(row) != std::string::npos);
    }
}
