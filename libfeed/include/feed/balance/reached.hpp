#pragma once
#include <cstddef>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "feed/balance/balance_answer.hpp"
#include "feed/balance/prepared_balance.hpp"
#include "feed/balance/solve_prepared.hpp"

namespace feed {

/// How closely a window must be kept, relative to the terms compared.
inline constexpr double window_tolerance = 1e-9;

namespace detail {

/// Value of a sum for given wet masses; terms in the order of the entries.
inline double total(const std::vector<double>& per_wet_kg, std::span<const double> wet_kg) {
    double sum = 0.0;
    for (std::size_t i = 0; i < per_wet_kg.size(); ++i)
        sum += per_wet_kg[i] * wet_kg[i];
    return sum;
}

inline double size(double number) noexcept {
    return number < 0.0 ? -number : number;
}

/// above against level x below, judged by the terms themselves and not by the solver's rows.
struct Compared {
    double above = 0.0;
    double below = 1.0;

    bool at_least(double level) const {
        return above - level * below >= -window_tolerance * scale(level);
    }
    bool at_most(double level) const {
        return above - level * below <= window_tolerance * scale(level);
    }
    bool at(double level) const { return at_least(level) && at_most(level); }

private:
    double scale(double level) const { return size(above) + size(level * below); }
};

inline Compared compared(const PreparedBalance& prepared, const Target& target,
                         std::span<const double> wet_kg) {
    const auto ratio = ratio_of(target.property);
    Compared result;
    result.above = total(prepared.sum(ratio.above), wet_kg);
    if (ratio.below) result.below = total(prepared.sum(*ratio.below), wet_kg);
    return result;
}

/// Loose volume of some portions, from the ranges of their densities.
inline Range loose_range(const PreparedBalance& prepared, Sum which, std::span<const double> wet_kg,
                         Grade& grade) {
    Range range;
    const auto& column = prepared.sum(which);
    for (std::size_t i = 0; i < column.size(); ++i) {
        if (!(column[i] * wet_kg[i] > 0.0)) continue;
        const Contribution one = contribution_of(*prepared.problem.entries[i].feedstock);
        range += 1000.0 * wet_kg[i] * one[Addend::loose_m3];
        grade = worst(grade, one.grades[static_cast<std::size_t>(Addend::loose_m3)]);
    }
    return range;
}

inline Estimate<double> bedding_for_scraps(const PreparedBalance& prepared,
                                           std::span<const double> wet_kg) {
    Grade grade = Grade::a;
    const auto bedding = loose_range(prepared, Sum::bedding_l, wet_kg, grade);
    const auto scraps = loose_range(prepared, Sum::scraps_l, wet_kg, grade);
    if (!(scraps.low > 0.0)) return {};
    return known(bedding.value / scraps.value, bedding.low / scraps.high, bedding.high / scraps.low,
                 grade);
}

inline Estimate<double> quantity_of(const PreparedBalance& prepared, const Target& target,
                                    std::span<const double> wet_kg, const BlendProperties& blend) {
    const double wet = blend.wet_mass.in_kilograms();
    const auto per_wet = [wet](Mass mass) { return wet > 0.0 ? in_kilograms(mass) / wet : 0.0; };
    switch (target.property) {
        case TargetProperty::cn_ratio:
            return blend.cn_ratio;
        case TargetProperty::moisture:
            return in_numbers(blend.moisture, [](Moisture m) { return m.value(); });
        case TargetProperty::acid_g_citric_per_wet_kg:
            return in_numbers(blend.acid, [&](Mass m) { return 1000.0 * per_wet(m); });
        case TargetProperty::salt_wet_fraction:
            return in_numbers(blend.salt, per_wet);
        case TargetProperty::fat_wet_fraction:
            return in_numbers(blend.fat, per_wet);
        case TargetProperty::free_air_space:
            return blend.free_air_space;
        case TargetProperty::total_wet_kg:
            return known(wet, wet, wet, Grade::a);
        case TargetProperty::total_volume_l: {
            Grade grade = Grade::a;
            const auto range = loose_range(prepared, Sum::loose_l, wet_kg, grade);
            return known(range.value, range.low, range.high, grade);
        }
        case TargetProperty::bedding_l_per_scraps_l:
            return bedding_for_scraps(prepared, wet_kg);
        case TargetProperty::water_over_least:
        case TargetProperty::water_over_room:
            break;
    }
    return {};
}

/// Does the target decide the answer: by an edge that is reached, or as the worst deviation?
inline bool is_binding(const Target& target, const Compared& sides, std::size_t index,
                       const RatioRows& ratios, std::span<const double> deciding) {
    if (target.low && sides.at(*target.low)) return true;
    if (target.high && sides.at(*target.high)) return true;
    for (std::size_t k = 0; k < deciding.size(); ++k) {
        if (ratios.targets[k] == index && deciding[k] > window_tolerance) return true;
    }
    return false;
}

/// Poured water over the least that will do: 1 where none is needed and none is poured.
inline Estimate<double> water_over_least(const PreparedBalance& prepared,
                                         std::span<const double> wet_kg, double least) {
    const double poured = total(prepared.sum(Sum::poured_kg), wet_kg);
    const double times = least > 0.0 ? poured / least : 1.0;
    return known(times, times, times, Grade::a);
}

/// Poured water over what takes it up; 0 where none is poured.
inline Reached water_over_room(const PreparedBalance& prepared, const Target& target,
                               std::span<const double> wet_kg) {
    const auto sides = compared(prepared, target, wet_kg);
    Reached reached;
    reached.target = target;
    const bool none = !pours(prepared, wet_kg);
    const double share = none || !(sides.below > 0.0) ? 0.0 : sides.above / sides.below;
    reached.quantity = known(share, share, share, Grade::d);
    reached.inside = none || sides.at_most(*target.high);
    reached.wished = reached.inside;
    reached.binding = !none && sides.at(*target.high);
    return reached;
}

}  // namespace detail

/// What every target came to; the limit on water only where it applied.
/// wet_kg: one mass for each entry. ratios, deciding: the deviations the answer was chosen by and
/// their weights, or empty. blend: the properties of the same masses. Entries times targets.
/// Threads: pure.
inline std::vector<Reached> reached_of(const PreparedBalance& prepared,
                                       std::span<const double> wet_kg,
                                       const BalanceNumbers& numbers, const RatioRows& ratios,
                                       std::span<const double> deciding,
                                       const BlendProperties& blend) {
    std::vector<Reached> all;
    for (std::size_t i = 0; i < prepared.problem.targets.size(); ++i) {
        const auto& target = prepared.problem.targets[i];
        if (target.property == TargetProperty::water_over_least) {
            if (!numbers.least_water_kg) continue;
            Reached reached;
            reached.target = target;
            reached.quantity = detail::water_over_least(prepared, wet_kg, *numbers.least_water_kg);
            // The limit was the solver's, whose check it passed.
            reached.inside = true;
            reached.binding = reached.quantity.value >= *target.high * (1.0 - window_tolerance);
            all.push_back(std::move(reached));
            continue;
        }
        if (target.property == TargetProperty::water_over_room) {
            if (prepared.room_row && target.high)
                all.push_back(detail::water_over_room(prepared, target, wet_kg));
            continue;
        }
        const auto sides = detail::compared(prepared, target, wet_kg);
        Reached reached;
        reached.target = target;
        reached.quantity = detail::quantity_of(prepared, target, wet_kg, blend);
        // What does not exist, such as the C:N of water, is inside no window.
        reached.inside = reached.quantity.has_value() &&
                         (!target.low || sides.at_least(*target.low)) &&
                         (!target.high || sides.at_most(*target.high));
        reached.wished = reached.inside && (!target.wish_low || sides.at_least(*target.wish_low)) &&
                         (!target.wish_high || sides.at_most(*target.wish_high));
        reached.binding = detail::is_binding(target, sides, i, ratios, deciding);
        all.push_back(std::move(reached));
    }
    return all;
}

}  // namespace feed
