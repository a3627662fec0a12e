#pragma once
// What the tests of the balance read of an answer.
#include "catch2.hpp"
#include "feed/balance/balance.hpp"

namespace feed_test {

inline double kg(const feed::BalanceAnswer& answer, std::size_t entry) {
    return answer.portions.at(entry).wet_mass.in_kilograms();
}

inline feed::BalanceAnswer solved(const feed::BalanceProblem& problem) {
    const auto answer = feed::balance(problem);
    REQUIRE(answer);
    REQUIRE(answer->status == feed::BalanceStatus::solved);
    return *answer;
}

}  // namespace feed_test
