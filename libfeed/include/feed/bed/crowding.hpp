#pragma once
#include "feed/bed/completed.hpp"
#include "feed/bed/factor.hpp"

// Worms and the surface they live on: how many have room.
namespace feed {

/// Worms, live, on a square metre of a full bed, where they lay no more.
inline constexpr Factor full_bed{
    5.0,
    3.0,
    10.0,
    "kg/m2",
    Grade::d,
    "above 2.9 with much food (Neuhauser et al. 1980, abstract); 4.9 is 1 lb a "
    "square foot, the usual stocking (common practice)"};

/// The surface that worms live on, of all trays together, m2.
inline double worm_surface_m2(const CompletedBed& bed) noexcept {
    const double depth_m = in_metres(bed.depth_of_contents);
    return depth_m > 0.0 ? bed.contents.value() / depth_m : in_square_metres(bed.surface);
}

/// Worms that have room in a bed. Threads: pure.
inline WetMass room_for_worms(const CompletedBed& bed) noexcept {
    return wet_kilograms(full_bed.value * worm_surface_m2(bed));
}

/// Whether more worms were put into a bed than any bed is known to bear. Worms that nobody named
/// never are. Threads: pure.
inline bool is_crowded(const CompletedBed& bed) noexcept {
    return bed.worms_given && bed.worms.value.in_kilograms() > full_bed.high * worm_surface_m2(bed);
}

}  // namespace feed
