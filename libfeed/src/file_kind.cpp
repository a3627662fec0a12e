#include "feed/io/file_kind.hpp"

#include <string>

#include "feed/io/door_table.hpp"

namespace feed::io {

std::optional<Errors> wrong_kind(const FeedFile& file, std::string_view verb) {
    const door::Verb* known = door::find_verb(verb);
    const door::Reads reads = known != nullptr ? known->reads : door::Reads::bin;
    const bool of_bins = reads == door::Reads::bin || reads == door::Reads::bin_or_trial;
    if (of_bins && file.is_of_a_heap())
        return Errors{make_error(ErrorCode::contradiction, file.heap ? "kind" : "balance: targets",
                                 file.heap ? "heap" : "hot-heap", "feed heap, feed balance",
                                 "this file is of a heap, and feed " + std::string(verb) +
                                     " is about worm bins; ask feed heap",
                                 file.name)};
    if (reads == door::Reads::heap && !file.for_heap())
        return Errors{make_error(ErrorCode::contradiction, "kind", "", "kind: heap",
                                 "this file is of a bin; that of a heap says \"kind: heap\"",
                                 file.name)};
    const bool only_trial = file.trial && !file.has_bed && !file.blend && !file.balance;
    if (reads == door::Reads::bin && only_trial)
        return Errors{
            make_error(ErrorCode::contradiction, "trial", "", "feed trial read",
                       "this file is of a trial and describes no bed for feed " + std::string(verb),
                       file.name)};
    return std::nullopt;
}

}  // namespace feed::io
