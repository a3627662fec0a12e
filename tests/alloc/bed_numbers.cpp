// The number part of a check allocates nothing, however many portions and earlier feedings.
#include <bed_kitchen.hpp>
#include <catch2.hpp>
#include <cmath>
#include <counting_new.hpp>

TEST_CASE("numbers of a bed, a load, and all hazards without an allocation") {
    kitchen::Dice dice(5);
    const auto table = kitchen::whole_table();
    const kitchen::Household h = kitchen::random_household(dice, table);
    feed::Bed bed = h.bed;
    for (int i = 20; i > 0; --i)
        bed.earlier.push_back({feed::days(-i), h.feeding});
    const feed::CompletedBed full = feed::completed(bed);
    const std::size_t before = feed_test::allocation_count();
    const feed::BedNumbers n = feed::bed_numbers(bed, full, {});
    const feed::DecayedShares decayed = feed::decayed_shares(n.horizon_days, n.decay_speed);
    const feed::Load load = feed::load_of(h.feeding, decayed);
    const feed::FeedingPlace place = feed::feeding_place(n, 0.5 * n.surface_m2);
    const feed::HazardNumbers judged = feed::hazard_numbers(place, load);
    double excess = 0.0;
    for (const feed::HazardRow& row : feed::detail::hazard_rows)
        excess += feed::excess_of_row(row, place, load, row.limits(place).watch, 0.03);
    const std::size_t after = feed_test::allocation_count();
    CHECK(std::isfinite(excess));
    CHECK(judged[feed::Hazard::wet].value.value > 0.0);
    CHECK(after == before);
    // The counter does count.
    const auto one = std::make_shared<int>(1);
    CHECK(feed_test::allocation_count() > after);
    CHECK(*one == 1);
}
