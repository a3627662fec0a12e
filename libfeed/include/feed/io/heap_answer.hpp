#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feed/io/answers.hpp"
#include "feed/io/screen.hpp"
#include "feed/ration/heap.hpp"
#include "feed/ration/heap_log.hpp"
#include "feed/ration/heap_worms.hpp"

// The answer to a file of a heap: its recipe in layers, what its log says, what may go to worms.
namespace feed::io {

/// What `feed heap` says of a file.
struct HeapOfFile {
    std::string file;                     ///< its name, or "" for words
    std::optional<BalanceOfFile> recipe;  ///< the answer of `feed balance`, where it has a balance
    /// Where nothing at hand makes a hot heap: the balance with all of it, for what would mend it.
    std::optional<BalanceOfFile> all_of_it;
    /// Of each portion of the recipe what finds too little dry stuff and stays behind; else 0.
    std::vector<double> kept_back_kg;
    std::optional<HeapLayers> layers;       ///< where the recipe was solved
    std::optional<HeapForWorms> for_worms;  ///< the same
    std::optional<HeapLog> log;             ///< where anything was seen
    std::vector<HeapLook> looks;            ///< those with a temperature, by day
    bool cool_for_worms = false;            ///< by the log
    std::optional<WetMass> worms;           ///< those that it may go to, where they are said
    std::optional<Date> today;
};

/// Answers `feed heap`. The recipe is that of `balance_of`; no amount is worked out here.
/// @param worms  in words ("1 lb"), or "". Errors: contradiction for a file of a bin; missing_value
/// for a file with neither a balance nor a look; those of the balance and of the words.
/// Threads: pure.
Result<HeapOfFile> heap_of(const FeedFile& file, std::string_view worms = "",
                           UnitSystem units = UnitSystem::metric);

/// The first screen: of a heap with a log what to do today, else how to build it. Threads: pure.
std::vector<std::string> heap_lines(const HeapOfFile& heap, UnitSystem units,
                                    ScreenRoom room = first_screen);
/// What is behind it: what the recipe reaches, the log, every rule with its source, cautions.
std::string heap_why(const HeapOfFile& heap, UnitSystem units);
/// The answer in JSON; `balance` in it is the answer of `feed balance`.
std::string to_json(const HeapOfFile& heap, UnitSystem units);

}  // namespace feed::io
