#include "feed/ration/stock.hpp"

#include <bed_kitchen.hpp>
#include <catch2.hpp>
#include <string>
#include <vector>

#include "feed/feedstock/preparation.hpp"
#include "feed/ration/collect.hpp"
#include "feed/ration/week_stock.hpp"

// What is left of what was put by, worked by hand: put by, less what was fed and taken since.
using namespace feed;
using feed_test::Approx;

namespace {

using Shared = std::shared_ptr<const Feedstock>;

Shared rind() {
    return kitchen::scraps().named("rind").share();
}
Shared frozen_rind() {
    return std::make_shared<const Feedstock>(prepared(*rind(), Preparation::frozen_thawed));
}
Shared card() {
    return kitchen::card().named("card").share();
}

ThingAtHand kg_of(const Shared& f, double kg) {
    return {f, f->name, wet_kilograms(kg), {}};
}
StockEntry put_by(Date date, std::vector<ThingAtHand> things, std::string container = "") {
    return {date, std::move(things), {}, std::move(container)};
}
DatedFeeding fed(Date date, std::vector<Portion> portions) {
    return {date, std::move(portions), "", ""};
}
double kg(const StockItem& item) {
    return item.thing.most->in_kilograms();
}

constexpr Date may(int day) {
    return {2026, 5, day};
}

}  // namespace

TEST_CASE("the oldest of a material leaves the stock first, and no more than there was") {
    const std::vector<StockEntry> stock{put_by(may(5), {kg_of(card(), 1.0)}, "shed"),
                                        put_by(may(1), {kg_of(card(), 0.4)}, "hall")};
    Diary diary;
    diary.feedings = {fed(may(6), {{card(), wet_kilograms(0.3)}}),
                      fed(may(8), {{card(), wet_kilograms(0.3)}})};
    // 0.4 + 1.0 - 0.3: the hall first.
    auto left = stock_on(stock, diary, may(7));
    REQUIRE(left.size() == 2);
    CHECK(left[0].container == "hall");
    CHECK(kg(left[0]) == Approx(0.1));
    CHECK(kg(left[1]) == Approx(1.0));
    // The second 0.3 empties the hall and takes 0.2 of the shed.
    left = stock_on(stock, diary, may(8));
    REQUIRE(left.size() == 1);
    CHECK(left[0].container == "shed");
    CHECK(kg(left[0]) == Approx(0.8));
    // More than there is leaves nothing, and nothing below nothing.
    diary.feedings.push_back(fed(may(9), {{card(), wet_kilograms(5.0)}}));
    CHECK(stock_on(stock, diary, may(9)).empty());
}

TEST_CASE("what was fed before it was put by did not come from the stock") {
    const std::vector<StockEntry> stock{put_by(may(5), {kg_of(card(), 1.0)})};
    Diary diary;
    diary.feedings = {fed(may(4), {{card(), wet_kilograms(0.3)}})};
    const auto left = stock_on(stock, diary, may(6));
    REQUIRE(left.size() == 1);
    CHECK(kg(left[0]) == Approx(1.0));
    CHECK(stock_on(stock, diary, may(4)).empty());
}

TEST_CASE("frozen food is used up by frozen food alone, and what was taken is gone") {
    std::vector<StockEntry> stock{put_by(may(1), {kg_of(frozen_rind(), 2.0)})};
    Diary diary;
    diary.feedings = {fed(may(2), {{rind(), wet_kilograms(0.5)}}),
                      fed(may(3), {{frozen_rind(), wet_kilograms(0.5)}})};
    stock.push_back({may(4), {}, {{frozen_rind(), wet_kilograms(0.25)}}, ""});
    const auto left = stock_on(stock, diary, may(4));
    REQUIRE(left.size() == 1);
    CHECK(left[0].keep == StockKeep::frozen);
    CHECK(kg(left[0]) == Approx(1.25));
}

TEST_CASE("fresh food is good for four days, the day it came included") {
    const std::vector<StockEntry> stock{put_by(may(1), {kg_of(rind(), 1.0), kg_of(card(), 1.0)})};
    const auto now = stock_on(stock, Diary(), may(2));
    REQUIRE(now.size() == 2);
    CHECK(now[0].keep == StockKeep::fresh);
    CHECK(now[0].good_days == 2);  // 1, 2, 3, 4 May
    CHECK(now[1].keep == StockKeep::dry);
    CHECK(stock_on(stock, Diary(), may(5))[0].good_days == -1);
    // A week may use it on its days, and not once they are past.
    const auto week = week_things_of(stock, Diary(), may(2), 3);
    REQUIRE(week.size() == 2);
    CHECK(week[0].until == 2);
    CHECK_FALSE(week[0].kept);
    CHECK(week[0].stock_of == 3);
    CHECK(week[1].until == week_days - 1);
    CHECK(week_things_of(stock, Diary(), may(5), 0).size() == 1);
}

TEST_CASE("thawed food gives 15 to 40 % of its water as juice") {
    // 2 kg at 85 % water: 1.7 kg of it.
    const auto juice = thawed_juice(*rind(), 2.0);
    REQUIRE(juice);
    CHECK(juice->value_kg == Approx(1.7 * 0.25));
    CHECK(juice->low_kg == Approx(1.7 * 0.15));
    CHECK(juice->high_kg == Approx(1.7 * 0.40));
}

TEST_CASE("bedding goes as fast as the diary tells, with two uses a week apart") {
    Diary diary;
    diary.feedings = {fed(may(1), {{card(), wet_kilograms(0.2)}})};
    CHECK_FALSE(bedding_a_day_kg(diary, *card(), may(10)));
    diary.feedings.push_back(fed(may(8), {{card(), wet_kilograms(0.3)}}));
    // 0.5 kg in the ten days from 1 to 10 May.
    CHECK(*bedding_a_day_kg(diary, *card(), may(10)) == Approx(0.05));
    CHECK_FALSE(bedding_a_day_kg(diary, *kitchen::card().named("other").share(), may(10)));
}

TEST_CASE("what a week takes from a stock is counted once") {
    // North has 1.0 kg and is fed 0.3; South has 0.1 and is fed 0.5; the plan took 0.7 of the
    // stocks and 0.1 was at hand besides. By the notes 0.3 leave North and 0.1 leave South; the
    // other 0.3 came from North too.
    const auto thing = kg_of(card(), 1.0);
    std::vector<WeekThing> things(3);
    things[0].thing = thing;
    things[0].stock_of = 0;
    things[1].thing = kg_of(card(), 0.1);
    things[1].stock_of = 1;
    things[2].thing = kg_of(card(), 0.1);
    WeekPlan plan;
    for (const double kilograms : {0.3, 0.5}) {
        WeekOpening opening;
        opening.ration.put_in.push_back({thing, Part::bedding, wet_kilograms(kilograms)});
        WeekOfBin bin;
        bin.openings.push_back(opening);
        plan.bins.push_back(bin);
    }
    const std::vector<double> taken{0.6, 0.1, 0.1};
    const auto from = from_stock(plan, things, taken);
    REQUIRE(from.size() == 2);
    CHECK(from[0].bin == 0);
    CHECK(from[0].wet_mass.in_kilograms() == Approx(0.6));
    CHECK(from[0].to_others.in_kilograms() == Approx(0.3));
    CHECK(from[1].bin == 1);
    CHECK(from[1].wet_mass.in_kilograms() == Approx(0.1));
    CHECK(from[1].to_others.in_kilograms() == Approx(0.0));
}

TEST_CASE("a week's bedding is the volume of its scraps, from half to twice") {
    RationInput in;
    in.bed = kitchen::tote();
    in.bed.age = days(400);
    const WeekNeed need = week_need(in);
    CHECK_FALSE(need.from_diary);
    CHECK(need.scraps_kg == Approx(need.most_kg));
    CHECK(need.bedding_l.low == Approx(0.5 * need.bedding_l.value));
    CHECK(need.bedding_l.high == Approx(2.0 * need.bedding_l.value));
    // By a diary: 400 g of scraps (1 L) and 30 g of card a week, for three weeks.
    const double card_l = 1000.0 * 0.03 / detail::loose_kg_per_m3(*card());
    for (const double ago : {-21.0, -14.0, -7.0})
        in.bed.earlier.push_back(
            {days(ago), {{rind(), wet_kilograms(0.4)}, {card(), wet_kilograms(0.03)}}, {}, {}});
    const WeekNeed told = week_need(in);
    CHECK(told.from_diary);
    CHECK(told.scraps_kg == Approx(0.4));
    CHECK(told.bedding_l.value == Approx(card_l));
    CHECK(told.bedding_l.low == Approx(std::min(0.5, card_l)));
    CHECK(told.bedding_l.high == Approx(2.0));
}

TEST_CASE("no more of a food is worth collecting than its worms bear") {
    WeekNeed need;
    need.most_kg = 0.7;
    need.worms_kg = 0.5;
    CHECK(most_in_week_kg(*rind(), need) == Approx(0.7));
    CHECK(most_in_week_kg(kitchen::scraps().named("grounds").at_most(0.24).get(), need) ==
          Approx(0.12));
}
