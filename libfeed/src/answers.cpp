#include "feed/io/answers.hpp"

#include <utility>

#include "feed/balance/balance.hpp"
#include "feed/bed/check.hpp"
#include "feed/blend/blend.hpp"
#include "feed/forecast/forecast.hpp"
#include "feed/io/measure_text.hpp"
#include "feed/io/to_json.hpp"
#include "feed/trial/calibration.hpp"
#include "feed/trial/evidence.hpp"

namespace feed::io {
namespace {

/// What reading the file assumed stands before what the answer assumed.
void put_before(std::vector<Assumption>& assumed, const FeedFile& file) {
    assumed.insert(assumed.begin(), file.assumed.begin(), file.assumed.end());
}

}  // namespace

Errors missing_section(const FeedFile& file, std::string_view section, std::string_view example) {
    Error error;
    error.code = ErrorCode::missing_value;
    error.field = std::string(section);
    error.allowed = std::string(section) + ": " + std::string(example);
    error.message = "the file has no section \"" + std::string(section) + "\"";
    error.file = file.name;
    return {error};
}

Result<std::vector<Portion>> planned_feeding(const FeedFile& file) {
    auto planned = planned_feedings(file);
    if (planned.empty()) return missing_section(file, "blend", "- 500 g carrot");
    return std::move(planned.front().portions);
}

Result<BlendOfFile> blend_of(const FeedFile& file, UnitSystem units) {
    if (!file.blend) return missing_section(file, "blend", "- 1.2 kg coffee grounds");
    BlendOfFile answer;
    for (const auto& written : *file.blend) {
        answer.portions.push_back(written.portion);
        answer.measures.push_back(measure_text(written.portion.wet_mass, *written.portion.feedstock,
                                               written.amount, units));
    }
    answer.properties = blend(answer.portions);
    put_before(answer.properties.assumed, file);
    return answer;
}

Result<BalanceOfFile> balance_of(const FeedFile& file, UnitSystem units) {
    if (!file.balance)
        return missing_section(file, "balance",
                               "{at_hand: [1.2 kg coffee grounds, any shredded cardboard]}");
    auto answer = balance(file.balance->problem);
    if (!answer) {
        Errors errors = answer.errors();
        for (auto& error : errors)
            error.file = file.name;
        return errors;
    }
    BalanceOfFile result{std::move(answer).value(), {}};
    put_before(result.answer.assumed, file);
    for (std::size_t i = 0; i < result.answer.portions.size(); ++i) {
        const Portion& portion = result.answer.portions[i];
        result.measures.push_back(
            measure_text(portion.wet_mass, *portion.feedstock, file.balance->amounts[i], units));
    }
    return result;
}

Result<CheckResult> check_of(const FeedFile& file) {
    const auto planned = planned_feeding(file);
    if (!planned) return planned.errors();
    auto result = check(bed_on_day_zero(file), *planned);
    put_before(result.assumed, file);
    return result;
}

Forecast forecast_of(const FeedFile& file, std::size_t days) {
    ForecastOptions options;
    options.days = days - 1;
    const auto evidence = evidence_of(file.diary);
    if (!evidence.looks.empty()) {
        options.ranges = calibrated(options.ranges, calibrate(evidence.looks));
    }
    auto result = forecast(bed_on_day_zero(file), planned_feedings(file), options);
    if (!evidence.looks.empty()) {
        result.assumed.insert(result.assumed.begin(),
                              {"The rates are this bin's own, learned from " +
                                   counted(evidence.looks.size(), "look") + " at its food.",
                               Grade::b});
    }
    put_before(result.assumed, file);
    return result;
}

Result<std::string> answer_json(std::string_view verb, const FeedFile& file) {
    if (verb == "blend") {
        const auto answer = blend_of(file, UnitSystem::metric);
        if (!answer) return answer.errors();
        return to_json(answer->properties, answer->portions, answer->measures);
    }
    if (verb == "balance") {
        const auto answer = balance_of(file, UnitSystem::metric);
        if (!answer) return answer.errors();
        return to_json(answer->answer, answer->measures);
    }
    if (verb == "check") {
        const auto answer = check_of(file);
        if (!answer) return answer.errors();
        return to_json(*answer);
    }
    if (verb == "forecast") return to_json(forecast_of(file, usual_forecast_days));
    Error error;
    error.code = ErrorCode::out_of_range;
    error.field = "verb";
    error.value = std::string(verb);
    error.allowed = "blend, balance, check or forecast";
    error.message = "no answer has that name";
    return error;
}

}  // namespace feed::io
