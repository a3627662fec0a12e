#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "feed/io/human_text.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/week_answer.hpp"
#include "sheet_pages.hpp"
#include "site_words.hpp"
#include "svg_drawing.hpp"
#include "week_words.hpp"

namespace feed::io {
namespace {

constexpr double edge = 9.0;
constexpr double day_width = 17.0;
constexpr std::size_t most_columns = 5;
constexpr double head_height = 12.0;
constexpr double least_row = 10.5;
constexpr double pad = 1.8;
constexpr double tick = 3.0;
/// Room for the line on which who did it signs.
constexpr double sign_height = 6.0;
/// Letters of a size, in mm.
constexpr Letters letters_of(double size) {
    return {size, 0.53 * size, 1.25 * size, 0};
}
constexpr double usual_size = 3.4;
constexpr Letters usual = letters_of(usual_size);
/// The smallest that all bins side by side may ask for: 8.5 point.
constexpr double smallest_size = 3.0;
constexpr std::string_view thick = "stroke=\"#000\" stroke-width=\"0.5\"";

/// One bin on one day: what to do, a box to tick each.
struct Cell {
    std::vector<std::string> steps;
    std::string remark;  ///< without a box
};

/// Paper on its side, in mm.
struct WidePage {
    std::string_view size;
    double width;
    double height;
};
WidePage page_of(UnitSystem units) noexcept {
    return units == UnitSystem::us ? WidePage{"letter landscape", 279.4, 215.9}
                                   : WidePage{"A4 landscape", 297.0, 210.0};
}

Cell cell_of(const WeekOfBin& bin, int day, const WeekPlan& plan, UnitSystem units) {
    Cell cell;
    if (const WeekOpening* opening = opening_on(bin, day)) {
        for (std::string& step : steps_of(opening->ration, units))
            cell.steps.push_back(capital(std::move(step)));
        return cell;
    }
    if (day != 0) return cell;
    if (!bin.openings.empty() && !waits_with_a_step(bin)) return cell;
    cell.remark = capital(closed_words(bin, plan.today, units));
    if (bin.today.answer != RationAnswer::act_first && !waits_with_a_step(bin)) return cell;
    // What its own ration says to do today, below the answer and without the reasons.
    const auto lines = ration_lines(bin.today, units);
    for (std::size_t i = 1; i < lines.size() && lines[i].substr(0, 4) != "Why:"; ++i)
        cell.steps.push_back(lines[i].substr(lines[i].find_first_not_of(' ')));
    return cell;
}

/// The sheet of a week; lengths in millimetres.
class WeekSheet {
public:
    WeekSheet(const WeekPlan& plan, UnitSystem units)
        : plan_(plan), units_(units), page_(page_of(units)) {
        title_ = "Worm bins, " + day_words(plan.today, 0, units) + " to " +
                 day_words(plan.today, week_days - 1, units);
        for (const WeekOfBin& bin : plan.bins) {
            cells_.emplace_back();
            for (int day = 0; day < week_days; ++day)
                cells_.back().push_back(cell_of(bin, day, plan, units));
        }
        add_notes();
    }

    std::vector<std::string> pages() {
        std::size_t columns = std::min(most_columns, plan_.bins.size());
        while (columns > 1 && !all_fit(columns))
            --columns;
        // As many on each page, so that no page has one alone.
        const std::size_t count = (plan_.bins.size() + columns - 1) / columns;
        columns = (plan_.bins.size() + count - 1) / count;
        std::vector<std::string> pages;
        for (std::size_t first = 0; first < plan_.bins.size(); first += columns)
            pages.push_back(
                page(first, std::min(columns, plan_.bins.size() - first), pages.size() + 1, count));
        return pages;
    }

    [[nodiscard]] const std::string& title() const noexcept { return title_; }

private:
    /// What stands below the table.
    void add_notes() {
        for (const TakeOut& one : plan_.take_out)
            notes_.push_back(never_text(one));
        notes_.emplace_back(look_before_feeding);
        for (std::string& line : from_stock_lines(plan_, units_))
            notes_.push_back(std::move(line));
        for (std::string& line : rest_lines(plan_, units_))
            notes_.push_back(std::move(line));
        for (std::string& line : week_cautions(plan_))
            notes_.push_back(std::move(line));
        notes_.push_back("Never put in: " + std::string(site::never_put_in));
        notes_.push_back(std::string(site::wash_hands) + " " + std::string(site::germs));
        const bool lime = std::any_of(plan_.bins.begin(), plan_.bins.end(), [](const auto& bin) {
            return bin.today.lime_kg > 0.0 ||
                   std::any_of(bin.openings.begin(), bin.openings.end(),
                               [](const auto& one) { return one.ration.lime_kg > 0.0; });
        });
        if (lime) notes_.emplace_back(site::lime);
    }

    [[nodiscard]] double table_width() const { return page_.width - 2.0 * edge; }
    [[nodiscard]] double column_width(std::size_t columns) const {
        return (table_width() - day_width) / static_cast<double>(columns);
    }
    [[nodiscard]] double notes_height() const {
        double lines = 0.0;
        for (const std::string& note : notes_)
            lines += static_cast<double>(lines_in(note, table_width(), usual));
        return lines * usual.line + 2.0;
    }
    static constexpr double table_top = edge + 15.5;
    [[nodiscard]] double room() const {
        return page_.height - edge - notes_height() - table_top - head_height;
    }

    static double height_of(const Cell& cell, double width, Letters letters) {
        double lines = 0.0;
        for (const std::string& step : cell.steps)
            lines += static_cast<double>(lines_in(step, width - 2.0 * pad - tick - 1.2, letters));
        if (!cell.remark.empty())
            lines += static_cast<double>(lines_in(cell.remark, width - 2.0 * pad, letters));
        const double text = lines * letters.line + 2.0 * pad;
        return cell.steps.empty() ? text : text + sign_height;
    }

    [[nodiscard]] std::vector<double> row_heights(std::size_t first, std::size_t count,
                                                  Letters letters) const {
        std::vector<double> heights(week_days, least_row);
        for (std::size_t b = first; b < first + count; ++b) {
            for (std::size_t day = 0; day < heights.size(); ++day)
                heights[day] =
                    std::max(heights[day], height_of(cells_[b][day], column_width(count), letters));
        }
        return heights;
    }
    static double sum_of(const std::vector<double>& heights) {
        double sum = 0.0;
        for (const double height : heights)
            sum += height;
        return sum;
    }
    [[nodiscard]] bool all_fit(std::size_t columns) const {
        for (std::size_t first = 0; first < plan_.bins.size(); first += columns) {
            const std::size_t count = std::min(columns, plan_.bins.size() - first);
            if (sum_of(row_heights(first, count, letters_of(smallest_size))) > room()) return false;
        }
        return true;
    }

    std::string page(std::size_t first, std::size_t count, std::size_t number,
                     std::size_t of) const {
        // A bin that is given more things than a page has lines for gets smaller letters.
        Letters letters = usual;
        while (letters.size > 1.2 && sum_of(row_heights(first, count, letters)) > room())
            letters = letters_of(0.975 * letters.size);
        std::vector<double> heights = row_heights(first, count, letters);
        const double more = std::max(0.0, room() - sum_of(heights)) / week_days;
        for (double& height : heights)
            height += more;
        SvgDrawing drawing(page_.width, page_.height, "mm", letters.size, title_);
        drawing.write(edge, edge + 5.0, title_, "font-size=\"6\" font-weight=\"bold\"");
        if (of > 1)
            drawing.write(page_.width - edge, edge + 5.0,
                          "page " + std::to_string(number) + " of " + std::to_string(of),
                          "text-anchor=\"end\" font-size=\"3.4\"");
        drawing.write(edge, edge + 12.0,
                      week_headline(plan_, units_) + " Tick each box when it is done, and sign.",
                      "font-size=\"4\"");
        draw_head(drawing, first, count);
        draw_rows(drawing, first, count, heights, letters);
        double y = page_.height - edge - notes_height() + 5.5;
        for (const std::string& note : notes_)
            y = write_wrapped(drawing, edge, y, table_width(), note, usual, "font-size=\"3.4\"");
        return drawing.done();
    }

    void draw_head(SvgDrawing& drawing, std::size_t first, std::size_t count) const {
        const double width = column_width(count);
        for (std::size_t i = 0; i < count; ++i) {
            const WeekOfBin& bin = plan_.bins[first + i];
            const double x = edge + day_width + width * static_cast<double>(i) + pad;
            const double room = width - 2.0 * pad;
            constexpr double bold_is_wider = 1.25;
            write_fitted(drawing, x, table_top + 5.0, room / bold_is_wider, bin.name, 4.2,
                         "font-weight=\"bold\"");
            if (!bin.group.empty())
                write_fitted(drawing, x, table_top + 10.0, room, "fed by " + bin.group, 3.4);
        }
    }

    void draw_rows(SvgDrawing& drawing, std::size_t first, std::size_t count,
                   const std::vector<double>& heights, Letters letters) const {
        const double width = column_width(count);
        const double right = edge + table_width();
        double y = table_top + head_height;
        drawing.line(edge, y, right, y, thick);
        for (std::size_t day = 0; day < heights.size(); ++day) {
            const std::string words = day_words(plan_.today, static_cast<int>(day), units_);
            const auto blank = words.find(' ');
            drawing.write(edge, y + 5.0, words.substr(0, blank),
                          "font-size=\"4.2\" font-weight=\"bold\"");
            if (blank != std::string::npos)
                drawing.write(edge, y + 9.0 - 0.2, words.substr(blank + 1), "font-size=\"3.4\"");
            for (std::size_t i = 0; i < count; ++i)
                draw_cell(drawing, edge + day_width + width * static_cast<double>(i), y, width,
                          heights[day], cells_[first + i][day], letters);
            y += heights[day];
            drawing.line(edge, y, right, y, hair);
        }
        for (std::size_t i = 0; i <= count; ++i) {
            const double x = edge + day_width + width * static_cast<double>(i);
            drawing.line(x, table_top, x, y, hair);
        }
    }

    static void draw_cell(SvgDrawing& drawing, double x, double y, double width, double height,
                          const Cell& cell, Letters letters) {
        double at = y + pad + 0.8 * letters.size;
        if (!cell.remark.empty())
            at = write_wrapped(drawing, x + pad, at, width - 2.0 * pad, cell.remark, letters,
                               "font-weight=\"bold\"");
        for (const std::string& step : cell.steps) {
            drawing.box(x + pad, at - 0.85 * letters.size, tick * letters.size / usual.size,
                        tick * letters.size / usual.size, thin);
            at = write_wrapped(drawing, x + pad + tick + 1.2, at, width - 2.0 * pad - tick - 1.2,
                               step, letters);
        }
        if (cell.steps.empty()) return;
        const double sign = y + height - 2.0;
        drawing.write(x + pad, sign, "who:", "font-size=\"2.8\"");
        drawing.line(x + pad + 8.0, sign, x + width - pad, sign, hair);
    }

    const WeekPlan& plan_;
    UnitSystem units_;
    WidePage page_;
    std::string title_;
    std::vector<std::vector<Cell>> cells_;  ///< of each bin, by day
    std::vector<std::string> notes_;
};

}  // namespace

std::vector<std::string> week_sheet(const WeekPlan& plan, UnitSystem units) {
    return WeekSheet(plan, units).pages();
}

std::string week_sheet_html(const WeekPlan& plan, UnitSystem units) {
    WeekSheet sheet(plan, units);
    return sheet_html(sheet.pages(), sheet.title(), page_of(units).size);
}

}  // namespace feed::io
