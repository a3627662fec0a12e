#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feed/bed/bed.hpp"
#include "feed/blend/portion.hpp"
#include "feed/diary/date.hpp"
#include "feed/diary/plot_look.hpp"
#include "feed/quantity/basis.hpp"

namespace feed {

/// Where the worms are when the lid comes off.
enum class WormPlace : std::uint8_t {
    gathered,  ///< in and under the food: it is being eaten
    spread,    ///< all through the bed: the food is finished
    at_lid,    ///< massed at the lid or the rim
    leaving,   ///< outside, or climbing out
};
inline constexpr std::array<std::string_view, 4> worm_place_words{"gathered", "spread",
                                                                  "at the lid", "leaving"};

/// What the nose says.
enum class Smell : std::uint8_t { earthy, none, sour, rotten, ammonia, vinegar, swampy };
inline constexpr std::array<std::string_view, 7> smell_words{
    "earthy", "none", "sour", "rotten", "ammonia", "vinegar", "swampy"};

/// How the worms move.
enum class WormVigour : std::uint8_t { active, sluggish, dying };
inline constexpr std::array<std::string_view, 3> worm_vigour_words{"active", "sluggish", "dying"};

constexpr std::string_view text(WormPlace place) noexcept {
    return worm_place_words[static_cast<std::size_t>(place)];
}
constexpr std::string_view text(Smell smell) noexcept {
    return smell_words[static_cast<std::size_t>(smell)];
}
constexpr std::string_view text(WormVigour vigour) noexcept {
    return worm_vigour_words[static_cast<std::size_t>(vigour)];
}

/// Whether a feeding was found to be gone. Said is said: "no" is a look too.
enum class FoodGone : std::uint8_t { unsaid, no, yes };

/// A temperature taken at a place in the bin ("back", "middle", "front", or "").
struct PlacedTemperature {
    std::string place;
    Temperature temperature = celsius(0);
};

/// One look at the bin: whatever was seen, weighed or done that day. Everything but the date may be
/// missing. A value type; empty texts cost no allocation.
struct Observation {
    Date date;
    std::string by;  ///< who looked

    // The leftovers of one feeding.
    std::optional<Date> of_feeding;    ///< nothing: the last feeding before this day
    std::optional<WetMass> left;       ///< weighed
    std::optional<double> share_gone;  ///< by eye, 0 to 1
    FoodGone gone = FoodGone::unsaid;  ///< the feeding was found to be gone

    std::vector<PlotLook> plots;  ///< looks at numbered portions of a trial

    // The bed.
    std::optional<WormPlace> worms;
    std::optional<WormVigour> vigour;
    std::optional<WetMass> worm_weight;  ///< all worms, weighed
    std::optional<Squeeze> squeeze;
    std::optional<Moisture> moisture;  ///< measured by drying
    std::optional<bool> pooling;       ///< water stands in the tray or bed
    std::optional<Smell> smell;
    std::optional<double> ph;  ///< of a strip
    std::vector<PlacedTemperature> temperatures;
    std::optional<Temperature> air_low;   ///< of the last 24 hours
    std::optional<Temperature> air_high;  ///< of the last 24 hours

    // What a school or community site writes down.
    std::optional<WetMass> weight_in;      ///< put in that day
    std::optional<WetMass> running_total;  ///< put in so far, as the site counts it
    std::string bedding;                   ///< what was added, in the site's own measure
    /// What these words name, read with the keeper's own feedstocks, vessels and words; nothing: as
    /// the table reads them.
    std::optional<std::vector<Portion>> bedding_read;
    std::string pests;
    std::string action;  ///< what was done
    std::string note;
};

}  // namespace feed
