// A heap from random things of the whole table: never more than there is, nothing barred in a
// layer, layers that add up to the recipe, and more chunky stuff never less air.
#include <memory>
#include <vector>

#include "catch2.hpp"
#include "feed/balance/balance.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/ration/heap.hpp"
#include "kitchen_caddies.hpp"

using namespace feed;
using feed_test::Approx;

namespace {

std::shared_ptr<const Feedstock> at(std::size_t index) {
    return std::make_shared<const Feedstock>(feedstock_at(index));
}

Entry entry_of(std::shared_ptr<const Feedstock> f, std::optional<double> most_kg) {
    Entry entry;
    entry.label = f->name;
    entry.feedstock = std::move(f);
    if (most_kg) {
        entry.most = wet_kilograms(*most_kg);
        entry.use_up_priority = 1;
    }
    return entry;
}

/// Some things of the table, most of them with an amount, with grass, leaves and water beside them.
BalanceProblem random_yard(feed_test::RandomNumbers& random) {
    const auto kg = [&] { return random.between(0.2, 60.0); };
    BalanceProblem problem;
    problem.place = Place::heap;
    problem.targets = hot_heap_targets();
    problem.entries.push_back(entry_of(at(*find_id("grass-clippings")), kg()));
    problem.entries.push_back(entry_of(at(*find_id("leaves-dry-shredded")), 2.0 * kg()));
    problem.entries.push_back(entry_of(at(*find_id("wood-chips-dry")), std::nullopt));
    problem.entries.push_back(entry_of(at(*find_id("water-tap")), std::nullopt));
    for (int i = 0; i < 4; ++i) {
        auto f = at(random.below(feedstock_count()));
        bool known = false;
        for (const Entry& entry : problem.entries)
            known = known || entry.feedstock->id == f->id;
        if (!known) problem.entries.push_back(entry_of(std::move(f), kg()));
    }
    return problem;
}

/// Air in a mixture, m3, and as a share.
struct Air {
    double share;
    double m3;
};
Air air_of(const std::vector<Portion>& portions) {
    const BlendProperties blend = feed::blend(portions);
    const double m3 =
        blend.wet_mass.in_kilograms() / in_kilograms_per_cubic_metre(blend.bulk_density.value);
    return {blend.free_air_space.value, blend.free_air_space.value * m3};
}

}  // namespace

TEST_CASE("two hundred random yards: at hand, barred, layers") {
    feed_test::RandomNumbers random(13);
    std::size_t solved = 0;
    std::size_t taken_out = 0;
    for (int i = 0; i < 200; ++i) {
        const BalanceProblem problem = random_yard(random);
        const auto answer = balance(problem);
        if (!answer || answer->status != BalanceStatus::solved) continue;
        ++solved;
        taken_out += answer->take_out.size();
        const auto& recipe = answer->portions;
        const HeapLayers heap = heap_layers(recipe, answer->properties.volume.value.value());
        REQUIRE(heap.bottom_share.size() == recipe.size());
        CHECK(heap.rounds >= 1);
        CHECK(heap.rounds <= heap_limits::most_rounds);
        for (std::size_t k = 0; k < recipe.size(); ++k) {
            const double kg = recipe[k].wet_mass.in_kilograms();
            const double laid = kg * (heap.bottom_share[k] + heap.rounds * heap.round_share[k]);
            INFO(recipe[k].feedstock->name);
            CHECK(heap.bottom_share[k] >= 0.0);
            CHECK(heap.round_share[k] > 0.0);
            CHECK(laid == Approx(kg).margin(1e-9));
            if (problem.entries[k].most)
                CHECK(laid <= problem.entries[k].most->in_kilograms() * (1.0 + 1e-9));
            if (barred_in(*recipe[k].feedstock, Place::heap)) CHECK(laid == 0.0);
        }
    }
    CHECK(solved >= 100);
    CHECK(taken_out >= 20);
}

TEST_CASE("more chunky stuff in a mixture never leaves less air in it") {
    feed_test::RandomNumbers random(5);
    const auto of = [&](std::shared_ptr<const Feedstock> f) {
        const double density = taken(*f, Property::bulk_density_loose)->range.value;
        return Portion{std::move(f), wet_kilograms(0.001 * random.between(10.0, 400.0) * density)};
    };
    constexpr double near_the_least = 0.35;
    int tried = 0;
    int short_of_air = 0;
    for (int i = 0; i < 1500; ++i) {
        auto f = at(random.below(feedstock_count()));
        if (heap_role(*f) != HeapRole::green || barred_in(*f, Place::heap)) continue;
        const std::string_view id =
            chunky_materials[static_cast<std::size_t>(i) % chunky_materials.size()];
        std::vector<Portion> mixed{of(std::move(f)), of(at(*find_id(id)))};
        const Air before = air_of(mixed);
        mixed[1].wet_mass = wet_kilograms(1.3 * mixed[1].wet_mass.in_kilograms());
        const Air after = air_of(mixed);
        INFO(mixed[0].feedstock->name << " with " << mixed[1].feedstock->name);
        if (!(before.m3 > 0.0)) continue;  // how dense it is, is not known
        CHECK(after.m3 >= before.m3 * (1.0 - 1e-12));
        // Packing takes some of the air of a mixture that has plenty; where it is short of air,
        // half above the 30 % that is asked and below, its share rises too.
        if (before.share <= near_the_least) CHECK(after.share >= before.share - 1e-12);
        if (before.share <= near_the_least) ++short_of_air;
        ++tried;
    }
    CHECK(tried > 100);
    CHECK(short_of_air >= 20);
}
