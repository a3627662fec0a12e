#pragma once
#include <array>
#include <string>
#include <string_view>

#include "feed/diary/date.hpp"
#include "feed/quantity/error.hpp"

namespace feed::io {

/// What a keeper says of a bin when its file is started; every answer may be empty.
struct BinStart {
    std::string title;
    std::string container;    ///< "tote", or "60 L tote"
    std::string size;         ///< "60 L"
    std::string worms;        ///< "1 lb as bought", "500 g", "1000 worms"
    std::string bedding;      ///< "2 kg shredded cardboard"
    std::string squeeze;      ///< a word of the squeeze test
    std::string temperature;  ///< "20 C", "18 C to 22 C"
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
inline constexpr std::array<StartQuestion, 6> start_questions{{
    {&BinStart::container, "--container", "container", "What kind of bin is it?",
     "tray, stacked trays, tote, bucket, bath, flow-through or windrow"},
    {&BinStart::size, "--size", "container", "How much does it hold?", "60 L, or 15 gal"},
    {&BinStart::worms, "--worms", "worms", "How many worms?",
     "1 lb as bought, 500 g or 1000 worms"},
    {&BinStart::bedding, "--bedding", "bedding", "What bedding is in it?",
     "2 kg shredded cardboard"},
    {&BinStart::squeeze, "--squeeze", "squeeze", "Squeeze a handful. What comes out?",
     "crumbly, damp, drops, many drops, streams or pooling"},
    {&BinStart::temperature, "--temperature", "temperature", "How warm is it in there?",
     "20 C, or 68 F"},
}};

/// The text of a new file of one bin: short, with remarks, and today's date. What was not said
/// stands there as a remark that shows how to say it.
/// Errors: those of reading what was said, each with the option as its field. Threads: pure.
Result<std::string> started_file(const BinStart& said, Date today);

}  // namespace feed::io
