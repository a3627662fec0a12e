#pragma once
// Simulations have a short form for every run and a long one for `sh tests/run.sh nightly`, which
// sets FEED_LONG_FORMS.
#include <cstdlib>

namespace feed_test {

/// Whether this run has the time.
inline bool long_forms() {
    const char* const said = std::getenv("FEED_LONG_FORMS");
    return said != nullptr && *said != '\0';
}

/// @param usual  how many in every run.
/// @param many   how many where there is time.
template <class T>
T how_many(T usual, T many) {
    return long_forms() ? many : usual;
}

}  // namespace feed_test
