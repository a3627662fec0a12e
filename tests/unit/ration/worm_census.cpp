#include "feed/ration/worm_census.hpp"

#include <catch2.hpp>
#include <cmath>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

using namespace feed;
using feed_test::Approx;

namespace {

CensusInput samples_of(std::vector<double> counts, double sample_l = 0.075, double bed_l = 20.0) {
    CensusInput in;
    in.counts = std::move(counts);
    in.sample_l = Ranged(sample_l);
    in.bed_l = bed_l;
    return in;
}

// A keeper's census of 15 May 2020, printed with its counts: 12 samples of 75 ml, 44 worms, 3.67 a
// sample, 49 a litre, 980 in 20 L (public web log "Worm Farm Census").
const std::vector<double> keepers_counts{2, 1, 6, 4, 3, 3, 7, 4, 7, 4, 2, 1};

/// A simulated bed: where its worms lie, and what a sample at a random place holds.
struct SimulatedBed {
    std::string name;
    double clumping;  ///< of the negative binomial; 0: no clumps
    bool in_swarms;   ///< worms lie in swarms of some dozens, most of them in one half
};

class Sampler {
public:
    explicit Sampler(std::uint32_t seed) : random_(seed) {}

    /// A true mean count, and counts of that mean.
    std::vector<double> counts(const SimulatedBed& bed, double mean, int samples) {
        std::vector<double> counts;
        for (int i = 0; i < samples; ++i)
            counts.push_back(bed.in_swarms ? of_swarms(mean) : of_clumps(mean, bed.clumping));
        return counts;
    }

private:
    double of_clumps(double mean, double clumping) {
        if (clumping > 0.0) mean *= std::gamma_distribution<>(1.0 / clumping, clumping)(random_);
        return static_cast<double>(std::poisson_distribution<int>(std::max(mean, 1e-9))(random_));
    }
    /// A sample meets a number of swarms, and each leaves a number of worms in it; the half with
    /// the food has three times as many.
    double of_swarms(double mean) {
        const double here = mean * (std::bernoulli_distribution(0.5)(random_) ? 1.5 : 0.5);
        constexpr double of_each = 2.0;
        const int swarms = std::poisson_distribution<int>(here / of_each)(random_);
        if (swarms == 0) return 0.0;
        return static_cast<double>(std::poisson_distribution<int>(of_each * swarms)(random_));
    }
    std::mt19937 random_;
};

}  // namespace

TEST_CASE("a keeper's census with its printed counts") {
    const WormCensus census = worm_census(samples_of(keepers_counts));
    CHECK(census.samples == 12);
    CHECK(census.counted == 44.0);
    CHECK(census.a_litre.value == Approx(49.0).epsilon(0.05));
    CHECK(census.number.value == Approx(980.0).epsilon(0.05));
    CHECK(census.number.low < 800.0);
    CHECK(census.number.high > 1200.0);
    // At 0.25 to 0.45 g each (trade figures): 245 to 441 g lie well inside.
    CHECK(census.mass_kg.low < 0.245);
    CHECK(census.mass_kg.high > 0.441);
}

TEST_CASE("without clumps and with many samples the interval is that of Poisson counts") {
    // 400 samples of exactly Poisson variance have a standard error of sqrt(mean/400); hand-worked.
    std::vector<double> counts;
    for (int i = 0; i < 100; ++i)
        counts.insert(counts.end(), {2.0, 4.0, 4.0, 6.0});  // mean 4, variance 2
    const WormCensus census = worm_census(samples_of(counts, 1.0, 1e6));
    CHECK(census.a_litre.value == Approx(4.0).epsilon(0.01));
    const double half = std::log(census.a_litre.high / census.a_litre.low) / 2.0;
    CHECK(half >= 1.6449 * std::sqrt(4.0 / 400.0) / 4.0 * 0.98);
    CHECK(half <
          1.6449 * std::sqrt(4.0 / 400.0) / 4.0 * 1.35);  // a little clumping is not ruled out
}

TEST_CASE("more samples narrow, clumps widen, a bigger bed holds more") {
    const auto width = [](const WormCensus& census) {
        return census.number.high / census.number.low;
    };
    std::vector<double> twice = keepers_counts;
    twice.insert(twice.end(), keepers_counts.begin(), keepers_counts.end());
    CHECK(width(worm_census(samples_of(twice))) < width(worm_census(samples_of(keepers_counts))));
    const std::vector<double> clumped{0, 0, 0, 0, 20, 0, 0, 2, 22, 0, 0, 0};
    const WormCensus of_clumps = worm_census(samples_of(clumped));
    CHECK(width(of_clumps) > width(worm_census(samples_of(keepers_counts))));
    CHECK(of_clumps.clumping > 1.0);
    const double small = worm_census(samples_of(keepers_counts, 0.075, 20.0)).number.value;
    CHECK(worm_census(samples_of(keepers_counts, 0.075, 60.0)).number.value == Approx(3.0 * small));
}

TEST_CASE("samples that halve the interval do so") {
    const WormCensus once = worm_census(samples_of({3, 9, 0, 5}));
    REQUIRE(once.samples_to_halve);
    std::vector<double> more;
    while (more.size() + 4 <= *once.samples_to_halve + 3)
        more.insert(more.end(), {3, 9, 0, 5});
    const WormCensus then = worm_census(samples_of(more));
    const auto half = [](const WormCensus& c) { return std::log(c.number.high / c.number.low); };
    CHECK(half(then) < 0.62 * half(once));
    CHECK(half(then) > 0.35 * half(once));
    // With handfuls of an unknown size no number of them will do.
    CensusInput handfuls = samples_of(keepers_counts);
    handfuls.sample_l = {0.12, 0.06, 0.25};
    CHECK_FALSE(worm_census(handfuls).samples_to_halve);
}

TEST_CASE("samples without a worm leave room for some") {
    const WormCensus none = worm_census(samples_of({0, 0, 0, 0, 0, 0}));
    CHECK(none.counted == 0.0);
    CHECK(none.number.low >= 0.0);
    CHECK(none.number.high > 20.0);  // 20 L / 0.45 L looked at = 44 for each that was missed
    CHECK(none.number.high < 1000.0);
}

TEST_CASE("the points of Student's t are those of printed tables") {
    CHECK(detail::student_95(1.0) == 6.314);
    CHECK(detail::student_95(3.0) == 2.353);
    CHECK(detail::student_95(5.0) == 2.015);
    CHECK(detail::student_95(1e12) == normal_95);
    // Rows of the tables that are not among those kept.
    CHECK(detail::student_95(7.0) == Approx(1.895).epsilon(0.002));
    CHECK(detail::student_95(12.0) == Approx(1.782).epsilon(0.002));
    CHECK(detail::student_95(40.0) == Approx(1.684).epsilon(0.002));
}

TEST_CASE("an interval by hand") {
    // Counts 12, 30, 7, 18 of 2 L in 40 L: mean 16.875 with the half worm, variance 98.25; a fifth
    // was looked at: 0.8 x 98.25 / (4 x 16.875^2) = 0.0690; sizes ((ln 1.08)^2 + (ln 1.15)^2) /
    // 1.6449^2 = 0.0094; degrees 3 x (0.0784 / 0.0690)^2 = 3.87; t 2.154; reach 2.154 x 0.2800 =
    // 0.603. 337.5 worms, 185 to 617.
    CensusInput in = samples_of({12, 30, 7, 18}, 2.0, 40.0);
    in.sample_l = {2.0, 2.0 / 1.08, 2.0 * 1.08};
    const WormCensus census = worm_census(in);
    CHECK(census.number.value == Approx(337.5).epsilon(0.001));
    CHECK(census.number.high == Approx(617.0).epsilon(0.01));
    CHECK(census.number.low == Approx(185.0).epsilon(0.01));
}

TEST_CASE("what was counted is there, and who counts all knows all") {
    // Half of the bed was looked at.
    CensusInput in = samples_of({0, 0, 40, 0, 1}, 1.0, 10.0);
    CHECK(worm_census(in).number.low >= 41.0);
    in = samples_of({4, 6, 5, 5}, 1.0, 4.0);
    in.sample_l = Ranged(1.0);
    const WormCensus all = worm_census(in);
    CHECK(all.number.high / all.number.low < 1.4);  // only the size of the bed is left
}

TEST_CASE("90 % intervals hold in simulated beds") {
    const std::vector<SimulatedBed> beds{{"even", 0.0, false},
                                         {"little clumped", 0.1, false},
                                         {"clumped", 0.3, false},
                                         {"much clumped", 1.0, false},
                                         {"in swarms, half a bed", 0.0, true}};
    constexpr int populations = 2000;
    Sampler sampler(20260314);
    std::mt19937 sizes(7);
    int held_all = 0;
    int all = 0;
    for (const SimulatedBed& bed : beds) {
        for (const int samples : {4, 6, 12}) {
            int held = 0;
            for (int i = 0; i < populations; ++i) {
                const double mean = std::exp(
                    std::uniform_real_distribution<>(std::log(2.0), std::log(30.0))(sizes));
                // The keeper's cup and the depth of the bed are a little off, as said of both.
                std::normal_distribution<> off(0.0, 1.0);
                const double cup = std::exp(off(sizes) * std::log(1.08) / normal_95);
                const double depth = std::exp(off(sizes) * std::log(1.15) / normal_95);
                CensusInput in = samples_of(sampler.counts(bed, mean * cup, samples), 1.0, 100.0);
                in.sample_l = {1.0, 1.0 / 1.08, 1.08};
                const WormCensus census = worm_census(in);
                const double truth = 100.0 * depth * mean;
                held += census.number.low <= truth && truth <= census.number.high;
            }
            const double share = 100.0 * held / populations;
            UNSCOPED_INFO(bed.name << ", " << samples << " samples: " << share << " of 100");
            CHECK(share >= 85.0);
            CHECK(share <= 95.0);
            held_all += held;
            all += populations;
        }
    }
    const double share = 100.0 * held_all / all;
    INFO("all: " << share);
    CHECK(share >= 85.0);
    CHECK(share <= 95.0);
}
