#include "balance.hpp"
#include "feed/feedstock/lookup.hpp"

// The core with its table and names: feedstocks are looked up by what people call them.
int main() {
    feed::BalanceProblem problem;
    for (const auto& [name, kilograms] :
         {std::pair{"kitchen scraps", 1.2}, {"shredded cardboard", -1.0}, {"water", -1.0}}) {
        const auto found = feed::look_up(name);
        if (!found) return 0;
        cross::add(problem, found->feedstock, kilograms);
    }
    problem.targets = feed::worm_bed_targets();
    const auto answer = feed::balance(problem);
    if (!answer || answer->status != feed::BalanceStatus::solved) return 0;
    double grams = 0.0;
    for (const feed::Portion& portion : answer->portions)
        grams += feed::in_grams(portion.wet_mass.mass());
    return static_cast<int>(grams);
}
