// A bare number is no fraction: it could be per cent.
#include "feed/quantity/basis.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/units.hpp"

int main() {
    using namespace feed;
    [[maybe_unused]] const Moisture moisture = Moisture(0.8);
#ifdef FEED_BAD
    [[maybe_unused]] const Moisture wrong = 0.8;  // BAD
#endif
}
