// Portions share their feedstock; nobody changes it behind another's back.
#include "feed/blend/portion.hpp"

int main() {
    using namespace feed;
    Portion portion{std::make_shared<Feedstock>(), wet_kilograms(1.2)};
    auto copy = std::make_shared<Feedstock>(*portion.feedstock);
    copy->name = "another";
    portion.feedstock = copy;
#ifdef FEED_BAD
    portion.feedstock->name = "another";  // BAD
#endif
}
