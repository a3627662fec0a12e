#include <optional>
#include <string>
#include <vector>

#include "command.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/screen.hpp"
#include "feed/io/to_json.hpp"
#include "ration_screen.hpp"

namespace feed_command {
namespace {

using namespace feed;
using io::wrapped;

/// The time of --away, or the problem with it.
Result<std::optional<Duration>> away_of(const Arguments& arguments) {
    if (!arguments.has("--away")) return std::optional<Duration>();
    const auto time = io::time_away(arguments.options.at("--away"), "--away");
    if (!time) return time.errors();
    return std::optional<Duration>(*time);
}

std::string advice_text(const io::KeeperAdvice& advice) {
    std::string text;
    if (advice.temperature) text += "\n" + wrapped(advice.temperature->text, 0, 2);
    if (advice.first_weeks) text += "\n" + wrapped(advice.first_weeks_text, 0, 2);
    return text;
}

}  // namespace

int print_check(const Arguments& arguments, const io::FeedFile& file,
                std::optional<Duration> away) {
    const auto [result, advice] = io::check_and_advice_of(file, away, arguments.units);
    const int code = exit_of(arguments, result.ration);
    if (arguments.json()) return print(io::to_json(result, advice), code);
    std::vector<io::ScreenLine> said;
    if (advice.away) {
        // What to do stays; that worms live on bedding and what is reached by then may go.
        for (const std::string& one : io::sentences_of(advice.away->text))
            said.push_back({one, one.rfind("Worms", 0) == 0 || one.rfind("On your", 0) == 0});
    }
    return print(ration_screen(arguments, result, said, advice_text(advice)), code);
}

int run_check(Arguments& arguments) {
    const auto file = read_bin(arguments);
    if (!file) return refuse(arguments, file.errors());
    const auto away = away_of(arguments);
    if (!away) return refuse(arguments, away.errors());
    return print_check(arguments, *file, *away);
}

}  // namespace feed_command
