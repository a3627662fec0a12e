// Writes the tables of docs/forecast.md: every constant of the forecast, and which of them and of
// the keeper's own numbers move its answers most. Markdown on standard output.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "feed/forecast/forecast.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/ration/next_feeding.hpp"
#include "table_portion.hpp"

namespace {

using feed_test::portion;

/// The invented school tote: settled, with holes in its lid, fed a mixed kilogram on day 0.
struct Scene {
    feed::Bed bed;
    std::vector<feed::Feeding> plan;
    feed::ForecastOptions options;
};

Scene tote() {
    Scene scene;
    scene.bed.worms.wet_mass = feed::wet_kilograms(0.4);
    scene.bed.temperature = feed::celsius(20);
    scene.bed.squeeze = feed::Squeeze::drops;
    scene.bed.age = feed::days(180);
    scene.plan = {
        {feed::days(0),
         {portion("apple-whole", 0.4), portion("potato-peel", 0.3), portion("coffee-grounds", 0.2),
          portion("lemon-whole", 0.1), portion("cardboard-corrugated", 0.15)}}};
    scene.options.days = 60;
    return scene;
}

/// The tote with ammonia to come.
Scene rich() {
    Scene scene = tote();
    scene.bed.ph = 8.0;
    scene.plan = {{feed::days(0), {portion("grass-clippings", 1.0)}}};
    return scene;
}

struct Answer {
    const char* name;
    std::function<double(const Scene&, const feed::Forecast&)> number;
};

const std::array<Answer, 6> answers{{
    {"food left, day 14, kg",
     [](const Scene&, const feed::Forecast& f) { return f.food_left_wet_kg.value[14]; }},
    {"next feeding, day",
     [](const Scene& s, const feed::Forecast& f) {
         feed::CheckOptions week;
         week.until_next = feed::days(7);
         double fed_kg = 0.0;
         for (const feed::ForecastPortion& portion : f.portions)
             fed_kg += portion.is_scraps ? portion.wet_kg : 0.0;
         const auto bed = feed::bed_numbers(s.bed, feed::completed(s.bed), week);
         const auto next = feed::next_feeding_day(f, bed, fed_kg, 1);
         return static_cast<double>(next ? next->day : feed::longest_wait_days);
     }},
    {"moisture, day 30, %",
     [](const Scene&, const feed::Forecast& f) { return 100.0 * f.moisture.value[30]; }},
    {"most acid, g",
     [](const Scene&, const feed::Forecast& f) {
         return *std::max_element(f.acid_g_citric.value.begin(), f.acid_g_citric.value.end());
     }},
    {"most heating, K",
     [](const Scene&, const feed::Forecast& f) {
         return *std::max_element(f.temperature_rise_c.value.begin(),
                                  f.temperature_rise_c.value.end());
     }},
    {"castings, day 60, kg dry",
     [](const Scene&, const feed::Forecast& f) { return f.castings_dry_kg.value[60]; }},
}};

const std::array<Answer, 1> ammonia{
    {{"most free ammonia, mg N a kg of bed", [](const Scene&, const feed::Forecast& f) {
          return 1000.0 * *std::max_element(f.free_ammonia_g_n_per_wet_kg.value.begin(),
                                            f.free_ammonia_g_n_per_wet_kg.value.end());
      }}}};

struct Input {
    std::string name;
    std::string range;
    Scene low;
    Scene high;
};

std::string range_text(double low, double high) {
    return feed::significant(low, 3) + " to " + feed::significant(high, 3);
}

std::vector<Input> inputs(Scene (*base)()) {
    std::vector<Input> all;
    for (const feed::ParameterKind& kind : feed::forecast_parameters) {
        Input input{std::string(kind.key), range_text(kind.low, kind.high), base(), base()};
        input.low.options.ranges.value[kind.parameter] = kind.low;
        input.high.options.ranges.value[kind.parameter] = kind.high;
        all.push_back(std::move(input));
    }
    const auto scene = [&](std::string name, std::string range, auto&& low, auto&& high) {
        Input input{std::move(name), std::move(range), base(), base()};
        low(input.low);
        high(input.high);
        all.push_back(std::move(input));
    };
    scene(
        "temperature of the bed", "15 to 25 C",
        [](Scene& s) { s.bed.temperature = feed::celsius(15); },
        [](Scene& s) { s.bed.temperature = feed::celsius(25); });
    scene(
        "squeeze test", "damp to many drops", [](Scene& s) { s.bed.squeeze = feed::Squeeze::damp; },
        [](Scene& s) { s.bed.squeeze = feed::Squeeze::many_drops; });
    scene(
        "worms", "0.1 to 1 kg", [](Scene& s) { s.bed.worms.wet_mass = feed::wet_kilograms(0.1); },
        [](Scene& s) { s.bed.worms.wet_mass = feed::wet_kilograms(1.0); });
    scene(
        "amount fed", "half to double",
        [](Scene& s) {
            for (feed::Portion& one : s.plan[0].portions)
                one.wet_mass = 0.5 * one.wet_mass;
        },
        [](Scene& s) {
            for (feed::Portion& one : s.plan[0].portions)
                one.wet_mass = 2.0 * one.wet_mass;
        });
    scene(
        "humidity of the air", "40 to 80 %", [](Scene& s) { s.options.humidity = 0.4; },
        [](Scene& s) { s.options.humidity = 0.8; });
    scene(
        "lid", "tight, closed, to open top",
        [](Scene& s) {
            s.bed.lid = feed::Lid::tight;
            s.bed.ventilation = feed::Ventilation::closed;
        },
        [](Scene& s) {
            s.bed.lid = feed::Lid::none;
            s.bed.ventilation = feed::Ventilation::open_top;
        });
    scene(
        "temperature response", "Haug to Q10 1.5", [](Scene&) {},
        [](Scene& s) { s.options.response = feed::decay::TemperatureResponse::clm_q10; });
    return all;
}

void write_parameters() {
    std::printf("| constant | value | range | grade | source |\n| --- | --- | --- | --- | --- |\n");
    for (const feed::ParameterKind& kind : feed::forecast_parameters) {
        std::printf("| `%s` | %s | %s | %s | %s |\n", std::string(kind.key).c_str(),
                    feed::significant(kind.value, 3).c_str(),
                    range_text(kind.low, kind.high).c_str(), feed::text(kind.grade),
                    std::string(kind.source).c_str());
    }
}

/// One table: the inputs that change an answer by at least a hundredth, largest first, and the
/// names of those that do not.
void write_table(const char* heading, Scene (*scene)(), std::span<const Answer> answers) {
    std::printf("\n%s\n\n", heading);
    const auto numbers_of = [&](const Scene& one) {
        const feed::Forecast f = feed::forecast(one.bed, one.plan, one.options);
        std::vector<double> numbers;
        for (const Answer& answer : answers)
            numbers.push_back(answer.number(one, f));
        return numbers;
    };
    const std::vector<double> base = numbers_of(scene());
    struct Row {
        std::string name;
        std::string text;
        double largest = 0.0;
    };
    std::vector<Row> rows;
    for (const Input& input : inputs(scene)) {
        const std::vector<double> low = numbers_of(input.low);
        const std::vector<double> high = numbers_of(input.high);
        Row row{input.name, "| " + input.name + " | " + input.range, 0.0};
        for (std::size_t i = 0; i < answers.size(); ++i) {
            row.text +=
                " | " + feed::significant(low[i], 2) + " to " + feed::significant(high[i], 2);
            row.largest = std::max(row.largest, std::fabs(high[i] - low[i]) / std::fabs(base[i]));
        }
        row.text += " | " + feed::significant(100.0 * row.largest, 2) + " % |\n";
        rows.push_back(std::move(row));
    }
    std::stable_sort(rows.begin(), rows.end(),
                     [](const Row& a, const Row& b) { return a.largest > b.largest; });
    std::printf("| input | from to");
    for (const Answer& answer : answers)
        std::printf(" | %s", answer.name);
    std::printf(" | largest change |\n| --- | ---");
    for (std::size_t i = 0; i < answers.size(); ++i)
        std::printf(" | ---");
    std::printf(" | --- |\n| as it stands | ");
    for (const double number : base)
        std::printf("| %s ", feed::significant(number, 2).c_str());
    std::printf("| |\n");
    std::string idle;
    for (const Row& row : rows) {
        if (row.largest >= 0.01)
            std::printf("%s", row.text.c_str());
        else
            idle += (idle.empty() ? "" : ", ") + row.name;
    }
    std::printf("\nLess than 1 %%: %s.\n", idle.c_str());
}

}  // namespace

int main() {
    write_parameters();
    write_table("The tote, fed a mixed kilogram with cardboard on day 0:", tote, answers);
    write_table("The same tote at pH 8 after a kilogram of grass clippings without bedding:", rich,
                ammonia);
    return 0;
}
