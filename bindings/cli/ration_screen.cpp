#include "ration_screen.hpp"

#include <algorithm>

#include "command.hpp"
#include "feed/bed/cautions.hpp"
#include "feed/diary/date.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/file_kind.hpp"
#include "feed/io/ration_text.hpp"
#include "file_or_entries.hpp"
#include "quantity_lines.hpp"
#include "today.hpp"

namespace feed_command {
namespace {

using namespace feed;
using io::wrapped;

std::string hazard_lines(const CheckResult& result, io::UnitSystem units) {
    std::string text;
    std::string fine;
    for (const Level level : {Level::act, Level::watch, Level::unknown}) {
        for (const HazardFinding& finding : result.hazards) {
            if (finding.level != level) continue;
            text += wrapped(std::string(feed::text(finding.hazard)) + ", " +
                                std::string(feed::text(level)) + ": " + finding.why,
                            2, 4);
            text += wrapped("Limit: " + words::fixed_text(finding.source, units), 4, 6);
        }
    }
    for (const HazardFinding& finding : result.hazards) {
        if (finding.level == Level::none)
            fine += (fine.empty() ? "" : ", ") + std::string(feed::text(finding.hazard));
    }
    if (!fine.empty()) text += wrapped("Not expected: " + fine + ".", 2, 4);
    return text;
}

}  // namespace

Result<std::optional<Date>> said_date(const Arguments& arguments) {
    if (!arguments.has("--date")) return std::optional<Date>();
    const auto date = date_of_call(arguments);
    if (!date) return date.errors();
    return std::optional<Date>(*date);
}

namespace {

/// The file with the day that --date names; else it is of the day that it was read with.
Result<io::FeedFile> on_the_day(Result<io::FeedFile> file, const Arguments& arguments) {
    if (file) {
        if (const auto refused = io::wrong_kind(*file, arguments.command->name)) return *refused;
    }
    const auto date = said_date(arguments);
    if (!file || (date && !*date)) return file;
    if (!date) return date.errors();
    io::FeedFile on = std::move(file).value();
    on.today = *date;
    return on;
}

}  // namespace

Result<io::FeedFile> read_bin(Arguments& arguments) {
    return on_the_day(read_file_or_entries(arguments), arguments);
}

Result<io::FeedFile> read_bin_of_file(Arguments& arguments) {
    if (arguments.words.size() != 1) return wrong_words(arguments, "one file of a bin is due here");
    return read_bin_of_file(arguments, arguments.words[0]);
}

Result<io::FeedFile> read_bin_of_file(Arguments& arguments, const std::string& name) {
    return on_the_day(read_named_file(arguments, name), arguments);
}

namespace {

std::string why_text(const CheckResult& result, io::UnitSystem units) {
    std::string text = "\nThe feeding as written, judged\n" + hazard_lines(result, units);
    if (!result.cautions.empty()) {
        text += "\nCautions\n";
        for (const CautionFinding& caution : result.cautions)
            text += wrapped("- " + caution.text + " (" + caution.source + ")", 2, 4);
    }
    text += "\n" + wrapped("Always: " + std::string(caution_for_all), 0, 2);
    return text + assumed_text(result.assumed, units) + "\n" +
           wrapped(grade_text(result.grade), 0, 0);
}

}  // namespace

std::string ration_screen(const Arguments& arguments, const CheckResult& result,
                          std::vector<io::ScreenLine> said, const std::string& behind) {
    const bool why = arguments.has("--why");
    const io::ScreenRoom room = why ? io::whole_screen : io::first_screen;
    // First what the ration cannot do without, then this verb's lines, then the rest of the ration.
    const auto least = io::ration_lines(result.ration, arguments.units, io::ScreenRoom{0, 0});
    const auto own = io::fitting(std::move(said), io::left_of(room, least));
    const std::string text = io::ration_text(result.ration, arguments.units, io::left_of(room, own),
                                             named_file(arguments)) +
                             io::screen_text(own);
    return why ? text + behind + why_text(result, arguments.units) : text;
}

int exit_of(const Arguments& arguments, const Ration& ration) {
    const bool refused = !ration.take_out.empty() || ration.answer == RationAnswer::act_first;
    return refused && arguments.has("--strict") ? not_reachable : done;
}

}  // namespace feed_command
