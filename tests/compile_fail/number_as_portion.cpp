// A bare number is no portion: of what unit?
#include "feed/blend/portion.hpp"

int main() {
    using namespace feed;
    const std::shared_ptr<const Feedstock> feedstock;
    [[maybe_unused]] const Portion portion{feedstock, wet_kilograms(1.2)};
#ifdef FEED_BAD
    [[maybe_unused]] const Portion wrong{feedstock, 1.2};  // BAD
#endif
}
