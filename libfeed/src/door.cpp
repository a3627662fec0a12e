#include "feed/io/door.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "door_note.hpp"
#include "door_request.hpp"
#include "feed/diary/seen.hpp"
#include "feed/feedstock/lookup.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/bin_start.hpp"
#include "feed/io/file_kind.hpp"
#include "feed/io/heap_answer.hpp"
#include "feed/io/new_bin_text.hpp"
#include "feed/io/stock_answer.hpp"
#include "feed/io/text_file.hpp"
#include "feed/io/to_json.hpp"
#include "feed/io/totals_answer.hpp"
#include "feed/io/week_answer.hpp"
#include "feed/io/worms_answer.hpp"
#include "feed/quantity/plain_text.hpp"
#include "feed/ration/signs.hpp"
#include "json_members.hpp"
#include "reading.hpp"

namespace feed::io {
namespace door {
namespace {

/// The file of a request, or the one that its words make.
Result<FeedFile> bin_of(const Request& request) {
    BinWords said;
    const std::array<std::pair<std::string_view, std::string BinWords::*>, 4> parts{
        {{bin.name, &BinWords::container},
         {worms.name, &BinWords::worms},
         {temperature.name, &BinWords::temperature},
         {squeeze.name, &BinWords::squeeze}}};
    for (const auto& [member, part] : parts)
        said.*part = request.text(member);
    const bool has_things = request.has(things.name) && !request.texts.at(things.name).empty();
    const bool as_balance = request.verb->name == "balance";
    if (request.file && !said.empty())
        return make_error(ErrorCode::contradiction, "file", "", "a file, or the bin in words",
                          "the file says what bin it is; leave the rest out");
    if (request.file && has_things)
        return with_things(*request.file, request.texts.at(things.name), as_balance);
    if (request.file) return *request.file;
    if (!has_things)
        return make_error(ErrorCode::missing_value, "file", "", "file or things",
                          "which file, or what is there to feed?");
    auto made = read_bin_words(said, request.texts.at(things.name), as_balance);
    if (!made) {
        Errors errors = made.errors();
        for (Error& error : errors) {
            if (error.field == "bed: container") error.field = bin.name;
            for (const std::string_view key : {worms.name, temperature.name, squeeze.name})
                if (error.field == "bed: " + std::string(key)) error.field = key;
        }
        return errors;
    }
    made->today = request.date;
    return made;
}

Result<std::string> answer_of_file(const Request& request) {
    const auto file = bin_of(request);
    if (!file) return file.errors();
    AnswerOptions options;
    options.units = request.units;
    if (const auto said = request.numbers.find(days.name); said != request.numbers.end())
        options.days = static_cast<std::size_t>(said->second);
    if (request.has(away.name)) {
        const auto time = time_away(request.text(away.name), away.name);
        if (!time) return time.errors();
        options.away = *time;
    }
    options.svg = request.truth(svg.name);
    options.yaml = request.truth(yaml.name);
    options.letter = request.text(paper.name) == "letter";
    const std::string page = request.text(sheet.name);
    options.sheet = page == "text"   ? SheetForm::text
                    : page == "html" ? SheetForm::html
                    : page == "svg"  ? SheetForm::svg
                                     : SheetForm::none;
    return answer_json(request.verb->name, *file, options);
}

/// Work on the bed of a file.
Result<std::string> answer_work(const Request& request) {
    AnswerOptions options;
    options.units = request.units;
    const WorkWords words{request.text(way.name), request.text(change.name),
                          request.text(share.name), request.text(there.name),
                          request.text(away.name)};
    if (auto wrong = read_work(request.verb->name, words, "", options)) return *wrong;
    return answer_json(request.verb->name, *request.file, options);
}

Result<std::string> answer_show(const Request& request) {
    const auto found = look_up(request.text(words.name));
    if (!found) return found.errors();
    return to_json(*found->feedstock);
}

Result<std::string> answer_start(const Request& request) {
    BinStart said;
    said.title = request.text(title.name);
    for (const StartQuestion& question : start_questions)
        said.*question.answer = request.text(question.option.substr(2));
    const auto started = start_bin(said, *request.date, request.units);
    if (!started) {
        Errors errors = started.errors();
        for (Error& error : errors) {
            if (error.field.substr(0, 2) == "--") error.field.erase(0, 2);
        }
        return errors;
    }
    JsonWriter json;
    json.begin_object();
    write_started(json, *started, request.units);
    json.end_object();
    return json.take();
}

Result<std::string> answer_signs(const Request& request) {
    const auto seen = read_signs(request.texts.at(signs.name));
    if (!seen) return seen.errors();
    if (seen->empty()) {
        const std::vector<std::string_view> all(sign_words.begin(), sign_words.end());
        return make_error(ErrorCode::empty, "signs", "", listed(all), "which sign?");
    }
    if (!request.file) return to_json(causes_of(*seen, request.units));
    return to_json(causes_of(ration_input(*request.file, request.units), *seen, request.units));
}

Result<std::string> answer_week(const Request& request) {
    WeekAsked asked;
    asked.bins = request.files;
    if (request.has(have.name)) asked.have = request.texts.at(have.name);
    asked.today = request.date;
    asked.units = request.units;
    if (const auto said = request.numbers.find(openings.name); said != request.numbers.end())
        asked.openings = said->second;
    const auto plan = week_of(asked);
    if (!plan) return plan.errors();
    std::string json = to_json(*plan, request.units);
    const std::string form = request.text(sheet.name);
    if (form == "html")
        return with_text(std::move(json), sheet.name, week_sheet_html(*plan, request.units));
    if (form == "svg")
        return with_texts(std::move(json), sheet.name, io::week_sheet(*plan, request.units));
    return json;
}

Result<std::string> answer_totals(const Request& request) {
    const auto totals = totals_of({request.files, request.text(since.name), request.date});
    if (!totals) return totals.errors();
    return to_json(*totals, request.units);
}

Result<std::string> answer_worms(const Request& request) {
    WormsAsked asked;
    asked.file = request.file;
    asked.bin = {request.text(bin.name), request.text(worms.name), request.text(temperature.name),
                 ""};
    if (request.has(scraps.name)) asked.scraps = request.texts.at(scraps.name);
    const std::array<std::pair<std::string_view, std::string WormsAsked::*>, 3> heads{
        {{people.name, &WormsAsked::people},
         {meals.name, &WormsAsked::meals},
         {coffee.name, &WormsAsked::coffee}}};
    for (const auto& [member, part] : heads) {
        if (const auto said = request.numbers.find(member); said != request.numbers.end())
            asked.*part = std::to_string(said->second);
    }
    asked.census = request.text(census.name);
    asked.sample = request.text(sample.name);
    asked.today = request.date;
    asked.units = request.units;
    const auto answer = worms_of(asked);
    if (!answer) return answer.errors();
    return to_json(*answer);
}

Result<std::string> answer_stock(const Request& request) {
    const auto stock = stock_of(*request.file, request.units,
                                {request.text(collect.name), request.text(lasting.name)});
    if (!stock) return stock.errors();
    return to_json(*stock, request.units);
}

Result<std::string> answer_heap(const Request& request) {
    const bool has_things =
        request.has(heap_things.name) && !request.texts.at(heap_things.name).empty();
    if (request.file && has_things)
        return make_error(ErrorCode::contradiction, "file", "", "a file, or things",
                          "the file says what there is for the heap; leave the rest out");
    if (!request.file && !has_things)
        return make_error(ErrorCode::missing_value, "file", "", "file or things",
                          "which file, or what is there for the heap?");
    auto made = request.file ? Result<FeedFile>(*request.file)
                             : read_heap_words(request.texts.at(heap_things.name));
    if (!made) return made.errors();
    if (!request.file) made->today = request.date;
    const auto heap = heap_of(*made, request.text(heap_worms.name), request.units);
    if (!heap) return heap.errors();
    return to_json(*heap, request.units);
}

bool takes(const Verb* asked, const Member& member) {
    return asked != nullptr && std::any_of(asked->members.begin(), asked->members.end(),
                                           [&](const Asked& one) { return one.member == &member; });
}

/// Whether the name of a feedstock is all that a verb may need.
bool takes_a_name(const Verb* asked) {
    return takes(asked, words) || takes(asked, table_words);
}

/// Whether a file is all that a verb may need.
bool takes_a_file(const Verb* asked) {
    return (takes(asked, file) || takes(asked, heap_file)) &&
           std::none_of(asked->members.begin(), asked->members.end(),
                        [](const Asked& one) { return one.needed && one.member != &file; });
}

}  // namespace

Result<std::string> answer(const Request& request) {
    const std::string_view asked = request.verb->name;
    if (request.file) {
        if (const auto refused = wrong_kind(*request.file, asked)) return *refused;
    }
    if (asked == "heap") return answer_heap(request);
    if (asked == "table") return table_json(request.text(words.name));
    if (asked == "show") return answer_show(request);
    if (asked == "note") return answer_note(request);
    if (asked == "observe") return to_json(news_of(*request.file, false));
    if (asked == "start") return answer_start(request);
    if (asked == "harvest" || asked == "refresh") return answer_work(request);
    if (asked == "signs") return answer_signs(request);
    if (asked == "week") return answer_week(request);
    if (asked == "stock") return answer_stock(request);
    if (asked == "totals") return answer_totals(request);
    if (asked == "worms") return answer_worms(request);
    if (asked == "schema") return request_schema();
    if (asked == "version") return version_json();
    return answer_of_file(request);
}

}  // namespace door

Result<std::string> answer_request(std::string_view request) {
    const auto asked = door::read_request(request);
    if (!asked) return asked.errors();
    return door::answer(*asked);
}

Result<std::string> answer_text(std::string_view verb, std::string_view text,
                                std::string_view name) {
    door::Request request;
    request.verb = door::find_verb(verb);
    if (door::takes_a_name(request.verb)) {
        // The reader of files finds the place of a bad byte itself; a name has no places.
        if (first_text_fault(text).offset < text.size())
            return make_error(ErrorCode::not_utf8, "text", "", "text in UTF-8",
                              "this text is not UTF-8");
        request.texts[door::words.name].emplace_back(text);
        return door::answer(request);
    }
    if (!door::takes_a_file(request.verb)) {
        std::string allowed;
        for (const door::Verb& known : door::verbs) {
            if (door::takes_a_name(&known) || door::takes_a_file(&known))
                allowed += (allowed.empty() ? "" : ", ") + std::string(known.name);
        }
        return make_error(ErrorCode::out_of_range, "verb", std::string(verb), allowed,
                          "no answer has that name");
    }
    auto file = read_feed_text(text, name);
    if (!file) return file.errors();
    request.file = std::move(file).value();
    return door::answer(request);
}

}  // namespace feed::io

namespace feed {

std::string call(std::string_view request) {
    auto answer = io::answer_request(request);
    return answer ? std::move(answer).value() : io::to_json(answer.errors());
}

}  // namespace feed
