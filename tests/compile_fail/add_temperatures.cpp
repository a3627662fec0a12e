// Two temperatures have a difference and no sum.
#include "feed/quantity/basis.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/units.hpp"

int main() {
    using namespace feed;
    [[maybe_unused]] const auto difference = celsius(30) - celsius(20);
#ifdef FEED_BAD
    [[maybe_unused]] const auto wrong = celsius(30) + celsius(20);  // BAD
#endif
}
