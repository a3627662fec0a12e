#pragma once
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace feed {

/// One character of a UTF-8 text, or one byte that is none.
struct CodePoint {
    char32_t value = 0;      ///< of the character; of the byte where it is none
    std::size_t length = 1;  ///< bytes
    bool valid = true;       ///< false: not UTF-8 (ill-formed, overlong, surrogate or cut short)
};

/// The character at a place of a text, which must lie in it. Constant time, no allocation.
constexpr CodePoint code_point_at(std::string_view text, std::size_t at) noexcept {
    const auto byte = [&](std::size_t place) { return static_cast<unsigned char>(text[place]); };
    const unsigned char first = byte(at);
    if (first < 0x80) return {first, 1, true};
    std::size_t length = 0;
    char32_t value = 0;
    if (first >= 0xC2 && first <= 0xDF) length = 2, value = first & 0x1FU;
    if (first >= 0xE0 && first <= 0xEF) length = 3, value = first & 0x0FU;
    if (first >= 0xF0 && first <= 0xF4) length = 4, value = first & 0x07U;
    if (length == 0 || at + length > text.size()) return {first, 1, false};
    for (std::size_t next = 1; next < length; ++next) {
        if ((byte(at + next) & 0xC0U) != 0x80U) return {first, 1, false};
        value = (value << 6U) | (byte(at + next) & 0x3FU);
    }
    const bool overlong = (length == 3 && value < 0x800) || (length == 4 && value < 0x10000);
    const bool surrogate = value >= 0xD800 && value <= 0xDFFF;
    if (overlong || surrogate || value > 0x10FFFF) return {first, 1, false};
    return {value, length, true};
}

/// Characters that steer a terminal or hide what is written: controls (C0, DEL, C1), marks and
/// overrides of the writing direction, line and paragraph separators, the byte order mark,
/// interlinear and tag characters, and code points that are no characters (Unicode 15, UAX 9).
constexpr bool is_hidden(char32_t c) noexcept {
    return c < 0x20 || (c >= 0x7F && c <= 0x9F) || c == 0x61C || c == 0x200E || c == 0x200F ||
           (c >= 0x2028 && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069) || c == 0xFEFF ||
           (c >= 0xFFF9 && c <= 0xFFFB) || (c >= 0xE0000 && c <= 0xE007F) || (c & 0xFFFE) == 0xFFFE;
}

/// Calls `put(piece)` for the pieces of a text in order: what can be shown as it is, and
/// "\x1b", "\u202e" or "\U000e0001" for a hidden character or a byte that is not UTF-8. Line feeds
/// are kept. No allocation.
template <class Put>
void for_each_printable(std::string_view text, Put&& put) {
    constexpr std::string_view digits = "0123456789abcdef";
    std::size_t shown = 0;
    for (std::size_t at = 0; at < text.size();) {
        const CodePoint c = code_point_at(text, at);
        if (c.valid && (!is_hidden(c.value) || c.value == '\n')) {
            at += c.length;
            continue;
        }
        if (at > shown) put(text.substr(shown, at - shown));
        char escape[10] = {'\\'};
        const std::size_t count = c.value <= 0xFF ? 2 : c.value <= 0xFFFF ? 4 : 8;
        escape[1] = count == 2 ? 'x' : count == 4 ? 'u' : 'U';
        for (std::size_t i = 0; i < count; ++i)
            escape[2 + i] = digits[(c.value >> (4U * (count - 1 - i))) & 0xFU];
        put(std::string_view(escape, 2 + count));
        at += c.length;
        shown = at;
    }
    if (shown < text.size()) put(text.substr(shown));
}

/// A text that is safe to show: UTF-8, and no hidden character but line feeds. Linear. Threads:
/// pure.
inline std::string printable(std::string_view text) {
    std::string shown;
    shown.reserve(text.size());
    for_each_printable(text, [&](std::string_view piece) { shown += piece; });
    return shown;
}

/// A text of at most about `most` bytes (at least 16): of a longer one both ends, cut at whole
/// characters, with " ... " between. For what is echoed: a hostile word may be a megabyte.
inline std::string shortened(std::string_view text, std::size_t most = 400) {
    if (text.size() <= most) return std::string(text);
    const auto continues = [&](std::size_t at) {
        return (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U;
    };
    std::size_t head = most / 2;
    while (head > 0 && continues(head))
        --head;
    std::size_t tail = text.size() - most / 2;
    while (tail < text.size() && continues(tail))
        ++tail;
    return std::string(text.substr(0, head)) + " ... " + std::string(text.substr(tail));
}

}  // namespace feed
