// The number part of a check allocates nothing, however many portions and earlier feedings.
#include <bed_kitchen.hpp>
#include <catch2.hpp>
#include <counting_new.hpp>

TEST_CASE("numbers of a bed, a load, all hazards and a remedy without an allocation") {
    kitchen::Dice dice(5);
    const auto table = kitchen::whole_table();
    const kitchen::Household h = kitchen::random_household(dice, table);
    feed::Bed bed = h.bed;
    for (int i = 20; i > 0; --i)
        bed.earlier.push_back({feed::days(-i), h.feeding});
    const feed::CompletedBed full = feed::completed(bed);
    feed::RemedyMaterials materials;
    materials.bedding = kitchen::from_table("cardboard-corrugated");
    const std::size_t before = feed_test::allocation_count();
    const feed::BedNumbers n = feed::bed_numbers(bed, full, {});
    const feed::DecayedShares decayed = feed::decayed_shares(n.horizon_days);
    const feed::Load load = feed::load_of(h.feeding, decayed);
    const feed::HazardNumbers judged = feed::hazard_numbers(n, load, 0.5 * n.surface_m2);
    materials.bedding_per_kg = feed::load_of(*materials.bedding, 1.0, decayed);
    const feed::RemedyProblem problem{&n,   &judged,    h.feeding, load, 0.5 * n.surface_m2,
                                      0.02, &materials, decayed};
    int tried = 0;
    for (std::size_t i = 0; i < feed::hazard_count; ++i) {
        const auto hazard = static_cast<feed::Hazard>(i);
        for (const feed::RemedyKind kind : feed::remedies_tried(hazard)) {
            feed::try_remedy(kind, hazard, problem);
            ++tried;
        }
    }
    const std::size_t after = feed_test::allocation_count();
    CHECK(tried > 10);
    CHECK(after == before);
    // The counter does count.
    const auto one = std::make_shared<int>(1);
    CHECK(feed_test::allocation_count() > after);
    CHECK(*one == 1);
}
