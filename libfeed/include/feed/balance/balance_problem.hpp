#pragma once
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "feed/balance/target_sets.hpp"
#include "feed/feedstock/feedstock.hpp"
#include "feed/feedstock/place.hpp"
#include "feed/quantity/basis.hpp"

namespace feed {

/// One feedstock at hand and how much of it may go in.
struct Entry {
    std::shared_ptr<const Feedstock> feedstock;
    std::string label;            ///< the keeper's own words for it
    WetMass least;                ///< 0 where nothing is required
    std::optional<WetMass> most;  ///< nothing: no upper limit
    int use_up_priority = 0;      ///< 0 none; 1 first, 2 second ... ("use up first")
    std::optional<double> cost_per_wet_kg;
    std::optional<WetMass> usual;  ///< amount in the keeper's usual recipe
};

/// What "best" means.
enum class Objective : std::uint8_t {
    closest_to_aims,
    closest_to_usual,
    least_added,
    cheapest,
    use_up_most,
};

/// Everything at hand and everything asked for.
struct BalanceProblem {
    std::vector<Entry> entries;
    std::vector<Target> targets =
        worm_bed_targets();  ///< those of a worm bed until others are put in
    Objective objective = Objective::closest_to_aims;
    Place place = Place::worm_bed;  ///< what is barred there is taken out
    /// Wet mass of the worms it is for, where known: then the caps of touchy feedstocks hold.
    std::optional<double> worms_kg;
};

}  // namespace feed
