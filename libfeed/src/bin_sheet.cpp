#include "feed/io/bin_sheet.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "feed/io/ration_text.hpp"
#include "feed/quantity/printable.hpp"
#include "markup.hpp"
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
          "No drops? Add a cup of water. Lots of drops? Add dry torn card.",
          "Smell. It should smell like a forest."},
         true});
    parts.push_back(
        {"Then feed",
         {"Weigh the food. Write it down below.", "Cut big bits small. Dig a hole in a new spot.",
          "Put the food in. Cover it with bedding as deep as your hand is wide."},
         true});
    parts.push_back(
        {"Never put in",
         {"Meat, fish, bones, cheese, oil, salty food, pet mess, shiny paper, plastic."},
         false});
    parts.push_back({"Do not worry about",
                     {"Mould. Tiny white worms. Tiny bugs that hop. Slow brown mites.",
                      "Worms that roam on the first night in a new bin."},
                     false});
    parts.push_back({"Tell a grown-up",
                     {"Worms are leaving. It stinks. It feels hot. Water stands in it."},
                     false});
    SheetPart clean{"Stay clean",
                    {"Wash your hands with soap when you are done. Cover cuts.",
                     "Keep your face away from dust. Do not stir a dry bin.",
                     "The bin does not kill germs. Do not put your hands in your mouth."},
                    false};
    if (sheet.lime) clean.lines.push_back("Lime is for grown-ups only. Its dust hurts your eyes.");
    parts.push_back(std::move(clean));
    return parts;
}

/// What a school or community site writes down.
constexpr std::array<std::string_view, 11> columns{"Date",
                                                   "Who",
                                                   "Food in",
                                                   "Bedding",
                                                   "Warmth back, middle, front",
                                                   "Dry, damp or wet",
                                                   "Water in tray",
                                                   "Smell",
                                                   "Worms busy or slow",
                                                   "Bugs",
                                                   "What we did"};

/// The record in text, narrow columns with short heads.
std::string text_record(int rows) {
    constexpr std::string_view head =
        "Date      |Who    |Food in|Bedding|Warm C |Wet?|Pool|Smell  |Worms |Bugs |We did";
    constexpr std::string_view row =
        "__________|_______|_______|_______|__/__/_|____|____|_______|______|_____|______";
    std::string record = std::string(head) + "\n";
    for (int i = 0; i < rows; ++i)
        record += std::string(row) + "\n";
    record +=
        "Warm C: back, middle, front. Wet?: dry, damp or wet. Pool: water in the tray?\n"
        "Worms: busy or slow.\n";
    return record;
}

constexpr std::string_view page_style =
    "<style>@page{size:A4;margin:10mm}"
    "body{font:13px/1.3 sans-serif;color:#000;background:#fff;max-width:190mm;margin:0 auto}"
    "h1{font-size:22px;margin:4px 0}h2{font-size:15px;margin:7px 0 1px}"
    "ul,ol{margin:0;padding-left:20px}"
    "table{border-collapse:collapse;width:100%;margin-top:8px;font-size:10px}"
    "th,td{border:1px solid #000;height:26px;padding:1px 3px;text-align:left;"
    "vertical-align:bottom;width:9%}"
    "</style>\n";

}  // namespace

BinSheet bin_sheet_of(std::string name, const Ration& ration, UnitSystem units) {
    BinSheet sheet;
    sheet.bin = std::move(name);
    for (std::string line : ration_lines(ration, units)) {
        const bool is_portion = line[0] == ' ';
        line.erase(0, line.find_first_not_of(' '));
        sheet.today.push_back((is_portion ? "Put in: " : "") + line);
    }
    sheet.lime = ration.lime_kg > 0.0;
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
    const int rows = std::clamp(sheet.rows, 0, 20);
    if (rows > 0) page += "\n" + text_record(rows);
    return page;
}

std::string bin_sheet_html(const BinSheet& sheet) {
    const std::string title = "The worm bin" + (sheet.bin.empty() ? "" : ": " + sheet.bin);
    std::string page =
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
        "<title>" +
        markup_text(title) + "</title>\n" + std::string(page_style) + "</head>\n<body>\n<h1>" +
        markup_text(title) + "</h1>\n";
    for (const SheetPart& part : parts_of(sheet)) {
        const std::string list = part.numbered ? "ol" : "ul";
        page += "<h2>" + markup_text(part.heading) + "</h2>\n<" + list + ">\n";
        for (const std::string& line : part.lines)
            page += "<li>" + markup_text(line) + "</li>\n";
        page += "</" + list + ">\n";
    }
    const int rows = std::clamp(sheet.rows, 0, 20);
    if (rows > 0) {
        page += "<table>\n<thead><tr>";
        for (const std::string_view column : columns)
            page += "<th scope=\"col\">" + markup_text(column) + "</th>";
        page += "</tr></thead>\n<tbody>\n";
        for (int i = 0; i < rows; ++i) {
            page += "<tr>";
            for (std::size_t c = 0; c < columns.size(); ++c)
                page += "<td></td>";
            page += "</tr>\n";
        }
        page += "</tbody>\n</table>\n";
    }
    page += "</body>\n</html>\n";
    return page;
}

}  // namespace feed::io
