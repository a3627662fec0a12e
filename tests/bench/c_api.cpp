// What a call through the C interface costs over the same in C++: a balance of 8 feedstocks, the
// problem already built, every portion and everything reached read back, the answer given back.
// The C side runs in the shared library, as callers have it. Calls of the two kinds take turns, so
// that whatever else the machine does meets both.
#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <vector>

#include "feed/balance/balance.hpp"
#include "feed/balance/target_sets.hpp"
#include "feed/feed.h"
#include "feed/feedstock/lookup.hpp"
#include "measure.hpp"

namespace {

struct AtHand {
    const char* words;
    double exact_kg;  ///< below 0: as much as is useful
    double usual_kg;
};

constexpr std::array<AtHand, 8> at_hand{{{"kitchen scraps", 1.2, 1.2},
                                         {"coffee grounds", 0.3, 0.3},
                                         {"carrot", -1.0, 0.2},
                                         {"lettuce", -1.0, 0.2},
                                         {"newspaper", -1.0, 0.1},
                                         {"leaves", -1.0, 0.2},
                                         {"cardboard", -1.0, 0.1},
                                         {"water", -1.0, 0.1}}};

void require(bool holds) {
    if (!holds) std::abort();
}

feed::BalanceProblem problem_in_cpp(feed::Objective objective) {
    feed::BalanceProblem problem;
    problem.objective = objective;
    problem.targets = feed::worm_bed_targets();
    for (const AtHand& material : at_hand) {
        const auto found = feed::look_up(material.words);
        require(found.has_value());
        feed::Entry entry;
        entry.feedstock = found->feedstock;
        entry.label = material.words;
        entry.least = feed::wet_kilograms(std::max(material.exact_kg, 0.0));
        if (material.exact_kg >= 0.0) entry.most = entry.least;
        entry.usual = feed::wet_kilograms(material.usual_kg);
        problem.entries.push_back(entry);
    }
    return problem;
}

feed_problem* problem_in_c(feed::Objective objective) {
    feed_problem* problem = nullptr;
    require(feed_problem_create(nullptr, &problem, nullptr) == FEED_OK);
    require(feed_problem_use_target_set(problem, FEED_TARGETS_WORM_BED, nullptr) == FEED_OK);
    require(feed_problem_set_objective(problem, static_cast<int32_t>(objective), nullptr) ==
            FEED_OK);
    for (const AtHand& material : at_hand) {
        feed_feedstock* found = nullptr;
        require(feed_feedstock_look_up(material.words, nullptr, &found, nullptr) == FEED_OK);
        const double none = std::nan("");
        const bool exact = material.exact_kg >= 0.0;
        const feed_entry entry{sizeof(feed_entry),
                               0,
                               found,
                               material.words,
                               exact ? material.exact_kg : 0.0,
                               exact ? material.exact_kg : none,
                               none,
                               material.usual_kg};
        require(feed_problem_add_entry(problem, &entry, nullptr) == FEED_OK);
        feed_feedstock_free(found);
    }
    return problem;
}

/// What is read of an answer: wet kilograms of each entry, then what each target reached.
using Read = std::vector<double>;

void balance_in_cpp(const feed::BalanceProblem& problem, Read& read) {
    const auto answer = feed::balance(problem);
    require(answer.has_value() && answer->status == feed::BalanceStatus::solved);
    read.clear();
    for (const auto& portion : answer->portions)
        read.push_back(portion.wet_mass.in_kilograms());
    for (const auto& reached : answer->reached)
        read.push_back(reached.quantity.value);
}

void balance_in_c(const feed_problem* problem, Read& read) {
    feed_error error;
    error.struct_size = sizeof error;
    feed_answer* answer = nullptr;
    require(feed_balance(problem, nullptr, &answer, &error) == FEED_OK);
    feed_answer_summary summary;
    summary.struct_size = sizeof summary;
    require(feed_answer_describe(answer, &summary, &error) == FEED_OK);
    require(summary.status == FEED_SOLVED);
    read.clear();
    for (std::size_t i = 0; i < summary.portion_count; ++i) {
        double wet_kg = 0.0;
        require(feed_answer_portion(answer, i, &wet_kg, nullptr, &error) == FEED_OK);
        read.push_back(wet_kg);
    }
    for (std::size_t i = 0; i < summary.reached_count; ++i) {
        feed_reached reached;
        reached.struct_size = sizeof reached;
        require(feed_answer_reached(answer, i, &reached, &error) == FEED_OK);
        read.push_back(reached.quantity.value);
    }
    feed_answer_free(answer);
}

double median(std::vector<double> numbers) {
    const auto middle = numbers.begin() + static_cast<std::ptrdiff_t>(numbers.size() / 2);
    std::nth_element(numbers.begin(), middle, numbers.end());
    return *middle;
}

template <class Work>
double nanoseconds(Work work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double, std::nano>(std::chrono::steady_clock::now() - start)
        .count();
}

void compare(const char* name, feed::Objective objective) {
    const feed::BalanceProblem in_cpp = problem_in_cpp(objective);
    feed_problem* in_c = problem_in_c(objective);
    Read from_cpp;
    Read from_c;
    constexpr int turns = 20000;
    std::vector<double> cpp;
    std::vector<double> c;
    std::vector<double> ratios;
    for (int turn = 0; turn < turns; ++turn) {
        const bool cpp_first = turn % 2 == 0;
        if (cpp_first) cpp.push_back(nanoseconds([&] { balance_in_cpp(in_cpp, from_cpp); }));
        c.push_back(nanoseconds([&] { balance_in_c(in_c, from_c); }));
        if (!cpp_first) cpp.push_back(nanoseconds([&] { balance_in_cpp(in_cpp, from_cpp); }));
        ratios.push_back(c.back() / cpp.back());
    }
    require(from_cpp == from_c);
    std::printf("balance of 8 feedstocks, %s\n", name);
    feed_bench::report("  C++", median(cpp), median(cpp));
    feed_bench::report("  C interface", median(c), median(cpp));
    const double pair = median(ratios);
    std::printf("  median of the ratios of %d pairs %10.3f   at most 1.15: %s\n", turns, pair,
                pair <= 1.15 ? "yes" : "no");
    feed_problem_free(in_c);
}

}  // namespace

int main() {
    std::printf("%-44s %15s %10s\n", "", "median", "ratio");
    compare("closest to the aims", feed::Objective::closest_to_aims);
    compare("closest to usual", feed::Objective::closest_to_usual);
    compare("least added mass", feed::Objective::least_added);
    return 0;
}
