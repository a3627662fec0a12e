// Forward blend of portions of the table. The reference of the ratios is a plain dot product of the
// same number of portions, so that a slow machine shifts both.
#include "feed/blend/blend.hpp"

#include <array>
#include <cstdio>
#include <memory>
#include <vector>

#include "feed/feedstock/table.hpp"
#include "measure.hpp"

namespace {

std::vector<feed::Portion> portions(std::size_t count) {
    constexpr std::array<const char*, 10> ids{
        "coffee-grounds", "apple-pomace", "carrot",          "lettuce-leaf",         "banana-peel",
        "tea-leaves",     "bread-white",  "eggshell-powder", "cardboard-corrugated", "water-tap"};
    std::vector<feed::Portion> made;
    for (std::size_t i = 0; i < count; ++i)
        made.push_back({std::make_shared<const feed::Feedstock>(
                            feed::feedstock_at(*feed::find_id(ids[i % ids.size()]))),
                        feed::wet_kilograms(0.1 + 0.05 * static_cast<double>(i))});
    return made;
}

}  // namespace

int main() {
    std::printf("%-44s %15s %10s\n", "", "median", "x plain sum");
    for (const std::size_t count : {std::size_t{1}, std::size_t{10}, std::size_t{60}}) {
        const auto made = portions(count);
        const double plain = feed_bench::median_nanoseconds([&] {
            double sum = 0.0;
            for (const auto& portion : made)
                sum += portion.wet_mass.in_kilograms() * portion.feedstock->data[0]->value;
            feed_bench::keep(sum);
        });
        const double fast =
            feed_bench::median_nanoseconds([&] { feed_bench::keep(feed::mix(made)); });
        const double full =
            feed_bench::median_nanoseconds([&] { feed_bench::keep(feed::blend(made)); });
        char name[64];
        std::snprintf(name, sizeof name, "mix, %zu portions, no intervals", count);
        feed_bench::report(name, fast, plain);
        std::snprintf(name, sizeof name, "blend, %zu portions, with intervals", count);
        feed_bench::report(name, full, plain);
        if (count == 10)
            std::printf("mix of 10 portions within 200 ns: %s\n", fast <= 200.0 ? "yes" : "no");
    }
    return 0;
}
