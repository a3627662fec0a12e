#include "sheet_pages.hpp"

#include <algorithm>
#include <cstddef>

#include "feed/io/human_text.hpp"
#include "markup.hpp"

namespace feed::io {

namespace {

std::string broken(std::string_view text, double width, Letters letters) {
    return wrapped(text, 0, letters.hang, static_cast<std::size_t>(width / letters.width));
}

/// A letter is taken to be so wide, as a part of its size: a name may be in capitals.
constexpr double letter_width = 0.55;

/// The first so many code points of a UTF-8 text.
std::string_view first_letters(std::string_view text, std::size_t most) {
    std::size_t at = 0;
    for (std::size_t letters = 0; at < text.size(); ++at) {
        const bool starts = (static_cast<unsigned char>(text[at]) & 0xC0U) != 0x80U;
        if (starts && letters++ == most) break;
    }
    return text.substr(0, at);
}

}  // namespace

std::size_t lines_in(std::string_view text, double width, Letters letters) {
    const std::string lines = broken(text, width, letters);
    return static_cast<std::size_t>(std::count(lines.begin(), lines.end(), '\n'));
}

double write_wrapped(SvgDrawing& drawing, double x, double y, double width, std::string_view text,
                     Letters letters, std::string_view style) {
    const std::string lines = broken(text, width, letters);
    std::size_t at = 0;
    while (at < lines.size()) {
        const std::size_t end = lines.find('\n', at);
        std::size_t first = at;
        while (first < end && lines[first] == ' ')
            ++first;
        drawing.write(x + 1.6 * static_cast<double>(first - at), y,
                      std::string_view(lines).substr(first, end - first), style);
        y += letters.line;
        at = end + 1;
    }
    return y;
}

void write_fitted(SvgDrawing& drawing, double x, double y, double width, std::string_view text,
                  double size, std::string_view style) {
    const double letters = static_cast<double>(std::max<std::size_t>(columns_of(text), 1));
    const double fits = width / (letter_width * letters);
    const double small = std::max(std::min(size, fits), 0.6 * size);
    const auto room =
        static_cast<std::size_t>(std::max(4.0, width / (letter_width * small) + 1e-6));
    const std::string line = columns_of(text) <= room
                                 ? std::string(text)
                                 : std::string(first_letters(text, room - 3)) + "...";
    drawing.write(
        x, y, line,
        "font-size=\"" + place(small) + "\"" + (style.empty() ? "" : " ") + std::string(style));
}

std::string sheet_html(const std::vector<std::string>& pages, std::string_view title,
                       std::string_view size) {
    std::string html =
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>" +
        markup_text(title) + "</title>\n<style>@page { size: " + std::string(size) +
        "; margin: 0 } body { margin: 0 } svg { display: block; max-width: 100%; "
        "break-after: page }</style>\n</head>\n<body>\n";
    for (const std::string& page : pages)
        html += page;
    return html + "</body>\n</html>\n";
}

}  // namespace feed::io
