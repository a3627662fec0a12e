#pragma once
#include <functional>
#include <string>
#include <string_view>

#include "feed/quantity/error.hpp"

namespace feed::io {

/// Makes the new text of a file from the old one.
using TextChange = std::function<Result<std::string>(std::string_view)>;

/// Changes a keeper's file. Two that change files of one folder wait for each other; a crash at any
/// moment leaves the old text or the new, never half. A link stays a link: the file it names is
/// changed. Owner, group, mode and extended attributes are kept.
/// @param path          of an existing file.
/// @param change        gives the new text; called once, with the lock held.
/// @param wait_seconds  how long to wait for others, 0 to 600.
/// Returns whether the disk has confirmed the change; where it has not, the new text is in the
/// file, but a power cut now may bring the old one back. Errors: those of reading and of `change`;
/// not_writable for a file that may only be read, one with several names (hard links), one whose
/// owner or attributes could not be kept, and where the folder cannot be locked in time. After any
/// error the file is as it was. Threads: safe; reads and writes the file system.
Result<bool> change_text_file(const std::string& path, const TextChange& change,
                              int wait_seconds = 10);

}  // namespace feed::io
