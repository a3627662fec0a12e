// A wet and a dry mass are not compared.
#include "feed/quantity/basis.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/units.hpp"

int main() {
    using namespace feed;
    [[maybe_unused]] const bool less = wet_grams(1) < wet_grams(2);
#ifdef FEED_BAD
    [[maybe_unused]] const bool wrong = wet_grams(1) < dry_kilograms(2);  // BAD
#endif
}
