// A reference into a feedstock that is gone at the end of the line would dangle.
#include "feed/feedstock/table.hpp"

int main() {
    using namespace feed;
    const Feedstock kept = feedstock_at(0);
    [[maybe_unused]] const auto& moisture = kept[Property::moisture_wet];
#ifdef FEED_BAD
    [[maybe_unused]] const auto& wrong = feedstock_at(0)[Property::moisture_wet];  // BAD
#endif
}
