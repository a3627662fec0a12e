// One ration and one check of a feeding in a bed: the number part and the whole answer, beside a
// plain dot product of the same portions, so that a slow machine shifts both.
#include "feed/ration/check.hpp"

#include <array>
#include <cstdio>
#include <memory>
#include <vector>

#include "feed/feedstock/table.hpp"
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
    const double plain = feed_bench::median_nanoseconds([&] {
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
    const double numbers = feed_bench::median_nanoseconds([&] {
        const feed::BedNumbers n = feed::bed_numbers(bed, full, {});
        const feed::Load load =
            feed::load_of(feeding, feed::decayed_shares(n.horizon_days, n.decay_speed));
        feed_bench::keep(feed::hazard_numbers(feed::feeding_place(n, 0.07), load));
    });
    feed_bench::report("number part, 8 portions, 4 earlier feedings", numbers, plain);
    const double whole =
        feed_bench::median_nanoseconds([&] { feed_bench::keep(feed::ration(kitchen)); });
    feed_bench::report("ration, 8 portions, 4 earlier feedings", whole, plain);
    std::printf("  within 150 us: %s\n", whole <= 150000.0 ? "yes" : "no");
    for (const double times : {1.0, 3.0, 8.0}) {
        const auto portions = caddy(times);
        const double checked =
            feed_bench::median_nanoseconds([&] { feed_bench::keep(feed::check(bed, portions)); });
        char name[64];
        std::snprintf(name, sizeof name, "check, feeding x %g, %d hazards raised", times,
                      raised(feed::check(bed, portions)));
        feed_bench::report(name, checked, plain);
    }
    return 0;
}
