#pragma once
#include <algorithm>
#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "feed/bed/act_step.hpp"
#include "feed/bed/bed.hpp"
#include "feed/ration/ration.hpp"
#include "feed/solver/problem.hpp"

// How much of a touchy material these worms may have in a week, and what of it went in already.
namespace feed {

/// Cautions whose caps add up over the materials that share them.
inline constexpr std::array<Caution, 6> capped_together{Caution::citrus_oil, Caution::allium,
                                                        Caution::oil,        Caution::salt,
                                                        Caution::heating,    Caution::ammonia};

/// For each of `capped_together` the sum of amount over cap that went in within the week.
using KindShares = std::array<double, capped_together.size()>;

/// What these worms may have of one thing in a week.
struct WeekCap {
    double week_kg = solver::infinity;  ///< infinite without a cap
    double given_kg = 0.0;              ///< of it within the last seven days

    [[nodiscard]] bool holds() const noexcept { return week_kg < solver::infinity; }
    [[nodiscard]] double left_kg() const noexcept {
        return holds() ? std::max(0.0, week_kg - given_kg) : week_kg;
    }
};

namespace detail {

/// Ground lime is bounded by the area of the bed instead.
inline double week_cap_kg(const Feedstock& f, double worms_kg) noexcept {
    if (!f.most_wet_kg_per_kg_worms || is_ground_lime(f)) return solver::infinity;
    return *f.most_wet_kg_per_kg_worms * worms_kg;
}

/// What a cap is of: whatever is like a feedstock shares its cap, however it is called or prepared.
inline const std::string& capped_as(const Feedstock& f) noexcept {
    return f.like_id.empty() ? f.id : f.like_id;
}

/// Calls `use(portion)` for what went in within the last seven days.
template <class Use>
void for_each_of_the_week(std::span<const Feeding> earlier, Use&& use) {
    for (const Feeding& feeding : earlier) {
        if (in_days(feeding.day) < -7.0) continue;
        for (const Portion& portion : feeding.portions)
            use(portion);
    }
}

}  // namespace detail

/// The cap of each thing, with what of it went in. Time: things times portions.
inline std::vector<WeekCap> week_caps(std::span<const ThingAtHand> things,
                                      std::span<const Feeding> earlier, double worms_kg) {
    std::vector<WeekCap> caps;
    for (const ThingAtHand& thing : things) {
        WeekCap cap;
        cap.week_kg = detail::week_cap_kg(*thing.feedstock, worms_kg);
        detail::for_each_of_the_week(earlier, [&](const Portion& portion) {
            if (detail::capped_as(*portion.feedstock) == detail::capped_as(*thing.feedstock))
                cap.given_kg += portion.wet_mass.in_kilograms();
        });
        caps.push_back(cap);
    }
    return caps;
}

/// What went in of each kind whose caps add up. Time: the portions of a week.
inline KindShares given_of_kinds(std::span<const Feeding> earlier, double worms_kg) {
    KindShares given{};
    detail::for_each_of_the_week(earlier, [&](const Portion& portion) {
        const double cap_kg = detail::week_cap_kg(*portion.feedstock, worms_kg);
        if (!(cap_kg < solver::infinity) || !(cap_kg > 0.0)) return;
        for (std::size_t kind = 0; kind < given.size(); ++kind) {
            if (portion.feedstock->has(capped_together[kind]))
                given[kind] += portion.wet_mass.in_kilograms() / cap_kg;
        }
    });
    return given;
}

}  // namespace feed
