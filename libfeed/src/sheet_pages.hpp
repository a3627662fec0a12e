#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "svg_drawing.hpp"

// Sheets to hang up: text in the room it has, and pages as one file to print.
namespace feed::io {

/// Lines of a sheet.
inline constexpr std::string_view thin = "fill=\"none\" stroke=\"#000\" stroke-width=\"0.3\"";
inline constexpr std::string_view hair = "stroke=\"#000\" stroke-width=\"0.2\"";

/// Letters on paper, in mm: their size, how wide one is taken to be, and from line to line.
struct Letters {
    double size = 3.6;
    double width = 1.75;
    double line = 5.0;
    std::size_t hang = 2;  ///< letters by which the lines after the first stand in
};

/// Lines that a text takes in so much room.
std::size_t lines_in(std::string_view text, double width, Letters letters = {});

/// Writes a text in lines no longer than `width`, the first on `y`; returns the place below it.
double write_wrapped(SvgDrawing& drawing, double x, double y, double width, std::string_view text,
                     Letters letters = {}, std::string_view style = "");

/// Writes a text in one line of so much room: in smaller letters where it is long, down to three
/// fifths of their size, and then cut short with "...".
/// @param size  of the letters, in units of the drawing. @param style  more attributes.
void write_fitted(SvgDrawing& drawing, double x, double y, double width, std::string_view text,
                  double size = 3.6, std::string_view style = "");

/// Pages, each an SVG, as one HTML page that prints a sheet of paper each.
/// @param size  of the paper, as CSS names it: "A4", "letter landscape".
std::string sheet_html(const std::vector<std::string>& pages, std::string_view title,
                       std::string_view size);

}  // namespace feed::io
