#include <optional>
#include <string>
#include <vector>

#include "command.hpp"
#include "feed/bed/cautions.hpp"
#include "feed/bed/hazard.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/quantity_text.hpp"
#include "feed/io/to_json.hpp"
#include "quantity_lines.hpp"

namespace feed_command {
namespace {

using namespace feed;
using io::wrapped;

std::string upper(std::string_view word) {
    std::string text(word);
    for (auto& c : text)
        if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    return text;
}

std::string hazards_text(const CheckResult& result, io::UnitSystem units) {
    std::string text;
    std::string fine;
    for (const auto level : {Level::act, Level::watch, Level::unknown}) {
        for (const auto& finding : result.hazards) {
            if (finding.level != level) continue;
            text += wrapped(upper(feed::text(level)) + " " +
                                std::string(feed::text(finding.hazard)) + ": " + finding.why,
                            0, 4);
            if (!finding.remedy.text.empty()) text += wrapped("Do: " + finding.remedy.text, 4, 8);
            for (const auto& other : finding.other_remedies)
                text += wrapped("Or: " + other.text, 4, 8);
            text += wrapped("Limit: " + words::fixed_text(finding.source, units), 4, 8);
        }
    }
    for (const auto& finding : result.hazards) {
        if (finding.level != Level::none) continue;
        fine += (fine.empty() ? "" : ", ") + std::string(feed::text(finding.hazard));
    }
    if (result.together) text += wrapped("All at once: " + result.together->text, 0, 4);
    if (!fine.empty()) text += wrapped("Not expected: " + fine + ".", 0, 4);
    return text;
}

std::string advice_text(const io::KeeperAdvice& advice) {
    std::string text;
    if (advice.temperature) text += "\n" + wrapped(advice.temperature->text, 0, 2);
    if (advice.first_weeks) text += "\n" + wrapped(advice.first_weeks_text, 0, 2);
    if (advice.away) text += "\n" + wrapped(advice.away->text, 0, 2);
    return text;
}

}  // namespace

int run_check(const Arguments& arguments) {
    if (arguments.words.size() != 1)
        return refuse(arguments, wrong_words(arguments, "one file is due here"));
    const auto file = io::read_feed_file(arguments.words[0]);
    if (!file) return refuse(arguments, file.errors());
    std::optional<Duration> away;
    if (arguments.has("--away")) {
        const auto time =
            io::parse_quantity(arguments.options.at("--away"), io::QuantityKind::duration);
        Errors errors = time ? Errors() : time.errors();
        if (time && (*time < 1.0 || *time > 84.0))
            errors = wrong_words(arguments, "a time away is worked out for 1 day to 12 weeks");
        if (!errors.empty()) {
            errors[0].field = "--away";
            errors[0].value = arguments.options.at("--away");
            errors[0].allowed = "1 day to 12 weeks, such as \"3 weeks\"";
            return refuse(arguments, errors);
        }
        away = days(*time);
    }
    const auto found = io::check_of(*file, arguments.units);
    if (!found) return refuse(arguments, found.errors());
    const CheckResult& result = *found;
    const io::KeeperAdvice advice = io::advice_of(*file, away, arguments.units);
    bool act = false;
    for (const auto& finding : result.hazards)
        act = act || finding.level == Level::act;
    const int code = act && arguments.has("--strict") ? not_reachable : done;
    if (arguments.json()) return print(io::to_json(result, advice), code);
    std::string text = hazards_text(result, arguments.units);
    text += advice_text(advice);
    if (!result.cautions.empty()) {
        text += "\nCautions\n";
        for (const auto& caution : result.cautions)
            text += wrapped("- " + caution.text + " (" + caution.source + ")", 2, 4);
    }
    text += "\n" + wrapped("Always: " + std::string(caution_for_all), 0, 2);
    text += assumed_text(result.assumed, arguments.units);
    if (!result.look_back.empty()) text += "\n" + wrapped("Look back: " + result.look_back, 0, 2);
    text += wrapped(grade_text(result.grade), 0, 0);
    return print(text, code);
}

}  // namespace feed_command
