#include "feed/trial/trial_reading.hpp"

#include <memory>
#include <utility>
#include <vector>

#include "catch2.hpp"
#include "feed/diary/plot_look.hpp"

using feed::Trial;
using feed::TrialVerdict;
using feed_test::Approx;

namespace {

std::shared_ptr<const feed::Feedstock> food(std::string id, double moisture,
                                            double density = 400.0) {
    feed::Feedstock f;
    f.id = f.name = std::move(id);
    feed::Datum water;
    water.value = moisture;
    f[feed::Property::moisture_wet] = water;
    feed::Datum loose;
    loose.value = density;
    f[feed::Property::bulk_density_loose] = loose;
    return std::make_shared<const feed::Feedstock>(std::move(f));
}

/// Two invented feeds, a wet and a dry one, side by side in some bins.
Trial trial_of(std::size_t bins, std::size_t portions) {
    Trial trial;
    trial.design = {feed::TrialKind::choice, 2, bins, portions, 1, false};
    const auto wet = food("wet", 0.9);
    const auto dry = food("dry", 0.6, 200.0);
    trial.feeds = {{"wet", wet, wet, std::nullopt}, {"dry", dry, dry, std::nullopt}};
    trial.bins.assign(bins, "bin");
    trial.seed = 11;
    trial.starts = {{2026, 3, 1}};
    trial.last_day = 20;
    return trial;
}

feed::Observation look(int day, const std::vector<std::string>& words) {
    feed::Observation seen;
    seen.date = {2026, 3, 1 + day};
    for (const auto& one : words) {
        const auto looks = feed::read_plot_look(one);
        REQUIRE(looks);
        seen.plots.insert(seen.plots.end(), looks->begin(), looks->end());
    }
    return seen;
}

/// Looks on some days: the first feed is gone on day 6, the second on day 12.
std::vector<feed::Observation> looks_of(const feed::TrialLayout& layout, std::vector<int> days) {
    std::vector<feed::Observation> looks;
    for (const int day : days) {
        std::vector<std::string> words;
        for (const auto& plot : layout.plots) {
            const bool gone = day >= (*plot.feed == 0 ? 6 : 12);
            words.push_back("plot " + std::to_string(plot.number) + (gone ? " gone" : " not gone"));
        }
        looks.push_back(look(day, words));
    }
    return looks;
}

feed::TrialReading read(const Trial& trial, const std::vector<feed::Observation>& looks) {
    const auto layout = feed::draw_layout(trial.design, *trial.seed);
    const auto portions = feed::portions_of(trial, 0.1);
    REQUIRE(layout);
    REQUIRE(portions);
    return feed::read_trial(trial, *layout, *portions, looks);
}

}  // namespace

TEST_CASE("portions of different foods are equal in dry matter or in volume") {
    Trial trial = trial_of(2, 1);
    auto portions = feed::portions_of(trial, 0.1);
    REQUIRE(portions);
    CHECK(portions->rule == feed::PortionRule::dry_matter);
    // 100 g at 90 % water hold 10 g dry, as do 25 g at 60 %.
    CHECK(portions->laid[1].in_kilograms() == Approx(0.025));
    trial.question = feed::TrialQuestion::found;
    portions = feed::portions_of(trial, 0.1);
    REQUIRE(portions);
    CHECK(portions->rule == feed::PortionRule::volume);
    // 100 g at 400 kg/m3 fill 0.25 L, as do 50 g at 200 kg/m3.
    CHECK(portions->laid[1].in_kilograms() == Approx(0.05));
    CHECK(portions->differs.at(0).find("Moisture differs") == 0);
}

TEST_CASE("one food in two preparations is weighed fresh") {
    Trial trial = trial_of(2, 1);
    const auto fresh = food("rind", 0.9);
    const auto dried = food("rind", 0.1);
    trial.feeds = {{"rind", fresh, fresh, std::nullopt},
                   {"rind, dried", dried, fresh, std::nullopt}};
    const auto portions = feed::portions_of(trial, 0.09);
    REQUIRE(portions);
    CHECK(portions->rule == feed::PortionRule::fresh_weight);
    CHECK(portions->fresh[1].in_kilograms() == Approx(0.09));
    CHECK(portions->laid[1].in_kilograms() == Approx(0.01));  // 9 g dry at 90 % dry
}

TEST_CASE("own amounts that are unequal are said and spoil a clear answer") {
    Trial trial = trial_of(6, 1);
    trial.feeds[0].written = feed::wet_kilograms(0.1);
    trial.feeds[1].written = feed::wet_kilograms(0.1);
    const auto portions = feed::portions_of(trial, 0.1);
    REQUIRE(portions);
    CHECK(portions->unequal);  // 10 g dry against 40 g
    const auto layout = feed::draw_layout(trial.design, 11);
    const auto reading = read(trial, looks_of(*layout, {3, 6, 9, 12, 20}));
    CHECK_FALSE(reading.valid);
    CHECK(reading.pairs[0].test.luck.p < 0.05);
    CHECK(reading.pairs[0].surety > 0.99);
    // The larger portion may be why: nothing is told, however far apart.
    CHECK_FALSE(reading.fair);
    CHECK(reading.pairs[0].verdict == TrialVerdict::cannot_tell);
}

TEST_CASE("a feed without density or moisture cannot be made equal and is named") {
    Trial trial = trial_of(2, 1);
    const auto unknown = std::make_shared<const feed::Feedstock>();
    trial.feeds[1] = {"mystery", unknown, unknown, std::nullopt};
    const auto portions = feed::portions_of(trial, 0.1);
    REQUIRE_FALSE(portions);
    CHECK(portions.errors()[0].value == "mystery");
    CHECK(portions.errors()[0].allowed.find("100 g mystery") != std::string::npos);
}

TEST_CASE("wholly apart in six bins to the planned end is clear") {
    const Trial trial = trial_of(6, 1);
    const auto layout = feed::draw_layout(trial.design, 11);
    const auto reading = read(trial, looks_of(*layout, {3, 6, 9, 12, 20}));
    CHECK(reading.ended);
    CHECK(reading.valid);
    CHECK(reading.pairs[0].test.luck.p == Approx(2.0 / 64));
    CHECK(reading.pairs[0].verdict == TrialVerdict::clear);
    CHECK(reading.pairs[0].first_quicker);
    CHECK(reading.telling_day == 6);
    CHECK(reading.counts[0].by_day == 6);
    CHECK(reading.counts[1].by_day == 0);
    CHECK(reading.counts[1].by_end == 6);
    CHECK(reading.plots[0].gone.by_days.has_value());
    CHECK(reading.flaws.empty());
}

TEST_CASE("before the planned end nothing is clear") {
    const Trial trial = trial_of(6, 1);
    const auto layout = feed::draw_layout(trial.design, 11);
    const auto reading = read(trial, looks_of(*layout, {3, 6, 9}));
    CHECK_FALSE(reading.ended);
    CHECK(reading.pairs[0].test.luck.p == Approx(2.0 / 64));
    CHECK(reading.pairs[0].verdict != TrialVerdict::clear);
}

TEST_CASE("looks after the planned end do not count, the first on or after it does") {
    Trial trial = trial_of(6, 1);
    const auto layout = feed::draw_layout(trial.design, 11);
    trial.last_day = 5;
    // Nothing is gone by day 5: what comes later was no part of the plan.
    auto reading = read(trial, looks_of(*layout, {3, 5, 9, 12}));
    CHECK(reading.ended);
    CHECK(reading.last_look == 5);
    CHECK(reading.counts[0].by_end == 0);
    CHECK(reading.pairs[0].verdict == TrialVerdict::cannot_tell);
    CHECK(reading.flaws.back() == "Looks after the planned end do not count.");
    // Nobody looked on day 5: the first look after it closes the trial.
    reading = read(trial, looks_of(*layout, {3, 9, 12}));
    CHECK(reading.last_look == 9);
    CHECK(reading.counts[0].by_end == 6);
    CHECK(reading.counts[1].by_end == 0);
    // Noted in another order it is the same.
    auto looks = looks_of(*layout, {3, 9, 12});
    std::swap(looks[0], looks[2]);
    CHECK(read(trial, looks).last_look == 9);
}

TEST_CASE("three bins cannot be clear however far apart") {
    const Trial trial = trial_of(3, 1);
    const auto layout = feed::draw_layout(trial.design, 11);
    const auto reading = read(trial, looks_of(*layout, {3, 6, 9, 12, 20}));
    CHECK(reading.pairs[0].test.luck.p == Approx(0.25));
    CHECK(reading.pairs[0].verdict != TrialVerdict::clear);
    CHECK(reading.pairs[0].bins_for_2 >= 6);
    CHECK(reading.pairs[0].bins_for_1_5 > reading.pairs[0].bins_for_2);
}

TEST_CASE("lost plots, late looks, a broken blind and more left than before are said") {
    Trial trial = trial_of(4, 1);
    trial.laid_by = "Noor";
    auto looks =
        std::vector{look(10, {"plots 1-7 gone", "plot 8 lost"}), look(12, {"plot 3 half left"})};
    looks[0].by = "Noor";
    const auto reading = read(trial, looks);
    std::string all;
    for (const auto& flaw : reading.flaws)
        all += flaw + "\n";
    CHECK(all.find("Plot 3: on 2026-03-11") != std::string::npos);
    CHECK(all.find("1 portion was lost") != std::string::npos);
    CHECK(all.find("too far apart") != std::string::npos);
    CHECK(all.find("Noor laid") != std::string::npos);
    CHECK_FALSE(reading.valid);
    CHECK(reading.plots[7].lost);
}

TEST_CASE("what changed between rounds spoils a trial of feeds alone") {
    Trial trial = trial_of(6, 1);
    trial.design = {feed::TrialKind::alone, 2, 6, 1, 2, false};
    trial.starts.push_back({2026, 4, 1});
    trial.changed = "half of the worms moved out";
    const auto layout = feed::draw_layout(trial.design, 11);
    const auto reading = read(trial, looks_of(*layout, {3}));
    CHECK_FALSE(reading.valid);
    CHECK_FALSE(reading.fair);
    CHECK(reading.flaws.at(0).find("half of the worms") != std::string::npos);
}

TEST_CASE("who laid the portions and looked makes nothing clear, and a small difference nothing") {
    Trial trial = trial_of(6, 2);
    trial.laid_by = "Noor and Sam";
    const auto layout = feed::draw_layout(trial.design, 11);
    auto looks = looks_of(*layout, {3, 6, 9, 12, 20});
    for (auto& seen : looks)
        seen.by = "Ada";
    CHECK(read(trial, looks).pairs[0].verdict == TrialVerdict::clear);
    looks[2].by = "sam";
    auto reading = read(trial, looks);
    CHECK(reading.fair);
    CHECK_FALSE(reading.blind);
    CHECK_FALSE(reading.valid);
    // Twice as long is more than hope reads into it.
    CHECK(reading.pairs[0].ratio.high < 1.0 / feed::hoped_fold);
    CHECK(reading.pairs[0].verdict == TrialVerdict::probably);
    // Gone on day 14 or 15: told apart in every bin, yet no more than hope may do.
    looks = {look(13, {"plots 1-24 not gone"})};
    for (const int day : {14, 15}) {
        std::vector<std::string> words;
        for (const auto& plot : layout->plots)
            words.push_back("plot " + std::to_string(plot.number) +
                            (day == 15 || *plot.feed == 0 ? " gone" : " not gone"));
        looks.push_back(look(day, words));
    }
    CHECK(read(trial, looks).pairs[0].verdict == TrialVerdict::clear);
    looks[1].by = "Noor";
    reading = read(trial, looks);
    CHECK(reading.pairs[0].surety > 0.99);
    CHECK(reading.pairs[0].verdict == TrialVerdict::cannot_tell);
}

TEST_CASE("names of people are parted and told apart without regard to capitals") {
    using feed::detail::people_in;
    CHECK(people_in("Noor") == std::vector<std::string>{"Noor"});
    CHECK(people_in(" Noor and Ada Lee,sam & Jo ") ==
          std::vector<std::string>{"Noor", "Ada Lee", "sam", "Jo"});
    CHECK(people_in("Andy") == std::vector<std::string>{"Andy"});
    CHECK(people_in("").empty());
    Trial trial = trial_of(2, 1);
    trial.laid_by = "Noor and Jon";
    auto looks = std::vector{look(3, {"plot 1 gone"})};
    CHECK(feed::who_laid_looked(trial, looks).empty());
    looks[0].by = "Ada, jon";
    CHECK(feed::who_laid_looked(trial, looks) == "Jon");
    looks[0].plots.clear();
    CHECK(feed::who_laid_looked(trial, looks).empty());
}

TEST_CASE("surety that counts as probable rises with the number of feeds") {
    CHECK(feed::probable_surety(2) == 0.96);
    CHECK(feed::probable_surety(3) == 0.98);
    CHECK(feed::probable_surety(4) == 0.99);
}

TEST_CASE("a portion cannot weigh more than was laid, but dry paper takes up water") {
    const auto paper = food("paper", 0.07);
    // 50 g at 93 % dry, until four fifths are water: 232 g, and a twentieth of slack.
    CHECK(feed::heaviest_plot_kg(*paper, 0.05) == Approx(1.05 * 0.05 * 0.93 / 0.2));
    CHECK(feed::heaviest_plot_kg(*food("rind", 0.9), 0.06) == Approx(1.05 * 0.06));
    const Trial trial = trial_of(6, 1);
    const auto layout = feed::draw_layout(trial.design, 11);
    auto looks = looks_of(*layout, {3, 6, 9, 12, 20});
    looks[0].plots.push_back(*feed::read_plot_look("plot 1 400 g left")->begin());
    const auto reading = read(trial, looks);
    CHECK_FALSE(reading.valid);
    CHECK(reading.flaws.at(0).find("Plot 1: on 2026-03-04 \"400 g left\"") == 0);
    CHECK_FALSE(reading.fair);
    CHECK(reading.pairs[0].verdict == TrialVerdict::cannot_tell);
}

TEST_CASE("a trial of rounds is over when each was watched to its end") {
    Trial trial = trial_of(6, 1);
    trial.design = {feed::TrialKind::alone, 2, 6, 1, 2, false};
    trial.starts.push_back({2026, 3, 21});
    const auto layout = feed::draw_layout(trial.design, 11);
    // The first round to day 20 (of 20), the second to day 6: days count from its own start.
    auto looks = std::vector{look(20, {"plots 1-6 not gone"}), look(26, {"plots 7-12 not gone"})};
    auto reading = read(trial, looks);
    CHECK(reading.round == 1);
    CHECK(reading.last_look == 6);
    CHECK_FALSE(reading.ended);
    CHECK(reading.valid);
    looks[0] = look(10, {"plots 1-6 not gone"});
    reading = read(trial, looks);
    CHECK_FALSE(reading.valid);
    // Nothing left to see ends a round as well.
    looks[0] = look(10, {"plots 1-6 gone"});
    reading = read(trial, looks);
    CHECK(reading.valid);
}
