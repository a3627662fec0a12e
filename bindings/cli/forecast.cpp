#include <string>
#include <vector>

#include "command.hpp"
#include "feed/bed/heat.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/output_files.hpp"
#include "feed/io/quantity_text.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/to_json.hpp"
#include "feed/quantity/number_print.hpp"
#include "file_or_entries.hpp"
#include "quantity_lines.hpp"
#include "ration_screen.hpp"

namespace feed_command {
namespace {

using namespace feed;
using io::padded;
using io::UnitSystem;
using io::wrapped;

/// The days a person reads: every day at first, then fewer.
std::vector<std::size_t> shown_days(std::size_t last) {
    std::vector<std::size_t> days;
    for (std::size_t day = 0; day <= last; day += day < 3 ? 1 : day < 7 ? 2 : day < 28 ? 7 : 28)
        days.push_back(day);
    if (days.back() != last) days.push_back(last);
    return days;
}

std::string table_text(const Forecast& forecast, UnitSystem units) {
    const auto line = [](std::string_view day, std::string_view moisture, std::string_view food,
                         std::string_view acid, std::string_view warmth, std::string_view volume) {
        auto text = padded(day, 7) + padded(moisture, 19) + padded(food, 22) + padded(acid, 14) +
                    padded(warmth, 8) + std::string(volume);
        while (text.back() == ' ')
            text.pop_back();
        return text + "\n";
    };
    // Value and range in one unit, so that they can be compared at a glance.
    const bool us = units == UnitSystem::us;
    const auto mass = [&](double value, double low, double high) {
        const double large = us ? kilograms_per_pound : 1.0;
        const bool is_large = high >= large;
        const double unit = is_large ? large : us ? large / 16.0 : 0.001;
        return significant(value / unit, 2) +
               (us ? (is_large ? " lb" : " oz") : (is_large ? " kg" : " g")) + " (" +
               significant(low / unit, 2) + "-" + significant(high / unit, 2) + ")";
    };
    // What is reckoned is held at 50 C; a bed that starts warmer was measured.
    const double start_c = forecast.temperature_c.value.front();
    const auto warmth = [&](double celsius_now) {
        const bool held = celsius_now >= heat::hottest_said_c && start_c < heat::hottest_said_c;
        return (held ? "above " : "") + io::temperature_text(celsius(celsius_now), units);
    };
    std::string lines = line("day", "moisture", "food left", "acid", "warmth", "volume");
    for (const auto day : shown_days(forecast.days)) {
        const auto& moisture = forecast.moisture;
        const auto& food = forecast.food_left_wet_kg;
        lines += line(std::to_string(day),
                      io::percent_text(moisture.value[day]) + " (" +
                          significant(100.0 * moisture.low[day], 2) + "-" +
                          significant(100.0 * moisture.high[day], 2) + ")",
                      mass(food.value[day], food.low[day], food.high[day]),
                      text(forecast.acid_class[day]), warmth(forecast.temperature_c.value[day]),
                      io::volume_text(litres(forecast.volume_l.value[day]), units));
    }
    return lines;
}

/// What a day is for: act, feed, look or rest.
const char* mark_of(const Ration& ration, int day) {
    if (day == 0 && ration.answer == RationAnswer::act_first) return "act";
    if (day == 0 && ration.scraps.in_kilograms() > 0.0) return "feed";
    if (ration.next_feeding && ration.next_feeding->day == day) return "feed";
    return day == ration.next_look ? "look" : "rest";
}

/// A week at a glance, with the days of looking and feeding that lie further ahead: weekdays, dates
/// and what each day is for. Days are counted where no date is known.
std::vector<std::string> strip_lines(const Ration& ration, UnitSystem units) {
    constexpr int week = 7;
    constexpr std::size_t column = 5;
    std::vector<int> days;
    days.reserve(week + 2);
    for (int day = 0; day < week; ++day)
        days.push_back(day);
    if (ration.next_look >= week) days.push_back(ration.next_look);
    const int next = ration.next_feeding ? ration.next_feeding->day : 0;
    if (next > days.back()) days.push_back(next);
    std::string names = "       ";
    std::string numbers = "  ";
    std::string marks = "       ";
    std::string month;
    for (const int day : days) {
        const bool gap = day > week && mark_of(ration, day - 1) == std::string("rest");
        for (std::string* line : {&names, &numbers, &marks})
            if (gap) *line += io::padded("..", 4);
        std::string date = std::to_string(day);
        if (ration.date) {
            const Date there = date_of(day_number(*ration.date) + day);
            const std::string words = io::day_words(ration.date, day, units);
            names += io::padded(words.substr(0, 3), column);
            const std::string its_month =
                units == UnitSystem::us ? words.substr(4, 3) : words.substr(words.size() - 3);
            if (month.empty()) numbers += io::padded(its_month, column);
            month = its_month;
            date = std::to_string(there.day);
        } else if (month.empty()) {
            month = "day";
            numbers += io::padded(month, column);
        }
        numbers += io::padded(date, column);
        marks += io::padded(mark_of(ration, day), column);
    }
    std::vector<std::string> lines;
    for (std::string* line : {&names, &numbers, &marks}) {
        while (line->back() == ' ')
            line->pop_back();
        if (!line->empty()) lines.push_back(*line);
    }
    return lines;
}

std::string later_text(const Forecast& forecast, const Ration& ration, UnitSystem units) {
    std::string lines;
    if (forecast.harvest_day)
        lines +=
            wrapped("Harvest from " + io::day_words(ration.date, *forecast.harvest_day, units) +
                        ". " + forecast.harvest_reason,
                    0, 2);
    if (forecast.new_bedding_day)
        lines +=
            wrapped("New bedding " + io::day_words(ration.date, *forecast.new_bedding_day, units) +
                        ". " + forecast.new_bedding_reason,
                    0, 2);
    return lines;
}

/// HTML where the name of the page says so.
io::SheetForm form_of(const std::string& path) {
    constexpr std::string_view ending = ".html";
    const bool html = path.size() > ending.size() &&
                      std::string_view(path).substr(path.size() - ending.size()) == ending;
    return html ? io::SheetForm::html : io::SheetForm::text;
}

}  // namespace

int run_forecast(Arguments& arguments) {
    std::size_t days = io::usual_forecast_days;
    if (arguments.has("--days")) {
        auto count = io::parse_whole(arguments.options.at("--days"), 2, 366);
        if (!count) {
            auto errors = count.errors();
            errors[0].field = "--days";
            return refuse(arguments, errors);
        }
        days = static_cast<std::size_t>(*count);
    }
    const auto file = read_bin(arguments);
    if (!file) return refuse(arguments, file.errors());
    const auto answer = io::forecast_and_ration_of(*file, days, arguments.units);
    const Forecast& result = answer.forecast;
    const Ration& ration = answer.ration;
    std::vector<io::OutputFile> outputs;
    if (arguments.has("--svg")) {
        outputs.push_back({"--svg", arguments.options.at("--svg"),
                           io::forecast_picture(*file, answer, arguments.units)});
    }
    if (arguments.has("--sheet")) {
        const std::string& path = arguments.options.at("--sheet");
        const auto sheet = io::forecast_sheet(*file, ration, form_of(path), arguments.units);
        if (!sheet) return refuse(arguments, sheet.errors());
        outputs.push_back({"--sheet", path, *sheet});
    }
    const auto written = io::write_output_files(outputs, arguments.words);
    if (!written) return refuse(arguments, written.errors());
    const int code = exit_of(arguments, ration);
    if (arguments.json()) return print(io::to_json(result, &ration), code);
    const bool why = arguments.has("--why");
    const auto strip = strip_lines(ration, arguments.units);
    const io::ScreenRoom room = why ? io::whole_screen : io::left_of(io::first_screen, strip);
    std::string text = io::ration_text(ration, arguments.units, room, named_file(arguments));
    for (const std::string& line : strip)
        text += line + "\n";
    if (why) {
        text += "\n" + later_text(result, ration, arguments.units) + "\n" +
                table_text(result, arguments.units) +
                "Beside each number stands how low and how high it may be.\n" +
                assumed_text(result.assumed, arguments.units) + "\n" +
                wrapped(grade_text(result.grade), 0, 0);
    }
    return print(text, code);
}

}  // namespace feed_command
