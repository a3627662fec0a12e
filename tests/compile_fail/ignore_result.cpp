// A result that may hold errors is not dropped silently.
#include "feed/quantity/error.hpp"

#pragma GCC diagnostic error "-Wunused-result"

feed::Result<int> answer() {
    return 42;
}

int main() {
    [[maybe_unused]] const feed::Result<int> kept = answer();
#ifdef FEED_BAD
    answer();  // BAD
#endif
}
