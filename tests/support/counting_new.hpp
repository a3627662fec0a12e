#pragma once
// Link counting_new.cpp to count every call of operator new in a test program.

#include <cstddef>

namespace feed_test {

/// How many times operator new has been called so far, in one thread.
std::size_t allocation_count();

}  // namespace feed_test
