// What a call through the C interface costs over the same in C++: a balance of 8 feedstocks, the
// problem already built, the answer read back.
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "feed/balance/balance.hpp"
#include "feed/balance/target_sets.hpp"
#include "feed/feed.h"
#include "feed/feedstock/lookup.hpp"
#include "measure.hpp"

namespace {

constexpr std::array<const char*, 8> at_hand{"kitchen scraps", "coffee grounds", "carrot",
                                             "lettuce",        "newspaper",      "leaves",
                                             "cardboard",      "water"};

/// The first two entries are given, the others free.
double given_kg(std::size_t i) {
    return i == 0 ? 1.2 : i == 1 ? 0.3 : -1.0;
}

void require(bool holds) {
    if (!holds) std::abort();
}

feed::BalanceProblem problem_in_cpp() {
    feed::BalanceProblem problem;
    problem.targets = feed::worm_bed_targets();
    for (std::size_t i = 0; i < at_hand.size(); ++i) {
        const auto found = feed::look_up(at_hand[i]);
        require(found.has_value());
        feed::Entry entry;
        entry.feedstock = found->feedstock;
        entry.label = at_hand[i];
        entry.least = feed::wet_kilograms(given_kg(i) < 0.0 ? 0.0 : given_kg(i));
        if (given_kg(i) >= 0.0) entry.most = entry.least;
        problem.entries.push_back(entry);
    }
    return problem;
}

feed_problem* problem_in_c() {
    feed_problem* problem = nullptr;
    require(feed_problem_create(nullptr, &problem, nullptr) == FEED_OK);
    require(feed_problem_use_target_set(problem, FEED_TARGETS_WORM_BED, nullptr) == FEED_OK);
    for (std::size_t i = 0; i < at_hand.size(); ++i) {
        feed_feedstock* found = nullptr;
        require(feed_feedstock_look_up(at_hand[i], nullptr, &found, nullptr) == FEED_OK);
        const double none = std::nan("");
        const double kg = given_kg(i);
        const feed_entry entry{sizeof(feed_entry),   0,    found, at_hand[i], kg < 0.0 ? 0.0 : kg,
                               kg < 0.0 ? none : kg, none, none};
        require(feed_problem_add_entry(problem, &entry, nullptr) == FEED_OK);
        feed_feedstock_free(found);
    }
    return problem;
}

}  // namespace

int main() {
    const feed::BalanceProblem in_cpp = problem_in_cpp();
    feed_problem* in_c = problem_in_c();
    const double cpp = feed_bench::median_nanoseconds([&] {
        const auto answer = feed::balance(in_cpp);
        require(answer.has_value() && answer->status == feed::BalanceStatus::solved);
        feed_bench::keep(answer);
    });
    const double c = feed_bench::median_nanoseconds([&] {
        feed_answer* answer = nullptr;
        require(feed_balance(in_c, nullptr, &answer, nullptr) == FEED_OK);
        double wet_kg = 0.0;
        for (std::size_t i = 0; i < at_hand.size(); ++i) {
            require(feed_answer_portion(answer, i, &wet_kg, nullptr, nullptr) == FEED_OK);
        }
        feed_bench::keep(wet_kg);
        feed_answer_free(answer);
    });
    std::printf("%-44s %15s %10s\n", "balance of 8 feedstocks", "median", "ratio");
    feed_bench::report("C++", cpp, cpp);
    feed_bench::report("C interface", c, cpp);
    feed_problem_free(in_c);
    return 0;
}
