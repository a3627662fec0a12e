// One ration and one check of a feeding in a bed: the number part and the whole answer, beside a
// plain dot product of the same portions, so that a slow machine shifts both.
#include "feed/ration/check.hpp"

#include <array>
#include <cstdio>
#include <memory>
#include <vector>

#include "feed/feedstock/table.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/ration/from_diary.hpp"
#include "measure.hpp"

namespace {

std::vector<feed::Portion> caddy(double times) {
    struct Row {
        const char* id;
        double wet_kg;
    };
    constexpr std::array<Row, 8> rows{{{"coffee-grounds", 0.06},
                                       {"apple-pomace", 0.10},
                                       {"carrot", 0.06},
                                       {"lettuce-leaf", 0.08},
                                       {"banana-peel", 0.12},
                                       {"tea-leaves", 0.03},
                                       {"eggshell-powder", 0.005},
                                       {"cardboard-corrugated", 0.10}}};
    std::vector<feed::Portion> made;
    for (const Row& row : rows)
        made.push_back(
            {std::make_shared<const feed::Feedstock>(feed::feedstock_at(*feed::find_id(row.id))),
             feed::wet_kilograms(times * row.wet_kg)});
    return made;
}

feed::Bed tote(std::size_t earlier) {
    feed::Bed bed;
    bed.worms.wet_mass = feed::wet_grams(500);
    bed.squeeze = feed::Squeeze::drops;
    bed.temperature = feed::celsius(20);
    bed.age = feed::days(300);
    for (std::size_t i = earlier; i > 0; --i)
        bed.earlier.push_back({feed::days(-7.0 * static_cast<double>(i)), caddy(1.0)});
    return bed;
}

/// An invented half year: a caddy each week, and a look by eye before each next one.
feed::Diary half_a_year() {
    feed::Diary diary;
    diary.bed = tote(0);
    diary.bed_date = feed::Date{2026, 1, 5};
    const auto start = feed::day_number(*diary.bed_date);
    for (int week = 0; week < 26; ++week) {
        diary.feedings.push_back({feed::date_of(start + 7 * week), caddy(1.0), "", ""});
        feed::Observation look;
        look.date = feed::date_of(start + 7 * week + 6);
        look.share_gone = 0.5 + 0.1 * (week % 4);
        diary.observations.push_back(look);
    }
    return diary;
}

int raised(const feed::CheckResult& result) {
    int count = 0;
    for (const feed::HazardFinding& finding : result.hazards)
        count += finding.level == feed::Level::watch || finding.level == feed::Level::act ? 1 : 0;
    return count;
}

}  // namespace

int main() {
    std::printf("%-44s %15s %10s\n", "", "median", "x plain sum");
    const auto feeding = caddy(1.0);
    const double plain = feed_bench::median_nanoseconds<feed_bench::ProcessorClock>([&] {
        double sum = 0.0;
        for (const auto& portion : feeding)
            sum += portion.wet_mass.in_kilograms() * portion.feedstock->data[0]->value;
        feed_bench::keep(sum);
    });
    const feed::Bed bed = tote(4);
    const feed::CompletedBed full = feed::completed(bed);
    feed::RationInput kitchen;
    kitchen.bed = bed;
    for (const feed::Portion& portion : feeding)
        kitchen.things.push_back(
            {portion.feedstock, portion.feedstock->name, portion.wet_mass, {}});
    const double numbers = feed_bench::median_nanoseconds<feed_bench::ProcessorClock>([&] {
        const feed::BedNumbers n = feed::bed_numbers(bed, full, {});
        const feed::Load load =
            feed::load_of(feeding, feed::decayed_shares(n.horizon_days, n.decay_speed));
        feed_bench::keep(feed::hazard_numbers(feed::feeding_place(n, 0.07), load));
    });
    feed_bench::report("number part, 8 portions, 4 earlier feedings", numbers, plain);
    const double whole = feed_bench::median_nanoseconds<feed_bench::ProcessorClock>(
        [&] { feed_bench::keep(feed::ration(kitchen)); });
    feed_bench::report("ration, 8 portions, 4 earlier feedings", whole, plain);
    const double told = feed_bench::median_nanoseconds<feed_bench::ProcessorClock>([&] {
        feed_bench::keep(
            feed::io::ration_text(feed::ration(kitchen), feed::UnitSystem::metric).size());
    });
    feed_bench::report("the same with its words", told, plain);
    std::printf("  within 150 us: %s\n", told <= 150000.0 ? "yes" : "no");
    const feed::Diary diary = half_a_year();
    const feed::Date today = feed::date_of(feed::day_number(*diary.bed_date) + 7 * 26);
    const double learned = feed_bench::median_nanoseconds<feed_bench::ProcessorClock>(
        [&] { feed_bench::keep(feed::ration_input_of(diary, today).looks_learned_from); });
    feed_bench::report("bed today, learned from 26 weeks of looks", learned, plain);
    std::printf("  within 50 ms: %s\n", learned <= 50e6 ? "yes" : "no");
    for (const double times : {1.0, 3.0, 8.0}) {
        const auto portions = caddy(times);
        const double checked = feed_bench::median_nanoseconds<feed_bench::ProcessorClock>(
            [&] { feed_bench::keep(feed::check(bed, portions)); });
        char name[64];
        std::snprintf(name, sizeof name, "check, feeding x %g, %d hazards raised", times,
                      raised(feed::check(bed, portions)));
        feed_bench::report(name, checked, plain);
    }
    return 0;
}
