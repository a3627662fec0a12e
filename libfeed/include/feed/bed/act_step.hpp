#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

#include "feed/bed/hazard_row.hpp"
#include "feed/bed/rounded_amount.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/quantity/pinch.hpp"
#include "feed/solver/lexicographic.hpp"

// One day's step for a bed that is not well: bedding, water or lime, without food.
namespace feed {

/// Lime or shell that may be stirred in: ground and not caustic.
constexpr bool is_ground_lime(const Feedstock& f) noexcept {
    return part_of(f) == Part::amendment && f.has(Caution::lime_dust) && !f.has(Caution::caustic);
}

/// What a step may add.
struct StepMaterials {
    std::shared_ptr<const Feedstock> bedding;
    std::shared_ptr<const Feedstock> water;
    std::shared_ptr<const Feedstock> lime;
    double most_bedding_kg = solver::infinity;  ///< what there is of it, as far as it may go in
    double most_lime_kg = solver::infinity;
    double most_water_kg = solver::infinity;
};

/// The materials of a step: a bedding at hand or shredded cardboard, tap water, ground eggshell.
/// @param bedding_at_hand  null where none is.
inline StepMaterials step_materials(std::shared_ptr<const Feedstock> bedding_at_hand) {
    constexpr std::size_t cardboard = *find_id("cardboard-corrugated");
    constexpr std::size_t eggshell = *find_id("eggshell-powder");
    constexpr std::size_t tap_water = *find_id("water-tap");
    StepMaterials with;
    with.bedding = bedding_at_hand ? std::move(bedding_at_hand)
                                   : std::make_shared<const Feedstock>(feedstock_at(cardboard));
    with.lime = std::make_shared<const Feedstock>(feedstock_at(eggshell));
    with.water = std::make_shared<const Feedstock>(feedstock_at(tap_water));
    return with;
}

/// What goes in today, and what is then left of each hazard.
struct ActStep {
    double bedding_kg = 0.0;
    double water_kg = 0.0;
    double lime_kg = 0.0;
    HazardNumbers after;

    bool any() const noexcept { return bedding_kg > 0.0 || water_kg > 0.0 || lime_kg > 0.0; }
};

/// Lime is no remedy where it would set ammonia free, or where the bed is not sour by its strip.
inline bool may_lime(const FeedingPlace& place, const Load& load) noexcept {
    if (place.bed->ph.value_or(0.0) >= 7.0) return false;
    const double total = hazard_number(Hazard::ammonia, place, load).value.value;
    const double limed_ph = std::max(limits::ph_after_lime.value, place.bed->ph.value_or(0.0));
    const double free =
        total * decay::free_ammonia_share(limed_ph, celsius(place.bed->temperature_high_c));
    return free <= limits::free_ammonia_nitrogen.watch;
}

namespace detail {

/// Whether feeding and steps move the hazard of a row at all.
constexpr bool is_moved_by_steps(Hazard hazard) noexcept {
    return hazard != Hazard::overfed && hazard != Hazard::underfed && hazard != Hazard::cold &&
           hazard != Hazard::greasy;
}

/// What a kg of a load adds to the excess of a row; water and lime take nothing away by their mass.
inline double coefficient(const HazardRow& row, const FeedingPlace& place, const Load& per_kg,
                          double limit, double margin, bool only_mass) noexcept {
    const double step = excess_of_row(row, place, per_kg, limit, margin) -
                        excess_of_row(row, place, Load{}, limit, margin);
    return row.by_mass && only_mass ? std::max(step, 0.0) : step;
}

inline double loose_kg_per_m3(const Feedstock& bedding) noexcept {
    return taken(bedding, Property::bulk_density_loose)->range.value;
}

}  // namespace detail

namespace detail {

/// What one day's step may hold of the bedding.
inline double most_step_bedding_kg(const BedNumbers& bed, const StepMaterials& with) noexcept {
    return std::min(with.most_bedding_kg, limits::step_bedding_share.value * bed.contents_m3 *
                                              loose_kg_per_m3(*with.bedding));
}

inline constexpr std::size_t step_materials_count = 3;  // bedding, water, lime
using StepLoads = std::array<Load, step_materials_count>;
using StepAmounts = std::array<double, step_materials_count>;

/// The amounts that take most away of what is raised, before rounding; all 0 where none do.
/// @param margin  by how much of itself each limit of what is not raised is drawn in.
inline StepAmounts solve_step(const FeedingPlace& place, const StepLoads& per_kg,
                              const StepAmounts& most, const std::array<bool, hazard_count>& raised,
                              double margin) {
    constexpr std::size_t materials = step_materials_count;
    constexpr std::size_t n = materials + hazard_row_count;
    constexpr std::size_t m = hazard_row_count;
    std::array<double, n * m> rows{};
    std::array<double, m> row_lower{};
    std::array<double, m> row_upper{};
    row_lower.fill(-solver::infinity);
    row_upper.fill(solver::infinity);
    std::array<double, 2 * n> objectives{};
    for (std::size_t i = 0; i < m; ++i) {
        const HazardRow& row = hazard_rows[i];
        if (!is_moved_by_steps(row.hazard)) continue;
        const HazardLimits limit = row.limits(place);
        const double unmoved = excess_of_row(row, place, Load{}, limit.watch, 0.0);
        const bool lowered = raised[static_cast<std::size_t>(row.hazard)] && unmoved > 0.0;
        const double drawn = lowered ? 0.0 : margin;
        for (std::size_t j = 0; j < materials; ++j)
            rows[i * n + j] = coefficient(row, place, per_kg[j], limit.watch, drawn, j > 0);
        const double now = excess_of_row(row, place, Load{}, limit.watch, drawn);
        row_upper[i] = std::max(0.0, -now);
        if (!lowered) continue;
        const double scale =
            std::abs(limit.act - limit.watch) * std::max(1e-9, row.lower_sum(place, Load{}));
        rows[i * n + materials + i] = -scale;
        row_upper[i] = -now;
        objectives[materials + i] = 1.0;
    }
    std::array<double, n> upper{};
    upper.fill(solver::infinity);
    std::copy(most.begin(), most.end(), upper.begin());
    const std::array<double, n> lower{};
    for (std::size_t j = 0; j < materials; ++j)
        objectives[n + j] = 1.0;
    solver::Workspace workspace(n, m);
    const auto result =
        solver::lexicographic({lower, upper, rows, row_lower, row_upper}, objectives, workspace);
    StepAmounts amounts{};
    if (result.status == solver::Status::solved)
        std::copy_n(result.x.begin(), materials, amounts.begin());
    return amounts;
}

/// Whether what is judged raises nothing that was not raised.
inline bool raises_nothing(const HazardNumbers& before, const HazardNumbers& after) {
    for (std::size_t h = 0; h < hazard_count; ++h) {
        if (static_cast<Hazard>(h) == Hazard::underfed) continue;
        if (is_raised(after.of[h].level) && after.of[h].level > before.of[h].level) return false;
    }
    return true;
}

}  // namespace detail

/// The step that takes most away of what is raised, at the size one day allows, then the least
/// added; it raises nothing that was not raised, judged as rounded. All zero where no step helps.
/// @param place   the bed without food.
/// @param raised  for each hazard, whether the step is to lower it.
/// Time: a few linear problems of at most 15 variables, mostly one.
inline ActStep act_step(const FeedingPlace& place, const StepMaterials& with,
                        const std::array<bool, hazard_count>& raised, UnitSystem units) {
    const BedNumbers& bed = *place.bed;
    const DecayedShares decayed = decayed_shares(bed.horizon_days, bed.decay_speed);
    const detail::StepLoads per_kg{load_of(*with.bedding, 1.0, decayed),
                                   load_of(*with.water, 1.0, decayed),
                                   load_of(*with.lime, 1.0, decayed)};
    const detail::StepAmounts most{
        detail::most_step_bedding_kg(bed, with),
        std::min(with.most_water_kg, limits::step_water_share.value * bed.contents_m3 * 1000.0),
        may_lime(place, Load{})
            ? std::min(with.most_lime_kg, limits::most_lime.value * bed.surface_m2 / 1000.0)
            : 0.0};
    const HazardNumbers before = hazard_numbers(place, Load{});
    const auto rounded = [&](double kg, bool volume) {
        if (kg < 1e-3) return 0.0;
        // Nobody measures less water.
        constexpr double least_water_kg = 0.05;
        return volume ? detail::rounded_volume(std::max(kg, least_water_kg), false, units)
                      : detail::rounded_mass(kg, false, units);
    };
    // The rest of a sour bed is bound by a whole pinch: less of it would leave a trace for good.
    const auto pinched = [&](double kg) {
        if (kg < 1e-7) return 0.0;
        return kg < pinch::most_kg ? std::min(pinch::most_kg, most[2]) : rounded(kg, false);
    };
    // Rounding down one of two may tip the other over a limit: then the limits are drawn in.
    for (const double margin : {0.0, 0.03, 0.06, 0.12}) {
        const auto kg = detail::solve_step(place, per_kg, most, raised, margin);
        ActStep step{rounded(kg[0], false), rounded(kg[1], true), pinched(kg[2]), {}};
        Load load;
        load.add(per_kg[0], step.bedding_kg);
        load.add(per_kg[1], step.water_kg);
        load.add(per_kg[2], step.lime_kg);
        step.after = hazard_numbers(place, load);
        if (detail::raises_nothing(before, step.after)) return step;
    }
    return {0.0, 0.0, 0.0, before};
}

/// Loose bedding alone: as much as one day's step may hold, or half or a quarter of it where more
/// would raise something. All zero where even that does.
/// @param place  the bed without food.
inline ActStep loose_bedding_step(const FeedingPlace& place, const StepMaterials& with,
                                  UnitSystem units) {
    const Load per_kg = load_of(*with.bedding, 1.0,
                                decayed_shares(place.bed->horizon_days, place.bed->decay_speed));
    const HazardNumbers before = hazard_numbers(place, Load{});
    for (const double share : {1.0, 0.5, 0.25}) {
        const double kg = detail::rounded_mass(
            share * detail::most_step_bedding_kg(*place.bed, with), false, units);
        Load load;
        load.add(per_kg, kg);
        ActStep step{kg, 0.0, 0.0, hazard_numbers(place, load)};
        if (detail::raises_nothing(before, step.after)) return step;
    }
    return {0.0, 0.0, 0.0, before};
}

}  // namespace feed
