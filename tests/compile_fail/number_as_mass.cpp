// A bare number is no mass.
#include "feed/quantity/basis.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/units.hpp"

int main() {
    using namespace feed;
    [[maybe_unused]] const Mass mass = kilograms(2.0);
#ifdef FEED_BAD
    [[maybe_unused]] const Mass wrong = 2.0;  // BAD
#endif
}
