#include "feed/diary/totals.hpp"

#include <catch2.hpp>
#include <string>
#include <vector>

#include "table_portion.hpp"

// Sums of diaries, worked by hand.
using namespace feed;
using feed_test::Approx;
using feed_test::portion;

namespace {

constexpr Date on(int month, int day) {
    return {2026, month, day};
}

/// Thu 30 April and Sat 2 May: carrot and cardboard, then apple with coir and lime.
Diary first_bin() {
    Diary diary;
    diary.feedings = {
        {on(4, 30), {portion("carrot", 0.3), portion("cardboard-corrugated", 0.06)}, "Ada", ""},
        {on(5, 2),
         {portion("apple-whole", 0.2), portion("coir-fibre", 0.1),
          portion("limestone-ground", 0.02), portion("water-tap", 0.5)},
         "Ben",
         ""}};
    return diary;
}

DiaryTotals sum(const Diary& one, const Diary& other, Date since = on(1, 1),
                Date until = on(12, 31)) {
    const std::vector<TotalledBin> bins{{"one", "Owls", &one}, {"other", "", &other}};
    return totals_of(bins, since, until);
}

}  // namespace

TEST_CASE("totals part scraps, bedding, lime and water, and what was kept from the rubbish") {
    const Diary diary = first_bin();
    const DiaryTotals totals = sum(diary, Diary());
    CHECK(totals.all.feedings == 2);
    CHECK(totals.all.scraps_kg == Approx(0.5));
    CHECK(totals.all.bedding_kg == Approx(0.16));
    CHECK(totals.all.lime_kg == Approx(0.02));
    CHECK(totals.all.water_kg == Approx(0.5));
    CHECK(totals.all.kept_kg == Approx(0.56));  // coir is bought
    CHECK(totals.since == on(4, 30));
    CHECK(totals.until == on(5, 2));
}

TEST_CASE("each way of parting sums to the whole") {
    Diary other;
    other.feedings = {{on(5, 4), {portion("carrot", 0.4)}, "Ada", ""}};
    const Diary diary = first_bin();
    const DiaryTotals totals = sum(diary, other);
    REQUIRE(totals.bins.size() == 2);
    CHECK(totals.bins[1].totals.scraps_kg == Approx(0.4));
    // The first bin has a group; of the other counts who wrote it.
    REQUIRE(totals.groups.size() == 2);
    CHECK(totals.groups[0].name == "Owls");
    CHECK(totals.groups[1].name == "Ada");
    // Thursday and Saturday are of the week from Mon 27 April, in two months; Monday begins one.
    REQUIRE(totals.weeks.size() == 2);
    CHECK(totals.weeks[0].name == "2026-04-27");
    CHECK(totals.weeks[0].totals.scraps_kg == Approx(0.5));
    CHECK(totals.weeks[1].name == "2026-05-04");
    REQUIRE(totals.months.size() == 2);
    CHECK(totals.months[0].totals.scraps_kg == Approx(0.3));
    CHECK(totals.months[1].totals.scraps_kg == Approx(0.6));
    for (const auto* list : {&totals.bins, &totals.groups, &totals.weeks, &totals.months}) {
        double scraps_kg = 0.0;
        for (const NamedTotals& one : *list)
            scraps_kg += one.totals.scraps_kg;
        CHECK(scraps_kg == Approx(totals.all.scraps_kg));
    }
}

TEST_CASE("the first and the last day count") {
    const Diary diary = first_bin();
    CHECK(sum(diary, Diary(), on(4, 30), on(4, 30)).all.scraps_kg == Approx(0.3));
    CHECK(sum(diary, Diary(), on(5, 1), on(5, 1)).all.feedings == 0);
    CHECK(sum(diary, Diary(), on(5, 2)).all.scraps_kg == Approx(0.2));
}

TEST_CASE("a weight without a feeding counts as scraps, with one it does not count again") {
    Diary diary = first_bin();
    Observation weighed;
    weighed.weight_in = wet_kilograms(0.7);
    weighed.date = on(5, 6);
    diary.observations.push_back(weighed);
    weighed.date = on(5, 2);
    diary.observations.push_back(weighed);
    const DiaryTotals totals = sum(diary, Diary());
    CHECK(totals.all.feedings == 3);
    CHECK(totals.all.scraps_kg == Approx(0.5 + 0.7));
}

TEST_CASE("castings that were harvested count, and not what was taken out with its worms") {
    Diary diary = first_bin();
    Observation seen;
    seen.date = on(5, 10);
    seen.action = "harvested 5 L";
    diary.observations.push_back(seen);
    seen.date = on(5, 11);
    seen.action = "took out a third with the worms";
    diary.observations.push_back(seen);
    CHECK(sum(diary, Diary()).all.castings_l == Approx(5.0));
}
