// Writes the manual page ("feed_pages man") or the bash completion ("feed_pages bash") from the
// list of commands, or the schema of requests ("feed_pages door"), to standard output. feed.1,
// feed.bash and data/schema/request.schema.json are its committed results.
#include <cstdio>
#include <string>
#include <string_view>

#include "arguments.hpp"
#include "feed/io/door.hpp"
#include "feed/version.hpp"

namespace {

using feed_command::commands;

/// A text for troff: hyphens kept as typed, a leading dot or quote made harmless.
std::string escaped(std::string_view text) {
    std::string result;
    if (!text.empty() && (text[0] == '.' || text[0] == '\'')) result += "\\&";
    for (const char c : text) {
        if (c == '-') {
            result += "\\-";
        } else if (c == '\\') {
            result += "\\e";
        } else {
            result += c;
        }
    }
    return result;
}

std::string manual_page() {
    std::string text =
        ".TH FEED 1 \"\" \"libfeed " + std::string(feed::library_version) +
        "\" \"User Commands\"\n.SH NAME\nfeed \\- feedstock recipes for worm bins and "
        "small compost heaps\n.SH SYNOPSIS\n";
    for (const auto& command : commands)
        text += ".B feed " + escaped(command.name) + "\n[OPTIONS]" +
                (command.arguments.empty() ? "" : " ") + escaped(command.arguments) + "\n.br\n";
    text +=
        ".SH DESCRIPTION\nWhat to feed a worm bin or a small compost heap, how much, and what happens "
        "then.\nFILE is a feed file, YAML or JSON, whose first line is \\(lqlibfeed: 1\\(rq.\n"
        ".SH COMMANDS\n";
    for (const auto& command : commands) {
        text += ".SS " + escaped(command.name) + "\n" + escaped(command.text) + "\n";
        for (const auto& option : command.options) {
            text += ".TP\n.B " + escaped(option.name);
            if (!option.argument.empty()) text += " " + escaped(option.argument);
            text += "\n" + escaped(option.text);
            if (!option.choices.empty()) text += " Choices: " + escaped(option.choices) + ".";
            text += "\n";
        }
        text += ".PP\nExample:\n.PP\n.RS\n.nf\n" + escaped(command.example) + "\n.fi\n.RE\n.PP\n" +
                escaped(command.example_text) + "\n";
    }
    text += ".SH EXIT STATUS\n";
    for (const auto& exit_code : feed_command::exit_codes)
        text += ".TP\n.B " + std::to_string(exit_code.code) + "\n" + escaped(exit_code.text) + "\n";
    text +=
        ".SH NOTES\nResults go to standard output, problems to standard error; with \\-\\-json "
        "problems too are JSON on standard output.\nNumbers are written with a decimal point in every "
        "locale.\nThe ratio C:N is always carbon to nitrogen by mass.\n"
        ".SH CAUTIONS\nA worm bed is not proven to kill germs. Follow local rules for food scraps.\n";
    return text;
}

std::string completion() {
    std::string text =
        "# bash completion for feed; made from the list of commands.\n"
        "_feed() {\n"
        "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n"
        "    COMPREPLY=()\n"
        "    if ((COMP_CWORD == 1)); then\n"
        "        mapfile -t COMPREPLY < <(compgen -W \"";
    for (const auto& command : commands)
        text += std::string(command.name) + " ";
    text +=
        "--help\" -- \"$word\")\n"
        "        return\n"
        "    fi\n"
        "    case ${COMP_WORDS[1]}:$before in\n";
    for (const auto& command : commands) {
        for (const auto& option : command.options) {
            if (option.argument.empty()) continue;
            const std::string action = !option.choices.empty()
                                           ? "-W \"" + std::string(option.choices) + "\""
                                       : option.argument == "FILE" ? std::string("-f")
                                                                   : std::string("-W \"\"");
            text += "        " + std::string(command.name) + ":" + std::string(option.name) +
                    ") mapfile -t COMPREPLY < <(compgen " + action + " -- \"$word\"); return ;;\n";
        }
    }
    text += "    esac\n    case ${COMP_WORDS[1]} in\n";
    for (const auto& command : commands) {
        std::string options;
        for (const auto& option : command.options)
            options += (options.empty() ? "" : " ") + std::string(option.name);
        text += "        " + std::string(command.name) +
                ")\n            if [[ $word == -* ]]; then\n" +
                "                mapfile -t COMPREPLY < <(compgen -W \"" + options +
                "\" -- \"$word\")\n";
        if (command.reads_file)
            text +=
                "            else\n                mapfile -t COMPREPLY < <(compgen -f -- \"$word\")\n";
        text += "            fi ;;\n";
    }
    text += "    esac\n}\ncomplete -o filenames -F _feed feed\n";
    return text;
}

}  // namespace

int main(int argc, char** argv) {
    const std::string_view what = argc == 2 ? argv[1] : "";
    if (what != "man" && what != "bash" && what != "door") {
        std::fputs("usage: feed_pages man|bash|door\n", stderr);
        return 2;
    }
    const auto text = what == "man"    ? manual_page()
                      : what == "bash" ? completion()
                                       : feed::io::request_schema();
    return std::fwrite(text.data(), 1, text.size(), stdout) == text.size() ? 0 : 3;
}
