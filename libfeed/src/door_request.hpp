#pragma once
// A request that was read and checked against the table of the door.
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feed/diary/date.hpp"
#include "feed/io/door_table.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/human_text.hpp"
#include "feed/io/yaml_tree.hpp"

namespace feed::io::door {

/// What was asked; every member that was given is of its kind.
struct Request {
    const Verb* verb = nullptr;
    std::map<std::string_view, std::vector<std::string>> texts;  ///< one for all but `texts`
    std::optional<Date> date;
    std::map<std::string_view, int> numbers;
    UnitSystem units = UnitSystem::metric;
    /// The file: read from its object in the request, or its text.
    std::optional<FeedFile> file;
    std::vector<FeedFile> files;  ///< of a member of several
    std::string file_text;        ///< where the file was given as a text
    std::string file_object;      ///< where it was an object: the same in JSON
    bool has(std::string_view member) const { return texts.count(member) != 0; }
    /// The text of a member, or "".
    std::string text(std::string_view member) const;
    bool truth(std::string_view member) const { return text(member) == "true"; }
    /// What errors call the file.
    std::string file_name() const;
};

/// Reads a request. Errors: those of answer_request but for the verb's own.
Result<Request> read_request(std::string_view json);

/// The names of all verbs, in the order of the table.
std::vector<std::string_view> verb_names();

}  // namespace feed::io::door
