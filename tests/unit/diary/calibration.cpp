#include "feed/diary/calibration.hpp"

#include <random>

#include "catch2.hpp"

using feed::LeftoverEvidence;
using feed::LeftoverMethod;
using feed_test::Approx;

namespace {

/// Normal numbers that are the same with every standard library (its own distributions are not).
class Normal {
public:
    explicit Normal(std::uint64_t seed) : bits_(seed) {}
    double uniform() { return (static_cast<double>(bits_() >> 11) + 0.5) / 9007199254740992.0; }
    double operator()() {
        const double radius = std::sqrt(-2.0 * std::log(uniform()));
        return radius * std::cos(6.283185307179586 * uniform());
    }

private:
    std::mt19937_64 bits_;
};

/// Share left by the plain definition, written out again here.
double left(const LeftoverEvidence& look, double labile_multiplier, double slow_multiplier) {
    return look.pool_shares[0] * std::exp(-0.30 * labile_multiplier * look.effective_days[0]) +
           look.pool_shares[1] * std::exp(-0.06 * slow_multiplier * look.effective_days[1]) +
           look.pool_shares[2] * std::exp(-0.014 * slow_multiplier * look.effective_days[2]);
}

LeftoverEvidence look_at(double day, double labile, double cellulosic, double error) {
    LeftoverEvidence look;
    look.pool_shares = {labile, cellulosic, 1.0 - labile - cellulosic};
    look.effective_days = {day, day, day};
    look.standard_error = error;
    return look;
}

/// An invented diary of one bin: some feedings, each looked at a few times.
std::vector<LeftoverEvidence> simulated(Normal& normal, double labile_multiplier,
                                        double slow_multiplier, int feedings) {
    std::vector<LeftoverEvidence> diary;
    for (int f = 0; f < feedings; ++f) {
        const double labile = 0.3 + 0.5 * normal.uniform();
        const double cellulosic = (1.0 - labile) * (0.6 + 0.35 * normal.uniform());
        double day = 0.0;
        for (int visit = 0; visit < 4; ++visit) {
            day += 1.0 + 6.0 * normal.uniform();
            const bool weighed = normal.uniform() < 0.3;
            LeftoverEvidence look =
                look_at(day, labile, cellulosic,
                        feed::usual_error_of_share(weighed ? LeftoverMethod::weighed
                                                           : LeftoverMethod::by_eye));
            look.feeding = static_cast<std::size_t>(f);
            look.share_left =
                left(look, labile_multiplier, slow_multiplier) + look.standard_error * normal();
            diary.push_back(look);
        }
    }
    return diary;
}

}  // namespace

TEST_CASE("without evidence the published range comes back") {
    const feed::Calibration none = feed::calibrate({});
    CHECK(none.rates[0].before_per_day == Approx(0.30));
    CHECK(none.rates[0].after_per_day == Approx(0.30));
    // The published range of the labile rate, 0.09 to 1.0, is centred on 0.30 in its logarithm.
    CHECK(none.rates[0].after_low_per_day == Approx(0.09).epsilon(0.01));
    CHECK(none.rates[0].after_high_per_day == Approx(1.0).epsilon(0.01));
    CHECK(none.rates[1].after_high_per_day / none.rates[1].after_low_per_day == Approx(10.0));
    CHECK(none.misfits.empty());
}

// A linear problem has an exact posterior: with a tiny effect of the rate on the share the model is
// linear in the logarithm, and the conjugate normal result must come out.
TEST_CASE("where the model is linear the conjugate normal posterior comes out") {
    feed::RatePrior prior = feed::published_prior();
    prior.log_deviation = {1e-4, 1e-4};
    LeftoverEvidence look = look_at(5.0, 1.0, 0.0, 2e-5);
    const double exponent = 0.30 * 5.0;
    const double slope = -exponent * std::exp(-exponent);
    look.share_left = std::exp(-exponent) + slope * 5e-5;
    const feed::Calibration update = feed::calibrate(std::vector{look}, prior);
    const double prior_precision = 1e8;
    const double data_precision = slope * slope / (2e-5 * 2e-5);
    CHECK(update.log_multiplier[0] ==
          Approx(5e-5 * data_precision / (data_precision + prior_precision)).epsilon(1e-3));
    CHECK(update.covariance[0] == Approx(1.0 / (data_precision + prior_precision)).epsilon(1e-3));
    CHECK(update.covariance[2] == Approx(1e-8).epsilon(1e-9));
}

TEST_CASE("planted rates are recovered, and the interval holds them as often as it says") {
    const feed::RatePrior prior = feed::published_prior();
    // From a diary of a few weeks to one of a season; four looks at each feeding.
    for (const int feedings : {2, 6, 12}) {
        Normal normal(20260314);
        int labile_inside = 0;
        int slow_inside = 0;
        constexpr int diaries = 1000;
        double labile_error = 0.0;
        for (int i = 0; i < diaries; ++i) {
            const double labile = std::exp(prior.log_deviation[0] * normal());
            const double slow = std::exp(prior.log_deviation[1] * normal());
            const auto diary = simulated(normal, labile, slow, feedings);
            const feed::Calibration found = feed::calibrate(diary);
            labile_inside += found.rates[0].after_low_per_day <= 0.30 * labile &&
                             0.30 * labile <= found.rates[0].after_high_per_day;
            slow_inside += found.rates[1].after_low_per_day <= 0.06 * slow &&
                           0.06 * slow <= found.rates[1].after_high_per_day;
            labile_error += std::fabs(std::log(found.rates[0].after_per_day / (0.30 * labile)));
        }
        CAPTURE(feedings, labile_inside, slow_inside, labile_error / diaries);
        CHECK(labile_inside >= 850);
        CHECK(labile_inside <= 950);
        CHECK(slow_inside >= 850);
        CHECK(slow_inside <= 950);
        // Much nearer than the prior alone, whose mean absolute error is 0.8 of its deviation.
        CHECK(labile_error / diaries < 0.5 * 0.7979 * prior.log_deviation[0]);
    }
}

TEST_CASE("many looks narrow the interval onto the planted rate") {
    Normal normal(7);
    const auto diary = simulated(normal, 0.5, 2.2, 200);
    const feed::Calibration found = feed::calibrate(diary);
    CHECK(found.rates[0].after_per_day == Approx(0.15).epsilon(0.08));
    CHECK(found.rates[1].after_per_day == Approx(0.06 * 2.2).epsilon(0.08));
    CHECK(found.rates[0].after_high_per_day / found.rates[0].after_low_per_day < 1.25);
    CHECK(found.rates[1].outside_published);
    CHECK_FALSE(found.rates[0].outside_published);
    // A slow rate a little above the typical one is well inside what is published.
    const feed::Calibration usual = feed::calibrate(simulated(normal, 1.0, 1.05, 2));
    CHECK_FALSE(usual.rates[1].outside_published);
}

TEST_CASE("a slip of the pen is set aside and named") {
    std::vector<LeftoverEvidence> diary;
    for (const double day : {3.0, 6.0, 9.0, 12.0, 15.0}) {
        LeftoverEvidence look = look_at(day, 0.6, 0.3, 0.06);
        look.share_left = left(look, 1.0, 1.0);
        look.label = "day " + std::to_string(static_cast<int>(day));
        diary.push_back(look);
    }
    const feed::Calibration clean = feed::calibrate(diary);
    CHECK(clean.misfits.empty());
    diary[3].share_left = 1.0 - diary[3].share_left;  // gone and left mixed up
    const feed::Calibration slipped = feed::calibrate(diary);
    REQUIRE_FALSE(slipped.misfits.empty());
    CHECK(slipped.misfits[0].kind == feed::Misfit::Kind::outlier);
    CHECK(slipped.misfits[0].evidence == 3);
    CHECK(slipped.misfits[0].text.find("day 12") != std::string::npos);
    CHECK(slipped.used == 4);
    CHECK(slipped.rates[0].after_per_day == Approx(clean.rates[0].after_per_day).epsilon(0.05));
}

TEST_CASE("more left than before is called a contradiction") {
    LeftoverEvidence first = look_at(4.0, 0.6, 0.3, 0.1);
    first.share_left = 0.3;
    first.label = "2026-03-05";
    LeftoverEvidence second = look_at(8.0, 0.6, 0.3, 0.1);
    second.share_left = 0.65;
    second.label = "2026-03-09";
    const feed::Calibration update = feed::calibrate(std::vector{first, second});
    REQUIRE(update.misfits.size() == 1);
    CHECK(update.misfits[0].kind == feed::Misfit::Kind::contradiction);
    CHECK(update.misfits[0].evidence == 1);
    CHECK(update.misfits[0].rival == 0);
    CHECK(update.misfits[0].text.rfind("2026-03-09", 0) == 0);
    second.feeding = 1;
    CHECK(feed::calibrate(std::vector{first, second}).misfits.empty());
}

TEST_CASE("a diary that fits nothing keeps most of its looks and ends") {
    Normal normal(3);
    std::vector<LeftoverEvidence> diary;
    for (int i = 0; i < 2000; ++i) {
        LeftoverEvidence look = look_at(1.0 + 20.0 * normal.uniform(), 0.6, 0.3, 0.01);
        look.share_left = normal.uniform();
        look.feeding = static_cast<std::size_t>(i);
        diary.push_back(look);
    }
    const feed::Calibration found = feed::calibrate(diary);
    CHECK(found.misfits.size() == feed::most_outliers);
    CHECK(found.used == diary.size() - feed::most_outliers);
}
