// A stranger's program that uses the header-only core.
#include <feed/feed.hpp>

int main() {
    const feed::Volume bucket = feed::litres(10.0);
    const feed::Mass full = bucket * feed::kilograms_per_cubic_metre(500.0);
    const bool weighs_five_kilograms = feed::in_grams(full) == 5000.0;
    return weighs_five_kilograms && feed::library_version == CONSUMER_EXPECTS ? 0 : 1;
}
