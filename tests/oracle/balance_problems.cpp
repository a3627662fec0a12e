// Prints random balances and the library's answers as JSON, one a line, for test_balance_scipy.py.
// Usage: oracle_balance_problems COUNT [SEED]
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "feed/balance/balance.hpp"
#include "feed/feedstock/place.hpp"
#include "kitchen_caddies.hpp"

namespace {

using feed::TargetProperty;
using feed_test::RandomNumbers;

/// A target that not every problem has: what its feedstocks have to say for it, and a window.
struct Sometimes {
    TargetProperty property;
    std::optional<feed::Property> needs;
    std::size_t one_in;
    double low, high;    ///< where a window begins
    double least, most;  ///< how wide it is
    bool scales;         ///< with the size of the problem
};

constexpr Sometimes sometimes[] = {
    {TargetProperty::bedding_l_per_scraps_l, std::nullopt, 3, 0.3, 1.5, 0.2, 2.0, false},
    {TargetProperty::total_wet_kg, std::nullopt, 4, 1.0, 6.0, 0.0, 6.0, true},
    {TargetProperty::total_volume_l, std::nullopt, 6, 4.0, 30.0, 1.0, 30.0, true},
    {TargetProperty::acid_g_citric_per_wet_kg, feed::Property::titratable_acidity_wet, 6, 0.1, 3.0,
     0.2, 4.0, false},
    {TargetProperty::salt_wet_fraction, feed::Property::sodium_wet, 6, 0.0001, 0.001, 0.0001, 0.003,
     false},
    {TargetProperty::fat_wet_fraction, feed::Property::fat_dry, 6, 0.001, 0.01, 0.001, 0.02, false},
    {TargetProperty::free_air_space, feed::Property::ash_dry, 6, 0.2, 0.7, 0.02, 0.2, false},
};

/// Feedstocks whose every value is known that the targets of `wanted` use, besides those that every
/// problem uses.
std::vector<std::size_t> complete_feedstocks(const std::vector<Sometimes>& wanted) {
    std::vector<std::size_t> complete;
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i) {
        const auto feedstock = feed::feedstock_at(i);
        // What is barred is taken out before anything is balanced.
        bool all = feedstock.group != feed::Group::guarded &&
                   !feed::barred_in(feedstock, feed::Place::worm_bed);
        for (const auto property :
             {feed::Property::moisture_wet, feed::Property::carbon_dry,
              feed::Property::nitrogen_dry, feed::Property::bulk_density_loose})
            all = all && feedstock[property].has_value();
        for (const auto& one : wanted)
            all = all && (!one.needs || feedstock[*one.needs].has_value());
        if (all) complete.push_back(i);
    }
    return complete;
}

feed::Entry random_entry(std::size_t index, std::size_t number, double scale,
                         RandomNumbers& random) {
    feed::Entry entry;
    entry.feedstock = std::make_shared<const feed::Feedstock>(feed::feedstock_at(index));
    entry.label = "e" + std::to_string(number);
    const double amount = scale * random.between(0.05, 2.0);
    switch (random.below(6)) {
        case 0:
        case 1:
            entry.least = feed::wet_kilograms(amount);
            entry.most = entry.least;
            break;
        case 2:
            entry.least = feed::wet_kilograms(amount);
            entry.most = feed::wet_kilograms(amount * random.between(1.0, 3.0));
            break;
        case 3:
            entry.most = feed::wet_kilograms(amount);
            break;
        default:
            break;
    }
    entry.cost_per_wet_kg = random.between(0.0, 3.0);
    if (random.below(3) > 0) entry.usual = feed::wet_kilograms(scale * random.between(0.1, 1.5));
    if (random.below(8) == 0) entry.use_up_priority = 1 + static_cast<int>(random.below(2));
    return entry;
}

feed::Target window(TargetProperty property, double low, double high, RandomNumbers& random) {
    feed::Target target;
    target.property = property;
    target.label = feed::kind(property).key;
    if (random.below(8) > 0) target.low = low;
    if (random.below(8) > 0 || !target.low) target.high = high;
    if (random.below(3) > 0) {
        const double from = target.low.value_or(low);
        const double to = target.high.value_or(high);
        target.aim = random.between(from + 0.05 * (to - from), to - 0.05 * (to - from));
    }
    return target;
}

feed::BalanceProblem random_problem(RandomNumbers& random) {
    std::vector<Sometimes> wanted;
    for (const auto& one : sometimes) {
        if (random.below(one.one_in) == 0) wanted.push_back(one);
    }
    const auto complete = complete_feedstocks(wanted);
    constexpr double scales[] = {0.001, 0.1, 1.0, 1.0, 1.0, 100.0, 10000.0};
    const double scale = scales[random.below(7)];
    feed::BalanceProblem problem;
    const std::size_t count = 2 + random.below(8);
    for (std::size_t i = 0; i < count; ++i)
        problem.entries.push_back(
            random_entry(complete[random.below(complete.size())], i, scale, random));
    if (random.below(2) == 0)
        problem.entries.push_back(
            random_entry(feed::find_id("water-tap").value(), count, scale, random));
    problem.targets.clear();
    const double cn = random.between(15.0, 45.0);
    problem.targets.push_back(
        window(TargetProperty::cn_ratio, cn, cn + random.between(0.5, 25.0), random));
    const double wet = random.between(0.35, 0.8);
    problem.targets.push_back(
        window(TargetProperty::moisture, wet, wet + random.between(0.01, 0.2), random));
    for (const auto& one : wanted) {
        const double unit = one.scales ? scale : 1.0;
        const double low = unit * random.between(one.low, one.high);
        problem.targets.push_back(
            window(one.property, low, low + unit * random.between(one.least, one.most), random));
    }
    if (random.below(5) == 0) {
        feed::Target target;
        target.property = TargetProperty::water_over_least;
        target.label = feed::kind(target.property).key;
        target.high = random.between(1.0, 2.0);
        problem.targets.push_back(target);
    }
    constexpr feed::Objective objectives[] = {
        feed::Objective::closest_to_aims,  feed::Objective::closest_to_aims,
        feed::Objective::closest_to_usual, feed::Objective::least_added,
        feed::Objective::cheapest,         feed::Objective::use_up_most};
    problem.objective = objectives[random.below(6)];
    return problem;
}

const char* name(feed::Objective objective) {
    constexpr const char* names[] = {"closest_to_aims", "closest_to_usual", "least_added",
                                     "cheapest", "use_up_most"};
    return names[static_cast<std::size_t>(objective)];
}

const char* name(feed::BalanceStatus status) {
    constexpr const char* names[] = {"solved", "infeasible", "unbounded", "failed"};
    return names[static_cast<std::size_t>(status)];
}

void number(const char* key, const std::optional<double>& value) {
    if (value) {
        std::printf("\"%s\": %.17g, ", key, *value);
    } else {
        std::printf("\"%s\": null, ", key);
    }
}

std::optional<double> kilograms(const std::optional<feed::WetMass>& mass) {
    if (!mass) return std::nullopt;
    return mass->in_kilograms();
}

void print_entry(const feed::Entry& entry) {
    const auto& feedstock = *entry.feedstock;
    std::printf("{\"label\": \"%s\", \"id\": \"%s\", ", entry.label.c_str(), feedstock.id.c_str());
    number("least", entry.least.in_kilograms());
    number("most", kilograms(entry.most));
    number("usual", kilograms(entry.usual));
    number("cost", entry.cost_per_wet_kg);
    number("priority", entry.use_up_priority);
    for (const auto& [key, property] : {std::pair{"moisture", feed::Property::moisture_wet},
                                        std::pair{"carbon", feed::Property::carbon_dry},
                                        std::pair{"nitrogen", feed::Property::nitrogen_dry},
                                        std::pair{"density", feed::Property::bulk_density_loose},
                                        std::pair{"settled", feed::Property::bulk_density_settled},
                                        std::pair{"ash", feed::Property::ash_dry},
                                        std::pair{"acid", feed::Property::titratable_acidity_wet},
                                        std::pair{"sodium", feed::Property::sodium_wet},
                                        std::pair{"fat", feed::Property::fat_dry}}) {
        const auto& datum = feedstock[property];
        number(key, datum ? std::optional(datum->value) : std::nullopt);
    }
    constexpr const char* groups[] = {"scraps",     "beddings", "manures",
                                      "amendments", "water",    "guarded"};
    std::printf("\"scraps\": %s, \"bedding\": %s, \"amendment\": %s, \"water\": %s, ",
                feedstock.has(feed::Role::scraps) ? "true" : "false",
                feedstock.has(feed::Role::bedding) ? "true" : "false",
                feedstock.has(feed::Role::amendment) ? "true" : "false",
                feedstock.has(feed::Role::water) ? "true" : "false");
    std::printf("\"group\": \"%s\"}", groups[static_cast<std::size_t>(feedstock.group)]);
}

void print(const feed::BalanceProblem& problem, const feed::BalanceAnswer& answer) {
    std::printf("{\"objective\": \"%s\", \"entries\": [", name(problem.objective));
    for (std::size_t i = 0; i < problem.entries.size(); ++i) {
        if (i > 0) std::printf(", ");
        print_entry(problem.entries[i]);
    }
    std::printf("], \"targets\": [");
    for (std::size_t i = 0; i < problem.targets.size(); ++i) {
        const auto& target = problem.targets[i];
        std::printf("%s{\"property\": \"%s\", ", i > 0 ? ", " : "", target.label.c_str());
        number("low", target.low);
        number("high", target.high);
        number("aim", target.aim);
        std::printf("\"inside\": %s}",
                    answer.reached.size() > i && answer.reached[i].inside ? "true" : "false");
    }
    std::printf("], \"status\": \"%s\", \"wet_kg\": [", name(answer.status));
    for (std::size_t i = 0; i < answer.portions.size(); ++i)
        std::printf("%s%.17g", i > 0 ? ", " : "", answer.portions[i].wet_mass.in_kilograms());
    std::printf("], \"conflict\": [");
    for (std::size_t i = 0; i < answer.conflict.size(); ++i)
        std::printf("%s\"%s\"", i > 0 ? ", " : "", answer.conflict[i].c_str());
    std::printf("], ");
    number("largest_deviation", answer.largest_deviation);
    if (answer.mend) {
        std::printf("\"mend\": {\"label\": \"%s\", \"id\": \"%s\", \"add_kg\": %.17g}, ",
                    answer.mend->label.c_str(), answer.mend->feedstock->id.c_str(),
                    answer.mend->add.in_kilograms());
    } else {
        std::printf("\"mend\": null, ");
    }
    std::printf("\"unbounded_entry\": \"%s\"}\n", answer.unbounded_entry.c_str());
}

}  // namespace

int main(int argc, char** argv) {
    const int count = argc > 1 ? std::atoi(argv[1]) : 0;
    const auto seed = argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 1ULL;
    if (count < 1) {
        std::fprintf(stderr, "usage: oracle_balance_problems COUNT [SEED]\n");
        return 2;
    }
    RandomNumbers random(seed);
    for (int made = 0; made < count;) {
        const auto problem = random_problem(random);
        const auto answer = feed::balance(problem);
        if (!answer) continue;  // no amount fixed, or no usual amount: refused, nothing to compare
        print(problem, *answer);
        ++made;
    }
    return 0;
}
