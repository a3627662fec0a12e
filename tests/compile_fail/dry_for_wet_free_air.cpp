// Free air space is asked with the moisture of the wet mass and the ash of the dry mass.
#include "feed/blend/free_air_space.hpp"

int main() {
    using namespace feed;
    const Density density = kilograms_per_cubic_metre(500);
    [[maybe_unused]] const double air = free_air_space(density, Moisture(0.6), DryFraction(0.1));
#ifdef FEED_BAD
    [[maybe_unused]] const double wrong =
        free_air_space(density, DryFraction(0.1), Moisture(0.6));  // BAD
#endif
}
