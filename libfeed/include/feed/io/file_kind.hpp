#pragma once
#include <optional>
#include <string_view>

#include "feed/io/feed_file.hpp"

// Whether a verb answers a file: one of a bin and one of a heap are not the same.
namespace feed::io {

/// The problem of a verb that is asked of a file of the other kind, or nothing. Whose files a verb
/// answers stands in the table of verbs (door_table.hpp); one that is not there answers bins only.
/// Errors: contradiction, with the verb to ask instead. Threads: pure.
std::optional<Errors> wrong_kind(const FeedFile& file, std::string_view verb);

}  // namespace feed::io
