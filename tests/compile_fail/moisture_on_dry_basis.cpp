// Moisture is on the wet basis everywhere.
#include "feed/quantity/basis.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/units.hpp"

int main() {
    using namespace feed;
    [[maybe_unused]] const Moisture moisture = WetFraction(0.8);
#ifdef FEED_BAD
    [[maybe_unused]] const Moisture wrong = DryFraction(4.0);  // BAD
#endif
}
