#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "feed/io/trial_pictures.hpp"
#include "sheet_pages.hpp"
#include "svg_drawing.hpp"

namespace feed::io {
namespace {

constexpr double margin = 12.0;
/// Room for the day and who looked, left of the boxes.
constexpr double tick_left = 42.0;
constexpr std::string_view bold = "font-weight=\"bold\" font-size=\"4\"";

/// Pages of one size; lengths in millimetres.
class Sheet {
public:
    Sheet(const TrialPlan& plan, std::string_view title, Paper paper)
        : plan_(plan),
          trial_(plan.trial),
          title_(title.empty() ? "A feeding trial" : title),
          width_(paper == Paper::a4 ? 210.0 : 215.9),
          height_(paper == Paper::a4 ? 297.0 : 279.4) {}

    std::vector<std::string> pages() {
        draw_maps();
        draw_ticks();
        draw_key();
        return std::move(pages_);
    }

private:
    SvgDrawing page(std::string_view what) const {
        SvgDrawing drawing(width_, height_, "mm", 3.6, title_ + ": " + std::string(what));
        drawing.write(width_ - margin, 10.0, what, "text-anchor=\"end\" font-size=\"4\"");
        drawing.write(margin, 17.0, title_, "font-size=\"5\" font-weight=\"bold\"");
        return drawing;
    }

    /// Lines no longer than the page; returns the place below the last.
    double paragraph(SvgDrawing& drawing, double y, std::string_view text,
                     std::string_view style = "") const {
        // Bold letters are wider.
        Letters letters;
        if (!style.empty()) letters.width *= 1.15;
        return write_wrapped(drawing, margin, y, width_ - 2.0 * margin, text, letters, style);
    }

    std::string day_words(std::size_t round, int day) const {
        std::string words = "day " + std::to_string(day);
        return round < trial_.starts.size()
                   ? words + ", " + text(date_of(day_number(trial_.starts[round]) + day))
                   : words;
    }

    std::string rounds_text() const {
        if (trial_.design.rounds == 1) return "";
        return " The " + std::to_string(trial_.design.rounds) +
               " rounds follow one another: lay the next when one has ended, on its day " +
               std::to_string(*trial_.last_day) + ".";
    }

    double instructions(SvgDrawing& drawing) const {
        double y = 27.0;
        std::string look = "Look on day ";
        for (std::size_t i = 0; i < plan_.look_days.size(); ++i)
            look += (i > 0 ? ", " : "") + std::to_string(plan_.look_days[i]);
        // Whoever lays by the sheet must not miss what the plan says first.
        if (!plan_.wait.empty()) y = paragraph(drawing, y, plan_.wait, "font-weight=\"bold\"");
        y = paragraph(drawing, y, "Weigh off, for each portion:" + weigh_fresh_text(trial_));
        for (std::size_t i = 0; i < trial_.feeds.size(); ++i)
            y = paragraph(drawing, y, "- " + trial_.feeds[i].label + ": " + plan_.measures[i]);
        y = paragraph(
            drawing, y,
            "1. Wet the bedding first. Lay each portion at its place, all equally deep, "
            "cover alike. Which feed lies where stands on the key page. Put the key away.");
        y = paragraph(drawing, y,
                      "2. " + look +
                          " after laying. Tick one box for worms and one "
                          "for what is left. Do not read the key." +
                          rounds_text());
        y = paragraph(drawing, y,
                      "3. Disturb as little as you can, and all plots alike. Wash your hands.");
        return y + 3.0;
    }

    /// Bins with their numbered places, at most so many on a page.
    void draw_maps() {
        const std::size_t blocks = trial_.design.bins * trial_.design.rounds;
        const std::size_t each = plan_.layout.plots.size() / blocks;
        std::size_t block = 0;
        while (block < blocks) {
            SvgDrawing drawing = page(block == 0 ? "the places" : "the places, continued");
            double top = block == 0 ? instructions(drawing) : 27.0;
            const double box_width = (width_ - 2.0 * margin - 8.0) / 3.0;
            const std::size_t columns = each <= 3                ? each
                                        : each == 5 || each == 6 ? 3
                                        : each <= 8              ? 4
                                                                 : 6;
            const std::size_t rows = (each + columns - 1) / columns;
            const double cell = std::min(13.0, (box_width - 4.0) / static_cast<double>(columns));
            const double box_height = 9.0 + cell * static_cast<double>(rows) + 3.0;
            std::size_t column = 0;
            for (; block < blocks && top + box_height < height_ - margin; ++block) {
                draw_bin(drawing, margin + static_cast<double>(column) * (box_width + 4.0), top,
                         box_width, box_height, cell, columns, block, each);
                if (++column == 3) {
                    column = 0;
                    top += box_height + 4.0;
                }
            }
            pages_.push_back(drawing.done());
        }
    }

    void draw_bin(SvgDrawing& drawing, double x, double y, double width, double height, double cell,
                  std::size_t columns, std::size_t block, std::size_t each) const {
        drawing.box(x, y, width, height, thin);
        const std::size_t round = block / trial_.design.bins;
        write_fitted(drawing, x + 2.0, y + 6.0, width - 4.0,
                     trial_.bins[block % trial_.design.bins] +
                         (trial_.design.rounds > 1 ? ", round " + std::to_string(round + 1) : ""));
        const double left = x + 0.5 * (width - cell * static_cast<double>(columns));
        for (std::size_t i = 0; i < each; ++i) {
            const double at_x = left + cell * static_cast<double>(i % columns);
            const std::size_t line = i / columns;
            const double at_y = y + 9.0 + cell * static_cast<double>(line);
            drawing.box(at_x + 0.8, at_y + 0.8, cell - 1.6, cell - 1.6, thin);
            drawing.write(at_x + 0.5 * cell, at_y + 0.5 * cell + 1.8,
                          std::to_string(block * each + i + 1),
                          "text-anchor=\"middle\" font-size=\"5\" font-weight=\"bold\"");
        }
    }

    void draw_ticks() {
        constexpr std::size_t across = 6;
        const double row_height = 17.0;
        const double column = (width_ - 2.0 * margin - tick_left) / across;
        const auto rows = static_cast<std::size_t>((height_ - 60.0) / row_height);
        const std::size_t per_round = plan_.layout.plots.size() / trial_.design.rounds;
        for (std::size_t round = 0; round < trial_.design.rounds; ++round) {
            for (std::size_t first = 0; first < per_round; first += across) {
                const std::size_t count = std::min(across, per_round - first);
                for (std::size_t day = 0; day < plan_.look_days.size(); day += rows) {
                    SvgDrawing drawing =
                        page(trial_.design.rounds > 1 ? "looks, round " + std::to_string(round + 1)
                                                      : "looks");
                    drawing.write(margin, 25.0,
                                  "Worms on it: none, few, many. Left: all, three quarters, half, "
                                  "a quarter, none (0).");
                    draw_tick_table(drawing, round, round * per_round + first, count, day,
                                    std::min(rows, plan_.look_days.size() - day), column,
                                    row_height);
                    pages_.push_back(drawing.done());
                }
            }
        }
    }

    void draw_tick_table(SvgDrawing& drawing, std::size_t round, std::size_t first,
                         std::size_t count, std::size_t from, std::size_t rows, double column,
                         double row_height) const {
        const double left = margin + tick_left;
        const double top = 36.0;
        const double right = left + column * static_cast<double>(count);
        for (std::size_t i = 0; i < count; ++i)
            drawing.write(left + column * (static_cast<double>(i) + 0.5), top - 3.0,
                          "plot " + std::to_string(first + i + 1),
                          std::string("text-anchor=\"middle\" ") + std::string(bold));
        for (std::size_t r = 0; r <= rows; ++r) {
            const double y = top + row_height * static_cast<double>(r);
            drawing.line(margin, y, right, y, hair);
            if (r == rows) break;
            drawing.write(margin, y + 6.0, day_words(round, plan_.look_days[from + r]));
            drawing.write(margin, y + 13.5, "who:", "font-size=\"3\"");
            drawing.line(margin + 7.0, y + 14.0, left - 11.0, y + 14.0, hair);
            drawing.write(left - 1.0, y + 4.2, "worms", "text-anchor=\"end\" font-size=\"2.8\"");
            drawing.write(left - 1.0, y + 11.8, "left", "text-anchor=\"end\" font-size=\"2.8\"");
            for (std::size_t i = 0; i < count; ++i)
                draw_cell(drawing, left + column * static_cast<double>(i), y, column);
        }
        for (std::size_t i = 0; i <= count; ++i) {
            const double x = left + column * static_cast<double>(i);
            drawing.line(x, top, x, top + row_height * static_cast<double>(rows), hair);
        }
    }

    static void draw_cell(SvgDrawing& drawing, double x, double y, double width) {
        const auto boxes = [&](double at, std::initializer_list<std::string_view> words) {
            const double step = (width - 2.0) / static_cast<double>(words.size());
            double place_x = x + 1.0;
            for (const auto word : words) {
                drawing.box(place_x + 0.5 * step - 1.6, at, 3.2, 3.2, thin);
                drawing.write(place_x + 0.5 * step, at + 5.9, word,
                              "text-anchor=\"middle\" font-size=\"2.4\"");
                place_x += step;
            }
        };
        boxes(y + 1.4, {"none", "few", "many"});
        boxes(y + 9.0, {"all", "3/4", "1/2", "1/4", "0"});
    }

    void draw_key() {
        constexpr std::size_t columns = 2;
        const double row = 6.0;
        const auto rows = static_cast<std::size_t>((height_ - 55.0) / row);
        const auto& plots = plan_.layout.plots;
        for (std::size_t from = 0; from < plots.size(); from += columns * rows) {
            SvgDrawing drawing = page("the key");
            paragraph(drawing, 27.0,
                      "For the one who lays the portions. Keep it away from the one who looks. "
                      "Seed " +
                          std::to_string(plan_.layout.seed) + ".");
            for (std::size_t i = from; i < std::min(plots.size(), from + columns * rows); ++i) {
                const std::size_t in_page = i - from;
                const std::size_t column = in_page / rows;
                const double x =
                    margin + (width_ - 2.0 * margin) * static_cast<double>(column) / columns;
                const double y = 42.0 + row * static_cast<double>(in_page % rows);
                const Plot& plot = plots[i];
                drawing.write(x, y, "plot " + std::to_string(plot.number), bold);
                const bool one_column = plots.size() - from <= rows;
                write_fitted(
                    drawing, x + 20.0, y, (width_ - 2.0 * margin) / (one_column ? 1 : 2) - 22.0,
                    (plot.feed ? trial_.feeds[*plot.feed].label : "bedding only") + " (" +
                        trial_.bins[plot.bin] +
                        (trial_.design.rounds > 1 ? ", round " + std::to_string(plot.round + 1)
                                                  : "") +
                        ")");
            }
            pages_.push_back(drawing.done());
        }
    }

    const TrialPlan& plan_;
    const Trial& trial_;
    std::string title_;
    double width_;
    double height_;
    std::vector<std::string> pages_;
};

}  // namespace

std::vector<std::string> trial_sheet(const TrialPlan& plan, std::string_view title, Paper paper) {
    return Sheet(plan, title, paper).pages();
}

std::string trial_sheet_html(const std::vector<std::string>& pages, std::string_view title,
                             Paper paper) {
    return sheet_html(pages, title.empty() ? "A feeding trial" : title,
                      paper == Paper::a4 ? "A4" : "letter");
}

}  // namespace feed::io
