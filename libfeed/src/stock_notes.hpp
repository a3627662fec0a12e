#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "feed/diary/date.hpp"
#include "feed/io/note.hpp"

namespace feed::io {

/// The entry of what was put by or taken out of the stock: "stock 2 kg frozen melon rind in the
/// blue box", "froze 1 kg apples", "put 1 kg apples in the freezer", "stock took 500 g melon rind".
/// Nothing where the words are of anything else. Errors: nothing named; what was thawed, which is
/// noted when it is fed.
std::optional<Result<NoteEntry>> stock_note(std::string_view words, Date date, std::string_view by);

/// What was fed, where it is said to come from the stock: "from the freezer 500 g pumpkin" and "500
/// g pumpkin from the freezer" are frozen pumpkin. Else the words as they are.
std::string fed_from_stock(std::string_view food);

}  // namespace feed::io
