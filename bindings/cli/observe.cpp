#include <string>
#include <vector>

#include "command.hpp"
#include "feed/io/diary_append.hpp"
#include "feed/io/diary_news.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/file_kind.hpp"
#include "feed/io/json_writer.hpp"
#include "feed/io/note.hpp"
#include "feed/io/observation_text.hpp"
#include "feed/io/to_json.hpp"
#include "feed/io/today_lines.hpp"
#include "feed/io/yaml_tree.hpp"
#include "feed/quantity/amount_words.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/quantity/plain_text.hpp"
#include "file_or_entries.hpp"
#include "today.hpp"

namespace feed_command {
namespace {

using namespace feed;
using io::wrapped;

/// A value as it was typed, or {place: value, ...} where one was typed, as for temperatures at
/// several places.
void write_value(io::JsonWriter& json, const std::string& key, const std::string& value) {
    const auto tree = value.substr(0, 1) == "{" ? io::parse_yaml(value, "") : Errors();
    if (!tree || !tree->root().is_mapping()) {
        json.member(key, value);
        return;
    }
    json.key(key);
    json.begin_object();
    tree->root().for_each_pair(
        [&](io::YamlView place, io::YamlView there) { json.member(place.text(), there.text()); });
    json.end_object();
}

/// Reads KEY=VALUE words as one entry of `observations`, by the reader of the file form.
Result<Observation> read_observation(const Arguments& arguments) {
    io::JsonWriter json;
    json.begin_object();
    json.member("libfeed", 1);
    json.key("observations");
    json.begin_array();
    json.begin_object();
    json.member("date", arguments.has("--date") ? arguments.options.at("--date") : text(today()));
    Errors errors;
    for (std::size_t i = 1; i < arguments.words.size(); ++i) {
        const auto& word = arguments.words[i];
        const auto equals = word.find('=');
        const bool has_key = equals != std::string::npos && equals > 0;
        if (!has_key || plain_text(word.substr(equals + 1)).empty()) {
            auto wrong = wrong_words(arguments, has_key ? "there is nothing after the ="
                                                        : "what was seen is written KEY=VALUE");
            wrong[0].value = word;
            errors.push_back(wrong[0]);
            continue;
        }
        write_value(json, word.substr(0, equals), word.substr(equals + 1));
    }
    json.end_object();
    json.end_array();
    json.end_object();
    if (!errors.empty()) return errors;
    const auto file = io::read_feed_text(json.take(), "");
    if (file) return file->diary.observations.front();
    for (Error error : file.errors()) {
        constexpr std::string_view before = "observations: entry 1";
        if (error.field.substr(0, before.size()) == before) error.field.erase(0, before.size());
        if (error.field.substr(0, 2) == ": ") error.field.erase(0, 2);
        if (error.field.empty()) error.field = error.value;
        error.line = error.column = 0;
        errors.push_back(std::move(error));
    }
    return errors;
}

std::string rate_text(double per_day) {
    return significant(per_day, 2);
}

/// A rate in the words of somebody who looks into a bin.
std::string_view food_of(ForecastParameter rate) {
    if (rate == ForecastParameter::labile_rate_per_day) return "soft food (labile)";
    if (rate == ForecastParameter::cellulosic_rate_per_day) return "paper and peel (cellulosic)";
    return "wood and stalks (lignin-like)";
}

std::string news_text(const io::DiaryNews& news, io::UnitSystem units) {
    std::string text;
    if (!news.added.empty())
        text += "Added, " + io::counted(news.observations, "observation") + " now:\n" + news.added +
                "\n";
    if (!news.look_back.empty()) text += wrapped("Look back: " + news.look_back, 0, 2) + "\n";
    if (!news.trial.empty()) text += wrapped(news.trial, 0, 2) + "\n";
    if (news.calibration.used == 0) {
        text += wrapped(
            "Nothing yet says how fast this bin eats: note what is left of a feeding, by "
            "eye or weighed. Until then the published rates stand.",
            0, 0);
    } else {
        text += wrapped("This bin's rates at " + words::temperature(25.0, units) +
                            ", per day, from " + io::counted(news.calibration.used, "look") +
                            " (in brackets where nine in ten lie)",
                        0, 2);
        for (std::size_t i = 0; i < news.calibration.rates.size(); ++i) {
            const auto& now = news.calibration.rates[i];
            const auto& before = news.before.rates[i];
            text += wrapped(
                std::string(food_of(now.parameter)) + ": " + rate_text(now.after_per_day) + " (" +
                    rate_text(now.after_low_per_day) + " to " + rate_text(now.after_high_per_day) +
                    "); before " + rate_text(before.after_per_day) + "; to begin with " +
                    rate_text(now.before_per_day) + " (" + rate_text(now.before_low_per_day) +
                    " to " + rate_text(now.before_high_per_day) + ")" +
                    (now.outside_published ? "; outside the published range" : ""),
                2, 6);
        }
    }
    for (const auto& own : news.own_feeds)
        text += wrapped(own, 0, 2);
    for (const auto& misfit : news.misfits)
        text += wrapped("- " + misfit, 0, 2);
    if (!news.slips.empty()) {
        text += "\nDoes not add up\n";
        for (const auto& slip : news.slips)
            text += wrapped("- " + words::fixed_text(slip, units), 2, 4);
    }
    return text;
}

/// What a keeper would say instead of a KEY=VALUE, in words that feed note takes; "" where it has
/// none.
std::string as_note(const std::string& word) {
    const auto equals = word.find('=');
    const std::string key = word.substr(0, equals);
    const std::string value = word.substr(equals + 1);
    std::string said;
    if (key == "share_gone") said = value + " gone";
    if (key == "gone") said = plain_text(value) == "no" ? "not gone" : "gone";
    if (key == "squeeze") said = value;
    if (key == "plots") said = value;
    for (const std::string_view same : {"smell", "temperature", "ph", "left", "worms", "note"})
        if (key == same) said = std::string(key).append(" ").append(value);
    return !said.empty() && io::read_note(said, Date{}) ? said : std::string();
}

/// The same call as a note, or "" where a part of it has no words.
std::string note_instead(const Arguments& arguments) {
    std::string said;
    for (std::size_t i = 1; i < arguments.words.size(); ++i) {
        const std::string words = as_note(arguments.words[i]);
        if (words.empty()) return "";
        said += (i > 1 ? ", " : "") + words;
    }
    return "\nIn everyday words: feed note " + arguments.words[0] + " \"" + said + "\"\n";
}

}  // namespace

int run_observe(Arguments& arguments) {
    if (arguments.words.empty()) return refuse(arguments, wrong_words(arguments, "which diary?"));
    const std::string& path = arguments.words[0];
    const auto answer = [&](const io::FeedFile& file, const std::string& added) {
        const auto news = io::news_of(file, !added.empty(), added);
        if (arguments.json()) return io::to_json(news);
        if (file.is_of_a_heap())
            return "Added:\n" + news.added +
                   io::screen_text(io::today_lines(file, today(), arguments.units));
        return news_text(news, arguments.units) + (added.empty() ? "" : note_instead(arguments));
    };
    if (arguments.words.size() == 1) {
        const auto file = read_named_file(arguments, path);
        if (!file) return refuse(arguments, file.errors());
        if (const auto heap = io::wrong_kind(*file, "observe")) return refuse(arguments, *heap);
        return print(answer(*file, ""));
    }
    const auto observation = read_observation(arguments);
    if (!observation) return refuse(arguments, observation.errors());
    if (const auto early = lies_ahead(observation->date, arguments))
        return refuse(arguments, {*early});
    std::string text;
    const auto appended = io::append_to_diary(path, [&](std::string_view diary) {
        auto with = io::with_diary_entry(diary, "observations",
                                         io::observation_yaml(*observation, 0), path);
        // The answer is ready before anything is written: nothing can fail between the two.
        if (with) text = answer(with->file, with->entry);
        return with;
    });
    if (!appended) return refuse(arguments, appended.errors());
    return print_after_writing(text, path, appended->confirmed);
}

}  // namespace feed_command
