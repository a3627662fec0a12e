#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/diary/date.hpp"
#include "feed/diary/observation.hpp"

namespace feed::io {

/// An entry of a diary as it is written, once for both forms of a file: lines of YAML, or an
/// object.
class DiaryEntry {
public:
    explicit DiaryEntry(Date date);

    /// A word or an amount of ours, which needs no quotation marks.
    void plain(std::string_view key, std::string_view value);
    /// Words of people; left out when empty.
    void quoted(std::string_view key, std::string_view words);
    /// Several words of people, on one line or one a line.
    void list(std::string_view key, std::vector<std::string> words, bool one_a_line);
    /// An amount for each of several places.
    void by_place(std::string_view key, std::vector<std::pair<std::string, std::string>> values);

    /// Starting with "- date:" and ending in a line feed. @param indent  blanks before the dash.
    std::string yaml(int indent) const;
    /// An object in JSON whose values are texts, as feed files take them.
    std::string json() const;

private:
    enum class Form : unsigned char { plain, quoted, one_line, one_a_line, by_place };
    struct Field {
        std::string key;
        Form form;
        /// One value without a place, but for lists and places.
        std::vector<std::pair<std::string, std::string>> values;
    };
    std::vector<Field> fields_;
};

/// What was seen as an entry of `observations`; only what was seen is in it. Threads: pure.
DiaryEntry entry_of(const Observation& seen);

}  // namespace feed::io
