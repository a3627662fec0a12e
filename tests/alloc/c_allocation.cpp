// Fails the n-th allocation, for every n, in every story of the C interface: the code must be
// FEED_OUT_OF_MEMORY (or the call must not have noticed), nothing may leak, nothing may crash.
#include <atomic>
#include <cstdlib>
#include <limits>
#include <new>

#include "c_scenarios.hpp"
#include "catch2.hpp"

namespace {

std::atomic<long> allocations_left{std::numeric_limits<long>::max()};
std::atomic<long> alive{0};

void* counted(std::size_t size) noexcept {
    if (allocations_left.fetch_sub(1) <= 0) return nullptr;
    void* memory = std::malloc(size == 0 ? 1 : size);
    if (memory != nullptr) ++alive;
    return memory;
}

void forget(void* memory) noexcept {
    if (memory == nullptr) return;
    --alive;
    std::free(memory);
}

void* hook_allocate(void*, std::size_t size, std::size_t) {
    return counted(size);
}
void hook_release(void*, void* memory) {
    forget(memory);
}

const feed_allocator hook{sizeof(feed_allocator), nullptr, hook_allocate, hook_release};

}  // namespace

void* operator new(std::size_t size) {
    if (void* memory = counted(size)) return memory;
    throw std::bad_alloc();
}
void* operator new[](std::size_t size) {
    return operator new(size);
}
void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
    return counted(size);
}
void operator delete(void* memory) noexcept {
    forget(memory);
}
void operator delete[](void* memory) noexcept {
    forget(memory);
}
void operator delete(void* memory, std::size_t) noexcept {
    forget(memory);
}
void operator delete[](void* memory, std::size_t) noexcept {
    forget(memory);
}
void operator delete(void* memory, const std::nothrow_t&) noexcept {
    forget(memory);
}

TEST_CASE("when the n-th allocation fails the code says so and nothing leaks") {
    for (const auto& scenario : feed_test::scenarios) {
        CAPTURE(scenario.name);
        std::string digest;
        digest.reserve(1 << 16);  // so that the story's own notes do not allocate
        REQUIRE(scenario.run(&hook, digest) == FEED_OK);  // warms up what the C++ library caches
        long step = 1;
        long failures = 0;
        for (long n = 0;; n += step) {
            digest.clear();
            const long before = alive.load();
            allocations_left = n;
            const feed_code code = scenario.run(&hook, digest);
            const bool reached_end = allocations_left.load() > 0;
            allocations_left = std::numeric_limits<long>::max();
            const long leaked = alive.load() - before;
            if (leaked != 0 || (code != FEED_OK && code != FEED_OUT_OF_MEMORY)) {
                CAPTURE(n, code, leaked);
                CHECK(leaked == 0);
                CHECK(code == FEED_OUT_OF_MEMORY);
            }
            failures += code == FEED_OUT_OF_MEMORY ? 1 : 0;
            if (reached_end && code == FEED_OK) break;
            if (n >= 3000) step = 37;  // the early ones one by one, then samples
        }
        CHECK(failures > 0);
    }
}
