// A fraction of the wet and one of the dry mass do not add up.
#include "feed/quantity/basis.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/units.hpp"

int main() {
    using namespace feed;
    [[maybe_unused]] const WetFraction sum = WetFraction(0.1) + WetFraction(0.2);
#ifdef FEED_BAD
    [[maybe_unused]] const auto wrong = WetFraction(0.1) + DryFraction(0.2);  // BAD
#endif
}
