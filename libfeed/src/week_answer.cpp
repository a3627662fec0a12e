#include "feed/io/week_answer.hpp"

#include <algorithm>
#include <utility>

#include "feed/feedstock/plain_name.hpp"
#include "feed/io/file_kind.hpp"
#include "feed/ration/week_plan.hpp"
#include "note_day.hpp"

namespace feed::io {
namespace {

constexpr std::string_view day_forms = "a weekday such as Thu, today, tomorrow or a date";

/// Small letters; what people write before a colon.
std::string lowered(std::string_view text) {
    std::string small(text);
    for (char& c : small)
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return small;
}

std::string_view trimmed(std::string_view text) {
    const auto from = text.find_first_not_of(" \t\n");
    if (from == std::string_view::npos) return {};
    return text.substr(from, text.find_last_not_of(" \t\n") - from + 1);
}

/// The days from today of a weekday, today, tomorrow or a date; nothing where the word is none.
std::optional<std::int64_t> days_ahead(std::string_view word, Date today) {
    if (const auto date = parse_date(word)) return day_number(*date) - day_number(today);
    const std::string small = lowered(word);
    if (small == "today") return 0;
    if (small == "tomorrow") return 1;
    const auto day = weekday_named(word);
    if (!day) return std::nullopt;
    return (*day - weekday_number(today) + 7) % 7;
}

/// One part of the words, and the day on which it comes.
struct DayPart {
    std::string things;
    int from = 0;
};

Result<DayPart> day_part(std::string_view part, Date today) {
    const auto colon = part.find(':');
    if (colon == std::string_view::npos) return DayPart{std::string(part), 0};
    const std::string_view word = trimmed(part.substr(0, colon));
    const auto day = days_ahead(word, today);
    if (!day)
        return make_error(ErrorCode::out_of_range, "have", std::string(word),
                          std::string(day_forms) + ", then \":\" and what comes",
                          "\"" + std::string(word) + "\" is not a day");
    if (*day < 0 || *day >= week_days)
        return make_error(
            ErrorCode::out_of_range, "have", std::string(word),
            "a day from " + text(today) + " to " + text(date_of(day_number(today) + week_days - 1)),
            "the week has seven days, today the first");
    return DayPart{std::string(trimmed(part.substr(colon + 1))), static_cast<int>(*day)};
}

/// The things of one part, as what is fed is read.
Result<std::vector<ThingAtHand>> things_of(const std::string& words) {
    auto file = read_portions({words});
    if (!file) return file.errors();
    std::vector<ThingAtHand> things;
    for (const WrittenPortion& one : file->blend.value_or(std::vector<WrittenPortion>()))
        things.push_back({one.portion.feedstock, one.label, one.portion.wet_mass, one.amount});
    return things;
}

/// Where in a part a later day begins behind a comma ("2 kg apples, Wed: 3 kg lettuce"): the place
/// of that comma.
std::size_t comma_before_day(std::string_view part, Date today) {
    for (auto colon = part.find(':'); colon != std::string_view::npos;
         colon = part.find(':', colon + 1)) {
        const auto comma = part.substr(0, colon).rfind(',');
        if (comma == std::string_view::npos) continue;
        if (days_ahead(trimmed(part.substr(comma + 1, colon - comma - 1)), today)) return comma;
    }
    return std::string_view::npos;
}

std::vector<std::string_view> parts_of(std::string_view text, Date today) {
    std::vector<std::string_view> parts;
    for (;;) {
        const auto semicolon = text.find(';');
        const auto end = std::min(semicolon, comma_before_day(text.substr(0, semicolon), today));
        const auto part = trimmed(text.substr(0, end));
        if (!part.empty()) parts.push_back(part);
        if (end == std::string_view::npos) return parts;
        text.remove_prefix(end + 1);
    }
}

}  // namespace

Result<std::vector<WeekThing>> read_week_things(const std::vector<std::string>& texts, Date today) {
    std::vector<WeekThing> things;
    Errors errors;
    for (const std::string& text : texts) {
        for (const std::string_view part : parts_of(text, today)) {
            const auto on = day_part(part, today);
            if (!on) {
                errors.push_back(on.errors().front());
                continue;
            }
            auto read = things_of(on->things);
            if (!read) {
                for (Error& error : std::move(read).errors())
                    errors.push_back(std::move(error));
                continue;
            }
            for (ThingAtHand& thing : *read)
                things.push_back(week_thing(std::move(thing), on->from));
        }
    }
    if (!errors.empty()) return errors;
    return things;
}

namespace {

/// A bin that is there twice would be fed, or counted, twice.
std::optional<Error> there_twice(const FeedFile& file, const FeedFile& before) {
    const bool same = file.content_hash == before.content_hash && file.content_hash != 0;
    if (same)
        return make_error(ErrorCode::duplicate_entry, "bins", file.name, "each bin once",
                          "this bin is there twice, and would count twice; if you have two that "
                          "are alike, give each a title of its own, such as \"title: Tote two\"");
    if (file.title.empty() || file.title != before.title) return std::nullopt;
    return make_error(ErrorCode::duplicate_entry, "bins", file.name, "each bin once",
                      "two bins are called \"" + file.title +
                          "\"; give each a title of its own, such as \"title: " + file.title +
                          " two\"");
}

}  // namespace

std::optional<Errors> wrong_bins(const std::vector<FeedFile>& bins, std::string_view verb) {
    if (bins.empty())
        return Errors{offered(
            make_error(ErrorCode::missing_value, "bins", "", "the file of each bin", "which bins?"),
            " Write for instance ", {"feed " + std::string(verb) + " tote.yaml trays.yaml"})};
    if (bins.size() > most_bins)
        return Errors{make_error(ErrorCode::out_of_range, "bins", std::to_string(bins.size()),
                                 "at most " + std::to_string(most_bins) + " bins",
                                 "these are too many bins at once")};
    Errors errors;
    for (const FeedFile& file : bins) {
        if (const auto wrong = wrong_kind(file, verb))
            errors.insert(errors.end(), wrong->begin(), wrong->end());
    }
    for (std::size_t i = 1; i < bins.size(); ++i) {
        for (std::size_t before = 0; before < i; ++before) {
            auto twice = there_twice(bins[i], bins[before]);
            if (!twice) continue;
            errors.push_back(*std::move(twice));
            break;
        }
    }
    if (errors.empty()) return std::nullopt;
    return errors;
}

namespace {

double kilograms_of(const ThingAtHand& thing) {
    return thing.most ? thing.most->in_kilograms() : 0.0;
}

/// What lies in the stock of a bin. What is said to be there today is that, and not there twice.
void add_stock(const FeedFile& file, std::size_t bin, const std::vector<WeekThing>& said,
               WeekInput& in) {
    for (WeekThing& one : week_things_of(file.stock, file.diary, in.today, bin)) {
        SaidTwice twice;
        bool any = false;
        for (const WeekThing& other : said) {
            if (other.from != 0 || !same_material(*other.thing.feedstock, *one.thing.feedstock))
                continue;
            any = true;
            twice.said_kg += kilograms_of(other.thing);
        }
        if (!any) {
            in.things.push_back(std::move(one));
            continue;
        }
        if (barred_in(*one.thing.feedstock, Place::worm_bed)) continue;  // no amount of it counts
        twice.label = one.thing.name();
        twice.in_stock_kg = kilograms_of(one.thing);
        const auto known =
            std::find_if(in.said_twice.begin(), in.said_twice.end(),
                         [&](const SaidTwice& before) { return before.label == twice.label; });
        if (known == in.said_twice.end())
            in.said_twice.push_back(std::move(twice));
        else
            known->in_stock_kg += twice.in_stock_kg;
    }
}

}  // namespace

std::string bin_name(const FeedFile& file, std::size_t index) {
    return file.title.empty() ? "bin " + std::to_string(index + 1) : file.title;
}

Result<WeekInput> week_input(const WeekAsked& asked) {
    WeekInput in;
    in.units = asked.units;
    in.most_openings = asked.openings;
    if (auto wrong = wrong_bins(asked.bins, "week")) return std::move(*wrong);
    std::optional<Date> today = asked.today;
    if (!today) {
        for (const FeedFile& file : asked.bins) {
            const auto day = day_zero(file);
            if (day && (!today || day_number(*day) > day_number(*today))) today = day;
        }
    }
    if (!today)
        return make_error(ErrorCode::missing_value, "date", "", "a day such as 2026-03-14",
                          "no file names a day, so say which day it is");
    in.today = *today;
    for (std::size_t b = 0; b < asked.bins.size(); ++b) {
        const FeedFile& file = asked.bins[b];
        in.bins.push_back({bin_name(file, b), file.group, file.diary});
    }
    auto things = read_week_things(asked.have, in.today);
    if (!things) return things.errors();
    // The stock first, as the notes of feedings will take from it.
    for (std::size_t b = 0; b < asked.bins.size(); ++b)
        add_stock(asked.bins[b], b, *things, in);
    for (WeekThing& one : *things)
        in.things.push_back(std::move(one));
    if (in.things.empty())
        return make_error(ErrorCode::missing_value, "have", "",
                          "\"2 kg coffee grounds; Thu: 3 kg lettuce\"", "what is there to feed?");
    return in;
}

Result<WeekPlan> week_of(const WeekAsked& asked) {
    const auto in = week_input(asked);
    if (!in) return in.errors();
    return plan_week(*in);
}

}  // namespace feed::io
