#pragma once
#include <cstddef>
#include <string>
#include <string_view>

#include "feed/diary/observation.hpp"
#include "feed/quantity/error.hpp"

namespace feed::io {

/// The text of a diary with one more entry at the end of its `observations`. Works on the text, so
/// that comments, order and blank lines stay as the keeper wrote them; a diary without observations
/// gets the section at its end.
/// @param diary  a feed file as YAML, UTF-8.
/// @param name   what errors call it.
/// Errors: the syntax errors of the text; `observations` written in one line or as anything but a
/// list (wrong_type); JSON or several documents (wrong_type); `internal` when the text with the
/// entry does not read as one entry more. Threads: pure. Linear time.
Result<std::string> with_observation(std::string_view diary, const Observation& observation,
                                     std::string_view name);

/// What an append did.
struct Appended {
    std::string entry;             ///< the lines added
    std::size_t observations = 0;  ///< number of entries now
};

/// Appends an observation to a diary file. Two that append at once wait for each other; a crash at
/// any moment leaves the file with the entry or without it, never half. The lock is an advisory one
/// on the folder of the file and leaves nothing behind.
/// @param path          of an existing diary.
/// @param wait_seconds  how long to wait for others, 0 to 600.
/// Errors: those of `with_observation` and of reading and writing; not_writable when the folder
/// cannot be locked in time. Threads: safe; reads and writes the file system.
Result<Appended> append_observation(const std::string& path, const Observation& observation,
                                    int wait_seconds = 10);

}  // namespace feed::io
