#include "feed/io/text_file.hpp"
#include "feed/quantity/printable.hpp"

namespace feed::io {

TextFault first_text_fault(std::string_view text) noexcept {
    for (std::size_t at = 0; at < text.size();) {
        const CodePoint c = code_point_at(text, at);
        if (c.value == 0) return {at, true};
        if (!c.valid) return {at, false};
        at += c.length;
    }
    return {text.size(), false};
}

}  // namespace feed::io
