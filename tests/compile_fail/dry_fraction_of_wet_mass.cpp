// A dry-basis fraction of a wet mass is no mass.
#include "feed/quantity/basis.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/units.hpp"

int main() {
    using namespace feed;
    [[maybe_unused]] const Mass part = wet_grams(100) * WetFraction(0.2);
#ifdef FEED_BAD
    [[maybe_unused]] const auto wrong = wet_grams(100) * DryFraction(0.2);  // BAD
#endif
}
