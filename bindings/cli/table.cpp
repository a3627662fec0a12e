#include <algorithm>
#include <iterator>
#include <string>
#include <utility>
#include <vector>

#include "command.hpp"
#include "feed/feedstock/part.hpp"
#include "feed/feedstock/table.hpp"
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

/// Whether a source is the group of fruits of the USDA table: food numbers 09xxx.
bool reads_fruit_table(const Feedstock& feedstock) {
    return std::any_of(feedstock.data.begin(), feedstock.data.end(), [](const auto& datum) {
        return datum && datum->sources.find("USDA-SR26:09") != std::string_view::npos;
    });
}

std::string_view stem(std::string_view id) {
    return id.substr(0, id.find('-'));
}

/// A fruit by the source of its numbers, or a part of one ("mango-peel" of "mango-flesh").
bool is_fruit(const Feedstock& feedstock) {
    if (feedstock.group != Group::scraps) return false;
    if (reads_fruit_table(feedstock)) return true;
    for (std::size_t i = 0; i < feedstock_count(); ++i) {
        const Feedstock other = feedstock_at(i);
        if (stem(other.id) == stem(feedstock.id) && reads_fruit_table(other)) return true;
    }
    return false;
}

struct Kind {
    std::string_view option;
    bool (*holds)(const Feedstock&);
};
constexpr Kind kinds[] = {
    {"--scraps",
     [](const Feedstock& f) { return f.stance != Stance::avoid && part_of(f) == Part::scraps; }},
    {"--fruit", is_fruit},
    {"--bedding",
     [](const Feedstock& f) { return f.stance != Stance::avoid && part_of(f) == Part::bedding; }},
    {"--manure", [](const Feedstock& f) { return f.group == Group::manures; }},
    {"--lime", [](const Feedstock& f) { return f.group == Group::amendments; }},
    {"--little", [](const Feedstock& f) { return f.stance == Stance::feed_little; }},
    {"--never", [](const Feedstock& f) { return f.stance == Stance::avoid; }},
};

/// Whether a feedstock is of every kind that was asked for.
bool is_asked_for(const Arguments& arguments, const Feedstock& feedstock) {
    return std::all_of(std::begin(kinds), std::end(kinds), [&](const Kind& kind) {
        return !arguments.has(kind.option) || kind.holds(feedstock);
    });
}

}  // namespace

int run_table(Arguments& arguments) {
    std::string words;
    for (const auto& word : arguments.words)
        words += (words.empty() ? "" : " ") + word;
    auto found = io::feedstocks_for(words);
    if (!found) return refuse(arguments, found.errors());
    found->erase(std::remove_if(found->begin(), found->end(),
                                [&](const Feedstock& f) { return !is_asked_for(arguments, f); }),
                 found->end());
    if (found->empty())
        return refuse(arguments, wrong_words(arguments, "nothing of the table is all that"));
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
