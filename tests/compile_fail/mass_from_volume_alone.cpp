// A volume is no mass without a density.
#include "feed/quantity/basis.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/units.hpp"

int main() {
    using namespace feed;
    [[maybe_unused]] const Mass mass = litres(2) * kilograms_per_cubic_metre(500);
#ifdef FEED_BAD
    [[maybe_unused]] const Mass wrong = litres(2);  // BAD
#endif
}
