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
