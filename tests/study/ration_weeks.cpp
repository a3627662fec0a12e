// Half a year of doing what the printed answers say, in bins that are not like the model: fast,
// slow, with a lag, wet (no drainage, little capacity) and with cold weeks. The true bin is a model
// of its own, written here: soft food that worms and microbes take at no more than a true rate,
// water that the food sets free, a capacity that differs from the assumed one. Prints one line a
// kind of bin; fails where a bin is brought past an act limit by the answer, is underfed, or is
// left without an answer.
//
// ration_weeks [BINS_A_KIND]
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <random>
#include <string_view>
#include <vector>

#include "feed/feedstock/table.hpp"
#include "feed/ration/from_diary.hpp"

namespace {

enum class Kind { fast, slow, lag, wet, cold };
constexpr std::array<std::string_view, 5> names{"fast", "slow", "lag", "wet", "cold weeks"};
constexpr int weeks = 26;

struct SoftFood {
    int day = 0;
    double fed_kg = 0.0;
    double left_kg = 0.0;
};

/// A bin as it really is.
struct TrueBin {
    Kind kind = Kind::fast;
    double worms_kg = 0.45;
    double may_eat = 0.3;  ///< kg a kg of worms and day
    double decay = 0.2;    ///< a day, of what is there
    double lag_days = 0.0;
    double surface_m2 = 0.2;
    double dry_kg = 4.0;
    double capacity = 4.5;  ///< kg a kg dry
    double water_kg = 12.0;
    double evaporation = 0.3;  ///< kg a m2 and day
    std::vector<SoftFood> food;

    double wetness() const { return water_kg / (capacity * dry_kg); }
    double soft_kg() const {
        double sum = 0.0;
        for (const SoftFood& one : food)
            sum += one.left_kg;
        return sum;
    }
    double temperature_c(int day) const {
        return kind == Kind::cold && (day / 28) % 3 == 2 ? 9.0 : 20.0;
    }
    double warmth(int day) const { return temperature_c(day) < 12.0 ? 0.35 : 1.0; }
    double could_eat_kg(int day) const { return std::min(0.5, may_eat) * worms_kg * warmth(day); }

    void pass(int day) {
        double room = may_eat * worms_kg * warmth(day);
        for (SoftFood& one : food) {
            if (day - one.day < lag_days) continue;
            const double gone =
                std::min({one.left_kg, room, one.left_kg * decay * warmth(day) + 0.002});
            one.left_kg -= gone;
            room -= gone;
            water_kg += 0.8 * gone;
            dry_kg += 0.05 * gone;
        }
        water_kg = std::max(0.0, water_kg - evaporation * surface_m2);
        dry_kg *= 0.9985;
        // What stands above the capacity runs off where there is drainage.
        if (kind != Kind::wet) water_kg = std::min(water_kg, 1.0 * capacity * dry_kg);
    }
};

feed::Squeeze squeeze_of(double wetness) {
    if (wetness < 0.35) return feed::Squeeze::crumbly;
    if (wetness < 0.55) return feed::Squeeze::damp;
    if (wetness < 0.78) return feed::Squeeze::drops;
    if (wetness < 0.90) return feed::Squeeze::many_drops;
    return wetness < 1.02 ? feed::Squeeze::streams : feed::Squeeze::pooling;
}

std::shared_ptr<const feed::Feedstock> of_table(std::string_view id) {
    return std::make_shared<const feed::Feedstock>(feed::feedstock_at(*feed::find_id(id)));
}

struct Outcome {
    int past_act = 0;  ///< days on which the bed stood past an act limit
    double fed_kg = 0.0;
    double could_kg = 0.0;
    int longest_gap = 0;
};

TrueBin random_bin(Kind kind, std::mt19937& random) {
    const auto between = [&](double low, double high) {
        return low + (high - low) * static_cast<double>(random()) / 4294967295.0;
    };
    TrueBin bin;
    bin.kind = kind;
    bin.worms_kg = between(0.3, 0.6);
    bin.may_eat = kind == Kind::fast   ? between(0.4, 0.6)
                  : kind == Kind::slow ? between(0.08, 0.14)
                                       : between(0.15, 0.3);
    bin.decay = kind == Kind::fast   ? between(0.3, 0.5)
                : kind == Kind::slow ? between(0.08, 0.15)
                                     : between(0.18, 0.3);
    bin.lag_days = kind == Kind::lag ? between(2.0, 6.0) : between(0.0, 1.0);
    bin.capacity = kind == Kind::wet ? between(3.0, 4.0) : between(3.5, 6.0);
    bin.evaporation = kind == Kind::wet ? between(0.05, 0.15) : between(0.15, 0.5);
    bin.water_kg = between(0.55, 0.72) * bin.capacity * bin.dry_kg;
    return bin;
}

Outcome half_a_year(TrueBin bin) {
    feed::Diary diary;
    diary.bed.container.kind = feed::ContainerKind::tote;
    diary.bed.container.volume = feed::litres(60);
    diary.bed.worms.wet_mass = feed::wet_kilograms(bin.worms_kg);
    diary.bed.age = feed::days(200);
    diary.bed.temperature = feed::celsius(20);
    const std::int64_t first = feed::day_number({2026, 1, 5});
    diary.bed_date = feed::date_of(first);
    const std::vector<feed::ThingAtHand> things{
        {of_table("carrot"), "carrot", feed::wet_kilograms(0.8), {}},
        {of_table("banana-peel"), "banana peel", feed::wet_kilograms(0.6), {}},
        {of_table("lettuce-leaf"), "lettuce", feed::wet_kilograms(0.6), {}},
        {of_table("apple"), "apple", feed::wet_kilograms(0.8), {}},
        {of_table("coffee-grounds"), "coffee", feed::wet_kilograms(0.3), {}},
        {of_table("cardboard-corrugated"), "card", {}, {}}};
    Outcome outcome;
    int look = 0;
    int last_fed = 0;
    for (int day = 0; day < 7 * weeks; ++day) {
        if (day == look) {
            feed::Observation seen;
            seen.date = feed::date_of(first + day);
            seen.squeeze = squeeze_of(bin.wetness());
            seen.temperatures.push_back({"", feed::celsius(bin.temperature_c(day))});
            if (!bin.food.empty() && bin.food.back().day < day) {
                const SoftFood& last = bin.food.back();
                const double gone = 1.0 - last.left_kg / last.fed_kg;
                // By eye, to a tenth.
                seen.share_gone = std::clamp(std::round(10.0 * gone) / 10.0, 0.0, 1.0);
                seen.gone = gone > 0.9 ? feed::FoodGone::yes : feed::FoodGone::unsaid;
            }
            diary.observations.push_back(seen);
            feed::RationInput in = feed::ration_input_of(diary, seen.date);
            in.things = things;
            const feed::Ration answer = feed::ration(in);
            std::vector<feed::Portion> portions;
            for (const feed::PutIn& put : answer.put_in) {
                portions.push_back({put.thing.feedstock, put.wet_mass});
                const double kg = put.wet_mass.in_kilograms();
                if (put.part == feed::Part::bedding) {
                    bin.dry_kg += 0.92 * kg;
                    bin.water_kg += 0.08 * kg;
                } else if (put.part == feed::Part::poured_water) {
                    bin.water_kg += kg;
                }
            }
            const double scraps = answer.scraps.in_kilograms();
            if (scraps > 0.0) {
                bin.food.push_back({day, scraps, scraps});
                if (day >= 7 * weeks / 2) outcome.fed_kg += scraps;
                outcome.longest_gap = std::max(outcome.longest_gap, day - last_fed);
                last_fed = day;
            }
            if (!portions.empty()) diary.feedings.push_back({seen.date, portions, "", ""});
            look = day + std::max(1, answer.next_look);
        }
        const bool cold_now = bin.warmth(day) < 1.0;
        if (cold_now) last_fed = std::max(last_fed, day - 7);
        bin.pass(day);
        if (bin.wetness() > 0.95 || bin.wetness() < 0.30 ||
            bin.soft_kg() > 0.75 * 7.0 * bin.worms_kg)
            ++outcome.past_act;
        if (day >= 7 * weeks / 2) outcome.could_kg += bin.could_eat_kg(day);
    }
    return outcome;
}

}  // namespace

int main(int argc, char** argv) {
    const int bins = argc > 1 ? std::atoi(argv[1]) : 20;
    std::mt19937 random(20261128);
    double all_share = 0.0;
    int all_past = 0;
    int all_gap = 0;
    std::printf("%-12s %14s %18s %12s\n", "kind of bin", "days past act", "fed of could eat",
                "longest gap");
    for (std::size_t k = 0; k < names.size(); ++k) {
        double share = 0.0;
        int past = 0;
        int gap = 0;
        for (int i = 0; i < bins; ++i) {
            const Outcome o = half_a_year(random_bin(static_cast<Kind>(k), random));
            share += std::min(1.0, o.fed_kg / o.could_kg) / bins;
            past += o.past_act;
            gap = std::max(gap, o.longest_gap);
        }
        std::printf("%-12s %14d %18.2f %12d\n", std::string(names[k]).c_str(), past, share, gap);
        all_share += share / static_cast<double>(names.size());
        all_past += past;
        all_gap = std::max(all_gap, gap);
    }
    std::printf("%-12s %14d %18.2f %12d\n", "all", all_past, all_share, all_gap);
    return all_past == 0 && all_share >= 0.7 && all_gap <= 21 ? 0 : 1;
}
