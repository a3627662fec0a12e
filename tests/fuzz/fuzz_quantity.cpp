// Quantities and windows as people write them in files: any bytes give a number in its range or an
// error with words.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "feed/io/quantity_text.hpp"

namespace {

void expect(bool holds) {
    if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0 || size > 80) return 0;
    constexpr int kinds = static_cast<int>(feed::io::QuantityKind::number) + 1;
    const auto kind = static_cast<feed::io::QuantityKind>(data[0] % kinds);
    const std::string_view text(reinterpret_cast<const char*>(data) + 1, size - 1);
    const auto number = feed::io::parse_quantity(text, kind);
    if (number) {
        expect(std::isfinite(*number));
        // A number alone is a window with both ends there.
        const auto window = feed::io::parse_window(text, kind);
        if (window && window->single) expect(*window->low == *number && *window->high == *number);
    } else {
        expect(!number.errors().empty() && !number.errors()[0].message.empty());
    }
    const auto window = feed::io::parse_window(text, kind);
    if (window) {
        expect(window->low || window->high);
        if (window->low && window->high) expect(*window->low <= *window->high);
    } else {
        expect(!window.errors().empty());
    }
    return 0;
}
