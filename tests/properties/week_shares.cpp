// What a week of several bins promises, over random bins and caddies: nothing but what rations
// allow, more bins and worms never use less, the same bits twice.
#include <algorithm>
#include <array>
#include <catch2.hpp>
#include <cstring>
#include <week_kitchen.hpp>

#include "feed/ration/week_plan.hpp"
#include "feed/ration/week_trips.hpp"

using namespace feed;
using kitchen::Dice;

namespace {

constexpr int weeks = 20;

double litres_of(const PutIn& put) {
    return put.wet_mass.in_kilograms() * 1000.0 / detail::loose_kg_per_m3(*put.thing.feedstock);
}

/// Scraps are covered with half to twice their volume of bedding, as a ration is.
void check_bedding(const Ration& ration) {
    double scraps_l = 0.0;
    double bedding_l = 0.0;
    for (const PutIn& put : ration.put_in) {
        if (put.part == Part::scraps) scraps_l += litres_of(put);
        if (put.part == Part::bedding) bedding_l += litres_of(put);
    }
    // Rounded as printed: two figures of either.
    CHECK(bedding_l >= 0.5 * scraps_l * 0.9 - 0.05);
    CHECK(bedding_l <= 2.0 * scraps_l * 1.1 + 0.2);
}

/// Within seven days no kind goes in beyond its caps.
void check_caps(const WeekInput& in, const WeekOfBin& bin, std::size_t b) {
    if (bin.openings.empty()) return;
    const int last = bin.openings.back().day;
    const RationInput after = detail::bed_of_week(in, in.bins[b], bin.openings, last);
    const RationInput before = detail::bed_of_week(in, in.bins[b], {}, last);
    const double worms_kg = completed(after.bed, in.units).worms.value.in_kilograms();
    const KindShares with = given_of_kinds(after.bed.earlier, worms_kg);
    const KindShares without = given_of_kinds(before.bed.earlier, worms_kg);
    for (std::size_t kind = 0; kind < with.size(); ++kind)
        CHECK(with[kind] <= std::max(1.0, without[kind]) + 1e-6);
}

double used_of(const WeekPlan& plan, const WeekInput& in, std::size_t thing) {
    double kg = 0.0;
    for (const WeekOfBin& bin : plan.bins) {
        for (const WeekOpening& opening : bin.openings) {
            for (const PutIn& put : opening.ration.put_in) {
                if (put.thing.feedstock->id == in.things[thing].thing.feedstock->id)
                    kg += put.wet_mass.in_kilograms();
            }
        }
    }
    return kg;
}

std::vector<double> bits_of(const WeekPlan& plan) {
    std::vector<double> bits{plan.used.in_kilograms(), plan.shared_kg};
    for (const WeekOfBin& bin : plan.bins) {
        for (const WeekOpening& opening : bin.openings) {
            bits.push_back(opening.day);
            for (const PutIn& put : opening.ration.put_in)
                bits.push_back(put.wet_mass.in_kilograms());
        }
    }
    return bits;
}

}  // namespace

TEST_CASE("a week gives no bin what its ration forbids") {
    Dice dice(20260504);
    const auto table = kitchen::whole_table();
    int fed = 0;
    for (int i = 0; i < weeks; ++i) {
        const WeekInput in = kitchen::random_week(dice, table, 1 + dice.below(4), 12);
        const WeekPlan plan = plan_week(in);
        CHECK(plan.verified);
        for (std::size_t b = 0; b < plan.bins.size(); ++b) {
            const WeekOfBin& bin = plan.bins[b];
            INFO("week " << i << ", " << bin.name << ": " << kitchen::told(bin.today));
            CHECK(bin.openings.size() <= static_cast<std::size_t>(in.most_openings));
            if (bin.today.answer == RationAnswer::act_first) CHECK(bin.openings.empty());
            for (std::size_t o = 0; o < bin.openings.size(); ++o) {
                const WeekOpening& opening = bin.openings[o];
                ++fed;
                if (bin.today.answer == RationAnswer::wait) {
                    REQUIRE(bin.today.next_feeding);
                    CHECK(opening.day >= bin.today.next_feeding->day);
                }
                // The ration of that day with the same things, the openings before it noted.
                RationInput again = detail::bed_of_week(
                    in, in.bins[b], std::span(bin.openings).first(o), opening.day);
                for (const PutIn& put : opening.ration.put_in) {
                    CHECK_FALSE(barred_in(*put.thing.feedstock, Place::worm_bed));
                    if (put.part != Part::poured_water) again.things.push_back(put.thing);
                }
                const Ration same = ration(again);
                CHECK(same.answer >= RationAnswer::feed_less);
                CHECK(opening.ration.scraps.in_kilograms() <=
                      same.scraps.in_kilograms() + 0.02 * static_cast<double>(in.things.size()));
                for (std::size_t h = 0; h < hazard_count; ++h) {
                    if (static_cast<Hazard>(h) == Hazard::underfed) continue;
                    const Level after = opening.ration.after[h];
                    CHECK((!is_raised(after) || after <= opening.ration.before[h]));
                }
                check_bedding(opening.ration);
            }
            check_caps(in, bin, b);
        }
        for (std::size_t t = 0; t < in.things.size(); ++t) {
            double there = 0.0;
            for (const WeekThing& one : in.things) {
                if (one.thing.feedstock->id == in.things[t].thing.feedstock->id)
                    there += one.thing.most ? one.thing.most->in_kilograms() : 1e9;
            }
            CHECK(used_of(plan, in, t) <= there * (1.0 + 1e-9) + 1e-9);
        }
    }
    CHECK(fed > weeks / 2);
}

TEST_CASE("more bins never use less, nor do more worms") {
    Dice dice(512);
    const auto table = kitchen::whole_table();
    for (int i = 0; i < weeks; ++i) {
        WeekInput in = kitchen::random_week(dice, table, 2 + dice.below(3), 10);
        in.most_openings = 1;
        const double all = plan_week(in).shared_kg;
        WeekInput fewer = in;
        fewer.bins.pop_back();
        INFO("week " << i);
        CHECK(all >= plan_week(fewer).shared_kg - 1e-6);
        WeekInput stronger = in;
        for (WeekBin& bin : stronger.bins) {
            auto& worms = bin.diary.bed.worms.wet_mass;
            if (worms) worms = dice.between(1.05, 1.6) * *worms;
        }
        CHECK(plan_week(stronger).shared_kg >= all - 1e-6);
    }
}

TEST_CASE("the same week has the same bits") {
    Dice dice(77);
    const auto table = kitchen::whole_table();
    for (int i = 0; i < 6; ++i) {
        const WeekInput in = kitchen::random_week(dice, table, 4, 14);
        const auto once = bits_of(plan_week(in));
        const auto twice = bits_of(plan_week(in));
        REQUIRE(once.size() == twice.size());
        CHECK(std::memcmp(once.data(), twice.data(), once.size() * sizeof(double)) == 0);
    }
}
