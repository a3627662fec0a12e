#include <algorithm>
#include <string>

#include "command.hpp"
#include "feed/io/heap_answer.hpp"
#include "file_or_entries.hpp"
#include "ration_screen.hpp"

namespace feed_command {
namespace {

using namespace feed;

/// The file of a call, or the one that its words make.
Result<io::FeedFile> file_of_call(Arguments& arguments) {
    const auto& words = arguments.words;
    if (words.empty()) return wrong_words(arguments, "which file, or what is there for the heap?");
    if (std::none_of(words.begin(), words.end(), names_a_file)) return io::read_heap_words(words);
    return read_bin_of_file(arguments);
}

}  // namespace

int run_heap(Arguments& arguments) {
    const auto file = file_of_call(arguments);
    if (!file) return refuse(arguments, file.errors());
    const auto heap = io::heap_of(*file, arguments.text("--worms"), arguments.units);
    if (!heap) return refuse_by_option(arguments, heap.errors());
    const bool solved = !heap->recipe || heap->layers;
    const bool refused = heap->recipe && !heap->recipe->answer.take_out.empty();
    const bool alarm =
        heap->log && (heap->log->step == HeapStep::stand_back || heap->log->step == HeapStep::cool);
    const bool strict = arguments.has("--strict") && (refused || alarm);
    const int code = strict || (!solved && !heap->log) ? not_reachable : done;
    if (arguments.json()) return print(io::to_json(*heap, arguments.units), code);
    const bool why = arguments.has("--why");
    std::string text = io::screen_text(
        io::heap_lines(*heap, arguments.units, why ? io::whole_screen : io::first_screen));
    if (why) text += io::heap_why(*heap, arguments.units);
    return print(text, code);
}

}  // namespace feed_command
