#include "feed/io/bin_sheet.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <utility>

#include "feed/io/ration_text.hpp"
#include "feed/quantity/amount_words.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/printable.hpp"
#include "markup.hpp"
#include "site_words.hpp"
#include "svg_drawing.hpp"

namespace feed::io {
namespace {

struct SheetPart {
    std::string_view heading;
    std::vector<std::string> lines;
    bool numbered = false;
};

std::vector<SheetPart> parts_of(const BinSheet& sheet) {
    std::vector<SheetPart> parts;
    parts.push_back({"What to do", sheet.today, false});
    parts.push_back(
        {"Look first",
         {"Lift the lid. Is the old food mostly gone? If not, close it. Ask a grown-up.",
          "Squeeze a handful. One or two drops is just right.",
          "No drops, or lots of drops? Write it down and tell a grown-up.",
          "Smell. It should smell like a forest."},
         true});
    parts.push_back(
        {"On a feeding day",
         {"Weigh the food. Write it down below.", "Cut big bits small. Dig a hole in a new spot.",
          "Put the food in. Cover it with bedding as deep as your hand is wide."},
         true});
    parts.push_back({"Never put in", {std::string(site::never_put_in)}, false});
    parts.push_back({"Do not worry about",
                     {"Mould. Tiny white worms. Tiny bugs that hop. Slow brown mites.",
                      "Worms that roam on the first night in a new bin."},
                     false});
    parts.push_back({"Tell a grown-up",
                     {"Worms are leaving. It stinks. It feels hot. Water stands in it."},
                     false});
    SheetPart clean{
        "Stay clean",
        {std::string(site::wash_hands), std::string(site::mind_dust), std::string(site::germs)},
        false};
    if (sheet.lime) clean.lines.emplace_back(site::lime);
    parts.push_back(std::move(clean));
    return parts;
}

/// What a school or community site writes down.
std::array<std::string, 11> record_columns(UnitSystem units) {
    return {"Day",
            "Who",
            "Food in",
            "Bedding",
            "Warmth" + words::degree_word(units) + ": back, middle, front",
            "Dry, damp or wet",
            "Water in tray",
            "Smell",
            "Worms busy or slow",
            "Bugs",
            "What we did"};
}

/// The record in text, narrow columns with short heads.
std::string text_record(const BinSheet& sheet, int rows) {
    const std::string warm = "Warm" + words::degree_word(sheet.units);
    constexpr std::string_view row =
        "|_______|_______|_______|__/__/_|____|____|_______|______|_____|______";
    std::string record =
        "Day       |Who    |Food in|Bedding|" + warm + " |Wet?|Pool|Smell  |Worms |Bugs |We did\n";
    for (int i = 0; i < rows; ++i) {
        const auto n = static_cast<std::size_t>(i);
        const std::string day = n < sheet.days.size() ? padded(sheet.days[n], 10) : "__________";
        record += day + std::string(row) + "\n";
    }
    record += warm +
              ": back, middle, front. Wet?: dry, damp or wet. Pool: water in the tray?\n"
              "Worms: busy or slow.\n";
    return record;
}

/// Paper of a sheet, and what its print takes, in mm. Letters of 3.6 mm are about 1.75 mm wide.
struct Page {
    std::string_view size;
    double width;
    double height;
};
constexpr double margin_mm = 10.0;
constexpr double line_mm = 4.7;
constexpr double letters_a_mm = 0.55;
constexpr double title_mm = 11.0;
constexpr double heading_mm = 7.0;
constexpr double record_head_mm = 14.0;
constexpr double row_mm = 8.5;

Page page_of(UnitSystem units) noexcept {
    return units == UnitSystem::us ? Page{"letter", 215.9, 279.4} : Page{"A4", 210.0, 297.0};
}

/// The record: so many rows, so high, that it fills the page below the words.
struct Record {
    int rows;
    double row_mm;
};
Record log_of(const BinSheet& sheet, const std::vector<SheetPart>& parts, const Page& page) {
    double used = title_mm + record_head_mm;
    const auto letters = static_cast<std::size_t>((page.width - 2.0 * margin_mm) * letters_a_mm);
    for (const SheetPart& part : parts) {
        used += heading_mm;
        for (const std::string& line : part.lines)
            used += line_mm * (1.0 + std::floor(static_cast<double>(columns_of(line)) /
                                                static_cast<double>(letters)));
    }
    const double left = std::max(0.0, page.height - 2.0 * margin_mm - used);
    const int rows = std::clamp(static_cast<int>(left / row_mm), 0, std::clamp(sheet.rows, 0, 20));
    return {rows, rows > 0 ? std::clamp(left / rows, row_mm, 1.5 * row_mm) : row_mm};
}

std::string style_of(const Page& page, double high_mm) {
    const auto mm = [](double number) { return place(number) + "mm"; };
    return "<style>@page{size:" + std::string(page.size) + ";margin:" + mm(margin_mm) +
           "}body{font:3.5mm/" + mm(line_mm) +
           " sans-serif;color:#000;background:#fff;max-width:" + mm(page.width - 2.0 * margin_mm) +
           ";margin:0 auto}h1{font-size:5.6mm;line-height:7mm;margin:0 0 2mm}"
           "h2{font-size:4mm;line-height:5mm;margin:1.7mm 0 .3mm}"
           "ul,ol{margin:0;padding-left:6mm}"
           "table{border-collapse:collapse;width:100%;margin-top:2.5mm;font-size:2.8mm;"
           "line-height:3.2mm;table-layout:fixed}"
           "th,td{border:.25mm solid #000;padding:.5mm 1mm;text-align:left;"
           "vertical-align:bottom}td{height:" +
           mm(high_mm - 1.3) + "}</style>\n";
}

}  // namespace

BinSheet bin_sheet_of(std::string name, const Ration& ration, UnitSystem units) {
    BinSheet sheet;
    sheet.bin = std::move(name);
    for (const ScreenLine& line : ration_screen(ration, units))
        sheet.today.push_back((line.goes_in ? "Put in: " : "") +
                              std::string(detail::trim(line.text)));
    sheet.lime = ration.lime_kg > 0.0;
    sheet.units = units;
    if (ration.date) {
        std::vector<int> days{0, ration.next_look};
        if (ration.next_feeding) days.push_back(ration.next_feeding->day);
        std::sort(days.begin(), days.end());
        days.erase(std::unique(days.begin(), days.end()), days.end());
        for (const int day : days)
            sheet.days.push_back(day_words(ration.date, day, units));
    }
    return sheet;
}

std::string bin_sheet_text(const BinSheet& sheet) {
    std::string page =
        "THE WORM BIN" + (sheet.bin.empty() ? "" : ": " + printable(sheet.bin)) + "\n";
    for (const SheetPart& part : parts_of(sheet)) {
        page += "\n" + std::string(part.heading) + "\n";
        for (std::size_t i = 0; i < part.lines.size(); ++i) {
            const std::string mark = part.numbered ? std::to_string(i + 1) + ". " : "- ";
            page += wrapped(mark + part.lines[i], 1, 1 + mark.size());
        }
    }
    constexpr int page_lines = 66;
    constexpr int record_words = 4;
    const auto used = static_cast<int>(std::count(page.begin(), page.end(), '\n'));
    const int rows = std::clamp(page_lines - record_words - used, 0, std::clamp(sheet.rows, 0, 20));
    if (rows > 0) page += "\n" + text_record(sheet, rows);
    return page;
}

std::string bin_sheet_html(const BinSheet& sheet) {
    const Page paper = page_of(sheet.units);
    const std::vector<SheetPart> parts = parts_of(sheet);
    const Record record = log_of(sheet, parts, paper);
    const std::string title = "The worm bin" + (sheet.bin.empty() ? "" : ": " + sheet.bin);
    std::string page =
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
        "<title>" +
        markup_text(title) + "</title>\n" + style_of(paper, record.row_mm) +
        "</head>\n<body>\n<h1>" + markup_text(title) + "</h1>\n";
    for (const SheetPart& part : parts) {
        const std::string list = part.numbered ? "ol" : "ul";
        page += "<h2>" + markup_text(part.heading) + "</h2>\n<" + list + ">\n";
        for (const std::string& line : part.lines)
            page += "<li>" + markup_text(line) + "</li>\n";
        page += "</" + list + ">\n";
    }
    const int rows = record.rows;
    const auto columns = record_columns(sheet.units);
    if (rows > 0) {
        page += "<table>\n<thead><tr>";
        for (const std::string& column : columns)
            page += "<th scope=\"col\">" + markup_text(column) + "</th>";
        page += "</tr></thead>\n<tbody>\n";
        for (int i = 0; i < rows; ++i) {
            const auto n = static_cast<std::size_t>(i);
            const std::string day = n < sheet.days.size() ? markup_text(sheet.days[n]) : "";
            page += "<tr><td>" + day + "</td>";
            for (std::size_t c = 1; c < columns.size(); ++c)
                page += "<td></td>";
            page += "</tr>\n";
        }
        page += "</tbody>\n</table>\n";
    }
    page += "</body>\n</html>\n";
    return page;
}

}  // namespace feed::io
