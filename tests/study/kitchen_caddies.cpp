// What the balance tells a keeper for 200 random kitchen caddies, as the table of docs/balance.md.
#include <algorithm>
#include <cstdio>
#include <string>
#include <vector>

#include "feed/balance/balance.hpp"
#include "kitchen_caddies.hpp"

namespace {

constexpr std::size_t caddies_of_each_kind = 50;

struct Told {
    double bedding_per_scraps = 0.0;  ///< L loose bedding for a litre of scraps
    double water_per_scraps = 0.0;    ///< kg poured for each kg of scraps
    double scraps_moisture = 0.0;
    double cn_ratio = 0.0;
    double moisture = 0.0;
};

Told told(const feed::BalanceProblem& problem, const feed::BalanceAnswer& answer) {
    Told result;
    double scraps_kg = 0.0;
    double scraps_water = 0.0;
    for (std::size_t i = 0; i < problem.entries.size(); ++i) {
        const auto& feedstock = *problem.entries[i].feedstock;
        const double mass = answer.portions[i].wet_mass.in_kilograms();
        if (feedstock.has(feed::Role::scraps)) {
            scraps_kg += mass;
            scraps_water += mass * feedstock[feed::Property::moisture_wet]->value;
        } else if (feedstock.has(feed::Role::water)) {
            result.water_per_scraps += mass;
        }
    }
    result.water_per_scraps /= scraps_kg;
    result.scraps_moisture = scraps_water / scraps_kg;
    result.cn_ratio = answer.properties.cn_ratio.value;
    result.moisture = answer.properties.moisture.value.value();
    for (const auto& reached : answer.reached) {
        if (reached.target.property == feed::TargetProperty::bedding_l_per_scraps_l)
            result.bedding_per_scraps = reached.quantity.value;
    }
    return result;
}

double at_share(std::vector<double> numbers, double share) {
    std::sort(numbers.begin(), numbers.end());
    const double place = share * static_cast<double>(numbers.size() - 1);
    return numbers[static_cast<std::size_t>(place + 0.5)];
}

template <class Get>
std::string spread(const std::vector<Told>& all, Get get, const char* form) {
    std::vector<double> numbers;
    for (const auto& one : all)
        numbers.push_back(get(one));
    std::string text;
    for (const double share : {0.1, 0.5, 0.9}) {
        char buffer[32];
        std::snprintf(buffer, sizeof buffer, form, at_share(numbers, share));
        text += text.empty() ? buffer : std::string(" / ") + buffer;
    }
    return text;
}

void row(const std::string& name, std::size_t asked, const std::vector<Told>& all) {
    if (all.empty()) {
        std::printf("| %s | 0 of %zu | | | | | | |\n", name.c_str(), asked);
        return;
    }
    const auto in_range = std::count_if(all.begin(), all.end(), [](const Told& one) {
        return one.bedding_per_scraps >= 0.5 - 1e-9 && one.bedding_per_scraps <= 2.0 + 1e-9;
    });
    const auto dry = std::count_if(all.begin(), all.end(),
                                   [](const Told& one) { return one.water_per_scraps < 1e-3; });
    std::printf("| %s | %zu of %zu | %s | %zd of %zu | %s | %zd of %zu | %s | %s |\n", name.c_str(),
                all.size(), asked,
                spread(
                    all, [](const Told& t) { return t.bedding_per_scraps; }, "%.2f")
                    .c_str(),
                in_range, all.size(),
                spread(
                    all, [](const Told& t) { return t.water_per_scraps; }, "%.2f")
                    .c_str(),
                dry, all.size(),
                spread(
                    all, [](const Told& t) { return t.cn_ratio; }, "%.0f")
                    .c_str(),
                spread(
                    all, [](const Told& t) { return 100.0 * t.moisture; }, "%.0f")
                    .c_str());
}

/// The table of one set of defaults.
void study(bool little_water) {
    std::printf(
        "| caddies | answered | L bedding per L scraps | 0.5 to 2 L | kg water per kg scraps | no "
        "water | C:N | moisture %% |\n| --- | --- | --- | --- | --- | --- | --- | --- |\n");
    feed_test::RandomNumbers random(2024);
    std::vector<Told> everything;
    std::vector<Told> wet;
    std::size_t asked = 0;
    for (const auto& kind : feed_test::caddy_kinds()) {
        std::vector<Told> all;
        for (std::size_t i = 0; i < caddies_of_each_kind; ++i) {
            auto problem = feed_test::random_caddy(kind, random);
            if (!little_water) {
                std::erase_if(problem.targets, [](const feed::Target& target) {
                    return target.property == feed::TargetProperty::water_over_room;
                });
            }
            const auto answer = feed::balance(problem);
            if (!answer || answer->status != feed::BalanceStatus::solved) continue;
            all.push_back(told(problem, *answer));
        }
        asked += caddies_of_each_kind;
        row(std::string(kind.name), caddies_of_each_kind, all);
        everything.insert(everything.end(), all.begin(), all.end());
    }
    row("all", asked, everything);
    for (const auto& one : everything) {
        if (one.scraps_moisture >= 0.8) wet.push_back(one);
    }
    row("scraps of 80 % moisture and more", wet.size(), wet);
}

}  // namespace

int main() {
    std::printf("With the limit on water:\n\n");
    study(true);
    std::printf("\nWithout it:\n\n");
    study(false);
    return 0;
}
