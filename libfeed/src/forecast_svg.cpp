#include "feed/io/forecast_svg.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <string_view>
#include <vector>

#include "feed/bed/hazard_words.hpp"
#include "feed/bed/limits.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/quantity/number_print.hpp"
#include "svg_drawing.hpp"

namespace feed::io {
namespace {

constexpr double width = 720.0;
constexpr double left = 76.0;
constexpr double right = 700.0;
constexpr double first_top = 82.0;
constexpr double panel_height = 170.0;
constexpr double panel_gap = 50.0;

/// A horizontal line across a panel at a limit.
struct LimitLine {
    double at;
    std::string text;
    bool text_below = false;
};

/// A word on the axis in place of figures, in the middle of a stretch of it.
struct AxisWord {
    double from;
    double to;
    std::string text;
};

struct Panel {
    std::string title;
    const ForecastSeries* series;
    double scale;       ///< from the series to the axis
    double lowest;      ///< the axis shows at least from here
    double highest;     ///< and to here
    double never_over;  ///< what cannot be, such as 100 %
    std::vector<LimitLine> limits;
    const char* colour;
    const char* dashes;           ///< of the typical curve, "" for an unbroken one
    bool shows_next = false;      ///< marks the day of the next feeding
    std::vector<AxisWord> words;  ///< where figures tell a keeper nothing
};

// Each kind of line has its own strokes, so that a grey print and colour-blind eyes tell them
// apart.
constexpr const char* limit_style = "stroke=\"#000\" stroke-width=\"1.2\" stroke-dasharray=\"7 4\"";
constexpr const char* edge_dashes = "1.5 2.5";
constexpr const char* halo =
    " paint-order=\"stroke\" stroke=\"#fff\" stroke-width=\"3\" stroke-linejoin=\"round\"";

/// A step of 1, 2 or 5 times a power of ten that cuts a span in about `parts`.
double round_step(double span, double parts) {
    double step = 1e-9;
    while (step * 10.0 * parts < span)
        step *= 10.0;
    for (const double factor : {1.0, 2.0, 5.0, 10.0}) {
        if (factor * step * parts >= span) return factor * step;
    }
    return 10.0 * step;
}

class Picture {
public:
    Picture(const Forecast& forecast, const PictureText& text)
        : forecast_(forecast), text_(text), last_day_(static_cast<double>(forecast.days)) {}

    std::string draw(const std::vector<Panel>& panels) {
        const double height =
            first_top + static_cast<double>(panels.size()) * (panel_height + panel_gap) - 18.0;
        svg_ = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + place(width) + " " +
               place(height) + "\" width=\"" + place(width) + "\" height=\"" + place(height) +
               "\" font-family=\"sans-serif\" font-size=\"13\" fill=\"#000\">\n<title>" +
               markup_text(text_.title) +
               "</title>\n<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n";
        write(left, 26.0, text_.title, "font-size=\"17\" font-weight=\"bold\"");
        draw_key(46.0);
        double top = first_top;
        for (const auto& panel : panels) {
            draw_panel(panel, top);
            top += panel_height + panel_gap;
        }
        return svg_ + "</svg>\n";
    }

private:
    double x_of(double day) const {
        return left + (right - left) * (last_day_ > 0.0 ? day / last_day_ : 0.0);
    }

    void write(double x, double y, std::string_view text, std::string_view style) {
        svg_ += "<text x=\"" + place(x) + "\" y=\"" + place(y) + "\" " + std::string(style) + ">" +
                markup_text(text) + "</text>\n";
    }

    void line(double x1, double y1, double x2, double y2, std::string_view style) {
        svg_ += "<line x1=\"" + place(x1) + "\" y1=\"" + place(y1) + "\" x2=\"" + place(x2) +
                "\" y2=\"" + place(y2) + "\" " + std::string(style) + "/>\n";
    }

    /// What the lines mean, each beside a piece of it.
    void draw_key(double y) {
        const double middle = y - 4.5;
        double x = left;
        line(x, middle, x + 26.0, middle, "stroke=\"#000\" stroke-width=\"2.5\"");
        write(x + 32.0, y, "thick: typical", "");
        x += 134.0;
        svg_ += "<rect x=\"" + place(x) + "\" y=\"" + place(middle - 6.0) +
                "\" width=\"26\" height=\"12\" fill=\"#000\" fill-opacity=\"0.15\" stroke=\"#000\" "
                "stroke-dasharray=\"" +
                edge_dashes + "\"/>\n";
        write(x + 32.0, y, "how low or high it may be", "");
        x += 222.0;
        line(x, middle, x + 26.0, middle, limit_style);
        write(x + 32.0, y, "limit", "");
        x += 74.0;
        triangle(x, y);
        write(x + 10.0, y, "feeding", "");
    }

    void triangle(double x, double bottom) {
        svg_ += "<path d=\"M" + place(x - 5.0) + " " + place(bottom - 9.0) + " L" + place(x + 5.0) +
                " " + place(bottom - 9.0) + " L" + place(x) + " " + place(bottom) +
                " Z\" fill=\"#000\"/>\n";
    }

    void draw_panel(const Panel& panel, double top) {
        const auto& series = *panel.series;
        double low = panel.lowest;
        double high = panel.highest;
        for (std::size_t day = 0; day < series.value.size(); ++day) {
            low = std::min(low, series.low[day] * panel.scale);
            high = std::max(high, series.high[day] * panel.scale);
        }
        const double step = round_step(high - low, 5.0);
        low = std::floor(low / step) * step;
        high = std::min(panel.never_over, std::ceil(high / step) * step);
        const double bottom = top + panel_height;
        const auto y_of = [&](double number) {
            return bottom - panel_height * (number - low) / (high - low);
        };
        write(left, top - 8.0, panel.title, "font-weight=\"bold\"");
        for (int i = 0; low + step * i <= high + step * 1e-6; ++i) {
            const double number = low + step * i;
            if (!panel.words.empty()) break;
            line(left, y_of(number), right, y_of(number), "stroke=\"#ddd\"");
            const double shown = std::abs(number) < step * 1e-6 ? 0.0 : number;
            write(left - 8.0, y_of(number) + 4.5, significant(shown, 4), "text-anchor=\"end\"");
        }
        for (const AxisWord& word : panel.words) {
            const double middle = y_of(0.5 * (std::max(low, word.from) + std::min(high, word.to)));
            if (word.from < high) write(left - 8.0, middle + 4.5, word.text, "text-anchor=\"end\"");
        }
        draw_days(bottom);
        draw_band(panel, y_of);
        for (const auto& limit : panel.limits) {
            if (limit.at <= low || limit.at >= high) continue;
            line(left, y_of(limit.at), right, y_of(limit.at), limit_style);
            write(right - 4.0, y_of(limit.at) + (limit.text_below ? 14.0 : -4.0), limit.text,
                  std::string("text-anchor=\"end\"") + halo);
        }
        const auto next = text_.next_feeding_day;
        if (panel.shows_next && next && *next <= static_cast<int>(forecast_.days)) {
            const double x = x_of(static_cast<double>(*next));
            line(x, top, x, bottom, limit_style);
            const bool late = x > 0.5 * (left + right);
            write(x + (late ? -5.0 : 5.0), top + 15.0, "next feeding",
                  std::string("text-anchor=\"") + (late ? "end\"" : "start\"") + halo);
        }
        svg_ += "<rect x=\"" + place(left) + "\" y=\"" + place(top) + "\" width=\"" +
                place(right - left) + "\" height=\"" + place(panel_height) +
                "\" fill=\"none\" stroke=\"#000\"/>\n";
    }

    void draw_band(const Panel& panel, const std::function<double(double)>& y_of) {
        const auto& series = *panel.series;
        std::string band;
        std::string highest;
        std::string lowest;
        std::string typical;
        const auto point = [&](std::size_t day, double number) {
            return place(x_of(static_cast<double>(day))) + "," + place(y_of(number * panel.scale)) +
                   " ";
        };
        for (std::size_t day = 0; day < series.value.size(); ++day) {
            highest += point(day, series.high[day]);
            lowest += point(day, series.low[day]);
            typical += point(day, series.value[day]);
        }
        band = highest;
        for (std::size_t day = series.value.size(); day-- > 0;)
            band += point(day, series.low[day]);
        const auto curve = [&](const std::string& points, const char* strokes, const char* dashes) {
            svg_ += "<polyline points=\"" + points + "\" fill=\"none\" stroke=\"" + panel.colour +
                    "\" " + strokes;
            if (*dashes != '\0') svg_ += std::string(" stroke-dasharray=\"") + dashes + "\"";
            svg_ += "/>\n";
        };
        svg_ += "<polygon points=\"" + band + "\" fill=\"" + panel.colour +
                "\" fill-opacity=\"0.18\"/>\n";
        curve(highest, "stroke-width=\"1.2\"", edge_dashes);
        curve(lowest, "stroke-width=\"1.2\"", edge_dashes);
        curve(typical, "stroke-width=\"2.8\"", panel.dashes);
    }

    void draw_days(double bottom) {
        const double step = std::max(1.0, round_step(last_day_, 8.0));
        // Whole weeks read better than tens of days.
        const double week_step = step > 2.0 ? 7.0 * std::max(1.0, std::round(step / 7.0)) : step;
        const int every = static_cast<int>(std::lround(week_step));
        for (int day = 0; day <= static_cast<int>(last_day_); day += every) {
            const double x = x_of(static_cast<double>(day));
            line(x, bottom, x, bottom + 5.0, "stroke=\"#000\"");
            write(x, bottom + 18.0, day_text(day), "text-anchor=\"middle\" font-size=\"11\"");
        }
        std::vector<int> fed;
        for (const auto& portion : forecast_.portions) {
            if (std::find(fed.begin(), fed.end(), portion.day) == fed.end())
                fed.push_back(portion.day);
        }
        for (const int day : fed)
            triangle(x_of(static_cast<double>(day)), bottom - 2.0);
    }

    std::string day_text(int day) const {
        if (!text_.day_zero) return "day " + std::to_string(day);
        return day_words(text_.day_zero, day, text_.units);
    }

    const Forecast& forecast_;
    const PictureText& text_;
    double last_day_;
    std::string svg_;
};

}  // namespace

std::string forecast_svg(const Forecast& forecast, const SpeciesLimits& limits,
                         const PictureText& text) {
    const bool us = text.units == UnitSystem::us;
    // Hues of the palette by Okabe and Ito (2008), two of them darker for thin lines on paper.
    const std::vector<Panel> panels{
        {"How wet: water, % of the weight",
         &forecast.moisture,
         100.0,
         60.0,
         90.0,
         100.0,
         {{100.0 * limits.moisture_high.value(), "wetter than worms like"},
          {100.0 * limits.moisture_low.value(), "drier than worms like", true}},
         "#0072B2",
         "",
         false,
         {}},
        {us ? "Food left, lb as fed" : "Food left, kg as fed",
         &forecast.food_left_wet_kg,
         us ? 1.0 / kilograms_per_pound : 1.0,
         0.0,
         0.1,
         1e12,
         {},
         "#00785A",
         "11 3",
         true,
         {}},
        {"Acid: calm or sour",
         &forecast.acid_g_per_air_litre,
         1.0,
         0.0,
         1.2 * limits::acid_per_air_litre.act,
         1e12,
         {{limits::acid_per_air_litre.act, "sour: act"},
          {limits::acid_per_air_litre.watch, "turning sour: watch", true}},
         "#B34700",
         "11 3 2.5 3",
         false,
         {{0.0, limits::acid_per_air_litre.watch, "calm"},
          {limits::acid_per_air_litre.watch, limits::acid_per_air_litre.act, "turning"},
          {limits::acid_per_air_litre.act, 1e12, "sour"}}}};
    return Picture(forecast, text).draw(panels);
}

}  // namespace feed::io
