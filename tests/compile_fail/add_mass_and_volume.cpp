// Kilograms and litres do not add up.
#include "feed/quantity/basis.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/units.hpp"

int main() {
    using namespace feed;
    [[maybe_unused]] const Mass sum = kilograms(1) + grams(2);
#ifdef FEED_BAD
    [[maybe_unused]] const auto wrong = kilograms(1) + litres(2);  // BAD
#endif
}
