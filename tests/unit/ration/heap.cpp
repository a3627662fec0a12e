#include "feed/ration/heap.hpp"

#include <memory>
#include <string_view>
#include <vector>

#include "catch2.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/ration/heap_worms.hpp"
#include "table_portion.hpp"

using namespace feed;
using feed_test::Approx;

namespace {

constexpr double cubic_feet = 0.028316846592;

using feed_test::from_table;

/// So many litres of a row, loose.
Portion litres_of(std::string_view id, double litres) {
    auto f = from_table(id);
    const double density = (*f)[Property::bulk_density_loose]->value;
    return {std::move(f), wet_kilograms(0.001 * litres * density)};
}

}  // namespace

// 3 x 3 x 3 ft is the least, 5 ft the most (Oregon county extension page: "at least 3x3x3 ft, not
// over 5").
TEST_CASE("a heap of three feet each way heats, one of six is made two") {
    CHECK(heap_size(2.5 * 3 * 3 * cubic_feet) == HeapSize::too_small);
    CHECK(heap_size(3 * 3 * 3 * cubic_feet) == HeapSize::heats);
    CHECK(heap_size(4.9 * 5 * 5 * cubic_feet) == HeapSize::heats);
    CHECK(heap_size(6 * 6 * 6 * cubic_feet) == HeapSize::too_large);
}

// Roles as keepers name them (common practice): greens heat, browns are dry, chips keep gaps open.
TEST_CASE("each material has its place in the layers") {
    for (const auto* id : {"grass-clippings", "coffee-grounds", "manure-horse", "lettuce-leaf"})
        CHECK(heap_role(*from_table(id)) == HeapRole::green);
    for (const auto* id : {"leaves-dry-shredded", "newspaper", "sawdust-oak", "hay-grass"})
        CHECK(heap_role(*from_table(id)) == HeapRole::brown);
    for (const auto* id : {"wood-chips-dry", "straw-wheat", "corn-stalks-dry", "bark-softwood"})
        CHECK(heap_role(*from_table(id)) == HeapRole::chunky);
    CHECK(heap_role(*from_table("limestone-ground")) == HeapRole::sprinkle);
    CHECK(heap_role(*from_table("water-tap")) == HeapRole::water);
    for (const std::string_view id : chunky_materials)
        CHECK(find_id(id));
}

// By hand: a cube of 1 m3 has 1 m2. 300 L of grass are 30 cm of it, at most 2 in (5 cm) a layer
// (city page, Moberly, Missouri): six rounds. 300 L of cores that do not mat, 4 in (10 cm) a layer
// (county page, Klickitat, Washington): three.
TEST_CASE("no layer of greens is thicker than layers are laid") {
    const std::vector<Portion> grass{litres_of("grass-clippings", 300.0),
                                     litres_of("leaves-dry-shredded", 700.0)};
    CHECK(heap_layers(grass, 1.0).rounds == 6);
    const std::vector<Portion> cores{litres_of("carrot", 299.9),
                                     litres_of("leaves-dry-shredded", 700.0)};
    CHECK(heap_layers(cores, 1.0).rounds == 3);
}

// By hand: 200 L of chips on 1 m2; 10 cm of them, 100 L, lie at the bottom: half. Of 800 L an
// eighth.
TEST_CASE("chunky stuff lies at the bottom, the rest goes on in equal rounds") {
    const std::vector<Portion> recipe{litres_of("grass-clippings", 240.0),
                                      litres_of("leaves-dry-shredded", 500.0),
                                      litres_of("wood-chips-dry", 200.0)};
    const HeapLayers heap = heap_layers(recipe, 1.0);
    CHECK(heap.rounds == 5);
    CHECK(heap.bottom_share == std::vector<double>{0.0, 0.0, 0.5});
    CHECK(heap.round_share[0] == Approx(0.2));
    CHECK(heap.round_share[2] == Approx(0.1));
    const std::vector<Portion> more{litres_of("wood-chips-dry", 800.0)};
    CHECK(heap_layers(more, 1.0).bottom_share[0] == Approx(0.125));
}

TEST_CASE("without chunky stuff a part of the browns lies at the bottom") {
    const std::vector<Portion> recipe{litres_of("carrot", 290.0),
                                      litres_of("leaves-dry-shredded", 700.0)};
    const HeapLayers heap = heap_layers(recipe, 1.0);
    CHECK(heap.rounds == 3);
    CHECK(heap.bottom_share[1] == Approx(0.25));
    CHECK(heap.round_share[1] == Approx(0.25));
}

// By hand, with the caps of the rows: where a kilogram of worms bears c kg a week of a thing that
// is half of the heap, it bears 2 c of the heap.
TEST_CASE("the tightest cap of a material caps the heap for the worms") {
    const auto manure = from_table("manure-horse");
    REQUIRE(manure->most_wet_kg_per_kg_worms);
    const double cap = *manure->most_wet_kg_per_kg_worms;
    const std::vector<Portion> half{{manure, wet_kilograms(20.0)},
                                    {from_table("leaves-dry-shredded"), wet_kilograms(20.0)}};
    const HeapForWorms answer = heap_for_worms(half);
    CHECK(answer.barred.empty());
    CHECK(answer.capped == std::vector<std::size_t>{0});
    CHECK(answer.week_kg_per_kg_worms == Approx(2.0 * cap));
    const std::vector<Portion> none{{from_table("leaves-dry-shredded"), wet_kilograms(20.0)},
                                    {manure, wet_kilograms(0.0)}};
    CHECK(heap_for_worms(none).week_kg_per_kg_worms == solver::infinity);
    CHECK(heap_for_worms(none).capped.empty());
}

// Whatever a heap may take: worms get it only where its row lets them, once pre-composted.
TEST_CASE("what worms must not get even pre-composted keeps the heap off them") {
    std::size_t barred = 0;
    for (std::size_t i = 0; i < feedstock_count(); ++i) {
        const auto f = std::make_shared<const Feedstock>(feedstock_at(i));
        if (barred_in(*f, Place::heap)) continue;
        const std::vector<Portion> recipe{{f, wet_kilograms(1.0)}};
        const Feedstock after = prepared(*f, Preparation::pre_composted);
        const bool keeps_off = !heap_for_worms(recipe).barred.empty();
        CHECK(keeps_off == (after.stance == Stance::avoid));
        barred += keeps_off ? 1 : 0;
    }
    CHECK(barred > 0);
}
