#include <string>
#include <utility>

#include "feed/io/answers.hpp"
#include "feed/io/bed_work_text.hpp"
#include "feed/io/quantity_text.hpp"
#include "feed/quantity/error.hpp"

namespace feed::io {
namespace {

Errors missing(std::string field, std::string allowed, std::string message) {
    return {make_error(ErrorCode::missing_value, std::move(field), "", std::move(allowed),
                       std::move(message))};
}

std::optional<Errors> read_refresh(const WorkWords& words, const std::string& prefix,
                                   AnswerOptions& options) {
    const auto change = refresh_change(words.change, prefix + "change");
    if (!change) return change.errors();
    options.change = *change;
    if (!words.share.empty()) {
        const auto share = share_of_bed(words.share, prefix + "share");
        if (!share) return share.errors();
        options.refresh.share = *share;
    }
    if (!words.temperature.empty()) {
        const auto degrees = parse_quantity(words.temperature, QuantityKind::temperature);
        if (!degrees) {
            Errors errors = about(degrees.errors(), prefix + "temperature", words.temperature);
            errors[0].allowed = std::string(allowed_text(QuantityKind::temperature));
            return errors;
        }
        options.refresh.temperature = celsius(*degrees);
    } else if (*change == RefreshChange::winter) {
        return missing(prefix + "temperature", "how cold the bed may get, such as \"2 C\"",
                       "how cold does the bed get outdoors?");
    }
    if (!words.away.empty()) {
        const auto time = time_away(words.away, prefix + "away");
        if (!time) return time.errors();
        options.away = *time;
    } else if (*change == RefreshChange::away) {
        return missing(prefix + "away", "1 day to 12 weeks, such as \"3 weeks\"",
                       "how long will you be away?");
    }
    return std::nullopt;
}

}  // namespace

std::optional<Errors> read_work(std::string_view verb, const WorkWords& words,
                                std::string_view prefix, AnswerOptions& options) {
    const std::string before(prefix);
    if (verb == "refresh") return read_refresh(words, before, options);
    if (words.way.empty()) return std::nullopt;
    const auto way = harvest_way(words.way, before + "way");
    if (!way) return way.errors();
    options.way = *way;
    return std::nullopt;
}

}  // namespace feed::io
