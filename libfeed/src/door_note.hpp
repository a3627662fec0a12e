#pragma once
#include <string>

#include "door_request.hpp"

namespace feed::io::door {

/// Answers `note`: what the diary with the entry teaches, the entry, and the file with it where the
/// file was a text. Errors: those of with_note.
Result<std::string> answer_note(const Request& request);

}  // namespace feed::io::door
