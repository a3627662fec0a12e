#include <algorithm>
#include <cstdio>
#include <exception>
#include <string>
#include <string_view>
#include <vector>

#include "command.hpp"
#include "feed/feedstock/things.hpp"
#include "feed/io/to_json.hpp"
#include "feed/quantity/plain_text.hpp"
#include "feed/quantity/printable.hpp"

namespace feed_command {
namespace {

// Whatever a file, a key or an argument held: nothing that steers a terminal gets there.
void write_error(std::string_view text) {
    const std::string shown = feed::printable(text);
    std::fwrite(shown.data(), 1, shown.size(), stderr);
}

struct Runner {
    std::string_view name;
    int (*run)(Arguments&);
};
constexpr Runner runners[] = {
    {"table", run_table},       {"show", run_show},       {"blend", run_blend},
    {"balance", run_balance},   {"ration", run_ration},   {"check", run_check},
    {"forecast", run_forecast}, {"observe", run_observe}, {"note", run_note},
    {"harvest", run_harvest},   {"refresh", run_refresh}, {"start", run_start},
    {"signs", run_signs},       {"trial", run_trial},     {"week", run_week},
    {"stock", run_stock},       {"totals", run_totals},   {"worms", run_worms},
    {"heap", run_heap},         {"call", run_call},       {"version", run_version}};

/// What is meant where the first word is no command: the nearest one, or food without a command.
feed::Error no_such_command(const std::vector<std::string_view>& words) {
    std::string message = "\"" + std::string(words[0]) + "\" is not a command of feed";
    std::string_view near;
    std::size_t slips = 3;
    for (const Runner& runner : runners) {
        const std::size_t distance = feed::edit_distance(words[0], runner.name);
        if (distance < slips) near = runner.name;
        slips = std::min(slips, distance);
    }
    std::string all;
    for (const std::string_view word : words)
        all += " " + std::string(word);
    feed::Error error = feed::make_error(feed::ErrorCode::failed, "command", std::string(words[0]),
                                         "feed --help lists them", std::move(message));
    if (!near.empty())
        return offered(std::move(error), "; is ", {"feed " + std::string(near)}, " meant?");
    if (feed::read_things(all).questions.empty())
        return offered(std::move(error), "; for food write ", {"feed ration" + all});
    return error;
}

int run(const std::vector<std::string_view>& words) {
    if (words.empty()) {
        write_error(help_text());
        return bad_input;
    }
    if (words[0] == "--help" || words[0] == "help") return print(help_text());
    const Command* command = find_command(words[0] == "--version" ? "version" : words[0]);
    if (command == nullptr) {
        write_error("feed: " + feed::io::errors_text({no_such_command(words)}));
        return bad_input;
    }
    auto arguments = read_arguments(*command, {words.begin() + 1, words.end()});
    if (!arguments) {
        write_error("feed " + std::string(command->name) + ": " +
                    feed::io::errors_text(arguments.errors()));
        return bad_input;
    }
    if (arguments->has("--help")) return print(help_text(*command));
    for (const auto& runner : runners) {
        if (runner.name == command->name) return runner.run(*arguments);
    }
    return internal;
}

}  // namespace

namespace {

bool printed(std::string_view words) {
    const std::string text = feed::printable(words);
    return std::fwrite(text.data(), 1, text.size(), stdout) == text.size() &&
           std::fflush(stdout) == 0;
}

}  // namespace

int print(std::string_view text, int code) {
    if (printed(text)) return code;
    write_error("feed: the result could not be written\n");
    return internal;
}

int print_after_writing(std::string_view text, const std::string& path, bool confirmed) {
    if (!confirmed)
        write_error("feed: the entry is in " + path +
                    ", but the disk did not confirm it; look again after a power cut\n");
    if (!printed(text))
        write_error("feed: the entry is in " + path + ", but the answer could not be printed\n");
    return done;
}

int refuse(const Arguments& arguments, const feed::Errors& errors) {
    if (arguments.json()) return print(feed::io::to_json(errors), bad_input);
    write_error(feed::io::errors_text(errors));
    return bad_input;
}

int refuse_by_option(const Arguments& arguments, feed::Errors errors) {
    for (feed::Error& error : errors) {
        for (const Option& option : arguments.command->options)
            if (option.name == "--" + error.field) error.field = std::string(option.name);
    }
    return refuse(arguments, errors);
}

feed::Errors wrong_words(const Arguments& arguments, std::string_view message) {
    const std::string name = "feed " + std::string(arguments.command->name);
    return {feed::make_error(
        feed::ErrorCode::bad_argument, name, "",
        std::string(arguments.command->example) + " (all of it: " + name + " --help)",
        std::string(message))};
}

}  // namespace feed_command

int main(int argc, char** argv) {
    try {
        return feed_command::run({argv + 1, argv + argc});
    } catch (const std::exception& exception) {
        std::fprintf(stderr, "feed: a fault of the program itself: %s\n", exception.what());
        return feed_command::internal;
    }
}
