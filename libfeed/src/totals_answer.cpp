#include "feed/io/totals_answer.hpp"

#include <utility>

#include "feed/io/json_writer.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/screen.hpp"
#include "feed/io/to_json.hpp"
#include "feed/io/week_answer.hpp"
#include "feed/quantity/amount_words.hpp"

namespace feed::io {
namespace {

constexpr Date first_day{1, 1, 1};
constexpr Date last_day{9999, 12, 31};
/// Bins and months that the first screen has room for.
constexpr std::size_t most_bins_shown = 5;
constexpr std::size_t most_months_shown = 3;

/// "3.2 kg of scraps, 800 g of bedding, 5 L of castings".
std::string sums_text(const Totals& totals, UnitSystem units) {
    std::vector<std::string> parts;
    if (totals.scraps_kg > 0.0)
        parts.push_back(words::mass(totals.scraps_kg, units) + " of scraps");
    if (totals.bedding_kg > 0.0)
        parts.push_back(words::mass(totals.bedding_kg, units) + " of bedding");
    if (totals.castings_l > 0.0)
        parts.push_back(volume_text(litres(totals.castings_l), units) + " of castings out");
    return parts.empty() ? "nothing" : joined(parts);
}

/// "May 2026".
std::string month_text(const std::string& first) {
    const Date date = *parse_date(first);
    return std::string(month_word(date)) + " " + std::to_string(date.year);
}

std::string day_text(Date day, const DiaryTotals& totals, UnitSystem units) {
    return day_words(day, 0, units) +
           (totals.since.year == totals.until.year ? "" : " " + std::to_string(day.year));
}

std::vector<std::string> head_lines(const DiaryTotals& totals, UnitSystem units) {
    const Totals& all = totals.all;
    if (totals.weeks.empty()) return {"Nothing was fed, bedded or harvested in this time."};
    std::vector<std::string> lines;
    lines.push_back("In all " + sums_text({0, all.scraps_kg, all.bedding_kg}, units) + " went in.");
    lines.push_back(counted(static_cast<std::size_t>(all.feedings), "feeding") + ", " +
                    day_text(totals.since, totals, units) + " to " +
                    day_text(totals.until, totals, units) + ".");
    if (all.castings_l > 0.0)
        lines.push_back("Harvested: " + volume_text(litres(all.castings_l), units) +
                        " of castings.");
    if (all.kept_kg > 0.0)
        lines.push_back("Kept out of the rubbish: " + words::mass(all.kept_kg, units) + ".");
    return lines;
}

void add_list(std::vector<std::string>& lines, std::string_view heading,
              const std::vector<NamedTotals>& list, UnitSystem units, std::size_t most,
              std::string (*name)(const std::string&)) {
    if (list.size() < 2) return;  // one sum is the whole
    lines.emplace_back(heading);
    for (std::size_t i = 0; i < list.size() && i < most; ++i)
        lines.push_back("  " + name(list[i].name) + ": " + sums_text(list[i].totals, units) + ".");
    if (list.size() > most)
        lines.push_back("  and " + std::to_string(list.size() - most) + " more: add --why.");
}

std::string as_is(const std::string& name) {
    return name;
}
std::string group_name(const std::string& name) {
    return name.empty() ? "nobody named" : name;
}

void write_sums(JsonWriter& json, const Totals& totals) {
    json.member("feedings", totals.feedings);
    json.member("scraps_kg", totals.scraps_kg);
    json.member("bedding_kg", totals.bedding_kg);
    json.member("lime_kg", totals.lime_kg);
    json.member("water_kg", totals.water_kg);
    json.member("kept_kg", totals.kept_kg);
    json.member("castings_l", totals.castings_l);
}

void write_list(JsonWriter& json, std::string_view key, std::string_view name,
                const std::vector<NamedTotals>& list) {
    json.key(key);
    json.begin_array();
    for (const NamedTotals& one : list) {
        json.begin_object();
        json.member(name, one.name);
        write_sums(json, one.totals);
        json.end_object();
    }
    json.end_array();
}

std::vector<std::string> totals_lines(const DiaryTotals& totals, UnitSystem units) {
    std::vector<std::string> lines = head_lines(totals, units);
    if (totals.weeks.empty()) return lines;
    add_list(lines, "By bin:", totals.bins, units, most_bins_shown, as_is);
    const bool bins = totals.bins.size() > 1;
    if (!bins) add_list(lines, "By month:", totals.months, units, most_months_shown, month_text);
    return lines;
}

}  // namespace

Result<DiaryTotals> totals_of(const TotalsAsked& asked) {
    if (auto wrong = wrong_bins(asked.bins, "totals")) return std::move(*wrong);
    Date since = first_day;
    const Date until = asked.today.value_or(last_day);
    if (!asked.since.empty()) {
        const auto day = parse_date(asked.since);
        if (!day || day_number(*day) > day_number(until))
            return make_error(ErrorCode::out_of_range, "since", asked.since,
                              "a day such as 2026-03-14, not after today",
                              day ? "this day is after today" : "this is not a day");
        since = *day;
    }
    std::vector<TotalledBin> bins;
    for (std::size_t b = 0; b < asked.bins.size(); ++b)
        bins.push_back({bin_name(asked.bins[b], b), asked.bins[b].group, &asked.bins[b].diary});
    return feed::totals_of(bins, since, until);
}

std::string totals_text(const DiaryTotals& totals, UnitSystem units, bool why) {
    if (!why || totals.weeks.empty()) return screen_text(totals_lines(totals, units));
    const std::size_t all = static_cast<std::size_t>(-1);
    std::vector<std::string> lines = head_lines(totals, units);
    add_list(lines, "By bin:", totals.bins, units, all, as_is);
    add_list(lines, "By group:", totals.groups, units, all, group_name);
    add_list(lines, "By month:", totals.months, units, all, month_text);
    add_list(lines, "By week, from Monday:", totals.weeks, units, all, as_is);
    lines.emplace_back(
        "Kept out of the rubbish are scraps, and bedding of waste paper, card and leaves.");
    lines.emplace_back("A day with a weight and no feeding counts as scraps.");
    return screen_text(lines);
}

std::string to_json(const DiaryTotals& totals, UnitSystem units) {
    JsonWriter json;
    json.begin_object();
    const bool any = !totals.weeks.empty();
    json.member("since", any ? std::optional(text(totals.since)) : std::nullopt);
    json.member("until", any ? std::optional(text(totals.until)) : std::nullopt);
    json.key("all");
    json.begin_object();
    write_sums(json, totals.all);
    json.end_object();
    write_list(json, "bins", "bin", totals.bins);
    write_list(json, "groups", "group", totals.groups);
    write_list(json, "months", "from", totals.months);
    write_list(json, "weeks", "from", totals.weeks);
    write_texts(json, "text", totals_lines(totals, units));
    json.end_object();
    return json.take();
}

}  // namespace feed::io
