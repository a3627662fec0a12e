// Searching the table with any words: rows of the table, in its order.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "feed/feedstock/lookup.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size > 32) return 0;
    const auto found = feed::search({reinterpret_cast<const char*>(data), size});
    for (std::size_t i = 0; i < found.size(); ++i) {
        if (found[i].index >= feed::feedstock_count()) std::abort();
        if (i > 0 && found[i].index <= found[i - 1].index) std::abort();
    }
    return 0;
}
