// Names of feedstocks as people type them: any bytes give a feedstock of the table or an error.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "feed/feedstock/lookup.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    // Longer names cost time without reaching anything else.
    const std::string_view words(reinterpret_cast<const char*>(data),
                                 std::min<std::size_t>(size, 32));
    const auto found = feed::look_up(words);
    if (found) {
        if (!feed::find_id(found->feedstock->id)) std::abort();
    } else if (found.errors().empty() || found.errors().front().message.empty()) {
        std::abort();
    }
    return 0;
}
