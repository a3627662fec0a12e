// Any text as a diary: an entry is added without touching anything else, or the text is refused.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "feed/io/diary_append.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view diary(reinterpret_cast<const char*>(data), size);
    feed::Observation look;
    look.date = {2026, 3, 14};
    look.note = "a \"note\": with - signs # and\nlines";
    const auto extended = feed::io::with_observation(diary, look, "fuzz");
    if (!extended) {
        if (extended.errors().empty()) std::abort();
        return 0;
    }
    const std::string_view text = *extended;
    std::size_t prefix = 0;
    while (prefix < diary.size() && prefix < text.size() && diary[prefix] == text[prefix])
        ++prefix;
    std::size_t suffix = 0;
    while (suffix < diary.size() - prefix && suffix < text.size() - prefix &&
           diary[diary.size() - 1 - suffix] == text[text.size() - 1 - suffix])
        ++suffix;
    // Everything but an empty "[]" is kept where it stood. Its line may hold a comment, so the text
    // around the brackets and around the entry are two places.
    const bool only_inserted = prefix + suffix >= diary.size();
    const bool brackets = diary.find("[]") != std::string_view::npos;
    if (!only_inserted && !brackets) std::abort();
    if (text.size() + 2 < diary.size()) std::abort();
    return 0;
}
