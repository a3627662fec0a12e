// A target that cannot be met: an allotment (invented) has a flow-through bin, a heap of zucchini
// and hardly anything dry. Which wishes conflict, how near one comes, and what mends it.
#include <cstdio>
#include <feed/feed.hpp>

int main() {
    const auto zucchini = feed::look_up("zucchini");
    const auto coffee = feed::look_up("coffee grounds");
    const auto cardboard = feed::look_up("torn cardboard");
    if (!zucchini || !coffee || !cardboard) return 1;
    feed::BalanceProblem problem;
    problem.targets = feed::worm_bed_targets();
    feed::Entry scraps;
    scraps.feedstock = zucchini->feedstock;
    scraps.label = "zucchini";
    scraps.least = feed::wet_kilograms(3.0);
    scraps.most = scraps.least;
    feed::Entry grounds;
    grounds.feedstock = coffee->feedstock;
    grounds.label = "coffee grounds";
    grounds.most = feed::wet_grams(500.0);
    feed::Entry card;
    card.feedstock = cardboard->feedstock;
    card.label = "torn cardboard";
    card.most = feed::wet_grams(50.0);
    problem.entries = {scraps, grounds, card};

    const auto answer = feed::balance(problem);
    if (!answer || answer->status != feed::BalanceStatus::infeasible) return 1;
    std::printf("these cannot all hold:\n");
    for (const auto& member : answer->conflict)
        std::printf("  %s\n", member.c_str());
    std::printf("nearest: moisture %.1f %%\n", answer->properties.moisture.value.in_percent());
    if (answer->mend) {
        std::printf("add %.0f g of %s\n", feed::in_grams(answer->mend->add.mass()),
                    answer->mend->label.c_str());
    } else {
        std::printf("no single addition does\n");
    }
    return 0;
}
