#include "markup.hpp"

#include "feed/quantity/printable.hpp"

namespace feed::io {

std::string markup_text(std::string_view text) {
    std::string safe;
    for_each_printable(text, [&](std::string_view piece) {
        for (const char c : piece) {
            switch (c) {
                case '&':
                    safe += "&amp;";
                    break;
                case '<':
                    safe += "&lt;";
                    break;
                case '>':
                    safe += "&gt;";
                    break;
                case '"':
                    safe += "&quot;";
                    break;
                default:
                    safe += c;
            }
        }
    });
    return safe;
}

}  // namespace feed::io
