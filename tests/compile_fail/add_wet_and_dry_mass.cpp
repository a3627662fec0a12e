// A wet and a dry mass do not add up.
#include "feed/quantity/basis.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/units.hpp"

int main() {
    using namespace feed;
    [[maybe_unused]] const WetMass sum = wet_grams(100) + wet_grams(50);
#ifdef FEED_BAD
    [[maybe_unused]] const auto wrong = wet_grams(100) + dry_kilograms(0.05);  // BAD
#endif
}
