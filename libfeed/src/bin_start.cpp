#include "feed/io/bin_start.hpp"

#include <algorithm>

#include "feed/io/feed_file.hpp"
#include "feed/io/observation_text.hpp"
#include "feed/quantity/number_text.hpp"

namespace feed::io {
namespace {

/// A value as people would write it, or between quotation marks where YAML could take it for more.
std::string value_text(std::string_view words) {
    const bool plain = !words.empty() && words.front() != ' ' && words.back() != ' ' &&
                       std::all_of(words.begin(), words.end(), [](char c) {
                           return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                                  (c >= '0' && c <= '9') || c == ' ' || c == '.' || c == '/';
                       });
    constexpr std::string_view taken[] = {"true", "false", "yes", "no", "null", "Null", "NULL"};
    const bool word = std::find(std::begin(taken), std::end(taken), words) != std::end(taken);
    return plain && !word ? std::string(words) : yaml_text(words);
}

/// "60 L tote" of a kind and a size.
std::string container_of(const BinStart& said) {
    if (said.size.empty()) return said.container;
    const bool has_size = read_number(said.container).has_value();
    if (has_size) return said.container;
    return said.size + " " + (said.container.empty() ? "tote" : said.container);
}

void add_line(std::string& text, std::string_view key, const std::string& value,
              std::string_view such_as) {
    text += value.empty() ? "  # " + std::string(key) + ": " + std::string(such_as)
                          : "  " + std::string(key) + ": " + value;
    text += "\n";
}

}  // namespace

Result<std::string> started_file(const BinStart& said, Date today) {
    const auto value = [](const std::string& words) {
        return words.empty() ? std::string() : value_text(words);
    };
    std::string written = "libfeed: 1\n# One worm bin. Lines that begin with # are remarks.\n";
    if (!said.title.empty()) written += "title: " + value_text(said.title) + "\n";
    written += "bed:\n  date: " + text(today) + "  # the day on which this was so\n";
    add_line(written, "container", value(container_of(said)), "60 L tote");
    add_line(written, "worms", value(said.worms), "1 lb as bought");
    add_line(written, "bedding", said.bedding.empty() ? "" : "[" + yaml_text(said.bedding) + "]",
             "[2 kg shredded cardboard]");
    add_line(written, "squeeze", value(said.squeeze), "damp");
    add_line(written, "temperature", value(said.temperature), "20 C");
    written += "# feed note adds below what you feed and see: feed note FILE fed 500 g carrot\n";
    const auto file = read_feed_text(written, "");
    if (file) return written;
    // The keeper has not seen this text: say which answer it is.
    Errors errors = file.errors();
    for (Error& error : errors) {
        for (const StartQuestion& question : start_questions) {
            const std::string field = "bed: " + std::string(question.field);
            const bool is_size = question.option == "--size" && said.size.empty();
            if (error.field.substr(0, field.size()) == field && !is_size)
                error.field = std::string(question.option);
        }
        error.line = error.column = 0;
        error.file.clear();
    }
    return errors;
}

}  // namespace feed::io
