// Any text as a diary, and diaries of every YAML style: an entry is added and everything else reads
// as it did, or the text is refused.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "../support/random_diary.hpp"
#include "feed/io/diary_append.hpp"

namespace {

void add_an_entry(std::string_view diary) {
    feed::Observation look;
    look.date = {2026, 3, 14};
    look.note = "a \"note\": with - signs # and\nlines";
    const auto extended = feed::io::with_observation(diary, look, "fuzz");
    if (!extended) {
        if (extended.errors().empty()) std::abort();
        return;
    }
    const auto before = feed::io::parse_yaml(diary, "fuzz");
    const auto after = feed::io::parse_yaml(*extended, "fuzz");
    if (!before || !after) std::abort();
    auto was = feed_test::reading_of(*before, "observations");
    const auto is = feed_test::reading_without_last(*after, "observations");
    // A file without a last line end gets one; a text that ended the file then ends its line.
    if (is != was && diary.back() != '\n') was.insert(was.size() - 1, "\n");
    if (is != was) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    add_an_entry({reinterpret_cast<const char*>(data), size});
    std::size_t at = 0;
    feed_test::RandomDiary diaries(
        [&](std::size_t n) { return at < size ? data[at++] % n : std::size_t{0}; });
    add_an_entry(diaries.write());
    return 0;
}
