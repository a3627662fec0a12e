#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feed/diary/date.hpp"
#include "feed/io/diary_append.hpp"
#include "feed/quantity/error.hpp"

namespace feed::io {

/// An entry of a diary, ready to be added.
struct NoteEntry {
    std::string section;  ///< "feedings", "observations" or "stock"
    std::string lines;    ///< as `with_diary_entry` takes them
    std::string object;   ///< the same in JSON, its values as texts
    Date date;
    std::string words;  ///< what was understood, slips of letters mended, without the day
    /// What was seen beside what was fed ("fed 3 apples, smell sour"): at most one.
    std::vector<NoteEntry> more;

    /// Whether a look at the bin is in it. Constant time.
    bool has_look() const noexcept { return section == "observations" || !more.empty(); }
};

/// The day that words name: "2026-03-14", "today", "yesterday", "2 days ago", "Monday" (the last
/// one); nothing where they name none. Threads: pure.
std::optional<Date> day_said(std::string_view words, Date today);

/// Reads what a keeper says was done or seen, in everyday words: "fed 3 apples and a cup of coffee
/// grounds", "half gone, smell sour", "wet", "temperature 24 C", "room temperature", "worms 1 lb",
/// "bedding 1 kg card", "stock 2 kg frozen melon", "stock took 1 kg bread", "harvested 5 L", "plot
/// 3 gone", "plots 1-6 worms few", "note moved it to the shed". Before it may stand "yesterday" or
/// a date.
/// @param today  the day of the entry where the words name none.
/// @param by     who says it, or "".
/// Errors: empty; out_of_range for words that are not understood, with the nearest that are;
/// contradiction for two words that cannot both hold. What was fed is judged by the file it goes
/// into. Threads: pure.
Result<NoteEntry> read_note(std::string_view words, Date today, std::string_view by = "");

/// A diary with such a note added, everything else as its keeper wrote it.
/// Errors: those of `read_note` and of `with_diary_entry`. Threads: pure.
Result<Appended> with_note(std::string_view diary, std::string_view words, Date today,
                           std::string_view by, std::string_view name);

}  // namespace feed::io
