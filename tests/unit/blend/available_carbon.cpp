#include "feed/blend/available_carbon.hpp"

#include "catch2.hpp"
#include "material.hpp"

using feed::degradable_share;
using feed_test::Approx;

// Kayhanian and Tchobanoglous 1992 list the biodegradable fraction of food waste 0.82, office paper
// 0.82, yard waste 0.72 and newsprint 0.22 with the lignin contents 0.4, 0.4, 4.07 and 21.9 % of
// volatile solids (recalled; the four agree with the formula of Chandler et al. 1980).
TEST_CASE("the published degradable fractions") {
    CHECK(degradable_share(0.004) == Approx(0.82).margin(0.005));
    CHECK(degradable_share(0.0407) == Approx(0.72).margin(0.005));
    CHECK(degradable_share(0.219) == Approx(0.22).margin(0.005));
}

TEST_CASE("the share stays between nothing and 0.83") {
    CHECK(degradable_share(0.0) == Approx(0.83));
    CHECK(degradable_share(0.10) == Approx(0.55));
    CHECK(degradable_share(0.2964) == Approx(0.0).margin(1e-4));
    CHECK(degradable_share(0.35) == 0.0);
    CHECK(degradable_share(1.0) == 0.0);
}

TEST_CASE("lignin is taken over volatile solids, and from the decay class where unknown") {
    const auto straw = feed_test::Material("straw")
                           .with(feed::Property::ash_dry, 0.20)
                           .with(feed::Property::lignin_dry, 0.08, 0.06, 0.12)
                           .share();
    CHECK(feed::degradable_share_of(*straw).range.value == Approx(degradable_share(0.10)));
    CHECK(feed::degradable_share_of(*straw).range.low == Approx(degradable_share(0.15)));
    CHECK(feed::degradable_share_of(*straw).range.high == Approx(degradable_share(0.075)));
    CHECK_FALSE(feed::degradable_share_of(*straw).is_assumed);
    const auto sandy = feed_test::Material("sandy straw")
                           .with(feed::Property::ash_dry, 0.20, 0.10, 0.40)
                           .with(feed::Property::lignin_dry, 0.08, 0.06, 0.12)
                           .share();
    CHECK(feed::degradable_share_of(*sandy).range.low == Approx(degradable_share(0.12 / 0.60)));
    CHECK(feed::degradable_share_of(*sandy).range.high == Approx(degradable_share(0.06 / 0.90)));
    double before = 1.0;
    for (const auto decay : {feed::DecayClass::fast, feed::DecayClass::medium,
                             feed::DecayClass::slow, feed::DecayClass::very_slow}) {
        const auto unknown = feed_test::Material("x").decay(decay).share();
        const auto share = feed::degradable_share_of(*unknown);
        CHECK(share.is_assumed);
        CHECK(share.range.low <= share.range.value);
        CHECK(share.range.value <= share.range.high);
        CHECK(share.range.value < before);
        before = share.range.value;
    }
}
