#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <span>

#include "feed/bed/hazard_numbers.hpp"
#include "feed/bed/linear_hazard.hpp"
#include "feed/bed/remedy_amount.hpp"
#include "feed/quantity/unit_system.hpp"

// Remedies as numbers: how much of a step takes a hazard away. The smallest amount is found by the
// line that the hazard follows, or by bisection on the same judgement that raised it, rounded the
// safe way to what a kitchen scale shows, and judged again with the rounded amount. Words are added
// in remedy_words.hpp.
namespace feed {

/// What a remedy may add.
struct RemedyMaterials {
    std::shared_ptr<const Feedstock> bedding;
    std::string_view bedding_words;
    std::shared_ptr<const Feedstock> lime;
    std::string_view lime_words;
    std::string_view water_id;
    std::string_view scraps_id;
    Load bedding_per_kg;
    Load lime_per_kg;
    Load water_per_kg;
    Load scraps_per_kg;  ///< what is fed more of where nothing is planned
};

/// A step and what is left of the hazard after it.
struct RemedyNumber {
    RemedyKind kind = RemedyKind::cannot;
    double amount = 0.0;      ///< kg added, share fed now, m2 of spread, or kg left in
    std::size_t portion = 0;  ///< which one is cut down, for leave_out
    Load load;                ///< the feeding with the step taken
    double spread_m2 = 0.0;
    double later_days = 0.0;       ///< when the rest, or as much again, may follow; 0: no day found
    bool without_feeding = false;  ///< the addition helps only when nothing is fed now
    bool repeat = false;           ///< the rest is too much at once: as much again each time
    bool gone = false;
    std::array<bool, hazard_count> raises{};
};

namespace detail {

/// The bed some days after a feeding: food acids, labile matter and unreleased water have faded,
/// their water is in the bed, salt has stayed.
inline BedNumbers bed_after(BedNumbers bed, const Load& fed, double elapsed_days) noexcept {
    const double left = std::exp(-pool_rates[0].rate_per_day.value * elapsed_days);
    const Ranged waiting = bed.free_water_kg + fed.free_water_kg;
    bed.water_kg += (1.0 - left) * waiting.value + fed.bedding_water_kg.value -
                    bed.evaporation_kg.value * (elapsed_days / bed.horizon_days);
    bed.water_kg = std::max(bed.water_kg, 0.0);
    bed.free_water_kg = left * waiting;
    bed.acid_g = left * (bed.acid_g + fed.acid_g);
    bed.labile_kg = left * (bed.labile_kg + fed.labile_kg);
    bed.capacity_kg += fed.capacity_kg;
    bed.lime_g += fed.lime_g.value;
    bed.salt_kg += fed.salt_kg;
    // About half the dry matter of food and bedding is still there weeks later, as castings.
    bed.dry_kg += 0.5 * fed.dry_kg.value;
    bed.wet_kg = bed.dry_kg + bed.water_kg + bed.free_water_kg.value;
    // A bed sinks about as fast as it is filled, so its volume is kept: the careful reading.
    // The earlier feedings leave the window at least this fast.
    const bool one_interval = bed.rate_window_days <= bed.horizon_days;
    const double staying = one_interval ? std::max(0.0, 1.0 - elapsed_days / bed.horizon_days)
                                        : (elapsed_days < bed.rate_window_days ? 1.0 : 0.0);
    bed.recent_scraps_kg =
        staying * bed.recent_scraps_kg +
        fed.scraps_wet_kg * share_in_window(elapsed_days, bed.horizon_days, bed.rate_window_days);
    return bed;
}

inline constexpr std::array<double, 10> later_days_tried{1, 2, 3, 4, 5, 7, 10, 14, 21, 28};

/// The first day on which `rest` is safe after `now` was fed, and no more overfeeding than the
/// whole at once would be; 0 when none within four weeks is.
inline double first_safe_day(Hazard hazard, const BedNumbers& bed, const HazardNumbers& before,
                             const Load& now, const Load& rest, double spread_m2,
                             double soonest_day) noexcept {
    for (const double day : later_days_tried) {
        if (day < soonest_day) continue;
        const BedNumbers then = bed_after(bed, now, day);
        const Level overfed = hazard_number(Hazard::overfed, then, rest, spread_m2).level;
        if (overfed > before[Hazard::overfed].level) continue;
        if (hazard == Hazard::overfed
                ? overfed == Level::none
                : hazard_number(hazard, then, rest, spread_m2).level == Level::none)
            return day;
    }
    return 0.0;
}

inline void recheck(RemedyNumber& remedy, Hazard hazard, const BedNumbers& bed,
                    const HazardNumbers& before) noexcept {
    for (std::size_t h = 0; h < hazard_count; ++h) {
        // Feeding less always feeds less; hunger is slow and not held against a step.
        if (static_cast<Hazard>(h) == Hazard::underfed && hazard != Hazard::underfed) continue;
        const HazardNumber after =
            hazard_number(static_cast<Hazard>(h), bed, remedy.load, remedy.spread_m2);
        if (static_cast<Hazard>(h) == hazard)
            remedy.gone = after.level == Level::none;
        else
            remedy.raises[h] = after.level != Level::unknown &&
                               before.of[h].level != Level::unknown &&
                               after.level > before.of[h].level;
    }
}

}  // namespace detail

/// Everything a remedy is worked out from.
struct RemedyProblem {
    const BedNumbers* bed;
    const HazardNumbers* before;
    std::span<const Portion> portions;
    Load load;
    double spread_m2;
    double free_room_m3;
    const RemedyMaterials* materials;
    DecayedShares decayed;
    UnitSystem units = UnitSystem::metric;
};

/// Lime is no remedy where it would set ammonia free, or where the bed is not sour by its strip.
inline bool may_lime(const RemedyProblem& p) noexcept {
    const bool freed = p.before->limed_ammonia_g_per_kg > limits::free_ammonia_nitrogen.watch ||
                       p.bed->ph.value_or(0.0) >= 7.0;
    return !freed && p.materials->lime;
}

/// The portion that brings most fat or, for any other hazard, most salt; nothing where none does.
inline std::optional<std::size_t> touchiest_portion(Hazard hazard,
                                                    const RemedyProblem& p) noexcept {
    std::optional<std::size_t> found;
    double most = 0.0;
    for (std::size_t i = 0; i < p.portions.size(); ++i) {
        const Load l =
            load_of(*p.portions[i].feedstock, p.portions[i].wet_mass.in_kilograms(), p.decayed);
        const double w = hazard == Hazard::greasy ? l.fat_kg.value : l.salt_kg.value;
        if (w <= most) continue;
        most = w;
        found = i;
    }
    return found;
}

/// One step against one hazard, or nothing when that step cannot take it away. About fifteen
/// judgements; no allocation.
inline std::optional<RemedyNumber> try_remedy(RemedyKind kind, Hazard hazard,
                                              const RemedyProblem& p) noexcept {
    RemedyNumber r;
    r.kind = kind;
    r.spread_m2 = p.spread_m2;
    r.load = p.load;
    const auto safe = [&](const Load& load, double spread) {
        return hazard_number(hazard, *p.bed, load, spread).level == Level::none;
    };
    const auto plus = [&](const Load& addition, double kg) {
        Load sum = p.load;
        return sum.add(addition, kg);
    };
    const detail::LinearHazard line{*p.bed, p.spread_m2, 0.0, 0.0};
    const auto round_mass = [&](double kg, bool up) {
        return detail::rounded_mass(kg, up, p.units);
    };
    const auto add = [&](const Load& addition, double most_kg, const auto& round) -> bool {
        const auto kg = detail::least_amount(
            most_kg, [&](double t) { return safe(plus(addition, t), p.spread_m2); }, round,
            line.amount_to_absent(hazard, p.load, addition));
        if (!kg) return false;
        r.amount = *kg;
        r.load = plus(addition, *kg);
        return true;
    };
    switch (kind) {
        case RemedyKind::add_bedding: {
            const double room = p.free_room_m3 - p.load.settled_m3;
            const double volume = p.materials->bedding_per_kg.settled_m3;
            if (!p.materials->bedding || volume <= 0.0) return std::nullopt;
            if (add(p.materials->bedding_per_kg, room / volume, round_mass)) break;
            if (safe(Load{}, p.spread_m2)) return std::nullopt;
            r.without_feeding = true;
            const auto kg = detail::least_amount(
                p.free_room_m3 / volume,
                [&](double t) {
                    Load alone;
                    return safe(alone.add(p.materials->bedding_per_kg, t), p.spread_m2);
                },
                round_mass, line.amount_to_absent(hazard, Load{}, p.materials->bedding_per_kg));
            if (!kg) return std::nullopt;
            r.amount = *kg;
            r.load = Load{};
            r.load.add(p.materials->bedding_per_kg, *kg);
            break;
        }
        case RemedyKind::open_lid: {
            const double a_day = p.bed->surface_m2 * limits::evaporation_open_top.value;
            const double now_a_day = p.bed->evaporation_kg.value / p.bed->horizon_days;
            if (a_day <= 1.2 * now_a_day) return std::nullopt;
            const auto opened = [&](double days_open) {
                BedNumbers bed = *p.bed;
                const double share = days_open / bed.horizon_days;
                bed.evaporation_kg =
                    (1.0 - share) * bed.evaporation_kg +
                    (days_open * bed.surface_m2) * Ranged(limits::evaporation_open_top);
                return bed;
            };
            const auto days_open = detail::least_amount(
                p.bed->horizon_days,
                [&](double d) {
                    return hazard_number(hazard, opened(d), p.load, p.spread_m2).level ==
                           Level::none;
                },
                [](double d, bool up) { return up ? std::ceil(d) : std::floor(d); });
            if (!days_open) return std::nullopt;
            r.amount = std::min(std::ceil(*days_open), p.bed->horizon_days);
            detail::recheck(r, hazard, opened(r.amount), *p.before);
            if (!r.gone) return std::nullopt;
            return r;
        }
        case RemedyKind::add_water:
            if (!add(p.materials->water_per_kg, p.bed->dry_kg * 8.0,
                     [&](double kg, bool up) { return detail::rounded_volume(kg, up, p.units); }))
                return std::nullopt;
            break;
        case RemedyKind::add_lime: {
            if (!may_lime(p)) return std::nullopt;
            const double most = limits::most_lime.value * p.bed->surface_m2 / 1000.0;
            if (!add(p.materials->lime_per_kg, most, round_mass)) return std::nullopt;
            break;
        }
        case RemedyKind::feed_more: {
            const double need = hazard_number(hazard, *p.bed, p.load, p.spread_m2).watch *
                                p.bed->worms_kg.value * (p.bed->diary_days + p.bed->horizon_days);
            // More of the same with its bedding, or soft mixed scraps where nothing is planned.
            Load more = p.materials->scraps_per_kg;
            if (p.load.scraps_wet_kg > 0.0) {
                more = Load{};
                more.add(p.load, 1.0 / p.load.scraps_wet_kg);
            }
            if (!add(more, 2.0 * need, round_mass)) return std::nullopt;
            break;
        }
        case RemedyKind::spread: {
            const auto area = detail::least_amount(
                p.bed->surface_m2, [&](double t) { return t >= p.spread_m2 && safe(p.load, t); },
                [&](double t, bool up) { return detail::rounded_area(t, up, p.units); });
            if (!area) return std::nullopt;
            r.amount = r.spread_m2 = *area;
            break;
        }
        case RemedyKind::feed_less: {
            if (p.load.scraps_wet_kg <= 0.0) return std::nullopt;
            const auto part = [&](double scraps_kg) {
                Load now;
                return now.add(p.load, scraps_kg / p.load.scraps_wet_kg);
            };
            const auto kg = detail::most_amount(
                p.load.scraps_wet_kg, [&](double t) { return safe(part(t), p.spread_m2); },
                round_mass,
                hazard == Hazard::hot
                    ? detail::LinearHazard::scraps_to_cool(*p.bed, part(1.0), p.spread_m2)
                    : line.amount_to_absent(hazard, Load{}, part(1.0)));
            if (!kg) return std::nullopt;
            // A tenth of a feeding is not worth laying: then nothing is fed now.
            r.amount = *kg < 0.1 * p.load.scraps_wet_kg ? 0.0 : *kg;
            r.load = part(r.amount);
            const Load rest = part(p.load.scraps_wet_kg - r.amount);
            r.later_days =
                detail::first_safe_day(hazard, *p.bed, *p.before, r.load, rest, p.spread_m2, 0.0);
            if (r.later_days == 0.0 && r.amount > 0.0) {
                r.repeat = true;
                // Over and over: no faster in the mean than what was planned.
                const double soonest = p.bed->horizon_days * r.amount / p.load.scraps_wet_kg;
                r.later_days = detail::first_safe_day(hazard, *p.bed, *p.before, r.load, r.load,
                                                      p.spread_m2, soonest);
            }
            break;
        }
        case RemedyKind::leave_out: {
            const auto touchy = touchiest_portion(hazard, p);
            if (!touchy) return std::nullopt;
            r.portion = *touchy;
            const auto with = [&](double kg) {
                Load sum;
                for (std::size_t i = 0; i < p.portions.size(); ++i) {
                    const double wet = i == r.portion ? kg : p.portions[i].wet_mass.in_kilograms();
                    sum.add(load_of(*p.portions[i].feedstock, wet, p.decayed), 1.0);
                }
                return sum;
            };
            const auto kg = detail::most_amount(
                p.portions[r.portion].wet_mass.in_kilograms(),
                [&](double t) { return safe(with(t), p.spread_m2); }, round_mass,
                line.amount_to_absent(hazard, with(0.0),
                                      load_of(*p.portions[r.portion].feedstock, 1.0, p.decayed)));
            if (!kg) return std::nullopt;
            r.amount = *kg;
            r.load = with(*kg);
            break;
        }
        default:
            return std::nullopt;
    }
    detail::recheck(r, hazard, *p.bed, *p.before);
    if (!r.gone) return std::nullopt;
    return r;
}

/// The steps tried against a hazard, in this order; the first that takes it away and raises no
/// other is the remedy, else the first that takes it away.
inline std::span<const RemedyKind> remedies_tried(Hazard hazard) noexcept {
    static constexpr RemedyKind wet[] = {RemedyKind::add_bedding, RemedyKind::open_lid,
                                         RemedyKind::feed_less};
    static constexpr RemedyKind dry[] = {RemedyKind::add_water};
    static constexpr RemedyKind sour[] = {RemedyKind::feed_less, RemedyKind::add_bedding,
                                          RemedyKind::add_lime};
    static constexpr RemedyKind hot[] = {RemedyKind::spread, RemedyKind::feed_less};
    static constexpr RemedyKind ammonia[] = {RemedyKind::add_bedding, RemedyKind::feed_less};
    static constexpr RemedyKind salty[] = {RemedyKind::leave_out, RemedyKind::feed_less,
                                           RemedyKind::add_bedding};
    static constexpr RemedyKind overfed[] = {RemedyKind::feed_less};
    static constexpr RemedyKind underfed[] = {RemedyKind::feed_more};
    static constexpr RemedyKind airless[] = {RemedyKind::spread, RemedyKind::feed_less,
                                             RemedyKind::add_bedding};
    static constexpr RemedyKind greasy[] = {RemedyKind::leave_out, RemedyKind::add_bedding};
    switch (hazard) {
        case Hazard::wet:
            return wet;
        case Hazard::dry:
            return dry;
        case Hazard::sour:
            return sour;
        case Hazard::hot:
            return hot;
        case Hazard::ammonia:
            return ammonia;
        case Hazard::salty:
            return salty;
        case Hazard::overfed:
            return overfed;
        case Hazard::underfed:
            return underfed;
        case Hazard::airless:
            return airless;
        case Hazard::greasy:
            return greasy;
    }
    return {};
}

}  // namespace feed
