// Blend, balance, bed and forecast add up the same numbers: for every row of the table and for own
// feedstocks with gaps, what one verb takes of a kilogram the others take too.
#include <random>

#include "catch2.hpp"
#include "feed/balance/coefficients.hpp"
#include "feed/balance/wetness.hpp"
#include "feed/bed/load.hpp"
#include "feed/blend/blend.hpp"
#include "feed/feedstock/own_feedstock.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/forecast/intake.hpp"

using namespace feed;
using feed_test::Approx;

namespace {

void check_range(const Range& a, const Range& b) {
    CHECK(a.value == Approx(b.value).margin(1e-15));
    CHECK(a.low == Approx(b.low).margin(1e-15));
    CHECK(a.high == Approx(b.high).margin(1e-15));
}

template <class T, class Of>
void check_estimate(const Estimate<T>& estimate, const Range& sum, Of of) {
    if (!estimate.has_value()) return;
    check_range({of(estimate.value), of(estimate.low), of(estimate.high)}, sum.around_value());
}

void check_all(const std::shared_ptr<const Feedstock>& feedstock, double wet_kg) {
    CAPTURE(feedstock->id);
    const Contribution one = contribution_of(*feedstock);
    const auto sum = [&](Addend addend) { return wet_kg * one[addend]; };
    const std::vector<Portion> portion{{feedstock, wet_kilograms(wet_kg)}};

    const BlendProperties blended = blend(portion);
    const auto kg = [](Mass mass) { return in_kilograms(mass); };
    check_estimate(blended.dry_mass, sum(Addend::dry_kg), kg);
    check_estimate(blended.water, sum(Addend::water_kg), kg);
    check_estimate(blended.carbon, sum(Addend::carbon_kg), kg);
    check_estimate(blended.nitrogen, sum(Addend::nitrogen_kg), kg);
    check_estimate(blended.acid, sum(Addend::acid_kg), kg);
    check_estimate(blended.salt, sum(Addend::salt_kg), kg);
    check_estimate(blended.fat, sum(Addend::fat_kg), kg);
    check_estimate(blended.volatile_solids, sum(Addend::volatile_solids_kg), kg);

    const Load load = load_of(*feedstock, wet_kg, decayed_shares(14.0, 1.0));
    check_range(load.dry_kg, sum(Addend::dry_kg));
    check_range(load.water_kg, sum(Addend::water_kg));
    check_range(load.free_water_kg, sum(Addend::set_free_kg));
    check_range(load.capacity_kg, sum(Addend::capacity_kg));
    check_range(load.acid_g, 1000.0 * sum(Addend::acid_kg));
    if (load.salt_missing_kg == 0.0) check_range(load.salt_kg, sum(Addend::salt_kg));
    if (load.fat_missing_kg == 0.0) check_range(load.fat_kg, sum(Addend::fat_kg));
    CHECK(load.solids_m3 == Approx(sum(Addend::solids_m3).value).margin(1e-15));
    const double collapse = one.part == Part::scraps ? limits::collapsed_scraps_volume.value : 1.0;
    CHECK(load.settled_m3 == Approx(collapse * sum(Addend::settled_m3).value).margin(1e-15));

    decay::IntakeGaps gaps;
    const decay::Intake intake = decay::intake_of(portion, gaps);
    double organic = intake.settled.inert_kg;
    double ash = intake.settled.mineral_kg;
    for (const auto& pool : intake.pools) {
        organic += pool.organic_kg;
        ash += pool.ash_kg;
    }
    CHECK(organic == Approx(sum(Addend::volatile_solids_kg).value).margin(1e-12));
    CHECK(organic + ash == Approx(sum(Addend::dry_kg).value).margin(1e-12));
    CHECK(intake.cell_water_kg + intake.bed_water_kg ==
          Approx(sum(Addend::water_kg).value).margin(1e-12));
    CHECK(intake.acid_kg == Approx(sum(Addend::acid_kg).value).margin(1e-15));
    CHECK(intake.lime_kg == Approx(0.001 * load.lime_g.value).margin(1e-15));

    Entry entry;
    entry.feedstock = feedstock;
    const auto same = [&](Sum which, double factor, Addend addend) {
        ReadingNotes own;
        const double number = EntryReader(entry, own).per_wet_kg(which);
        if (own.errors.empty())
            CHECK(wet_kg * number == Approx(factor * sum(addend).value).margin(1e-15));
        // A number that rests on something taken is said.
        const bool taken_for = addend != Addend::settled_m3 || one.is_known(Addend::water_kg);
        if (own.errors.empty() && taken_for && !one.is_known(addend) && number != 0.0)
            CHECK_FALSE(own.assumed.empty());
    };
    same(Sum::water_kg, 1.0, Addend::water_kg);
    same(Sum::carbon_kg, 1.0, Addend::carbon_kg);
    same(Sum::nitrogen_kg, 1.0, Addend::nitrogen_kg);
    same(Sum::acid_g, 1000.0, Addend::acid_kg);
    same(Sum::salt_kg, 1.0, Addend::salt_kg);
    same(Sum::fat_kg, 1.0, Addend::fat_kg);
    same(Sum::loose_l, 1000.0, Addend::loose_m3);
    same(Sum::settled_l, 1000.0 * tightest_packing, Addend::settled_m3);

    const Wetness wetness = wetness_of(portion);
    if (one.part == Part::scraps && one.is_known(Addend::water_kg))
        CHECK(in_kilograms(wetness.released) == Approx(load.free_water_kg.value).margin(1e-15));
}

}  // namespace

TEST_CASE("every verb takes the same of each row of the table") {
    for (std::size_t i = 0; i < feedstock_count(); ++i)
        check_all(std::make_shared<const Feedstock>(feedstock_at(i)), 0.75);
}

TEST_CASE("every verb takes the same of rows with gaps") {
    std::mt19937 random(20261128);
    for (std::size_t i = 0; i < feedstock_count(); ++i) {
        for (int trial = 0; trial < 4; ++trial) {
            auto gapped = feedstock_at(i);
            for (std::size_t p = 0; p < property_count; ++p) {
                if (random() % 3 == 0) gapped[static_cast<Property>(p)].reset();
            }
            gapped.roles = static_cast<std::uint8_t>(random() % 16);
            check_all(std::make_shared<const Feedstock>(gapped), 1.25);
        }
    }
}

TEST_CASE("every verb takes the same of own feedstocks that say only their moisture and a role") {
    for (const Role role : {Role::scraps, Role::bedding, Role::amendment, Role::water}) {
        for (const DecayClass decay : {DecayClass::inert, DecayClass::fast, DecayClass::medium,
                                       DecayClass::slow, DecayClass::very_slow}) {
            OwnFeedstock own;
            own.name = "Unknown";
            own.values = {{Property::moisture_wet, 0.6, {}, {}}};
            own.roles = static_cast<std::uint8_t>(role);
            own.decay_class = decay;
            const auto made = own_feedstock(own);
            REQUIRE(made);
            check_all(std::make_shared<const Feedstock>(made->feedstock), 2.0);
        }
    }
}
