// A rate is no duration.
#include "feed/quantity/basis.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/units.hpp"

int main() {
    using namespace feed;
    [[maybe_unused]] const Duration duration = days(7);
#ifdef FEED_BAD
    [[maybe_unused]] const Duration wrong = per_day(0.22);  // BAD
#endif
}
