// Prints random balances and the library's answers as JSON, one a line, for test_balance_scipy.py.
// Usage: oracle_balance_problems COUNT [SEED]
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "feed/balance/balance.hpp"
#include "kitchen_caddies.hpp"

namespace {

using feed::TargetProperty;
using feed_test::RandomNumbers;

/// Feedstocks whose every value that the problems use is known.
std::vector<std::size_t> complete_feedstocks() {
    std::vector<std::size_t> complete;
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i) {
        const auto feedstock = feed::feedstock_at(i);
        bool all = feedstock.group != feed::Group::guarded;
        for (const auto property :
             {feed::Property::moisture_wet, feed::Property::carbon_dry,
              feed::Property::nitrogen_dry, feed::Property::bulk_density_loose})
            all = all && feedstock[property].has_value();
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

feed::BalanceProblem random_problem(const std::vector<std::size_t>& complete,
                                    RandomNumbers& random) {
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
    const double cn = random.between(15.0, 45.0);
    problem.targets.push_back(
        window(TargetProperty::cn_ratio, cn, cn + random.between(0.5, 25.0), random));
    const double wet = random.between(0.35, 0.8);
    problem.targets.push_back(
        window(TargetProperty::moisture, wet, wet + random.between(0.01, 0.2), random));
    if (random.below(3) == 0) {
        const double ratio = random.between(0.3, 1.5);
        problem.targets.push_back(window(TargetProperty::bedding_l_per_scraps_l, ratio,
                                         ratio + random.between(0.2, 2.0), random));
    }
    if (random.below(4) == 0) {
        const double whole = scale * random.between(1.0, 6.0);
        problem.targets.push_back(
            window(TargetProperty::total_wet_kg, whole, whole * random.between(1.0, 2.0), random));
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
                                        std::pair{"density", feed::Property::bulk_density_loose}}) {
        const auto& datum = feedstock[property];
        number(key, datum ? std::optional(datum->value) : std::nullopt);
    }
    std::printf("\"scraps\": %s, \"bedding\": %s, \"water\": %s, \"beddings_group\": %s}",
                feedstock.has(feed::Role::scraps) ? "true" : "false",
                feedstock.has(feed::Role::bedding) ? "true" : "false",
                feedstock.has(feed::Role::water) ? "true" : "false",
                feedstock.group == feed::Group::beddings ? "true" : "false");
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
    const auto complete = complete_feedstocks();
    RandomNumbers random(seed);
    for (int made = 0; made < count;) {
        const auto problem = random_problem(complete, random);
        const auto answer = feed::balance(problem);
        if (!answer) continue;  // no amount fixed, or no usual amount: refused, nothing to compare
        print(problem, *answer);
        ++made;
    }
    return 0;
}
