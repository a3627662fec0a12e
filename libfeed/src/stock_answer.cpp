#include "feed/io/stock_answer.hpp"

#include <algorithm>
#include <utility>

#include "collect.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/file_kind.hpp"
#include "feed/io/json_writer.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/screen.hpp"
#include "feed/io/to_json.hpp"
#include "feed/quantity/amount_words.hpp"

namespace feed::io {
namespace {

bool is_never_fed(const StockItem& item) {
    return barred_in(*item.thing.feedstock, feed::Place::worm_bed);
}

void add_take_out(StockAnswer& answer) {
    for (const StockItem& item : answer.items) {
        if (!is_never_fed(item)) continue;
        TakeOut one = take_out(*item.thing.feedstock, item.thing.label);
        const bool known =
            std::any_of(answer.take_out.begin(), answer.take_out.end(),
                        [&](const TakeOut& other) { return other.label == one.label; });
        if (!known) answer.take_out.push_back(std::move(one));
    }
}

/// The next feeding by the bin's own ration: today's, or that of the day it waits for.
void add_thaw(const FeedFile& file, UnitSystem units, StockAnswer& answer) {
    Ration next = ration_of(file, units);
    int day = 0;
    if (next.answer == RationAnswer::act_first) return;
    if (next.answer == RationAnswer::wait) {
        if (!next.next_feeding) return;
        day = next.next_feeding->day;
        FeedFile later = file;
        later.today = date_of(day_number(answer.today) + day);
        next = ration_of(later, units);
    }
    if (next.answer != RationAnswer::feed && next.answer != RationAnswer::feed_less) return;
    answer.feed_on = day;
    for (const PutIn& put : next.put_in) {
        if (!is_frozen(*put.thing.feedstock)) continue;
        answer.thaw.push_back({put, std::max(0, day - 1),
                               thawed_juice(*put.thing.feedstock, put.wet_mass.in_kilograms())});
    }
}

void add_bedding(const FeedFile& file, StockAnswer& answer) {
    for (const StockItem& item : answer.items) {
        const Feedstock& f = *item.thing.feedstock;
        if (part_of(f) != Part::bedding || is_never_fed(item)) continue;
        const auto known =
            std::find_if(answer.bedding.begin(), answer.bedding.end(),
                         [&](const BeddingLeft& one) { return one.thing.feedstock->id == f.id; });
        if (known != answer.bedding.end()) {
            known->left_kg += item.thing.most->in_kilograms();
            continue;
        }
        answer.bedding.push_back({item.thing, item.thing.most->in_kilograms(),
                                  bedding_a_day_kg(file.diary, f, answer.today)});
    }
}

/// Days that bedding lasts; nothing where the diary does not tell, or for more than a year.
std::optional<int> lasts_days(const BeddingLeft& one) {
    constexpr double longest = 366.0;
    if (!one.a_day_kg || !(*one.a_day_kg > 0.0)) return std::nullopt;
    const double days = one.left_kg / *one.a_day_kg;
    if (days > longest) return std::nullopt;
    return static_cast<int>(days);
}

std::string thaw_line(const Thaw& one, const StockAnswer& answer, UnitSystem units) {
    std::string line = "Take " + words::mass(one.put.wet_mass.in_kilograms(), units) + " of " +
                       one.put.thing.name() + " out of the freezer " +
                       (one.day == 0 ? "today" : day_words(answer.today, one.day, units));
    // Until that day the bin waits.
    if (answer.feed_on && *answer.feed_on > one.day)
        line += ", for " + day_words(answer.today, *answer.feed_on, units);
    line += ".";
    if (one.juice)
        line += " Thaw it in a bowl: about " + volume_text(litres(one.juice->value_kg), units) +
                " of juice runs out.";
    return line;
}

std::string where(const StockItem& item) {
    return item.container.empty() ? "" : " (" + item.container + ")";
}

void add_fresh(const StockAnswer& answer, UnitSystem units, std::vector<std::string>& lines) {
    for (const StockItem& item : answer.items) {
        if (item.keep != StockKeep::fresh || is_never_fed(item)) continue;
        const std::string what = words::mass(item.thing.most->in_kilograms(), units) + " of " +
                                 item.thing.name() + where(item);
        if (item.good_days < 0)
            lines.push_back("Past its days: " + what + ". Give it to a heap.");
        else
            lines.push_back("Fresh: " + what + ", good until " +
                            day_words(answer.today, item.good_days, units) +
                            ". Feed or freeze it by then.");
    }
}

std::vector<std::string> stock_lines(const StockAnswer& answer, UnitSystem units) {
    std::vector<std::string> lines;
    if (answer.collect) lines = collect_lines(*answer.collect, units);
    if (answer.items.empty() && answer.collect) return lines;
    if (answer.items.empty())
        return {
            "Nothing is in stock. Write down what you keep: feed note FILE stock 2 kg frozen "
            "melon rind."};
    for (std::string& line : never_lines(answer.take_out))
        lines.push_back(std::move(line));
    for (const Thaw& one : answer.thaw)
        lines.push_back(thaw_line(one, answer, units));
    add_fresh(answer, units, lines);
    for (const StockItem& item : answer.items) {
        if (item.keep == StockKeep::frozen && !is_never_fed(item))
            lines.push_back("Freezer: " + words::mass(item.thing.most->in_kilograms(), units) +
                            " of " + item.thing.name() + where(item) + ".");
    }
    for (const BeddingLeft& one : answer.bedding) {
        std::string line =
            "Bedding: " + words::mass(one.left_kg, units) + " of " + one.thing.name();
        if (const auto days = lasts_days(one))
            line += ", gone about " + day_words(answer.today, *days, units);
        lines.push_back(line + ".");
    }
    for (const StockItem& item : answer.items) {
        const bool other =
            item.keep == StockKeep::dry && part_of(*item.thing.feedstock) != Part::bedding;
        if (other && !is_never_fed(item))
            lines.push_back(
                (may_be_frozen(*item.thing.feedstock) ? "Dry: " : "Outdoors, covered: ") +
                words::mass(item.thing.most->in_kilograms(), units) + " of " + item.thing.name() +
                where(item) + ".");
    }
    return lines;
}

constexpr std::string_view keep_word(StockKeep keep) {
    return keep == StockKeep::fresh ? "fresh" : keep == StockKeep::frozen ? "frozen" : "dry";
}

void write_items(JsonWriter& json, const StockAnswer& answer) {
    json.key("items");
    json.begin_array();
    for (const StockItem& item : answer.items) {
        json.begin_object();
        write_thing(json, item.thing, item.thing.most->in_kilograms());
        json.member("keep", keep_word(item.keep));
        json.member("since", text(item.since));
        json.member("container", item.container);
        if (item.keep == StockKeep::fresh)
            json.member("good_until", text(date_of(day_number(answer.today) + item.good_days)));
        json.end_object();
    }
    json.end_array();
}

void write_thaw(JsonWriter& json, const StockAnswer& answer) {
    json.key("thaw");
    json.begin_array();
    for (const Thaw& one : answer.thaw) {
        json.begin_object();
        write_thing(json, one.put.thing, one.put.wet_mass.in_kilograms());
        json.member("take_out_on", text(date_of(day_number(answer.today) + one.day)));
        if (one.juice) {
            json.key("juice_l");
            json.begin_object();
            json.member("value", one.juice->value_kg);
            json.member("low", one.juice->low_kg);
            json.member("high", one.juice->high_kg);
            json.member("grade", "D");
            json.end_object();
        }
        json.end_object();
    }
    json.end_array();
}

}  // namespace

Result<StockAnswer> stock_of(const FeedFile& file, UnitSystem units, const CollectWords& collect) {
    if (auto wrong = wrong_kind(file, "stock")) return std::move(*wrong);
    StockAnswer answer;
    if (file.stock.empty() && collect.empty()) return answer;
    const auto today = day_zero(file);
    if (!today)
        return make_error(ErrorCode::missing_value, "date", "", "a day such as 2026-03-14",
                          "no day is named, so say which day it is");
    answer.today = *today;
    answer.items = stock_on(file.stock, file.diary, *today);
    if (file.has_bed && !answer.items.empty()) add_thaw(file, units, answer);
    add_take_out(answer);
    add_bedding(file, answer);
    if (!collect.empty()) {
        FeedFile on = file;
        on.today = today;
        auto season = collect_of(on, answer.items, collect, units);
        if (!season) return season.errors();
        answer.collect = std::move(season).value();
    }
    return answer;
}

std::string stock_text(const StockAnswer& answer, UnitSystem units, bool why) {
    std::vector<std::string> lines = stock_lines(answer, units);
    if (!why) {
        std::vector<ScreenLine> ranked;
        ranked.reserve(lines.size());
        for (std::string& line : lines)
            ranked.push_back({std::move(line), static_cast<int>(ranked.size())});
        return screen_text(fitting(std::move(ranked), first_screen));
    }
    lines.emplace_back(
        "What was fed of the same material since came from the stock, oldest first.");
    lines.emplace_back("Thawed food loses 15 to 40 % of its water as juice (a judgement).");
    lines.emplace_back("How fast bedding goes is that of the last eight weeks of the diary.");
    if (answer.collect) {
        lines.push_back(answer.collect->week.from_diary
                            ? "What a week needs is that of the last eight weeks of the diary."
                            : "What a week needs is the ration of a settled bed.");
        lines.emplace_back(
            "Its range: half to twice the volume of the scraps in loose bedding (common practice).");
    }
    return screen_text(lines);
}

std::string to_json(const StockAnswer& answer, UnitSystem units) {
    JsonWriter json;
    json.begin_object();
    write_take_out(json, answer.take_out);
    const bool any = !answer.items.empty() || answer.collect;
    json.member("date", any ? std::optional(text(answer.today)) : std::nullopt);
    write_items(json, answer);
    if (answer.feed_on)
        json.member("feed_on", text(date_of(day_number(answer.today) + *answer.feed_on)));
    write_thaw(json, answer);
    json.key("bedding");
    json.begin_array();
    for (const BeddingLeft& one : answer.bedding) {
        json.begin_object();
        write_thing(json, one.thing, one.left_kg);
        if (one.a_day_kg) json.member("a_week_kg", 7.0 * *one.a_day_kg);
        if (const auto days = lasts_days(one))
            json.member("gone_on", text(date_of(day_number(answer.today) + *days)));
        json.end_object();
    }
    json.end_array();
    if (answer.collect) write_collect(json, *answer.collect, answer.today);
    write_texts(json, "text", stock_lines(answer, units));
    json.end_object();
    return json.take();
}

}  // namespace feed::io
