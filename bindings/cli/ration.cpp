#include <string>

#include "command.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/to_json.hpp"
#include "ration_screen.hpp"

namespace feed_command {

int run_ration(Arguments& arguments) {
    const auto file = read_bin(arguments);
    if (!file) return refuse(arguments, file.errors());
    const feed::CheckResult result = feed::io::check_of(*file, arguments.units);
    const int code = exit_of(arguments, result.ration);
    if (arguments.json()) return print(feed::io::to_json(result.ration), code);
    return print(ration_screen(arguments, result), code);
}

}  // namespace feed_command
