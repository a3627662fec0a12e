#pragma once
#include <cstddef>
#include <string>
#include <string_view>

#include "feed/quantity/error.hpp"

namespace feed::io {

/// A text with one entry more.
struct WithEntry {
    std::string text;         ///< the whole text
    std::string entry;        ///< the lines added, indented as they stand there
    std::size_t entries = 0;  ///< of the list now
};

/// The text of a YAML file with one more entry at the end of a list of its root. Works on the text,
/// so that comments, order and blank lines stay as the keeper wrote them; a file without the list
/// gets it at its end. Before it answers it has read the new text and compared the whole of it with
/// the old: everything reads as before, and the list has this one entry more.
/// @param text     a YAML file, UTF-8.
/// @param section  key of the list at the root, such as "observations".
/// @param entry    the entry in lines, not indented, starting with "- "; no block texts.
/// @param name     what errors call the file.
/// Errors: the problems of the text itself; a list written in one line or anything but a list, JSON
/// and several documents (wrong_type); too_large. Threads: pure. Linear time.
Result<WithEntry> with_entry(std::string_view text, std::string_view section,
                             std::string_view entry, std::string_view name);

}  // namespace feed::io
