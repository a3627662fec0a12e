#include "collect.hpp"

#include <algorithm>
#include <memory>
#include <utility>

#include "feed/feedstock/lookup.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/quantity_text.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/to_json.hpp"
#include "feed/quantity/amount_words.hpp"
#include "feed/quantity/number_text.hpp"

namespace feed::io {
namespace {

constexpr int season_days = 91;
constexpr int least_days = 7;
constexpr int most_days = 366;
constexpr std::string_view usual_things = "coffee grounds, dry leaves";
constexpr std::string_view time_allowed = "1 week to 1 year, such as \"13 weeks\"";

Result<int> days_of(const std::string& words) {
    if (words.empty()) return season_days;
    const auto days = parse_quantity(words, QuantityKind::duration);
    if (days && *days >= least_days && *days <= most_days) return static_cast<int>(*days);
    return make_error(ErrorCode::out_of_range, "for", words, std::string(time_allowed),
                      "for how long is it to last?");
}

/// A name of the file's own, or of the table.
Result<ThingAtHand> thing_named(const FeedFile& file, const std::string& name) {
    for (const auto& own : file.own_feedstocks) {
        if (own->name == name) return ThingAtHand{own, name, {}, {}};
    }
    const auto found = look_up(name);
    if (!found) {
        Errors errors = found.errors();
        errors[0].field = "collect";
        return errors;
    }
    const Part part = part_of(*found->feedstock);
    if (part == Part::scraps || part == Part::bedding ||
        barred_in(*found->feedstock, feed::Place::worm_bed))
        return ThingAtHand{found->feedstock, name, {}, {}};
    return make_error(ErrorCode::out_of_range, "collect", name, "food or bedding",
                      "of this a bin needs a pinch, and no season of it");
}

std::vector<std::string> names_in(std::string_view text) {
    std::vector<std::string> names;
    for (;;) {
        const auto end = text.find(',');
        const std::string_view part = feed::detail::trim(text.substr(0, end));
        if (!part.empty()) names.emplace_back(part);
        if (end == std::string_view::npos) return names;
        text.remove_prefix(end + 1);
    }
}

double loose_l(const Feedstock& f, double kg) {
    return 1000.0 * kg / feed::detail::loose_kg_per_m3(f);
}

std::string time_words(int days) {
    constexpr int year = 364;
    if (days >= year) return "a year";
    return days % 7 == 0 ? counted(static_cast<std::size_t>(days / 7), "week")
                         : counted(static_cast<std::size_t>(days), "day");
}

void add_bedding_lines(const Collect& collect, UnitSystem units, std::vector<std::string>& lines) {
    lines.push_back("In " + time_words(collect.days) + " the bin wants about " +
                    words::volume(collect.bedding_l.value, units) + " of loose bedding (" +
                    words::volume(collect.bedding_l.low, units) + " to " +
                    words::volume(collect.bedding_l.high, units) + ").");
    if (collect.stock_l > 0.0)
        lines.push_back("In stock is about " + words::volume(collect.stock_l, units) + ".");
    if (!(collect.collect_l > 0.0)) {
        lines.emplace_back("That is enough: collect no bedding.");
        return;
    }
    bool first = true;
    for (const CollectThing& one : collect.things) {
        if (!one.bedding) continue;
        lines.push_back((first ? "Collect " : "Or collect ") +
                        words::volume(collect.collect_l, units) + " of " + one.thing.name() +
                        ", about " + words::mass(one.kg, units) + ". Keep it dry.");
        first = false;
    }
}

}  // namespace

Result<Collect> collect_of(const FeedFile& file, const std::vector<StockItem>& items,
                           const CollectWords& words, UnitSystem units) {
    Collect collect;
    Errors errors;
    const auto days = days_of(words.time);
    if (days)
        collect.days = *days;
    else
        errors.push_back(days.errors().front());
    std::vector<ThingAtHand> named;
    for (const std::string& name :
         names_in(words.things.empty() ? usual_things : std::string_view(words.things))) {
        auto thing = thing_named(file, name);
        if (thing)
            named.push_back(std::move(thing).value());
        else
            errors.push_back(thing.errors().front());
    }
    if (!errors.empty()) return errors;
    collect.week = week_need(ration_input(file, units));
    const double weeks = collect.days / 7.0;
    const Ranged& week_l = collect.week.bedding_l;
    collect.bedding_l = Ranged(weeks * week_l.value, weeks * week_l.low, weeks * week_l.high);
    for (const StockItem& item : items) {
        const Feedstock& f = *item.thing.feedstock;
        if (part_of(f) == Part::bedding && !barred_in(f, feed::Place::worm_bed))
            collect.stock_l += loose_l(f, item.thing.most->in_kilograms());
    }
    collect.collect_l = std::max(0.0, collect.bedding_l.value - collect.stock_l);
    for (ThingAtHand& thing : named) {
        const Feedstock& f = *thing.feedstock;
        if (barred_in(f, feed::Place::worm_bed)) {
            collect.take_out.push_back(take_out(f, thing.label));
            continue;
        }
        CollectThing one;
        one.bedding = part_of(f) == Part::bedding;
        if (one.bedding) {
            one.kg = collect.collect_l * feed::detail::loose_kg_per_m3(f) / 1000.0;
        } else {
            one.most_week_kg = most_in_week_kg(f, collect.week);
            one.kg = weeks * one.most_week_kg;
        }
        one.thing = std::move(thing);
        collect.things.push_back(std::move(one));
    }
    return collect;
}

std::vector<std::string> collect_lines(const Collect& collect, UnitSystem units) {
    std::vector<std::string> lines = never_lines(collect.take_out);
    if (!(collect.week.most_kg > 0.0)) {
        lines.emplace_back("The bed takes no food now. Ask feed ration first.");
        return lines;
    }
    const bool bedding = std::any_of(collect.things.begin(), collect.things.end(),
                                     [](const CollectThing& one) { return one.bedding; });
    if (bedding) add_bedding_lines(collect, units, lines);
    for (const CollectThing& one : collect.things) {
        if (one.bedding) continue;
        lines.push_back("Of " + one.thing.name() + " it takes at most " +
                        words::mass(one.most_week_kg, units) + " a week, " +
                        words::mass(one.kg, units) + " in all.");
        if (!keeps_for_weeks(*one.thing.feedstock))
            lines.push_back("Fetch it week by week: it is good for four days, frozen for longer.");
    }
    return lines;
}

void write_collect(JsonWriter& json, const Collect& collect, Date today) {
    json.key("collect");
    json.begin_object();
    write_take_out(json, collect.take_out);
    json.member("days", static_cast<std::int64_t>(collect.days));
    json.member("until", text(date_of(day_number(today) + collect.days)));
    json.member("from_diary", collect.week.from_diary);
    json.member("scraps_week_kg", collect.week.scraps_kg);
    json.member("most_week_kg", collect.week.most_kg);
    write_range(json, "bedding_l", collect.bedding_l);
    json.member("stock_l", collect.stock_l);
    json.member("collect_l", collect.collect_l);
    json.key("things");
    json.begin_array();
    for (const CollectThing& one : collect.things) {
        json.begin_object();
        write_thing(json, one.thing, one.kg);
        json.member("bedding", one.bedding);
        if (!one.bedding) json.member("most_week_kg", one.most_week_kg);
        json.end_object();
    }
    json.end_array();
    json.end_object();
}

}  // namespace feed::io
