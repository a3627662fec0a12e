#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "feed/io/trial_pictures.hpp"
#include "sheet_pages.hpp"
#include "svg_drawing.hpp"

namespace feed::io {
namespace {

constexpr double width = 720.0;
constexpr double left = 150.0;
constexpr double right = 690.0;
constexpr double row_height = 15.0;
// Hues of the palette by Okabe and Ito (2008), darker where thin; each with its own letter.
constexpr const char* colours[] = {"#0072B2", "#B34700", "#00785A", "#7A4B7A"};
constexpr const char* dashes[] = {"", " stroke-dasharray=\"8 3\"", " stroke-dasharray=\"2 2\"",
                                  " stroke-dasharray=\"8 3 2 3\""};

std::string letter(std::size_t feed) {
    return std::string(1, static_cast<char>('A' + feed));
}

void bare_shape(SvgDrawing& drawing, std::size_t bin, double x, double y, const char* colour) {
    const std::string style =
        std::string("fill=\"#fff\" stroke-width=\"1.6\" stroke=\"") + colour + "\"";
    const auto point = [&](double dx, double dy) { return place(x + dx) + " " + place(y + dy); };
    switch (bin % 8) {
        case 0:
            return drawing.circle(x, y, 4.5, style);
        case 1:
            return drawing.box(x - 4.0, y - 4.0, 8.0, 8.0, style);
        case 2:
            return drawing.path(
                "M" + point(0, -5) + " L" + point(5, 4) + " L" + point(-5, 4) + " Z", style);
        case 3:
            return drawing.path("M" + point(0, -5.5) + " L" + point(5.5, 0) + " L" + point(0, 5.5) +
                                    " L" + point(-5.5, 0) + " Z",
                                style);
        case 4:
            return drawing.path(
                "M" + point(0, 5) + " L" + point(5, -4) + " L" + point(-5, -4) + " Z", style);
        case 5:
            return drawing.path("M" + point(-4, -4) + " L" + point(4, 4) + " M" + point(-4, 4) +
                                    " L" + point(4, -4),
                                style);
        case 6:
            return drawing.path(
                "M" + point(-5, 0) + " L" + point(5, 0) + " M" + point(0, -5) + " L" + point(0, 5),
                style);
        default:
            return drawing.path("M" + point(-4, 4) + " L" + point(-4, -4) + " L" + point(4, -4) +
                                    " L" + point(4, 4),
                                style);
    }
}

/// Eight shapes, then the same with the number of the bin beside.
void shape(SvgDrawing& drawing, std::size_t bin, double x, double y, const char* colour) {
    bare_shape(drawing, bin, x, y, colour);
    if (bin >= 8)
        drawing.write(x + 5.0, y + 7.0, std::to_string(bin + 1),
                      std::string("font-size=\"8\" fill=\"") + colour + "\"");
}

class Picture {
public:
    Picture(const Trial& trial, const TrialReading& reading, std::string_view title)
        : trial_(trial),
          reading_(reading),
          title_(title.empty() ? "A feeding trial" : title),
          words_(trial_reading_text(trial, reading, false)),
          last_(std::max({1.0, static_cast<double>(reading.last_look),
                          static_cast<double>(reading.last_day)})) {
        for (const PlotRecord& plot : reading.plots) {
            const PlotInterval& interval = detail::asked(plot, trial.question);
            last_ = std::max(last_, interval.by_days.value_or(interval.after_days));
        }
        for (std::size_t feed = 0; feed < trial.feeds.size(); ++feed) {
            for (std::size_t i = 0; i < reading.plots.size(); ++i) {
                if (reading.layout.plots[i].feed == feed) rows_.push_back(i);
            }
        }
    }

    std::string draw() {
        const auto lines = static_cast<double>(std::count(words_.begin(), words_.end(), '\n'));
        const double words_height = 16.0 * lines + 12.0;
        const double bars = row_height * static_cast<double>(rows_.size()) + 40.0;
        const double slopes = 210.0;
        const double maps = map_height();
        const double height = 40.0 + words_height + key_height() + bars + slopes + 60.0 + maps;
        SvgDrawing drawing(width, height, "", 12.0, title_);
        drawing.write(20.0, 26.0, title_, "font-size=\"17\" font-weight=\"bold\"");
        double y = draw_words(drawing, 48.0);
        y = draw_key(drawing, y + 4.0);
        y = draw_bars(drawing, y + 18.0);
        y = draw_slopes(drawing, y + 26.0);
        y = draw_order(drawing, y + 24.0);
        draw_map(drawing, y + 24.0);
        return drawing.done();
    }

private:
    const PlotInterval& seen(std::size_t plot) const {
        return detail::asked(reading_.plots[plot], trial_.question);
    }
    double x_of(double day) const { return left + (right - left) * day / last_; }

    double draw_words(SvgDrawing& drawing, double y) const {
        std::size_t at = 0;
        while (at < words_.size()) {
            const std::size_t end = words_.find('\n', at);
            drawing.write(20.0, y, std::string_view(words_).substr(at, end - at));
            y += 16.0;
            at = end + 1;
        }
        return y;
    }

    double key_height() const {
        return 18.0 * (1.0 + std::ceil(static_cast<double>(trial_.bins.size()) / 6.0));
    }

    double draw_key(SvgDrawing& drawing, double y) const {
        double x = 20.0;
        for (std::size_t feed = 0; feed < trial_.feeds.size(); ++feed) {
            drawing.line(
                x, y - 4.0, x + 24.0, y - 4.0,
                std::string("stroke-width=\"5\" stroke=\"") + colours[feed] + "\"" + dashes[feed]);
            const std::string label = letter(feed) + " " + trial_.feeds[feed].label;
            drawing.write(x + 30.0, y, label);
            x += 44.0 + 6.6 * static_cast<double>(columns_of(label));
        }
        y += 18.0;
        for (std::size_t bin = 0; bin < trial_.bins.size(); ++bin) {
            x = 26.0 + 112.0 * static_cast<double>(bin % 6);
            shape(drawing, bin, x, y - 4.0, "#000");
            write_fitted(drawing, x + (bin < 8 ? 10.0 : 19.0), y, bin < 8 ? 86.0 : 77.0,
                         trial_.bins[bin], 12.0);
            if (bin % 6 == 5 || bin + 1 == trial_.bins.size()) y += 18.0;
        }
        return y;
    }

    /// One bar a portion: from the last look before to the first after.
    double draw_bars(SvgDrawing& drawing, double y) const {
        drawing.write(20.0, y,
                      std::string("Each portion: between which looks it was ") +
                          (trial_.question == TrialQuestion::gone ? "gone" : "found"),
                      "font-weight=\"bold\"");
        y += 16.0;
        const double top = y;
        for (const std::size_t plot : rows_) {
            const Plot& where = reading_.layout.plots[plot];
            const PlotInterval& interval = seen(plot);
            const double middle = y - 4.0;
            drawing.write(left - 8.0, y,
                          letter(*where.feed) + ", plot " + std::to_string(where.number),
                          "text-anchor=\"end\"");
            const double from = x_of(interval.after_days);
            const std::string style = std::string("stroke=\"") + colours[*where.feed] +
                                      "\" stroke-width=\"5\"" + dashes[*where.feed];
            if (interval.by_days) {
                const double to = x_of(*interval.by_days);
                drawing.line(from, middle, to, middle, style);
                shape(drawing, where.bin, to, middle, colours[*where.feed]);
            } else if (interval.after_days > 0.0) {
                // Early on there is no room before the shape.
                const bool early = from < left + 70.0;
                drawing.write(from + (early ? 16.0 : -10.0), y,
                              reading_.plots[plot].lost ? "lost" : "not yet",
                              early ? "" : "text-anchor=\"end\"");
                shape(drawing, where.bin, from, middle, colours[*where.feed]);
            } else {
                drawing.write(left + 4.0, y, reading_.plots[plot].lost ? "lost" : "not looked at");
            }
            y += row_height;
        }
        const double bottom = y - 8.0;
        drawing.line(left, top - 12.0, left, bottom, "stroke=\"#000\"");
        drawing.line(left, bottom, right, bottom, "stroke=\"#000\"");
        const int step = last_ <= 14 ? 2 : last_ <= 40 ? 5 : 10;
        for (int day = 0; day <= static_cast<int>(last_); day += step) {
            drawing.line(x_of(day), bottom, x_of(day), bottom + 4.0, "stroke=\"#000\"");
            drawing.write(x_of(day), bottom + 16.0, std::to_string(day), "text-anchor=\"middle\"");
        }
        drawing.write(right, bottom + 28.0, "days after laying", "text-anchor=\"end\"");
        return bottom + 24.0;
    }

    /// The middle day of each feed in each bin, joined by a line: parallel slopes agree.
    double draw_slopes(SvgDrawing& drawing, double y) const {
        drawing.write(
            20.0, y,
            "Bin by bin: the mean middle (not yet: 1.5 times as long as seen); like slopes agree",
            "font-weight=\"bold\"");
        const double top = y + 14.0;
        const double bottom = top + 150.0;
        const std::size_t feeds = trial_.feeds.size();
        std::vector<std::vector<double>> sums(trial_.bins.size(), std::vector<double>(feeds, 0.0));
        auto counts = sums;
        for (const std::size_t plot : rows_) {
            const auto score = log_middle(seen(plot));
            if (!score) continue;
            const Plot& where = reading_.layout.plots[plot];
            sums[where.bin][*where.feed] += *score;
            counts[where.bin][*where.feed] += 1.0;
        }
        double low = std::log(0.8 * last_);
        for (const std::size_t plot : rows_)
            low = std::min(low, log_middle(seen(plot)).value_or(low));
        low -= 0.3;
        const double high = std::log(1.6 * last_);
        const auto y_of = [&](double score) {
            return bottom - (bottom - top) * (score - low) / (high - low);
        };
        const auto x_at = [&](std::size_t feed) {
            return left + 60.0 +
                   (right - left - 120.0) * static_cast<double>(feed) /
                       static_cast<double>(feeds - 1);
        };
        for (const double day : {1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0}) {
            if (std::log(day) > high || std::log(day) < low) continue;
            drawing.line(left, y_of(std::log(day)), right, y_of(std::log(day)), "stroke=\"#ddd\"");
            drawing.write(left - 8.0, y_of(std::log(day)) + 4.0, "day " + place(day),
                          "text-anchor=\"end\"");
        }
        for (std::size_t bin = 0; bin < trial_.bins.size(); ++bin) {
            for (std::size_t feed = 0; feed < feeds; ++feed) {
                if (counts[bin][feed] == 0.0) continue;
                const double at = y_of(sums[bin][feed] / counts[bin][feed]);
                if (feed + 1 < feeds && counts[bin][feed + 1] > 0.0)
                    drawing.line(x_at(feed), at, x_at(feed + 1),
                                 y_of(sums[bin][feed + 1] / counts[bin][feed + 1]),
                                 "stroke=\"#777\" stroke-width=\"1.2\"");
            }
        }
        for (std::size_t bin = 0; bin < trial_.bins.size(); ++bin) {
            for (std::size_t feed = 0; feed < feeds; ++feed) {
                if (counts[bin][feed] > 0.0)
                    shape(drawing, bin, x_at(feed), y_of(sums[bin][feed] / counts[bin][feed]),
                          colours[feed]);
            }
        }
        for (std::size_t feed = 0; feed < feeds; ++feed)
            drawing.write(x_at(feed), bottom + 16.0, letter(feed),
                          "text-anchor=\"middle\" font-weight=\"bold\"");
        return bottom + 20.0;
    }

    /// The order in which portions were found, or gone where finding was not looked for.
    double draw_order(SvgDrawing& drawing, double y) const {
        std::vector<std::pair<double, std::size_t>> order;
        for (const std::size_t plot : rows_) {
            const auto score = log_middle(reading_.plots[plot].found);
            if (score && reading_.plots[plot].found.by_days) order.emplace_back(*score, plot);
        }
        const bool found = !order.empty();
        for (const std::size_t plot : rows_) {
            const auto score = log_middle(reading_.plots[plot].gone);
            if (!found && score && reading_.plots[plot].gone.by_days)
                order.emplace_back(*score, plot);
        }
        std::stable_sort(order.begin(), order.end(),
                         [](const auto& a, const auto& b) { return a.first < b.first; });
        drawing.write(20.0, y,
                      std::string("The order in which they were ") + (found ? "found" : "gone") +
                          "; those between the same two looks stand in one box",
                      "font-weight=\"bold\"");
        y += 12.0;
        const double cell = std::min(
            24.0, (width - 40.0) / std::max<double>(1.0, static_cast<double>(order.size())));
        for (std::size_t i = 0; i < order.size();) {
            std::size_t end = i;
            while (end < order.size() && order[end].first - order[i].first < 1e-9)
                ++end;
            drawing.box(20.0 + cell * static_cast<double>(i), y,
                        cell * static_cast<double>(end - i), 20.0, "fill=\"none\" stroke=\"#000\"");
            for (; i < end; ++i) {
                const std::size_t feed = *reading_.layout.plots[order[i].second].feed;
                drawing.write(20.0 + cell * (static_cast<double>(i) + 0.5), y + 14.5, letter(feed),
                              std::string("text-anchor=\"middle\" font-weight=\"bold\" fill=\"") +
                                  colours[feed] + "\"");
            }
        }
        return y + 20.0;
    }

    std::size_t blocks() const { return trial_.design.bins * trial_.design.rounds; }
    std::size_t each() const { return reading_.plots.size() / blocks(); }
    /// Cells from one bin of the map to the next: at least room for a name.
    std::size_t map_step() const { return std::max<std::size_t>(each() + 1, 4); }
    std::size_t map_columns() const { return std::max<std::size_t>(1, 28 / map_step()); }
    double map_height() const {
        return 40.0 +
               46.0 * std::ceil(static_cast<double>(blocks()) / static_cast<double>(map_columns()));
    }

    /// What lay where: number above, letter of the feed below.
    void draw_map(SvgDrawing& drawing, double y) const {
        drawing.write(20.0, y, "What lay where (the key)", "font-weight=\"bold\"");
        const double cell = 24.0;
        for (std::size_t block = 0; block < blocks(); ++block) {
            const double x =
                20.0 + cell * static_cast<double>(map_step() * (block % map_columns()));
            const std::size_t line = block / map_columns();
            const double top = y + 22.0 + 46.0 * static_cast<double>(line);
            const std::size_t round = block / trial_.design.bins;
            write_fitted(
                drawing, x, top - 2.0, cell * static_cast<double>(map_step()) - 6.0,
                trial_.bins[block % trial_.design.bins] +
                    (trial_.design.rounds > 1 ? ", round " + std::to_string(round + 1) : ""),
                10.0);
            for (std::size_t i = 0; i < each(); ++i) {
                const Plot& plot = reading_.layout.plots[block * each() + i];
                const double at = x + cell * static_cast<double>(i);
                drawing.box(at, top + 2.0, cell, 26.0, "fill=\"none\" stroke=\"#000\"");
                drawing.write(at + 0.5 * cell, top + 12.0, std::to_string(plot.number),
                              "text-anchor=\"middle\" font-size=\"9\"");
                drawing.write(at + 0.5 * cell, top + 25.0, plot.feed ? letter(*plot.feed) : "-",
                              std::string("text-anchor=\"middle\" font-weight=\"bold\" fill=\"") +
                                  (plot.feed ? colours[*plot.feed] : "#000") + "\"");
            }
        }
    }

    const Trial& trial_;
    const TrialReading& reading_;
    std::string title_;
    std::string words_;
    double last_;
    std::vector<std::size_t> rows_;  ///< plots by feed
};

}  // namespace

std::string trial_svg(const Trial& trial, const TrialReading& reading, std::string_view title) {
    return Picture(trial, reading, title).draw();
}

}  // namespace feed::io
