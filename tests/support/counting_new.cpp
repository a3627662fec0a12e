// Apart from the tests, so that the compiler does not match these against its own idea of new and
// delete.
#include "counting_new.hpp"

#include <cstdlib>
#include <new>

namespace {
std::size_t count = 0;
}

std::size_t feed_test::allocation_count() {
    return count;
}

void* operator new(std::size_t size) {
    ++count;
    if (void* memory = std::malloc(size == 0 ? 1 : size)) return memory;
    throw std::bad_alloc();
}

void operator delete(void* memory) noexcept {
    std::free(memory);
}
void operator delete(void* memory, std::size_t) noexcept {
    std::free(memory);
}
