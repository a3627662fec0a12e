#include "feed/trial/exact_test.hpp"

#include <vector>

#include "catch2.hpp"
#include "feed/trial/closed_test.hpp"

using feed_test::Approx;

namespace {

using Scores = std::vector<std::optional<double>>;

/// The layout of pairs and the scores of both feeds on their places.
feed::LuckTest paired(const std::vector<double>& first, const std::vector<double>& second) {
    const feed::TrialDesign design{feed::TrialKind::choice, 2, first.size(), 1, 1, false};
    const auto layout = feed::draw_layout(design, 3);
    REQUIRE(layout);
    Scores scores;
    for (const auto& plot : layout->plots)
        scores.push_back(*plot.feed == 0 ? first[plot.bin] : second[plot.bin]);
    return feed::luck_test(feed::exchange_of(*layout, scores, feed::Alike{}), 3);
}

double smallest(feed::TrialDesign design) {
    const auto layout = feed::draw_layout(design, 1);
    REQUIRE(layout);
    return feed::smallest_luck(*layout).overall;
}

}  // namespace

// Darwin's fifteen pairs of Zea mays, differences in eighths of an inch (R package boot, data set
// darwin). Fisher 1935, The Design of Experiments, section 21: 863 of the 32 768 ways of signs
// reach the sum on one side, so 1726 on either.
TEST_CASE("Fisher's count for Darwin's pairs") {
    const std::vector<double> difference{49, -67, 8,  16, 6,  23, 28, 41,
                                         14, 29,  56, 24, 75, 60, -48};
    const auto luck = paired(difference, std::vector<double>(15, 0.0));
    CHECK(luck.arrangements == 32768.0);
    CHECK(luck.all_counted);
    CHECK(luck.p == Approx(1726.0 / 32768.0).epsilon(1e-14));
}

// Box, Hunter & Hunter 1978, Statistics for Experimenters, section 4.2: wear of two sole materials
// on ten boys (R package MASS, data set shoes). Of 1024 arrangements 3 give a larger mean
// difference and 4 the same, on one side.
TEST_CASE("the boys' shoes") {
    const auto luck = paired({13.2, 8.2, 10.9, 14.3, 10.7, 6.6, 9.5, 10.8, 8.8, 13.3},
                             {14.0, 8.8, 11.2, 14.2, 11.8, 6.4, 9.8, 11.3, 9.3, 13.6});
    CHECK(luck.p == Approx(14.0 / 1024.0).epsilon(1e-14));
}

TEST_CASE("three against three wholly apart is one way in ten") {
    const feed::TrialDesign design{feed::TrialKind::choice, 2, 1, 3, 1, false};
    const auto layout = feed::draw_layout(design, 3);
    REQUIRE(layout);
    Scores scores;
    double day = 1.0;
    for (const auto& plot : layout->plots)
        scores.push_back((*plot.feed == 0 ? 0.0 : 10.0) + (day += 1.0));
    const auto luck = feed::luck_test(feed::exchange_of(*layout, scores, feed::Alike{}), 3);
    CHECK(luck.p == Approx(0.10).epsilon(1e-14));
}

// Numbers of ways by hand: 2 of 2^6; 2 of 6^3; 2 of 20^2; 2 of 924; orders in half of 4, 6, 8 bins:
// 2 of 6, 20, 70; three feeds in two bins: 6 of 36.
TEST_CASE("the smallest chance by luck is known before anything is laid") {
    using feed::TrialKind;
    CHECK(smallest({TrialKind::choice, 2, 6, 1, 1, false}) == Approx(2.0 / 64).epsilon(1e-12));
    CHECK(smallest({TrialKind::choice, 2, 3, 2, 1, false}) == Approx(2.0 / 216).epsilon(1e-12));
    CHECK(smallest({TrialKind::choice, 2, 2, 3, 1, false}) == Approx(2.0 / 400).epsilon(1e-12));
    CHECK(smallest({TrialKind::choice, 2, 1, 6, 1, false}) == Approx(2.0 / 924).epsilon(1e-12));
    CHECK(smallest({TrialKind::choice, 3, 2, 1, 1, true}) == Approx(6.0 / 36).epsilon(1e-12));
    CHECK(smallest({TrialKind::alone, 2, 4, 1, 2, false}) == Approx(2.0 / 6).epsilon(1e-12));
    CHECK(smallest({TrialKind::alone, 2, 6, 1, 2, false}) == Approx(2.0 / 20).epsilon(1e-12));
    CHECK(smallest({TrialKind::alone, 2, 8, 1, 2, false}) == Approx(2.0 / 70).epsilon(1e-12));
}

TEST_CASE("above a million arrangements p is drawn, with its error, near the counted one") {
    // Twenty-one pairs with differences 1 to 21, those of 4 to 10 the other way. Of the 2^21 ways
    // of signs, those with a sum as far from 0 are counted by adding one pair after another.
    std::vector<double> difference;
    int seen = 0;
    for (int i = 1; i <= 21; ++i) {
        difference.push_back(i >= 4 && i <= 10 ? -i : i);
        seen += i >= 4 && i <= 10 ? -i : i;
    }
    std::vector<double> ways(2 * 231 + 1, 0.0);
    ways[231] = 1.0;
    for (int i = 1; i <= 21; ++i) {
        std::vector<double> next(ways.size(), 0.0);
        for (std::size_t sum = 0; sum < ways.size(); ++sum) {
            if (ways[sum] == 0.0) continue;
            next[sum + static_cast<std::size_t>(i)] += ways[sum];
            next[sum - static_cast<std::size_t>(i)] += ways[sum];
        }
        ways = next;
    }
    double as_far = 0.0;
    for (int sum = -231; sum <= 231; ++sum)
        as_far += std::abs(sum) >= seen ? ways[static_cast<std::size_t>(sum + 231)] : 0.0;
    const auto luck = paired(difference, std::vector<double>(21, 0.0));
    CHECK(luck.arrangements == Approx(2097152.0).epsilon(1e-12));
    CHECK_FALSE(luck.all_counted);
    CHECK(luck.error > 0.0);
    CHECK(luck.p == Approx(as_far / 2097152.0).margin(4 * luck.error).epsilon(0));
}

// Remission on 6-MP or not in 21 pairs (Freireich et al. 1963, Blood 21; R package KMsurv, data set
// drug6mp): in 18 pairs 6-MP kept it longer, in 3 the placebo. Of the 2^21 ways of signs
// 2 (1 + 21 + 210 + 1330) lie as far apart, by the binomial coefficients.
TEST_CASE("the preferences for 6-MP") {
    std::vector<double> sign(21, 1.0);
    sign[5] = sign[13] = sign[7] = -1.0;
    const auto luck = paired(sign, std::vector<double>(21, 0.0));
    CHECK(luck.p == Approx(3124.0 / 2097152.0).margin(4 * luck.error).epsilon(0));
}

TEST_CASE("the score is the log of the middle of the interval") {
    CHECK(*feed::log_middle({3.0, 6.0}) == Approx(std::log(4.5)));
    CHECK(*feed::log_middle({0.0, 1.0}) == Approx(std::log(0.5)));
    CHECK(*feed::log_middle({20.0, std::nullopt}) == Approx(std::log(30.0)));
    CHECK_FALSE(feed::log_middle({0.0, std::nullopt}));
}

TEST_CASE("nothing known gives a chance of one") {
    const feed::TrialDesign design{feed::TrialKind::choice, 3, 2, 1, 1, false};
    const auto layout = feed::draw_layout(design, 3);
    REQUIRE(layout);
    const auto tests = feed::test_feeds(*layout, Scores(layout->plots.size()), 1);
    CHECK(tests.overall.p == 1.0);
    REQUIRE(tests.pairs.size() == 3);
    for (const auto& pair : tests.pairs)
        CHECK(pair.luck.p == 1.0);
}
