// The value of a result that is gone at the end of the line can be kept, not referred to.
#include "feed/feedstock/amount.hpp"

int main() {
    using namespace feed;
    [[maybe_unused]] const Amount kept = parse_amount("1.2 kg").value();
#ifdef FEED_BAD
    [[maybe_unused]] Amount& wrong = parse_amount("1.2 kg").value();  // BAD
#endif
}
