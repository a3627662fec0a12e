// Notes in everyday words: any words give an entry that reads back and changes nothing else, or an
// error; and saying the same in another case or with more blanks means the same.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "../support/random_diary.hpp"
#include "feed/diary/seen.hpp"
#include "feed/io/note.hpp"

namespace {

constexpr std::string_view diary =
    "libfeed: 1\nbed:\n  container: 60 L tote\nfeedings:\n  - {date: 2026-03-01, portions: [1 kg "
    "carrot]}\nobservations:\n  - date: 2026-03-02\n    note: |\n      words\n      # more\n";
constexpr feed::Date today{2026, 3, 14};

std::string upper(std::string_view words) {
    std::string text(words);
    for (char& c : text)
        if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    return text;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size > 200) return 0;
    const std::string_view words(reinterpret_cast<const char*>(data), size);
    const auto signs = feed::read_signs(words);
    if (signs ? signs->empty() : signs.errors().empty()) std::abort();
    const auto entry = feed::io::read_note(words, today);
    if (!entry) {
        if (entry.errors().empty() || entry.errors()[0].message.empty()) std::abort();
        return 0;
    }
    const bool shouted = feed::io::read_note(upper(words), today).has_value();
    const bool has_units = words.find_first_of("0123456789") != std::string_view::npos;
    if (!shouted && !has_units) std::abort();
    const auto with = feed::io::with_note(diary, words, today, "", "fuzz");
    if (!with) return 0;  // what was fed is judged by the file
    const auto before = feed::io::parse_yaml(diary, "fuzz");
    const auto after = feed::io::parse_yaml(with->text, "fuzz");
    if (!before || !after) std::abort();
    if (feed_test::reading_without_last(*after, entry->section) !=
        feed_test::reading_of(*before, entry->section))
        std::abort();
    if (!feed::io::read_feed_text(with->text, "fuzz")) std::abort();
    return 0;
}
