#pragma once
#include <cstdint>
#include <optional>
#include <variant>
#include <vector>

#include "feed/bed/species.hpp"
#include "feed/blend/portion.hpp"
#include "feed/quantity/basis.hpp"
#include "feed/quantity/units.hpp"

namespace feed {

/// What the worms live in; each kind has a usual inside size (see bed/completed.hpp).
enum class ContainerKind : std::uint8_t { tray, tote, bucket, bath, flow_through, windrow, box };

/// Inside length, width and depth. For a round container length and width are the sides of the
/// square with the same area.
struct InsideSize {
    Length length = metres(0);
    Length width = metres(0);
    Length depth = metres(0);
};

/// The container and, where the keeper measured it, its inside size.
struct BedContainer {
    ContainerKind kind = ContainerKind::tote;
    std::optional<InsideSize> inside;
    /// Nominal volume ("60 L tote"), used where no size is given.
    std::optional<Volume> volume;
    int stacked = 1;  ///< working trays on top of each other, at least 1
};

enum class Drainage : std::uint8_t { open, tap, none };
enum class Lid : std::uint8_t { none, loose, tight };
enum class Ventilation : std::uint8_t { open_top, holes, closed };

/// The squeeze test: what a handful does in the fist, driest first.
enum class Squeeze : std::uint8_t {
    crumbly,     ///< falls apart, feels dry
    damp,        ///< holds together, gives no water
    drops,       ///< one or two drops
    many_drops,  ///< more than a couple of drops
    streams,     ///< water runs
    pooling,     ///< water stands in the bed
};

/// How the keeper knows the worms.
enum class WormsKnown : std::uint8_t {
    weighed,    ///< clean worms on a scale
    counted,    ///< a number of worms
    as_bought,  ///< the weight or number on the parcel: mixed sizes, some bedding
};

/// The worms. Give `wet_mass` or `count`; with both, the mass is used.
struct Worms {
    WormsKnown known = WormsKnown::weighed;
    std::optional<WetMass> wet_mass;
    std::optional<double> count;
};

struct TemperatureRange {
    Temperature low = celsius(0);
    Temperature high = celsius(0);
};
/// One temperature a day, the first for day 0.
using DailyTemperatures = std::vector<Temperature>;
/// Temperature of the bed (or, where only that is known, of the room): nothing, one value, a range
/// or a daily series.
using BedTemperature =
    std::variant<std::monostate, Temperature, TemperatureRange, DailyTemperatures>;

/// Share of the soft (labile) part of a feeding that is still there, 0 to 1.
struct SoftLeft {
    double value = 1.0;
    double low = 1.0;
    double high = 1.0;
};

/// A blend put into a bed on a day. Day 0 is the day for which the bed is described; earlier
/// feedings have negative days, planned ones days from 0 on.
struct Feeding {
    Duration day = days(0);
    std::vector<Portion> portions;  ///< scraps with their bedding, water and amendments
    /// Of an earlier feeding on day 0, where looks or the bin's own rates tell it (see bed_today);
    /// nothing: reckoned with the usual rates.
    std::optional<SoftLeft> soft_left = std::nullopt;
    /// The same from day 0 on, by day; empty where it is not known.
    std::vector<SoftLeft> soft_ahead = {};
    double kept = 1.0;       ///< of what an earlier one left: less where bed was taken out since
    double salt_kept = 1.0;  ///< of the salt of that: less where the bed was flushed
};

/// Bedding that went in after a bed was described.
struct AddedBedding {
    Duration day = days(0);  ///< 0 or before, as of a feeding
    Portion portion;
    bool seen = false;  ///< the wetness of the bed was looked at since
};

/// A worm bed as the keeper describes it. Whatever is left out is assumed by `completed`, which
/// says each assumption. A value type.
struct Bed {
    BedContainer container;
    std::optional<Length> depth_of_contents;
    std::optional<Drainage> drainage;
    std::optional<Lid> lid;
    std::optional<Ventilation> ventilation;

    std::optional<Species> species;
    Worms worms;
    BedTemperature temperature;

    /// What the bed is made of, as weights, water included; empty when it was not weighed.
    std::vector<Portion> bedding;
    std::optional<Squeeze> squeeze;
    std::optional<Moisture> moisture;  ///< measured by drying; wins over the squeeze test
    std::optional<double> ph;          ///< only if measured
    Duration ph_age = days(0);         ///< since it was; what went in before it is in the pH
    std::optional<Mass> lime;          ///< lime or ground shell already in the bed, as CaCO3

    // What was done to it since it was described (see apply_change).
    double share_kept = 1.0;          ///< of its contents as described
    double salt_kept = 1.0;           ///< of the salt of these: less where it was flushed
    double worms_kept = 1.0;          ///< of the worms: less where some went with the bed
    std::vector<AddedBedding> added;  ///< what is left of it
    Mass water_added = kilograms(0);  ///< since its wetness was last seen

    /// Feedings before day 0, oldest first; their days are negative.
    std::vector<Feeding> earlier;
    std::optional<Duration> age;  ///< since the worms moved in
    /// Wet scraps for each mass of worms and time that this bed has been seen to clear.
    std::optional<Rate> own_feeding_rate;
};

}  // namespace feed
