#include "diary_entry.hpp"

#include <algorithm>

#include "feed/io/json_writer.hpp"
#include "feed/io/observation_text.hpp"

namespace feed::io {

DiaryEntry::DiaryEntry(Date date) {
    plain("date", text(date));
}

void DiaryEntry::plain(std::string_view key, std::string_view value) {
    fields_.push_back({std::string(key), Form::plain, {{"", std::string(value)}}});
}

void DiaryEntry::quoted(std::string_view key, std::string_view words) {
    if (!words.empty())
        fields_.push_back({std::string(key), Form::quoted, {{"", std::string(words)}}});
}

void DiaryEntry::list(std::string_view key, std::vector<std::string> words, bool one_a_line) {
    Field field{std::string(key), one_a_line ? Form::one_a_line : Form::one_line, {}};
    field.values.reserve(words.size());
    for (std::string& one : words)
        field.values.emplace_back("", std::move(one));
    fields_.push_back(std::move(field));
}

void DiaryEntry::by_place(std::string_view key,
                          std::vector<std::pair<std::string, std::string>> values) {
    fields_.push_back({std::string(key), Form::by_place, std::move(values)});
}

std::string DiaryEntry::yaml(int indent) const {
    const std::string blanks(static_cast<std::size_t>(std::max(indent, 0)), ' ');
    const std::string below = "\n" + blanks + "    - ";
    std::string lines;
    for (const Field& field : fields_) {
        lines += blanks + (lines.empty() ? "- " : "  ") + field.key + ":";
        if (field.form != Form::one_a_line) lines += ' ';
        if (field.form == Form::one_line) lines += '[';
        if (field.form == Form::by_place) lines += '{';
        bool first = true;
        for (const auto& [place, value] : field.values) {
            if (field.form == Form::one_a_line)
                lines += below;
            else if (!first)
                lines += ", ";
            first = false;
            if (field.form == Form::by_place) lines += yaml_text(place) + ": ";
            const bool bare = field.form == Form::plain || field.form == Form::by_place;
            lines += bare ? value : yaml_text(value);
        }
        if (field.form == Form::one_line) lines += ']';
        if (field.form == Form::by_place) lines += '}';
        lines += '\n';
    }
    return lines;
}

std::string DiaryEntry::json() const {
    JsonWriter json;
    json.begin_object();
    for (const Field& field : fields_) {
        if (field.form == Form::plain || field.form == Form::quoted) {
            json.member(field.key, field.values.front().second);
            continue;
        }
        json.key(field.key);
        if (field.form == Form::by_place) {
            json.begin_object();
            for (const auto& [place, value] : field.values)
                json.member(place, value);
            json.end_object();
            continue;
        }
        json.begin_array();
        for (const auto& value : field.values)
            json.value(value.second);
        json.end_array();
    }
    json.end_object();
    return json.take();
}

}  // namespace feed::io
