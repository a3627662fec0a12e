#pragma once
#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace feed {

namespace detail {

/// The plain letters of an accented one, given the second byte after 0xC3 in UTF-8.
constexpr std::string_view unaccented(unsigned char second) noexcept {
    const unsigned char lower =
        second >= 0x80 && second < 0xA0 ? static_cast<unsigned char>(second + 0x20) : second;
    if (second == 0x9F) return "ss";
    if (lower >= 0xA0 && lower <= 0xA5) return "a";
    if (lower == 0xA6) return "ae";
    if (lower == 0xA7) return "c";
    if (lower >= 0xA8 && lower <= 0xAB) return "e";
    if (lower >= 0xAC && lower <= 0xAF) return "i";
    if (lower == 0xB1) return "n";
    if (lower >= 0xB2 && lower <= 0xB6) return "o";
    if (lower == 0xB8) return "o";
    if (lower >= 0xB9 && lower <= 0xBC) return "u";
    return " ";
}

constexpr bool is_plain(char c) noexcept {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
}

}  // namespace detail

/// A text as people mean it: lower case, accents dropped, every hyphen, underscore, blank and
/// punctuation mark one blank, apostrophes dropped ("Brewer's Spent-Grain" becomes "brewers spent
/// grain") but for one after a single letter ("d'oignon" becomes "d oignon"). Independent of the
/// locale. Threads: pure.
inline std::string plain_text(std::string_view text) {
    std::string plain;
    plain.reserve(text.size());
    const auto put = [&plain](char c) {
        if (c != ' ')
            plain.push_back(c);
        else if (!plain.empty() && plain.back() != ' ')
            plain.push_back(' ');
    };
    for (std::size_t i = 0; i < text.size(); ++i) {
        char c = text[i];
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        const auto byte = static_cast<unsigned char>(c);
        if (detail::is_plain(c)) {
            put(c);
        } else if (byte == 0xC3 && i + 1 < text.size()) {
            for (const char plain_letter :
                 detail::unaccented(static_cast<unsigned char>(text[++i])))
                put(plain_letter);
        } else if ((byte == 0xC5 && i + 1 < text.size()) &&
                   (text[i + 1] == '\x92' || text[i + 1] == '\x93')) {
            put('o');
            put('e');
            ++i;
        } else if ((byte == 0xCC || byte == 0xCD) && i + 1 < text.size()) {
            ++i;  // a combining accent
        } else if (c == '\'' || text.substr(i, 3) == "\xE2\x80\x99") {
            if (c != '\'') i += 2;
            if (plain.size() == 1 || (plain.size() > 1 && plain[plain.size() - 2] == ' ')) put(' ');
        } else {
            put(' ');
        }
    }
    if (!plain.empty() && plain.back() == ' ') plain.pop_back();
    return plain;
}

/// The words of a plain text.
inline std::vector<std::string> words_of(std::string_view plain) {
    std::vector<std::string> words;
    std::size_t start = 0;
    while (start < plain.size()) {
        const std::size_t end = std::min(plain.find(' ', start), plain.size());
        if (end > start) words.emplace_back(plain.substr(start, end - start));
        start = end + 1;
    }
    return words;
}

/// The singular of an English word, or a stem both numbers share ("leaves" and "leaf" give
/// "leaf", "tomatoes" gives "tomato", "cherries" gives "cherry"). Made for comparing, not showing.
inline std::string singular(std::string_view word) {
    const auto ends = [word](std::string_view tail) {
        return word.size() > tail.size() + 1 && word.substr(word.size() - tail.size()) == tail;
    };
    const auto without = [word](std::size_t count, std::string_view tail) {
        return std::string(word.substr(0, word.size() - count)) + std::string(tail);
    };
    if (word == "leaves" || word == "loaves" || word == "halves") return without(3, "f");
    if (word == "feet") return "foot";
    if (ends("ies") && word.size() > 4) return without(3, "y");
    if (ends("oes") || ends("ches") || ends("shes") || ends("sses") || ends("xes"))
        return without(2, "");
    if (ends("s") && !ends("ss") && !ends("us") && !ends("is")) return without(1, "");
    return std::string(word);
}

/// Every word of a plain text in the singular.
inline std::string singular_text(std::string_view plain) {
    std::string text;
    for (const auto& word : words_of(plain)) {
        if (!text.empty()) text += ' ';
        text += singular(word);
    }
    return text;
}

namespace detail {

/// The three last rows of the table of distances, each |b| + 1 long.
inline std::size_t edit_rows(std::string_view a, std::string_view b, std::size_t* before,
                             std::size_t* above, std::size_t* row) {
    for (std::size_t j = 0; j <= b.size(); ++j)
        above[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
            row[j] = std::min({above[j] + 1, row[j - 1] + 1, above[j - 1] + change});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], before[j - 2] + 1);
        }
        std::swap(before, above);
        std::swap(above, row);
    }
    return above[b.size()];
}

}  // namespace detail

/// Smallest number of letters inserted, dropped, changed or swapped with a neighbour that turns
/// one text into the other (optimal string alignment). Time |a| x |b|; allocates only for b of more
/// than 63 letters.
inline std::size_t edit_distance(std::string_view a, std::string_view b) {
    const std::size_t length = b.size() + 1;
    if (length <= 64) {
        std::size_t rows[3 * 64];
        return detail::edit_rows(a, b, rows, rows + length, rows + 2 * length);
    }
    std::vector<std::size_t> rows(3 * length);
    return detail::edit_rows(a, b, rows.data(), rows.data() + length, rows.data() + 2 * length);
}

}  // namespace feed
