#include "feed/io/screen.hpp"

#include <algorithm>
#include <string_view>
#include <utility>

#include "feed/io/human_text.hpp"

namespace feed::io {
namespace {

std::string printed(std::string_view line) {
    const std::size_t indent = std::min(line.find_first_not_of(' '), line.size());
    return wrapped(line.substr(indent), indent, indent + 2);
}

ScreenRoom room_of_line(std::string_view line) {
    const std::string text = printed(line);
    const auto lines = std::count(text.begin(), text.end(), '\n');
    return {static_cast<std::size_t>(lines), words_in(text)};
}

}  // namespace

std::size_t words_in(std::string_view text) noexcept {
    std::size_t words = 0;
    bool in_word = false;
    for (const char c : text) {
        const bool blank = c == ' ' || c == '\n';
        if (!blank && !in_word) ++words;
        in_word = !blank;
    }
    return words;
}

ScreenRoom taken_by(const std::vector<std::string>& lines) {
    ScreenRoom sum{0, 0};
    for (const std::string& line : lines) {
        const ScreenRoom one = room_of_line(line);
        sum.lines += one.lines;
        sum.words += one.words;
    }
    return sum;
}

ScreenRoom left_of(ScreenRoom room, const std::vector<std::string>& lines) {
    const ScreenRoom taken = taken_by(lines);
    return {room.lines - std::min(room.lines, taken.lines),
            room.words - std::min(room.words, taken.words)};
}

std::vector<ScreenLine> fitting_lines(std::vector<ScreenLine> lines, ScreenRoom room) {
    lines.erase(std::remove_if(lines.begin(), lines.end(),
                               [](const ScreenLine& line) { return line.text.empty(); }),
                lines.end());
    ScreenRoom taken{0, 0};
    for (const ScreenLine& line : lines) {
        const ScreenRoom one = room_of_line(line.text);
        taken.lines += one.lines;
        taken.words += one.words;
    }
    while (taken.lines > room.lines || taken.words > room.words) {
        // Of equals the last: max_element over the reversed order takes the first it meets.
        const auto least = std::max_element(
            lines.rbegin(), lines.rend(),
            [](const ScreenLine& a, const ScreenLine& b) { return a.rank < b.rank; });
        if (least == lines.rend() || least->rank == 0) break;
        const ScreenRoom one = room_of_line(least->text);
        taken.lines -= one.lines;
        taken.words -= one.words;
        lines.erase(std::next(least).base());
    }
    return lines;
}

std::vector<std::string> texts_of(std::vector<ScreenLine> lines) {
    std::vector<std::string> texts;
    texts.reserve(lines.size());
    for (ScreenLine& line : lines)
        texts.push_back(std::move(line.text));
    return texts;
}

std::vector<std::string> fitting(std::vector<ScreenLine> lines, ScreenRoom room) {
    return texts_of(fitting_lines(std::move(lines), room));
}

std::string screen_text(const std::vector<std::string>& lines) {
    std::string text;
    for (const std::string& line : lines)
        text += printed(line);
    return text;
}

std::vector<std::string> sentences_of(const std::string& text) {
    std::vector<std::string> sentences;
    std::size_t from = 0;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const bool stop = text[at] == '.' || text[at] == '?' || text[at] == '!';
        const bool ends = stop && (at + 1 == text.size() || text[at + 1] == ' ');
        if (!ends && at + 1 < text.size()) continue;
        sentences.push_back(text.substr(from, at + 1 - from));
        from = std::min(text.find_first_not_of(' ', at + 1), text.size());
    }
    return sentences;
}

}  // namespace feed::io
