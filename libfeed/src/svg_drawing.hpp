#pragma once
#include <cmath>
#include <string>
#include <string_view>

#include "feed/quantity/number_print.hpp"
#include "markup.hpp"

namespace feed::io {

/// A place in a picture, to a tenth of a unit.
inline std::string place(double number) {
    return significant(std::round(number * 10.0) / 10.0, 6);
}

/// A picture in the making. Places in units of its view box; styles are SVG attributes.
class SvgDrawing {
public:
    /// width, height: of the view box; unit: of the printed size, such as "mm" or "".
    SvgDrawing(double width, double height, std::string_view unit, double font_size,
               std::string_view title) {
        svg_ = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + place(width) + " " +
               place(height) + "\" width=\"" + place(width) + std::string(unit) + "\" height=\"" +
               place(height) + std::string(unit) + "\" font-family=\"sans-serif\" font-size=\"" +
               place(font_size) + "\" fill=\"#000\">\n<title>" + markup_text(title) +
               "</title>\n<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n";
    }

    void write(double x, double y, std::string_view text, std::string_view style = "") {
        svg_ += "<text x=\"" + place(x) + "\" y=\"" + place(y) + "\"" + spaced(style) + ">" +
                markup_text(text) + "</text>\n";
    }
    void line(double x1, double y1, double x2, double y2, std::string_view style) {
        svg_ += "<line x1=\"" + place(x1) + "\" y1=\"" + place(y1) + "\" x2=\"" + place(x2) +
                "\" y2=\"" + place(y2) + "\"" + spaced(style) + "/>\n";
    }
    void box(double x, double y, double width, double height, std::string_view style) {
        svg_ += "<rect x=\"" + place(x) + "\" y=\"" + place(y) + "\" width=\"" + place(width) +
                "\" height=\"" + place(height) + "\"" + spaced(style) + "/>\n";
    }
    void circle(double x, double y, double radius, std::string_view style) {
        svg_ += "<circle cx=\"" + place(x) + "\" cy=\"" + place(y) + "\" r=\"" + place(radius) +
                "\"" + spaced(style) + "/>\n";
    }
    void path(std::string_view d, std::string_view style) {
        svg_ += "<path d=\"" + std::string(d) + "\"" + spaced(style) + "/>\n";
    }
    std::string done() const { return svg_ + "</svg>\n"; }

private:
    static std::string spaced(std::string_view style) {
        return style.empty() ? std::string() : " " + std::string(style);
    }
    std::string svg_;
};

}  // namespace feed::io
