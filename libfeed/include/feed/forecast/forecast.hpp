#pragma once
#include <algorithm>
#include <array>
#include <cstddef>
#include <span>
#include <variant>
#include <vector>

#include "feed/bed/bed.hpp"
#include "feed/bed/completed.hpp"
#include "feed/forecast/bed_step.hpp"
#include "feed/forecast/forecast_result.hpp"
#include "feed/forecast/harvest.hpp"
#include "feed/forecast/intake.hpp"
#include "feed/forecast/ranges.hpp"
#include "feed/forecast/soft_food.hpp"
#include "feed/forecast/start.hpp"
#include "feed/quantity/sorted.hpp"

namespace feed {

namespace detail {

inline constexpr std::array<decay::RunEnds, 5> forecast_runs{
    {{0, 0}, {-1, -1}, {-1, 1}, {1, -1}, {1, 1}}};

inline void widen(ForecastSeries& series, std::size_t day, double number, bool typical) {
    if (typical) {
        series.value[day] = series.low[day] = series.high[day] = number;
    } else {
        series.low[day] = std::min(series.low[day], number);
        series.high[day] = std::max(series.high[day], number);
    }
}

inline void size(ForecastSeries& series, std::size_t count) {
    series.value.resize(count);
    series.low.resize(count);
    series.high.resize(count);
}

inline void size(Forecast& f, std::size_t count) {
    for (ForecastSeries* series :
         {&f.moisture, &f.free_water_kg, &f.food_left_wet_kg, &f.soft_food_left_wet_kg,
          &f.acid_g_citric, &f.acid_g_per_air_litre, &f.free_ammonia_g_n_per_wet_kg,
          &f.temperature_c, &f.pocket_temperature_c, &f.temperature_rise_c, &f.volume_l, &f.depth_m,
          &f.cn_ratio, &f.castings_dry_kg, &f.castings_in_bed_dry_kg, &f.castings_share,
          &f.exponent[0], &f.exponent[1], &f.exponent[2]})
        size(*series, count);
    f.bedding_left_dry_kg.resize(count);
    f.acid_class.resize(count);
}

constexpr AcidClass acid_class_of(double acid_g_per_air_l) noexcept {
    if (acid_g_per_air_l > limits::acid_per_air_litre.act) return AcidClass::sour;
    return acid_g_per_air_l > limits::acid_per_air_litre.watch ? AcidClass::turning_sour
                                                               : AcidClass::near_neutral;
}

/// Writes one day of one run.
inline void record(Forecast& f, std::size_t day, const decay::BedState& state,
                   const decay::StepStart& start, const decay::Surroundings& around, double air_c,
                   bool typical) {
    const decay::BedTotals& totals = start.totals;
    const double acid_g_per_air_l = start.acid_g_per_air_l;
    const double wet_kg = totals.wet_kg();
    widen(f.moisture, day, totals.moisture(), typical);
    widen(f.free_water_kg, day, std::max(0.0, state.bed_water_kg - totals.capacity_kg), typical);
    widen(f.food_left_wet_kg, day, totals.scraps_wet_kg, typical);
    widen(f.soft_food_left_wet_kg, day, state.pools[0].scraps_wet_kg, typical);
    widen(f.acid_g_citric, day, 1000.0 * state.acid_kg, typical);
    widen(f.acid_g_per_air_litre, day, acid_g_per_air_l, typical);
    widen(f.free_ammonia_g_n_per_wet_kg, day,
          wet_kg > 0.0 ? 1000.0 * state.ammonium_kg / wet_kg * start.free_ammonia_share : 0.0,
          typical);
    const double bed_c = said_temperature_c(state.warm.stores.bed_c, air_c);
    widen(f.temperature_c, day, bed_c, typical);
    widen(f.pocket_temperature_c, day, said_temperature_c(state.warm.stores.pocket_c, air_c),
          typical);
    widen(f.temperature_rise_c, day, bed_c - air_c, typical);
    widen(f.volume_l, day, totals.volume_l, typical);
    widen(f.depth_m, day, 0.001 * totals.volume_l / around.surface_m2, typical);
    widen(f.cn_ratio, day, totals.nitrogen_kg > 0.0 ? totals.carbon_kg / totals.nitrogen_kg : 0.0,
          typical);
    widen(f.castings_dry_kg, day, state.castings_formed_kg, typical);
    for (std::size_t p = 0; p < decay::pool_count; ++p)
        widen(f.exponent[p], day, state.exponent[p], typical);
    const double dry_kg = totals.dry_kg();
    const decay::SettledStock& settled = state.settled;
    const double castings_kg = settled.castings_organic_kg + settled.castings_ash_kg;
    widen(f.castings_in_bed_dry_kg, day, castings_kg, typical);
    widen(f.castings_share, day, dry_kg > 0.0 ? castings_kg / dry_kg : 0.0, typical);
    if (!typical) return;
    f.bedding_left_dry_kg[day] = totals.bedding_dry_kg;
    f.acid_class[day] = acid_class_of(acid_g_per_air_l);
}

/// Temperature of the bed on a day without what is fed from day 0 on.
inline double air_on(const Bed& said, const CompletedBed& bed, std::size_t day,
                     decay::RunEnds ends) {
    if (const auto* daily = std::get_if<DailyTemperatures>(&said.temperature);
        daily != nullptr && !daily->empty())
        return in_celsius((*daily)[std::min(day, daily->size() - 1)]);
    return decay::pick(ends.pace, in_celsius(bed.temperature_low), in_celsius(bed.temperature),
                       in_celsius(bed.temperature_high));
}

/// Ends of the labile share of a feedstock.
inline std::array<double, 2> labile_range(const Feedstock& feedstock) {
    const Range range = taken(feedstock, Property::labile_share)->range;
    return {range.low, range.high};
}

struct DatedIntake {
    int day = 0;
    decay::Intake intake;
};

/// Feedings from day 0 on and before it, with what they bring.
struct Feedings {
    std::vector<DatedIntake> planned;  ///< by day
    decay::EarlierIntakes earlier;
    decay::IntakeGaps gaps;
};

inline Feedings collect(const Bed& said, std::span<const Feeding> planned, Forecast& f) {
    Feedings found;
    found.planned.reserve(planned.size());
    std::size_t portion_count = 0;
    for (const Feeding& feeding : planned)
        portion_count += feeding.portions.size();
    f.portions.reserve(portion_count);
    const auto add_earlier = [&](const decay::Intake& intake, double day,
                                 const std::optional<SoftLeft>& soft_left) {
        found.earlier.intake.push_back(intake);
        found.earlier.ages_days.push_back(std::max(0.0, -day));
        found.earlier.soft_left.push_back(soft_left);
    };
    found.earlier.share_kept = said.share_kept;
    for (const AddedBedding& one : said.added)
        add_earlier(decay::intake_of({&one.portion, 1}, found.gaps), in_days(one.day), {});
    found.earlier.added = said.added.size();
    const AddedToBed added = added_to(said);
    found.earlier.added_dry_kg = added.all.dry_kg.value;
    found.earlier.added_volume_l = 1000.0 * added.all.settled_m3;
    for (const Feeding& feeding : said.earlier)
        add_earlier(decay::intake_of(feeding.portions, found.gaps), in_days(feeding.day),
                    feeding.soft_left);
    for (std::size_t i = 0; i < planned.size(); ++i) {
        const double on = in_days(planned[i].day);
        const decay::Intake intake = decay::intake_of(planned[i].portions, found.gaps);
        if (on < 0.0) {
            add_earlier(intake, on, planned[i].soft_left);
            continue;
        }
        if (on > static_cast<double>(f.days)) continue;
        const int day = static_cast<int>(on);
        found.planned.push_back({day, intake});
        for (const Portion& portion : planned[i].portions) {
            f.portions.push_back({i, portion.feedstock->id, day, portion.wet_mass.in_kilograms(),
                                  part_of(*portion.feedstock) == Part::scraps,
                                  pool_shares(*portion.feedstock), labile_range(*portion.feedstock),
                                  portion.feedstock->decay_rate_factor});
        }
    }
    sort_by(found.planned, [](const DatedIntake& intake) { return intake.day; });
    return found;
}

inline void note_balance(ForecastBalance& balance, const decay::BedState& state,
                         const decay::BedTotals& totals, bool at_start) {
    (at_start ? balance.water_start_kg : balance.water_end_kg) = totals.water_kg;
    (at_start ? balance.ash_start_kg : balance.ash_end_kg) = totals.ash_kg;
    (at_start ? balance.organic_start_kg : balance.organic_end_kg) = totals.organic_kg;
    (at_start ? balance.nitrogen_start_kg : balance.nitrogen_end_kg) = totals.nitrogen_kg;
    if (at_start) return;
    balance.water_fed_kg = state.water_in_kg;
    balance.water_metabolic_kg = state.metabolic_water_kg;
    balance.water_evaporated_kg = state.evaporated_kg;
    balance.water_drained_kg = state.drained_kg;
    balance.organic_respired_kg = state.respired_kg;
    balance.nitrogen_lost_kg = state.nitrogen_lost_kg;
}

inline void note_fed(ForecastBalance& balance, const decay::Intake& fed) {
    for (const decay::PoolStock& pool : fed.pools) {
        balance.ash_fed_kg += pool.ash_kg;
        balance.organic_fed_kg += pool.organic_kg;
        balance.nitrogen_fed_kg += pool.nitrogen_kg;
    }
    balance.ash_fed_kg += fed.settled.mineral_kg + fed.settled.castings_ash_kg;
    balance.organic_fed_kg += fed.settled.inert_kg + fed.settled.castings_organic_kg;
    balance.nitrogen_fed_kg += fed.settled.nitrogen_kg;
}

/// One run over all days. No allocation.
inline void run(Forecast& f, decay::Start start, const ForecastParameters& with, const Bed& said,
                const CompletedBed& bed, const Feedings& feedings, std::size_t steps_per_day,
                decay::RunEnds ends) {
    const bool typical = ends.pace == 0 && ends.wetness == 0;
    const double holding = with[ForecastParameter::castings_holding_kg_per_kg];
    const double step_days = 1.0 / static_cast<double>(steps_per_day);
    std::size_t next = 0;
    decay::BedState& state = start.state;
    HeatPlace place = decay::heat_place(state.warm, with, start.around);
    decay::AirAround air(air_on(said, bed, 0, ends));
    if (typical)
        note_balance(f.balance, state, totals_of(state, holding, start.around.castings_density),
                     true);
    for (std::size_t day = 0; day <= f.days; ++day) {
        for (;
             next < feedings.planned.size() && feedings.planned[next].day == static_cast<int>(day);
             ++next) {
            take_in(state, feedings.planned[next].intake);
            place = decay::heat_place(state.warm, with, start.around);
            if (typical) note_fed(f.balance, feedings.planned[next].intake);
        }
        const double air_c = air_on(said, bed, day, ends);
        if (air_c != air.celsius) air = decay::AirAround(air_c);
        decay::StepStart now = decay::start_of_step(state, with, start.around);
        record(f, day, state, now, start.around, air_c, typical);
        if (day == f.days) {
            if (typical) note_balance(f.balance, state, now.totals, false);
            break;
        }
        for (std::size_t i = 0; i < steps_per_day; ++i) {
            if (i > 0) now = decay::start_of_step(state, with, start.around);
            decay::step(state, now, place, with, start.around, air, step_days);
        }
    }
}

inline void note_assumptions(Forecast& f, const CompletedBed& bed, const Bed& said,
                             const Feedings& feedings) {
    f.assumed = bed.assumed;
    f.assumed.push_back(
        {"Around the bed the air has 60 % humidity unless said otherwise.", Grade::d});
    if (!said.worms.wet_mass && !said.worms.count)
        f.assumed.push_back(
            {"The worms were not weighed or counted, so they set no upper limit to "
             "what is eaten.",
             Grade::d});
    const decay::IntakeGaps& gaps = feedings.gaps;
    if (gaps.nitrogen_missing_dry_kg > 0.10 * gaps.dry_kg) {
        f.unknown.push_back("cn_ratio");
        f.unknown.push_back("free_ammonia_g_n_per_kg");
    }
    if (gaps.carbon_guessed_dry_kg > 0.0)
        f.assumed.push_back(
            {"Where the carbon of a feedstock is not known it is taken as volatile "
             "solids over 1.8, which is about a fifth high for food.",
             Grade::d});
}

}  // namespace detail

/// The bed day by day, with the envelope of four runs at the ends of the ranges.
/// @param said      the bed on day 0; its earlier feedings are aged to day 0 first.
/// @param feedings  from day 0 on, any order; a day with a fraction counts as the day it falls in;
///                  negative days are earlier feedings; days beyond the forecast are left out.
/// @param options   see ForecastOptions.
/// Time: 5 runs x days x steps, independent of the number of portions. Allocates the arrays of the
/// answer only, none of it within a day. Threads: pure. Equations and sources: docs/forecast.md.
inline Forecast forecast(const Bed& said, std::span<const Feeding> feedings,
                         const ForecastOptions& options = {}) {
    Forecast f;
    f.days = std::clamp<std::size_t>(options.days, 1, 366);
    const std::size_t steps = std::clamp<std::size_t>(options.steps_per_day, 1, 24);
    const double humidity = std::clamp(options.humidity, 0.0, 1.0);
    detail::size(f, f.days + 1);
    const CompletedBed bed = completed(said, options.units);
    detail::Feedings found = detail::collect(said, feedings, f);
    const ParameterRanges ranges = decay::ranges_for(options.ranges, bed, said);
    decay::Intake weighed;
    if (!said.bedding.empty()) weighed = decay::intake_of(said.bedding, found.gaps);
    f.rates_per_day = {ranges.value[ForecastParameter::labile_rate_per_day],
                       ranges.value[ForecastParameter::cellulosic_rate_per_day],
                       ranges.value[ForecastParameter::lignin_like_rate_per_day]};
    for (const decay::RunEnds ends : detail::forecast_runs) {
        const ForecastParameters with = decay::at_ends(ranges, ends);
        const decay::Start start =
            decay::start_of(said, bed, found.earlier, said.bedding.empty() ? nullptr : &weighed,
                            with, humidity, options.response, ends);
        detail::run(f, start, with, said, bed, found, steps, ends);
    }
    detail::note_assumptions(f, bed, said, found);
    f.soft_ahead_wet_kg = detail::soft_food_ahead(f, said, feedings, options.new_food);
    detail::note_harvest(f);
    return f;
}

}  // namespace feed
