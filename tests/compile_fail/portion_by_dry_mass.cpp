// A portion is weighed wet.
#include "feed/blend/portion.hpp"

int main() {
    using namespace feed;
    const std::shared_ptr<const Feedstock> feedstock;
    [[maybe_unused]] const Portion portion{feedstock, wet_kilograms(1.2)};
#ifdef FEED_BAD
    [[maybe_unused]] const Portion wrong{feedstock, dry_kilograms(1.2)};  // BAD
#endif
}
