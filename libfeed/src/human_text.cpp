#include "feed/io/human_text.hpp"

#include <algorithm>
#include <iterator>

#include "feed/quantity/amount_words.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/quantity/printable.hpp"

namespace feed::io {
namespace {

std::string with_unit(double number, std::string_view unit) {
    std::string text = significant(number, 2);
    text += ' ';
    text += unit;
    return text;
}

}  // namespace

std::string mass_text(Mass mass, UnitSystem units) {
    return words::mass(in_kilograms(mass), units);
}

std::string volume_text(Volume volume, UnitSystem units) {
    return words::volume(in_litres(volume), units);
}

std::string temperature_text(Temperature temperature, UnitSystem units) {
    return words::temperature(in_celsius(temperature), units);
}

std::string density_text(Density density, UnitSystem units) {
    const double number = in_kilograms_per_cubic_metre(density);
    if (units == UnitSystem::us) {
        constexpr double cubic_foot = metres_per_foot * metres_per_foot * metres_per_foot;
        return with_unit(number * cubic_foot / kilograms_per_pound, "lb/ft3");
    }
    return with_unit(number, "kg/m3");
}

std::string length_text(Length length, UnitSystem units) {
    return words::length(in_metres(length), units);
}

std::string percent_text(double fraction) {
    return words::percent(fraction);
}

std::string cn_ratio_text(double ratio) {
    return significant(ratio, 2) + ":1, carbon to nitrogen by mass";
}

std::size_t columns_of(std::string_view text) noexcept {
    std::size_t count = 0;
    for (const char c : text) {
        if ((static_cast<unsigned char>(c) & 0xC0) != 0x80) ++count;
    }
    return count;
}

std::string padded(std::string_view text, std::size_t columns) {
    std::string filled = printable(text);
    const auto taken = columns_of(filled);
    if (taken < columns) filled.append(columns - taken, ' ');
    return filled;
}

std::string wrapped(std::string_view words, std::size_t first_indent, std::size_t indent,
                    std::size_t width) {
    const std::string text = printable(words);
    std::string lines(first_indent, ' ');
    std::size_t column = first_indent;
    bool line_is_empty = true;
    std::size_t at = 0;
    while (at < text.size()) {
        if (text[at] == ' ' || text[at] == '\n') {
            ++at;
            continue;
        }
        auto end = text.find_first_of(" \n", at);
        if (end == std::string_view::npos) end = text.size();
        const auto word = std::string_view(text).substr(at, end - at);
        const auto length = columns_of(word);
        if (!line_is_empty && column + 1 + length > width) {
            lines.push_back('\n');
            lines.append(indent, ' ');
            column = indent;
            line_is_empty = true;
        }
        if (!line_is_empty) {
            lines.push_back(' ');
            ++column;
        }
        lines += word;
        column += length;
        line_is_empty = false;
        at = end;
    }
    lines.push_back('\n');
    return lines;
}

std::string joined(const std::vector<std::string>& parts, std::string_view last) {
    std::string text;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i > 0 && i + 1 == parts.size())
            text.append(" ").append(last).append(" ");
        else if (i > 0)
            text += ", ";
        text += parts[i];
    }
    return text;
}

std::string capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

std::string counted(std::size_t number, std::string_view thing) {
    std::string text = std::to_string(number) + " ";
    text += thing;
    if (number != 1) text.push_back('s');
    return text;
}

namespace {

/// An error in so many lines can be read at one look.
constexpr std::size_t most_error_lines = 3;

std::size_t lines_in(std::string_view text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

constexpr std::size_t no_limit = 1000;

/// What is allowed, in at most so many lines: of a longer list the first, which are the nearest.
std::string allowed_text(std::string_view allowed, std::size_t room) {
    const std::string_view mark = allowed.find("; ") == std::string_view::npos ? ", " : "; ";
    std::string lines = wrapped("allowed: " + std::string(allowed), 4, 6);
    while (lines_in(lines) > room) {
        const auto last = allowed.rfind(mark);
        if (last == std::string_view::npos) break;
        allowed = allowed.substr(0, last);
        lines = wrapped("allowed: " + std::string(allowed) + " ...", 4, 6);
    }
    return lines;
}

}  // namespace

std::string errors_text(const Errors& errors) {
    std::string text;
    for (const auto& error : errors) {
        std::string line;
        if (!error.file.empty()) {
            line += error.file;
            if (error.line > 0) {
                line += ":" + std::to_string(error.line) + ":" + std::to_string(error.column);
            }
            line += ": ";
        }
        const bool names_file = error.field == "file" || error.field.empty();
        if (!names_file) line += error.field + ": ";
        line += error.message;
        std::string one = wrapped(line, 0, 2);
        // What the message quotes is not said again.
        const bool said = error.value.empty() || error.value == error.file ||
                          line.find("\"" + error.value + "\"") != std::string::npos;
        if (!said) one += wrapped("given: " + error.value, 4, 6);
        const bool repaired = line.find(error.allowed) != std::string::npos;
        // Where no repair is named, the whole list of what is allowed helps.
        const bool near = !error.repairs.empty();
        const bool is_full = near && lines_in(one) >= most_error_lines;
        if (!error.allowed.empty() && !repaired && !is_full)
            one += allowed_text(error.allowed, near ? most_error_lines - lines_in(one) : no_limit);
        text += one;
    }
    return text;
}

}  // namespace feed::io
