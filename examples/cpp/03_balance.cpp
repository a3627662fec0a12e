// Balance: a school lunch club (invented) has scraps that must go, and cardboard and water at will.
#include <cstdio>
#include <feed/feed.hpp>

namespace {

/// Something at hand: exactly `kilograms` of it, or, below zero, as much as it takes.
bool add(feed::BalanceProblem& problem, const char* words, double kilograms) {
    const auto found = feed::look_up(words);
    if (!found) return false;
    feed::Entry entry;
    entry.feedstock = found->feedstock;
    entry.label = words;
    if (kilograms >= 0.0) entry.least = feed::wet_kilograms(kilograms);
    if (kilograms >= 0.0) entry.most = entry.least;
    problem.entries.push_back(entry);
    return true;
}

}  // namespace

int main() {
    feed::BalanceProblem problem;
    problem.targets = feed::worm_bed_targets();
    if (!add(problem, "kitchen scraps", 1.2) || !add(problem, "coffee grounds", 0.3) ||
        !add(problem, "shredded cardboard", -1.0) || !add(problem, "water", -1.0)) {
        return 1;
    }
    const auto answer = feed::balance(problem);
    if (!answer || answer->status != feed::BalanceStatus::solved) return 1;
    for (std::size_t i = 0; i < answer->portions.size(); ++i) {
        std::printf("%s: %.0f g\n", problem.entries[i].label.c_str(),
                    feed::in_grams(answer->portions[i].wet_mass.mass()));
    }
    std::printf("C:N %.1f, moisture %.1f %%\n", answer->properties.cn_ratio.value,
                answer->properties.moisture.value.in_percent());
    return 0;
}
