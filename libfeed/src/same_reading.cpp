#include "same_reading.hpp"

namespace feed::io {

bool SameReading::same_word(std::uint32_t a, std::uint32_t b) const {
    const YamlNode& x = before_.node(a);
    const YamlNode& y = after_.node(b);
    if (x.quoted != y.quoted) return false;
    return x.text == y.text || (a == last_ && x.text + "\n" == y.text);
}

bool SameReading::same(std::uint32_t a, std::uint32_t b) {
    const YamlNode& x = before_.node(a);
    const YamlNode& y = after_.node(b);
    place_of_[a] = b;
    if (x.alias_of != 0 || y.alias_of != 0) {
        // An alias of what grows would grow too, where nobody asked for it.
        return x.alias_of != 0 && x.alias_of != grown_ && place_of_[x.alias_of] == y.alias_of;
    }
    const bool grows = a == grown_ && grown_ != 0;
    const bool becomes_list = grows && x.kind == NodeKind::null && y.kind == NodeKind::sequence;
    if (x.kind != y.kind && !becomes_list) return false;
    if (!same_word(a, b)) return false;
    std::uint32_t one = x.first;
    std::uint32_t other = y.first;
    while (one != 0 && other != 0) {
        if (!same(one, other)) return false;
        one = before_.node(one).next;
        other = after_.node(other).next;
    }
    if (one != 0) return false;
    if (!grows) return other == 0;
    if (other == 0) return false;
    added_ = other;
    const std::uint32_t second = after_.node(other).next;
    if (y.kind == NodeKind::sequence) return second == 0;
    return y.kind == NodeKind::mapping && second != 0 && after_.node(second).next == 0;
}

}  // namespace feed::io
