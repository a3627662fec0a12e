#include <string>
#include <vector>

#include "command.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/class_text.hpp"
#include "feed/io/to_json.hpp"
#include "quantity_lines.hpp"

namespace feed_command {
namespace {

using namespace feed;
using io::padded;

std::string value_text(const Feedstock& feedstock, Property property, io::UnitSystem units) {
    const auto& datum = feedstock[property];
    return datum ? datum_text(kind(property), datum->value, units) : "unknown";
}

/// A name cut to a column, with dots where something is missing.
std::string cut(const std::string& name, std::size_t columns) {
    if (io::columns_of(name) <= columns) return name;
    std::string kept;
    std::size_t count = 0;
    for (const char c : name) {
        if ((static_cast<unsigned char>(c) & 0xC0) != 0x80 && ++count > columns - 2) break;
        kept.push_back(c);
    }
    return kept + "..";
}

}  // namespace

int run_table(const Arguments& arguments) {
    std::string words;
    for (const auto& word : arguments.words)
        words += (words.empty() ? "" : " ") + word;
    const auto found = io::feedstocks_for(words);
    if (!found) return refuse(arguments, found.errors());
    if (arguments.json()) return print(io::to_json(*found));
    std::string text = padded("id", 27) + " " + padded("name", 28) + " " + padded("moist", 6) +
                       " " + padded("C:N", 7) + " feed\n";
    for (const auto& feedstock : *found) {
        const char* stance = feedstock.stance == Stance::feed          ? "yes"
                             : feedstock.stance == Stance::feed_little ? "little"
                                                                       : "no";
        text += padded(cut(feedstock.id, 27), 27) + " " + padded(cut(feedstock.name, 28), 28) +
                " " + padded(value_text(feedstock, Property::moisture_wet, arguments.units), 6) +
                " " + padded(value_text(feedstock, Property::cn_ratio, arguments.units), 7) + " " +
                stance + "\n";
    }
    return print(text);
}

}  // namespace feed_command
