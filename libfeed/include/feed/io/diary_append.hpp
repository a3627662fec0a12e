#pragma once
#include <cstddef>
#include <functional>
#include <string>
#include <string_view>

#include "feed/diary/observation.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/list_entry.hpp"
#include "feed/quantity/error.hpp"

namespace feed::io {

/// The text of a diary with one more entry at the end of its `observations`; all else stays as its
/// keeper wrote it (see `with_entry`, whose errors it has). Threads: pure. Linear time.
Result<std::string> with_observation(std::string_view diary, const Observation& observation,
                                     std::string_view name);

/// A diary with an entry more, and what it reads as.
struct Appended {
    std::string text;         ///< the whole file
    std::string entry;        ///< the lines added
    std::size_t entries = 0;  ///< of the list the entry went to
    FeedFile file;            ///< the new text, read
    bool confirmed = true;    ///< false: in the file, but the disk did not confirm it
};

/// The same for an entry of any list of a diary; the text is read as a feed file before and after,
/// so that an entry only goes into a file that can be used.
/// section: "observations" or "feedings"; entry: its lines, not indented. Errors: the problems of
/// the file as it stood, then those of the entry; of looks at plots also: no trial, not laid yet,
/// more left than at another look (contradiction, with the line of that). Threads: pure.
Result<Appended> with_diary_entry(std::string_view diary, std::string_view section,
                                  std::string_view entry, std::string_view name);

/// Makes a diary with an entry more from its text.
using DiaryChange = std::function<Result<Appended>(std::string_view)>;

/// Changes a diary file by an entry, as `change_text_file` changes files: nothing lost, links and
/// attributes kept. After an error the file is as it was; once the entry is in, nothing fails.
/// Errors: those of the change and of reading and writing. Threads: safe.
Result<Appended> append_to_diary(const std::string& path, const DiaryChange& change,
                                 int wait_seconds = 10);

/// Appends an observation to a diary file.
/// @param path          of an existing diary.
/// @param wait_seconds  how long to wait for others, 0 to 600.
/// Errors and threads: as `append_to_diary`.
Result<Appended> append_observation(const std::string& path, const Observation& observation,
                                    int wait_seconds = 10);

}  // namespace feed::io
