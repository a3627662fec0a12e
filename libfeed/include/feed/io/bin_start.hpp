#pragma once
#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "feed/diary/date.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/unit_system.hpp"
#include "feed/ration/new_bin.hpp"

namespace feed::io {

/// What a keeper says of a bin when its file is started; every answer may be empty.
struct BinStart {
    std::string title;
    std::string container;    ///< "tote", or "60 L tote"
    std::string size;         ///< "60 L"
    std::string age;          ///< "new", "3 months"
    std::string worms;        ///< "1 lb as bought", "500 g", "1000 worms"
    std::string bedding;      ///< "2 kg shredded cardboard"; of a new bin "cardboard" will do
    std::string squeeze;      ///< a word of the squeeze test
    std::string temperature;  ///< "20 C", "18 C to 22 C"

    /// Whether it is still to be set up: it is called new, or nothing is said of how old it is or
    /// what a handful does.
    bool is_to_be_set_up() const;
};

/// One question of a start: its answer, the option that gives it, what to ask and a form that
/// works.
struct StartQuestion {
    std::string BinStart::*answer;
    std::string_view option;
    std::string_view field;  ///< of the file, as errors name it
    std::string_view ask;
    std::string_view such_as;
};
inline constexpr std::array<StartQuestion, 7> start_questions{{
    {&BinStart::container, "--container", "container", "What kind of bin is it?",
     "tray, stacked trays, tote, bucket, bath, flow-through or windrow"},
    {&BinStart::size, "--size", "container", "How much does it hold?", "60 L, or 15 gal"},
    {&BinStart::age, "--age", "age", "Is it new, or how long have worms lived in it?",
     "new, or 3 months"},
    {&BinStart::worms, "--worms", "worms", "How many worms?",
     "1 lb as bought, 500 g or 1000 worms"},
    {&BinStart::bedding, "--bedding", "bedding", "What bedding is in it, or there for it?",
     "2 kg shredded cardboard, or cardboard and dry leaves"},
    {&BinStart::squeeze, "--squeeze", "squeeze",
     "If it has its bedding, squeeze a handful. What comes out?",
     "crumbly, damp, drops, many drops, streams or pooling"},
    {&BinStart::temperature, "--temperature", "temperature", "How warm is it in there?",
     "20 C, or 68 F"},
}};

/// A file that was started.
struct StartedBin {
    std::string text;  ///< of the new file
    std::optional<NewBin>
        to_set_up;  ///< where the bin is new: what goes in, in which order, and when
};

/// The text of a new file of one bin: short, with remarks. What was not said stands there as a
/// remark that shows how to say it. A bin that has its bedding is described as it is today; a new
/// one as it will be on the day its worms go in, and how to set it up comes with it.
/// Errors: those of reading what was said, each with the option as its field; a bedding that is
/// none (wrong_type). Threads: pure. Time: a few rations where the bin is new.
Result<StartedBin> start_bin(const BinStart& said, Date today,
                             UnitSystem units = UnitSystem::metric);

}  // namespace feed::io
