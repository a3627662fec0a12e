#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "feed/quantity/error.hpp"

// One door to everything that needs no file system, clock or locale. A request and an answer are
// JSON, so a language that can pass a text can do all that the command can.
namespace feed::io {

/// Answers a request: {"verb": "ration", "file": {...}, "date": "2026-03-14"}. Verbs and members:
/// door_table.hpp, docs/door.md.
/// request: JSON in UTF-8, at most 8 MB. The answer is that of `feed VERB --json`, ending in a line
/// feed. Errors, all of them, each with field and place: those of the request (syntax, unknown_key,
/// wrong_type, missing_value, out_of_range ...) and of the verb. Threads: pure.
Result<std::string> answer_request(std::string_view request);

/// Answers a verb of the door for the text of a file, or for words where the verb takes words
/// ("show"), all else left out: the same as the request of these members. Threads: pure.
Result<std::string> answer_text(std::string_view verb, std::string_view text,
                                std::string_view name);

/// The JSON Schema of requests, from the table of the door.
std::string request_schema();

}  // namespace feed::io

namespace feed {

/// The same for whoever wants JSON in every case: an answer, or {"errors": [...]}. Threads: pure.
std::string call(std::string_view request);

}  // namespace feed
