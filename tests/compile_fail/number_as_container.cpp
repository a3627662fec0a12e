// A bucket has a volume with a unit.
#include "feed/feedstock/amount.hpp"

int main() {
    using namespace feed;
    [[maybe_unused]] const Container bucket{"bucket", litres(10)};
#ifdef FEED_BAD
    [[maybe_unused]] const Container wrong{"bucket", 10.0};  // BAD
#endif
}
