#pragma once
// Simulations have a short form for every run and a long one for `sh tests/run.sh nightly`, which
// sets FEED_LONG_FORMS. Where the sanitizers judge, which look at the code and not at counts, the
// stage sets FEED_FEW_DRAWS.
#include <cstdlib>
#include <type_traits>

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

/// Whether all random draws are tried: what was counted among them is then judged too.
inline bool draws_all() {
    const char* const few = std::getenv("FEED_FEW_DRAWS");
    return few == nullptr || *few == '\0';
}

/// Whether more than so many were seen, which only all draws must show.
template <class Count>
bool enough(Count seen, std::type_identity_t<Count> least) {
    return seen > least || !draws_all();
}

/// Of many random draws all, or a fifth of them where the sanitizers judge.
inline int draws(int all) {
    return draws_all() ? all : (all + 4) / 5;
}

}  // namespace feed_test
