#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "feed/bed/crowding.hpp"
#include "feed/bed/factor.hpp"
#include "feed/bed/ranged.hpp"
#include "feed/bed/species.hpp"
#include "feed/bed/usual_bed.hpp"
#include "feed/diary/course_points.hpp"
#include "feed/quantity/normal.hpp"
#include "feed/quantity/sorted.hpp"
#include "feed/ration/worm_census.hpp"

// How the worms of a bed grow in number and mass: cocoons, young, adults, food and crowding.
namespace feed {

/// How a species multiplies where it is warm, with room and all the food it wants.
struct Multiplying {
    Factor young_a_week;    ///< hatched for each adult
    Factor days_to_hatch;   ///< from the laying of a cocoon
    Factor days_to_adult;   ///< from hatching
    double adult_g = 0.55;  ///< weight of an adult (secondary table of the Edwards 1988 type)
};
inline constexpr std::array<Multiplying, 4> multiplying{{
    {{6.9, 4.6, 10.4, "1/week", Grade::b,
      "2.35 to 3.0 cocoons a week, 2.4 to 2.7 young in each, 82 to 88 % hatch (Sylhet 2025, "
      "abstract); 3.8, 3.3 and 83 % (secondary table)"},
     {28.0, 21.0, 50.0, "day", Grade::b,
      "about 3 weeks at 25 C (Neuhauser et al. 1980, abstract), 23 to 24 days (Sylhet 2025, "
      "abstract), 32 to 73 (secondary table)"},
     {58.0, 42.0, 76.0, "day", Grade::c, "53 to 76 days (secondary table); 5 to 6 weeks (keepers)"},
     0.55},
    {{1.7, 1.0, 2.6, "1/week", Grade::b,
      "0.28 cocoons a day with 1.1 young in each (Viljoen et al., abstract); how many hatch: "
      "judgement"},
     {48.0, 40.0, 70.0, "day", Grade::b,
      "42 days (Viljoen et al., abstract); 40 to 128 (secondary table)"},
     {60.0, 30.0, 110.0, "day", Grade::b,
      "20 to 35 days, some 130 (Viljoen et al., abstract); 57 to 86 (secondary table)"},
     1.0},
    {{4.9, 2.8, 7.0, "1/week", Grade::b,
      "1.1 cocoons a day, 40 to 63 % hatch, one young each (cattle manure, 25 C, abstract); a "
      "secondary table has 29"},
     {19.0, 16.0, 21.0, "day", Grade::b, "18.7 to 20.4 days (the same)"},
     {28.0, 20.0, 56.0, "day", Grade::b, "21 days (the same); 28 to 56 (secondary table)"},
     1.3},
    {{6.7, 4.0, 9.0, "1/week", Grade::c, "6.7 (secondary table)"},
     {19.0, 13.0, 27.0, "day", Grade::c, "13 to 27 days (secondary table)"},
     {55.0, 32.0, 95.0, "day", Grade::c, "32 to 95 days (secondary table)"},
     4.3},
}};

namespace growth {

/// Worms, live, that grow from a mass of wet scraps in an empty and in a full bed. Food became worm
/// to 10 % at first and 4 % at the end, E. andrei on pig manure (Reeh 1992, abstract); scraps and
/// worms are taken to have as much dry matter (judgement).
inline constexpr Factor gain_empty{
    0.10, 0.06, 0.16, "kg/kg", Grade::d, "10 % (Reeh 1992, abstract), of scraps (judgement)"};
inline constexpr Factor gain_full{
    0.04, 0.02, 0.06, "kg/kg", Grade::d, "4 % (Reeh 1992, abstract), of scraps (judgement)"};
inline constexpr Factor deaths_a_day{0.0015, 0.0005,   0.004,
                                     "1/d",  Grade::d, "one to four years of life (judgement)"};
/// Of the ration, what is really given.
inline constexpr Factor given_share{0.85, 0.6, 1.1, "kg/kg", Grade::d, "keepers (judgement)"};
/// Of the mass of worms, adults; the rest are young of all sizes.
inline constexpr Factor adult_share{0.70, 0.5, 0.95, "kg/kg", Grade::d, "judgement"};
/// Of worms picked out by hand, how far what is found may be from what lives there, as a factor up
/// or down that holds 9 times of 10.
inline constexpr double picked_by_hand = 1.3;  // judgement

/// Days that are looked ahead, and after how many the mass is told.
inline constexpr int most_days = 730;
inline constexpr int told_each_days = 30;

}  // namespace growth

/// Worms weighed twice, and how they lived between.
struct WeighedTwice {
    double from_kg = 0.0;
    double to_kg = 0.0;
    int days = 0;
    double scraps_kg_a_day = 0.0;
};

/// What growth is followed from.
struct GrowthInput {
    Species species = Species::eisenia_fetida;
    double celsius_low = usual::room_celsius_low;
    double celsius_high = usual::room_celsius_high;
    double surface_m2 = 0.0;
    Ranged worms_kg;                    ///< today
    bool new_bed = false;               ///< no cocoons in it yet
    double kg_a_kg_day = 0.0;           ///< scraps that a ration gives for each kg of worms
    double most_kg_a_day = 1e9;         ///< and at most, whatever the worms
    double scraps_kg_a_day = 1e9;       ///< that there are
    double wanted_kg = 0.0;             ///< worms that are enough; 0: nobody asks
    std::vector<WeighedTwice> weighed;  ///< of this bed, oldest first
};

/// How the worms grow, with 90 % intervals.
struct WormGrowth {
    std::array<Ranged, growth::most_days / growth::told_each_days + 1>
        mass_kg;  ///< today and after each `growth::told_each_days`
    /// Days until there are enough: typical, soonest and latest; nothing: not within two years.
    std::optional<int> day;
    std::optional<int> earliest;
    std::optional<int> latest;
    std::size_t learned_from = 0;  ///< spans between two weighings
};

/// Share of full breeding at a temperature: all of it from 5 C above the least a species likes,
/// none at the coldest it bears, straight between, and back to none where it dies of heat. For E.
/// fetida 0.69 at 15 C and 0.38 at 10 C; cocoons of a cooler species, A. chlorotica, fell to 0.65
/// and 0.36 of those at 20 C (Butt 1997, abstract).
inline double breeding_share(const SpeciesLimits& limits, double celsius) noexcept {
    const double coldest = in_celsius(limits.coldest);
    const double good = in_celsius(limits.optimum_low) + 5.0;
    const double warm = in_celsius(limits.optimum_high);
    const double deadly = in_celsius(limits.deadly);
    if (celsius < good) return std::clamp((celsius - coldest) / (good - coldest), 0.0, 1.0);
    return std::clamp((deadly - celsius) / (deadly - warm), 0.0, 1.0);
}

namespace detail {

/// One bed that may be: everything that is not known of it, drawn once.
struct PossibleBed {
    double young_a_day = 0.0;  ///< for each adult
    double hatch_rate = 0.0;   ///< 1/day
    double adult_rate = 0.0;
    double gain_empty = 0.0;
    double gain_full = 0.0;
    double full_kg = 0.0;
    double deaths = 0.0;
    double given = 1.0;
    double adult_share = 1.0;
    double adult_kg = 0.0;
    double start = 1.0;  ///< of the worms that are taken to be there
    double weight = 1.0;
};

inline constexpr std::size_t possible_beds = 256;
/// Steps that a cocoon and a young worm go through: the more, the more alike they are in time.
inline constexpr std::size_t growth_stages = 4;

using PossibleBeds = std::array<PossibleBed, possible_beds>;

inline PossibleBeds possible_beds_of(const GrowthInput& in) {
    CourseDice dice(20260314);
    const auto drawn = [&](const Ranged& of) {
        const double z = dice.normal();
        return of.value * std::exp(z * log_spread(of.low, of.high));
    };
    const Multiplying& species = multiplying[static_cast<std::size_t>(in.species)];
    PossibleBeds beds;
    for (PossibleBed& bed : beds) {
        const double celsius = in.celsius_low + dice.uniform() * (in.celsius_high - in.celsius_low);
        const double warm = breeding_share(limits_of(in.species), celsius);
        bed.young_a_day = warm * drawn(Ranged(species.young_a_week)) / 7.0;
        bed.hatch_rate = warm / drawn(Ranged(species.days_to_hatch));
        bed.adult_rate = warm / drawn(Ranged(species.days_to_adult));
        bed.gain_empty = drawn(Ranged(growth::gain_empty));
        bed.gain_full = std::min(drawn(Ranged(growth::gain_full)), bed.gain_empty);
        bed.full_kg = drawn(Ranged(full_bed)) * in.surface_m2;
        bed.deaths = drawn(Ranged(growth::deaths_a_day));
        bed.given = drawn(Ranged(growth::given_share));
        bed.adult_share = std::min(drawn(Ranged(growth::adult_share)), 1.0);
        bed.adult_kg = species.adult_g / 1000.0;
        bed.start = in.worms_kg.value > 0.0 ? drawn(in.worms_kg) / in.worms_kg.value : 1.0;
    }
    return beds;
}

/// The worms of one possible bed, day by day.
class Worms {
public:
    /// @param new_bed  no cocoons lie in it.
    Worms(const PossibleBed& bed, double kg, bool new_bed) : bed_(bed) {
        adults_ = bed.adult_share * kg / bed.adult_kg;
        // The young are of all sizes; the smallest weigh nothing yet.
        double share = 0.0;
        for (std::size_t stage = 0; stage < growth_stages; ++stage)
            share += stage_kg(stage);
        for (double& young : young_)
            young = (1.0 - bed.adult_share) * kg / share;
        if (new_bed || !(bed.hatch_rate > 0.0)) return;
        const double laid = adults_ * bed.young_a_day * open(kg);
        for (double& cocoons : cocoons_)
            cocoons = laid / (growth_stages * bed.hatch_rate);
    }

    [[nodiscard]] double kg() const noexcept {
        double sum = adults_ * bed_.adult_kg;
        for (std::size_t stage = 0; stage < growth_stages; ++stage)
            sum += young_[stage] * stage_kg(stage);
        return sum;
    }

    /// One day with so much of scraps.
    void live(double scraps_kg) noexcept {
        const double all_kg = kg();
        const double room = open(all_kg);
        const double gain = bed_.gain_full + room * (bed_.gain_empty - bed_.gain_full);
        double wanted_kg = 0.0;
        for (const double young : young_)
            wanted_kg += young * bed_.adult_rate * bed_.adult_kg;
        // Above twice the mass at which they lay no more nobody grows.
        const double fed = std::clamp(2.0 - all_kg / bed_.full_kg, 0.0, 1.0) *
                           (wanted_kg > 0.0 ? std::min(1.0, gain * scraps_kg / wanted_kg) : 0.0);
        double moves = adults_ * bed_.young_a_day * room;
        for (double& cocoons : cocoons_) {
            const double next = cocoons * std::min(1.0, growth_stages * bed_.hatch_rate);
            cocoons += moves - next;
            moves = next;
        }
        for (double& young : young_) {
            const double next = young * std::min(1.0, growth_stages * bed_.adult_rate * fed);
            young = (young - next) * (1.0 - bed_.deaths) + moves;
            moves = next;
        }
        adults_ += moves - adults_ * bed_.deaths;
    }

private:
    [[nodiscard]] double stage_kg(std::size_t stage) const noexcept {
        return bed_.adult_kg * static_cast<double>(stage) / growth_stages;
    }
    [[nodiscard]] double open(double all_kg) const noexcept {
        return std::max(0.0, 1.0 - all_kg / bed_.full_kg);
    }

    const PossibleBed& bed_;
    double adults_ = 0.0;
    std::array<double, growth_stages> cocoons_{};
    std::array<double, growth_stages> young_{};
};

/// Weighs the possible beds by how well each tells what was weighed.
inline void learn_from(const std::vector<WeighedTwice>& weighed, PossibleBeds& beds) {
    // Both weighings are off, and no bed is alike all the time (judgement).
    const double off = std::log(growth::picked_by_hand) / normal_95;
    const double variance = 2.0 * off * off + 0.15 * 0.15;
    for (PossibleBed& bed : beds) {
        double sum = 0.0;
        for (const WeighedTwice& span : weighed) {
            Worms worms(bed, span.from_kg, false);
            for (int day = 0; day < span.days; ++day)
                worms.live(span.scraps_kg_a_day);
            const double error = std::log(span.to_kg / worms.kg());
            sum += error * error / variance;
        }
        // A slip on the scale does not throw all beds away.
        bed.weight = std::max(std::exp(-0.5 * sum), 1e-12);
    }
}

/// The numbers below which the shares 0.05, 0.5 and 0.95 of the beds are, by their weights.
inline Ranged quantiles(const std::vector<double>& numbers, const PossibleBeds& beds) {
    const std::vector<std::size_t> order = ascending(numbers);
    double total = 0.0;
    for (const PossibleBed& bed : beds)
        total += bed.weight;
    const auto at = [&](double share) {
        double below = 0.0;
        for (const std::size_t bed : order) {
            below += beds[bed].weight / total;
            if (below >= share) return numbers[bed];
        }
        return numbers[order.back()];
    };
    return {at(0.5), at(0.05), at(0.95)};
}

}  // namespace detail

/// Follows the worms of a bed for two years as each of some hundred possible beds would have them:
/// adults lay the more the fewer there are for the surface, cocoons hatch, the young grow as far as
/// the food goes, and all are fed what a ration of that day gives or what there is. The numbers of
/// each bed are drawn from the published ranges; where the worms of this bed were weighed twice or
/// more, beds that tell those weights count more. Threads: pure. Time: about 10 ms.
inline WormGrowth worm_growth(const GrowthInput& in) {
    WormGrowth growth;
    detail::PossibleBeds beds = detail::possible_beds_of(in);
    if (!in.weighed.empty()) detail::learn_from(in.weighed, beds);
    growth.learned_from = in.weighed.size();
    // Month by month the mass of each bed, then the day on which there are enough.
    const std::size_t months = growth.mass_kg.size();
    std::vector<double> numbers((months + 1) * beds.size());
    for (std::size_t i = 0; i < beds.size(); ++i) {
        const detail::PossibleBed& bed = beds[i];
        detail::Worms worms(bed, bed.start * in.worms_kg.value, in.new_bed);
        int reached = growth::most_days + 1;
        for (int day = 0; day <= growth::most_days; ++day) {
            const double kg = worms.kg();
            if (day % growth::told_each_days == 0)
                numbers[static_cast<std::size_t>(day / growth::told_each_days) * beds.size() + i] =
                    kg;
            if (kg >= in.wanted_kg && reached > day) reached = day;
            const double ration =
                std::min(std::min(in.kg_a_kg_day * kg, in.most_kg_a_day), in.scraps_kg_a_day);
            worms.live(bed.given * ration);
        }
        numbers[months * beds.size() + i] = static_cast<double>(reached);
    }
    const auto told = [&](std::size_t row) {
        const auto from = numbers.begin() + static_cast<std::ptrdiff_t>(row * beds.size());
        return detail::quantiles({from, from + static_cast<std::ptrdiff_t>(beds.size())}, beds);
    };
    for (std::size_t month = 0; month < months; ++month)
        growth.mass_kg[month] = told(month);
    const Ranged enough = told(months);
    const auto within = [](double day) -> std::optional<int> {
        if (day > growth::most_days) return std::nullopt;
        return static_cast<int>(day);
    };
    growth.earliest = within(enough.low);
    growth.day = within(enough.value);
    growth.latest = within(enough.high);
    // Today's ration has a number for the worms, and that decides about today.
    if (in.worms_kg.value >= in.wanted_kg * (1.0 - 1e-9))
        growth.earliest = growth.day = growth.latest = 0;
    return growth;
}

}  // namespace feed
