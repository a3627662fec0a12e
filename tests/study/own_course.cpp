// How often the interval for what is left holds the truth, by kind of bin: the table of
// docs/diary.md. 200 simulated keepers of each kind, twelve weekly feedings, a third of the looks
// missed. Ends with 1 where a promise of docs/diary.md is broken.
#include "feed/diary/own_course.hpp"

#include <cstdio>
#include <cstdlib>

#include "keepers.hpp"

using feed_test::bin_kind_words;
using feed_test::BinKind;
using feed_test::Keeper;

namespace {

struct Tally {
    int early = 0, early_inside = 0, late = 0, late_inside = 0;
    double width = 0.0;
    std::vector<double> factors;
};

constexpr std::array<double, 3> soft_food{0.70, 0.25, 0.05};
constexpr double warmth = 0.7;  // effective days in a day, about 19 C

void follow(Keeper keeper, Tally& tally) {
    std::vector<feed::CourseFeeding> feedings;
    std::vector<feed::CourseLook> looks;
    for (int week = 0; week < 12; ++week) {
        feedings.push_back({soft_food, 0.0});
        const double speed = keeper.feeding_speed();
        const auto left_on = [&](double days) {
            return feed_test::share_left(soft_food, keeper.exponent(speed, days, warmth * days));
        };
        for (const double earliest : {2.0, 6.0}) {
            const double day = std::floor(earliest + 3.0 * keeper.uniform());
            if (keeper.uniform() < 1.0 / 3.0) continue;
            const double said = keeper.says(left_on(day));
            feed::CourseLook look;
            look.feeding = static_cast<std::size_t>(week);
            look.days = day;
            look.effective_days = warmth * day;
            look.low = said < 0.05 ? -1.0 : said - 0.05;
            look.high = said > 0.95 ? 2.0 : said + 0.05;
            looks.push_back(look);
        }
        const bool asked = week < 3 || week == 4 || week == 7 || week == 11;
        if (!asked) continue;
        const feed::OwnCourse course(feedings, looks);
        const double day = 1.0 + std::floor(9.0 * keeper.uniform());
        const feed::CourseLeft found =
            course.left(static_cast<std::size_t>(week), day, warmth * day);
        const double truth = left_on(day);
        const bool inside = found.share.low <= truth && truth <= found.share.high;
        (week < 3 ? tally.early : tally.late) += 1;
        (week < 3 ? tally.early_inside : tally.late_inside) += inside;
        if (week >= 3) tally.width += found.share.high - found.share.low;
        if (week == 7) {
            // The day on which a quarter of the soft part of an ordinary feeding is left.
            double true_day = 0.1;
            while (keeper.exponent(1.0, true_day, warmth * true_day) < -std::log(0.25))
                true_day += 0.1;
            const double said = course.effective_days_until(0.25, warmth).value / warmth;
            tally.factors.push_back(std::max(said / true_day, true_day / said));
        }
    }
}

double share(int inside, int all) {
    return static_cast<double>(inside) / all;
}

}  // namespace

/// @param argv  keepers of each kind, 200 without it.
int main(int argc, char** argv) {
    const unsigned keepers = argc > 1 ? static_cast<unsigned>(std::atoi(argv[1])) : 200;
    std::printf(
        "| Bin | inside, first three feedings | inside, later | mean width | day of a quarter, "
        "factor |\n|---|---|---|---|---|\n");
    bool kept = true;
    Tally all;
    for (int kind = 0; kind < 6; ++kind) {
        Tally tally;
        for (unsigned i = 0; i < keepers; ++i)
            follow(Keeper(static_cast<BinKind>(kind), 1000u * static_cast<unsigned>(kind) + i),
                   tally);
        std::nth_element(tally.factors.begin(), tally.factors.begin() + keepers / 2,
                         tally.factors.end());
        const double early = share(tally.early_inside, tally.early);
        const double later = share(tally.late_inside, tally.late);
        const double width = tally.width / tally.late;
        std::printf("| %s | %.2f | %.2f | %.2f | %.2f |\n",
                    bin_kind_words[static_cast<std::size_t>(kind)].data(), early, later, width,
                    tally.factors[keepers / 2]);
        kept = kept && early >= 0.80 && later >= 0.80 && tally.factors[keepers / 2] <= 1.3;
        all.early += tally.early;
        all.early_inside += tally.early_inside;
        all.late += tally.late;
        all.late_inside += tally.late_inside;
        all.width += tally.width;
    }
    const double early = share(all.early_inside, all.early);
    const double later = share(all.late_inside, all.late);
    const double width = all.width / all.late;
    std::printf("| all | %.2f | %.2f | %.2f | |\n", early, later, width);
    kept = kept && early >= 0.85 && later >= 0.85 && later <= 0.97 && width <= 0.35;
    return kept ? 0 : 1;
}
