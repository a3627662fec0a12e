#include "balance.hpp"

// The core without its table: the maker of the device knows what is fed to it, and only amounts are
// wanted, no words about them. A device that tells a keeper what to feed needs the whole answer.
namespace {

std::shared_ptr<feed::Feedstock> made(const char* name, feed::Role role, double moisture,
                                      double carbon, double nitrogen) {
    auto one = std::make_shared<feed::Feedstock>();
    one->id = one->name = name;
    one->roles = static_cast<std::uint8_t>(role);
    const auto set = [&](feed::Property property, double value) {
        feed::Datum datum;
        datum.value = datum.low = datum.high = value;
        one->data[static_cast<std::size_t>(property)] = datum;
    };
    set(feed::Property::moisture_wet, moisture);
    set(feed::Property::carbon_dry, carbon);
    set(feed::Property::nitrogen_dry, nitrogen);
    return one;
}

}  // namespace

int main() {
    feed::BalanceProblem problem;
    cross::add(problem, made("scraps", feed::Role::scraps, 0.80, 0.45, 0.025), 1.2);
    cross::add(problem, made("card", feed::Role::bedding, 0.08, 0.44, 0.002), -1.0);
    cross::add(problem, made("water", feed::Role::water, 1.0, 0.0, 0.0), -1.0);
    problem.targets = feed::worm_bed_targets();
    const auto prepared = feed::prepare(std::move(problem));
    if (!prepared) return 0;
    feed::BalanceWorkspace workspace(*prepared);
    const feed::BalanceNumbers numbers = feed::solve(*prepared, workspace);
    if (numbers.status != feed::BalanceStatus::solved) return 0;
    double grams = 0.0;
    for (const double kilograms : numbers.wet_kg)
        grams += 1000.0 * kilograms;
    return static_cast<int>(grams);
}
