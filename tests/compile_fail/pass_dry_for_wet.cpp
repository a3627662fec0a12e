// A dry mass is not taken where a wet one is due.
#include "feed/quantity/basis.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/units.hpp"

int main() {
    using namespace feed;
    [[maybe_unused]] const DryMass dry = dry_part(wet_grams(100), Moisture(0.8));
#ifdef FEED_BAD
    [[maybe_unused]] const auto wrong = dry_part(dry_kilograms(0.1), Moisture(0.8));  // BAD
#endif
}
