#include "feed/ration/bin_size.hpp"

#include <catch2.hpp>
#include <memory>
#include <string>
#include <vector>

#include "feed/feedstock/lookup.hpp"

using namespace feed;
using feed_test::Approx;

namespace {

constexpr double pound = 0.45359237;
constexpr double square_foot = 0.3048 * 0.3048;

ThingAtHand thing(const std::string& words, double kg) {
    const auto found = look_up(words);
    REQUIRE(found);
    return {found->feedstock, words, wet_kilograms(kg), {}};
}

}  // namespace

TEST_CASE("surface and worms as the handbooks print them") {
    // NC State AG-473-18: 1 square foot for each pound of waste a week; 6 lb a week are 2 x 3 ft,
    // and 3.5 lb a week go into 2 x 2 ft.
    const WormNeed six = worm_need(std::vector{thing("carrot", 6.0 * pound)});
    CHECK(six.surface_m2 == Approx(6.0 * square_foot).epsilon(0.001));
    const WormNeed two = worm_need(std::vector{thing("carrot", 3.5 * pound)});
    CHECK(two.surface_m2 <= 4.0 * square_foot);
    CHECK(two.surface_m2 > 3.0 * square_foot);
    // A state page of Wisconsin: 4 lb a week, 2 x 2 ft.
    CHECK(worm_need(std::vector{thing("carrot", 4.0 * pound)}).surface_m2 ==
          Approx(4.0 * square_foot).epsilon(0.001));
    // Extension question column: 1 lb of worms for 1 lb of scraps a week.
    CHECK(worm_need(std::vector{thing("carrot", pound)}).worms_kg == Approx(pound));
    // A school: 150 lb a week, 150 square feet.
    CHECK(worm_need(std::vector{thing("carrot", 150.0 * pound)}).surface_m2 ==
          Approx(150.0 * square_foot).epsilon(0.001));
}

TEST_CASE("the bin that is named takes the scraps by the ration's own number") {
    for (const double kg : {0.3, 1.0, 2.5, 8.0}) {
        const WormNeed need = worm_need(std::vector{thing("carrot", kg)});
        RationInput in;
        in.bed.container.kind = ContainerKind::box;
        in.bed.container.inside = InsideSize{metres(1.0), metres(need.surface_m2), metres(0.45)};
        in.bed.worms.wet_mass = wet_kilograms(need.worms_kg);
        CHECK(ration(in).week.in_kilograms() == Approx(kg).epsilon(0.001));
        // And the start what it is said to take.
        in.bed.worms.wet_mass = wet_kilograms(need.start_kg);
        CHECK(ration(in).week.in_kilograms() == Approx(need.start_takes_kg).epsilon(0.001));
    }
}

TEST_CASE("one starts low") {
    const auto start = [](double kg) {
        return worm_need(std::vector{thing("carrot", kg)}).start_kg;
    };
    CHECK(start(0.2) == Approx(0.25));
    CHECK(start(0.3) == Approx(0.3));
    CHECK(start(1.2) == Approx(0.6));
    CHECK(start(30.0) == Approx(1.0));
    Bed said;
    said.worms.wet_mass = wet_kilograms(0.4);
    CHECK(worm_need(std::vector{thing("carrot", 3.0)}, said).start_kg == Approx(0.4));
}

TEST_CASE("what is never fed is set aside, and what is touchy counts as far as worms bear it") {
    const WormNeed need =
        worm_need(std::vector{thing("bacon", 2.0), thing("carrot", 1.0), thing("onion", 1.0)});
    REQUIRE(need.take_out.size() == 1);
    CHECK(need.take_out[0].label == "bacon");
    REQUIRE(need.too_much.size() == 1);
    CHECK(need.too_much[0].thing.label == "onion");
    const double cap = *thing("onion", 1.0).feedstock->most_wet_kg_per_kg_worms;
    CHECK(need.too_much[0].wet_mass.in_kilograms() == Approx(cap * need.worms_kg).epsilon(0.001));
    CHECK(need.scraps_kg == Approx(1.0 + need.too_much[0].wet_mass.in_kilograms()));
    // Citrus kinds share one cap.
    const WormNeed citrus =
        worm_need(std::vector{thing("orange peel", 1.0), thing("lemon peel", 1.0)});
    double share = 0.0;
    for (const Rest& one : citrus.too_much)
        share +=
            one.wet_mass.in_kilograms() /
            (*thing(one.thing.label, 1.0).feedstock->most_wet_kg_per_kg_worms * citrus.worms_kg);
    CHECK(share == Approx(1.0).epsilon(0.01));
    CHECK(worm_need(std::vector{thing("bacon", 2.0)}).worms_kg == 0.0);
}

TEST_CASE("more scraps never need fewer worms") {
    for (const std::string extra : {"carrot", "onion", "coffee grounds", "orange peel", "bread"}) {
        double worms = 0.0;
        double surface = 0.0;
        for (double kg = 0.0; kg < 4.0; kg += 0.25) {
            const WormNeed need =
                worm_need(std::vector{thing("lettuce", 0.5), thing(extra, kg + 0.01)});
            // To a hundredth of a gram.
            CHECK(need.worms_kg >= worms - 1e-5);
            CHECK(need.surface_m2 >= surface - 1e-5);
            worms = need.worms_kg;
            surface = need.surface_m2;
        }
    }
}

TEST_CASE("a bin takes what its ration says, and more worms never less") {
    double week = 0.0;
    int day = growth::most_days + 1;
    const std::vector scraps{thing("carrot", 0.9)};
    for (const double kg : {0.1, 0.2, 0.4, 0.7, 0.9, 1.5}) {
        RationInput in;
        in.bed.container.kind = ContainerKind::tote;
        in.bed.worms.wet_mass = wet_kilograms(kg);
        const BinNow now = bin_now(in, {}, scraps);
        CHECK(now.ration.week.in_kilograms() == ration(in).week.in_kilograms());
        CHECK(now.ration.week.in_kilograms() >= week);
        week = now.ration.week.in_kilograms();
        const int reached = now.growth.day.value_or(growth::most_days + 1);
        CHECK(reached <= day);
        CHECK((reached == 0) == (week >= 0.9 - 1e-9));
        day = reached;
    }
    RationInput in;
    in.bed.container.kind = ContainerKind::tote;
    in.bed.worms.wet_mass = wet_kilograms(0.4);
    const std::vector much{thing("carrot", 5.0)};
    const BinNow small = bin_now(in, {}, much);
    CHECK(small.wanted_kg == 0.0);
    CHECK_FALSE(small.growth.day);
    CHECK(small.most_kg == Approx(0.55 * 0.38 / square_foot * pound).epsilon(0.001));
}

TEST_CASE("the diary's weighings are the bed's own growth") {
    Diary diary;
    diary.bed.worms.wet_mass = wet_kilograms(0.3);
    diary.bed_date = Date{2026, 1, 1};
    diary.feedings.push_back(
        {{2026, 1, 11}, {{thing("carrot", 1.0).feedstock, wet_kilograms(1.8)}}, {}, {}});
    Observation seen;
    seen.date = {2026, 3, 2};
    seen.worm_weight = wet_kilograms(0.5);
    diary.observations.push_back(seen);
    const auto today = day_number({2026, 4, 1});
    const auto spans = detail::weighed_twice(diary, today, 1.0 / 7.0);
    REQUIRE(spans.size() == 1);
    CHECK(spans[0].days == 60);
    CHECK(spans[0].from_kg == Approx(0.3));
    CHECK(spans[0].to_kg == Approx(0.5));
    CHECK(spans[0].scraps_kg_a_day == Approx(1.8 / 60.0));
    // Worms that went out on purpose are no growth.
    Observation out;
    out.date = {2026, 2, 1};
    out.action = "took out half with the worms";
    diary.observations.push_back(out);
    CHECK(detail::weighed_twice(diary, today, 1.0 / 7.0).empty());
}

TEST_CASE("household scraps as the studies have them") {
    const HouseholdScraps four = household_scraps({4.0, 0.0, 0.0});
    double all = 0.0;
    for (const Ranged& kind : four.kinds_kg)
        all += kind.value;
    // 1.64 kg of a person a week (doi 10.1016/j.wasman.2021.08.039), 0.498 + 0.543 (Närvä et al.
    // 2024), 3.5 lb (NRDC 2017): the mean.
    CHECK(all == Approx(4.0 * (1.64 + 0.498 + 0.543 + 3.5 * pound) / 3.0).epsilon(0.01));
    CHECK(four.fed_kg.high + four.not_fed_kg.high == Approx(4.0 * 1.64).epsilon(0.001));
    CHECK(four.fed_kg.low + four.not_fed_kg.low == Approx(4.0 * 1.04).epsilon(0.002));
    CHECK(four.kinds_kg[0].high == Approx(0.63 * 4.0 * 1.64));
    // 84 meals a week are those of four.
    const HouseholdScraps meals = household_scraps({0.0, 12.0, 0.0});
    CHECK(meals.fed_kg.value == Approx(four.fed_kg.value));
    // 10 g for a cup, a fifth of it drunk, 60 % of the wet grounds water: 20 g, by hand.
    CHECK(household_scraps({0.0, 0.0, 1.0}).fed_kg.value == Approx(7.0 * 0.020).epsilon(0.001));
    const auto things = things_of(household_scraps({2.0, 0.0, 3.0}));
    REQUIRE(things.size() == 3);
    for (const ThingAtHand& one : things)
        CHECK_FALSE(barred_in(*one.feedstock, Place::worm_bed));
}

TEST_CASE("a bin's own worms have what the ration lets them have of what is touchy") {
    RationInput in;
    in.bed.container.volume = litres(60);
    in.bed.worms.wet_mass = wet_kilograms(1.5);
    in.bed.squeeze = Squeeze::drops;
    const std::vector grounds{thing("coffee grounds", 5.0)};
    const BinNow now = bin_now(in, {}, grounds);
    in.things = grounds;
    const Ration today = ration(in);
    REQUIRE(now.too_much.size() == 1);
    const double week = now.too_much.front().wet_mass.in_kilograms();
    CHECK(week == Approx(1.5 * *grounds[0].feedstock->most_wet_kg_per_kg_worms));
    CHECK(now.scraps_kg == Approx(week));
    CHECK(today.scraps.in_kilograms() <= week);
    // So many to begin with may have as much.
    Bed some;
    some.worms.wet_mass = wet_kilograms(1.5);
    CHECK(worm_need(grounds, some).too_much.front().wet_mass.in_kilograms() == Approx(week));
    double last = 0.0;
    for (const double worms : {0.3, 0.6, 1.2, 2.4, 4.8}) {
        in.bed.worms.wet_mass = wet_kilograms(worms);
        const BinNow more = bin_now(in, {}, grounds);
        CHECK(more.scraps_kg >= last);
        last = more.scraps_kg;
    }
    CHECK(last > 1.0);
}
