#include <utility>

#include "feed/bed/species.hpp"
#include "feed/feedstock/lookup.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/bin_sheet.hpp"
#include "feed/io/file_kind.hpp"
#include "feed/io/forecast_svg.hpp"
#include "feed/io/quantity_text.hpp"
#include "feed/io/to_json.hpp"
#include "feed/io/trial_answer.hpp"
#include "feed/io/trial_pictures.hpp"
#include "feed/version.hpp"
#include "json_members.hpp"

namespace feed::io {
namespace {

Result<std::string> balance_json(const FeedFile& file, UnitSystem units) {
    if (file.has_bed && !file.for_heap()) return balance_with_bed_json(ration_of(file, units));
    const auto answer = balance_of(file, units);
    if (!answer) return answer.errors();
    return to_json(answer->answer, answer->measures);
}

Result<std::string> forecast_json(const FeedFile& file, const AnswerOptions& options) {
    const auto answer = forecast_and_ration_of(file, options.days, options.units);
    std::string json = to_json(answer.forecast, &answer.ration);
    if (options.svg)
        json = with_text(std::move(json), "svg", forecast_picture(file, answer, options.units));
    if (options.sheet == SheetForm::none) return json;
    const auto sheet = forecast_sheet(file, answer.ration, options.sheet, options.units);
    if (!sheet) return sheet.errors();
    return with_text(std::move(json), "sheet", *sheet);
}

Result<std::string> plan_json(const FeedFile& file, const AnswerOptions& options) {
    const auto plan = trial_plan_of(file, options.units);
    if (!plan) return plan.errors();
    std::string json = to_json(*plan, options.units);
    if (options.sheet != SheetForm::none) {
        const Paper paper = options.letter ? Paper::letter : Paper::a4;
        const auto pages = trial_sheet(*plan, file.title, paper);
        if (options.sheet == SheetForm::svg)
            json = with_texts(std::move(json), "sheet", pages);
        else
            json = with_text(std::move(json), "sheet", trial_sheet_html(pages, file.title, paper));
    }
    if (!options.yaml) return json;
    const auto whole = trial_plan_yaml(file, *plan);
    if (!whole) return whole.errors();
    return with_text(std::move(json), "yaml", *whole);
}

Result<std::string> reading_json(const FeedFile& file, const AnswerOptions& options) {
    const auto reading = trial_reading_of(file);
    if (!reading) return reading.errors();
    std::string json = to_json(*file.trial, *reading);
    if (!options.svg) return json;
    return with_text(std::move(json), "svg", trial_svg(*file.trial, *reading, file.title));
}

}  // namespace

Result<std::string> answer_json(std::string_view verb, const FeedFile& file,
                                const AnswerOptions& options) {
    if (const auto refused = wrong_kind(file, verb)) return *refused;
    if (verb == "blend") {
        const auto answer = blend_of(file, options.units);
        if (!answer) return answer.errors();
        return to_json(answer->properties, answer->portions, answer->measures);
    }
    if (verb == "balance") return balance_json(file, options.units);
    if (verb == "check") {
        const CheckOfFile answer = check_and_advice_of(file, options.away, options.units);
        return to_json(answer.check, answer.advice);
    }
    if (verb == "ration") return to_json(ration_of(file, options.units));
    if (verb == "forecast") return forecast_json(file, options);
    if (verb == "harvest") return to_json(harvest_of(file, options.way, options.units));
    if (verb == "refresh" && options.change) {
        if (*options.change == RefreshChange::away)
            return answer_json("check", file, options);  // one advice on a time away
        return to_json(refresh_of(file, *options.change, options.refresh, options.units),
                       options.refresh);
    }
    if (verb == "trial plan") return plan_json(file, options);
    if (verb == "trial read") return reading_json(file, options);
    return make_error(ErrorCode::out_of_range, "verb", std::string(verb),
                      "blend, balance, ration, check, forecast, harvest, refresh, trial plan or "
                      "trial read",
                      "no answer has that name");
}

Result<Duration> time_away(std::string_view words, std::string_view field) {
    const auto time = parse_quantity(words, QuantityKind::duration);
    Errors errors = time ? Errors() : time.errors();
    if (time && (*time < 1.0 || *time > 84.0)) {
        errors.resize(1);
        errors[0].code = ErrorCode::out_of_range;
        errors[0].message = "a time away is worked out for 1 day to 12 weeks";
    }
    if (errors.empty()) return feed::days(*time);
    errors[0].field = std::string(field);
    errors[0].value = std::string(words);
    errors[0].allowed = "1 day to 12 weeks, such as \"3 weeks\"";
    return errors;
}

std::string forecast_picture(const FeedFile& file, const ForecastOfFile& answer, UnitSystem units) {
    PictureText words;
    words.title = file.title.empty() ? "Forecast" : file.title;
    words.day_zero = answer.ration.date;
    words.units = units;
    if (answer.ration.next_feeding) words.next_feeding_day = answer.ration.next_feeding->day;
    const auto& limits = limits_of(file.diary.bed.species.value_or(Species::eisenia_fetida));
    return forecast_svg(answer.forecast, limits, words);
}

Result<std::string> forecast_sheet(const FeedFile& file, const Ration& ration, SheetForm form,
                                   UnitSystem units) {
    if (!ration.date)
        return make_error(ErrorCode::missing_value, "bed: date", "", "date: 2026-03-14",
                          "a sheet names days, so the file must say which day it is", file.name);
    const auto page = bin_sheet_of(file.title, ration, units);
    return form == SheetForm::html ? bin_sheet_html(page) : bin_sheet_text(page);
}

Result<std::vector<Feedstock>> feedstocks_for(std::string_view words) {
    std::vector<Feedstock> found;
    for (const auto& candidate : search(words))
        found.push_back(feedstock_at(candidate.index));
    if (!found.empty()) return found;
    const auto nearest = look_up(words);
    if (!nearest) return nearest.errors();
    found.push_back(*nearest->feedstock);
    return found;
}

Result<std::string> table_json(std::string_view words) {
    const auto found = feedstocks_for(words);
    if (!found) return found.errors();
    return to_json(*found);
}

std::string version_json() {
    JsonWriter json;
    json.begin_object();
    json.member("version", library_version);
    json.member("table_version", table_version());
    json.member("table_sha256", table_content_hash());
    json.end_object();
    return json.take();
}

}  // namespace feed::io
