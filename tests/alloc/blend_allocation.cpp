// The fast mix allocates nothing; the answer with intervals may.
#include <cstdlib>
#include <new>
#include <vector>

#include "catch2.hpp"
#include "feed/blend/blend.hpp"
#include "feed/feedstock/table.hpp"

namespace {

long allocations = 0;

}  // namespace

void* operator new(std::size_t size) {
    ++allocations;
    if (void* memory = std::malloc(size == 0 ? 1 : size)) return memory;
    throw std::bad_alloc();
}
void operator delete(void* memory) noexcept {
    std::free(memory);
}
void operator delete(void* memory, std::size_t) noexcept {
    std::free(memory);
}

TEST_CASE("mixing the whole table allocates nothing") {
    std::vector<feed::Portion> portions;
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i)
        portions.push_back({std::make_shared<const feed::Feedstock>(feed::feedstock_at(i)),
                            feed::wet_kilograms(0.1)});
    const long before = allocations;
    const auto totals = feed::mix(portions);
    const long after_mix = allocations;
    const auto full = feed::blend(portions);
    const long after_blend = allocations;
    CHECK(totals.wet_mass == full.wet_mass);
    CHECK(after_mix == before);
    // The counter works: the full answer does allocate.
    CHECK(after_blend > after_mix);
}
