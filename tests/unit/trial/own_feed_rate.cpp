#include "feed/trial/own_feed_rate.hpp"

#include <cmath>
#include <memory>
#include <vector>

#include "catch2.hpp"

using feed::FeedRatio;
using feed_test::Approx;

namespace {

std::shared_ptr<const feed::Feedstock> food(feed::DecayClass decay) {
    feed::Feedstock f;
    f.decay_class = decay;
    return std::make_shared<const feed::Feedstock>(std::move(f));
}

/// Two feeds alone in bins, swapped over two rounds.
feed::Trial trial_of(feed::DecayClass first, feed::DecayClass second) {
    feed::Trial trial;
    trial.design = {feed::TrialKind::alone, 2, 6, 1, 2, false};
    for (const auto& one : {food(first), food(second)})
        trial.feeds.push_back({"feed", one, one, std::nullopt});
    return trial;
}

feed::TrialReading over() {
    feed::TrialReading reading;
    reading.ended = reading.valid = true;
    return reading;
}

std::vector<FeedRatio> seen(double ratio, double log_sd) {
    FeedRatio pair;
    pair.ratio = ratio;
    pair.log_sd = log_sd;
    return {pair};
}

constexpr auto medium = feed::DecayClass::medium;

}  // namespace

TEST_CASE("feeds that the table calls alike move apart by the ratio, with its error") {
    const auto rates = feed::own_feed_rates(trial_of(medium, medium), over(), seen(0.5, 0.1));
    REQUIRE(rates.size() == 2);
    // Half the time is twice the rate: each feed takes half of the logarithm.
    CHECK(rates[0].log_factor == Approx(0.5 * std::log(2.0)));
    CHECK(rates[1].log_factor == Approx(-0.5 * std::log(2.0)));
    // log_sd of a difference of two; each about their mean has half of it.
    CHECK(rates[0].log_sd == Approx(0.05));
}

TEST_CASE("an exact trial replaces what the table says of the ratio, a vague one half of it") {
    const auto trial = trial_of(feed::DecayClass::fast, feed::DecayClass::slow);
    const double first = feed::detail::table_gone_days(*trial.feeds[0].feedstock);
    const double second = feed::detail::table_gone_days(*trial.feeds[1].feedstock);
    REQUIRE(second > first);
    const auto after = [&](double ratio, double log_sd) {
        const auto rates = feed::own_feed_rates(trial, over(), seen(ratio, log_sd));
        REQUIRE(rates.size() == 2);
        return std::log(first) - rates[0].log_factor - std::log(second) + rates[1].log_factor;
    };
    CHECK(after(0.8, 1e-6) == Approx(std::log(0.8)));
    // The posterior of the trial is drawn to 1 by its prior; centred on the table instead it lies
    // that share of the table's logarithm further on (product of two normal densities).
    const double unknown = 0.2 * 0.2 / (0.7 * 0.7);
    CHECK(after(0.8, 0.2) == Approx(std::log(0.8) + unknown * std::log(first / second)));
}

TEST_CASE("only feeds alone, to the end, without a flaw and with news, teach a rate") {
    auto trial = trial_of(medium, medium);
    CHECK(feed::own_feed_rates(trial, over(), seen(0.5, 0.7)).empty());
    CHECK(feed::own_feed_rates(trial, over(), {}).empty());
    auto reading = over();
    reading.valid = false;
    CHECK(feed::own_feed_rates(trial, reading, seen(0.5, 0.1)).empty());
    reading = over();
    reading.ended = false;
    CHECK(feed::own_feed_rates(trial, reading, seen(0.5, 0.1)).empty());
    trial.question = feed::TrialQuestion::found;
    CHECK(feed::own_feed_rates(trial, over(), seen(0.5, 0.1)).empty());
    trial = trial_of(medium, medium);
    trial.design = {feed::TrialKind::choice, 2, 6, 1, 1, false};
    CHECK(feed::own_feed_rates(trial, over(), seen(0.5, 0.1)).empty());
}

TEST_CASE("a rate of one's own is a factor with nine in ten as its range") {
    feed::Feedstock whole;
    whole.decay_rate_factor = {0.5, 0.3, 0.8};
    const auto own = feed::with_own_rate(whole, {0, std::log(2.0), 0.1});
    CHECK(own.decay_rate_factor.value == Approx(1.0));
    CHECK(std::log(own.decay_rate_factor.high) == Approx(0.16448536));
    CHECK(std::log(own.decay_rate_factor.low) == Approx(-0.16448536));
}
