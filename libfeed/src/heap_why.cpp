#include <string>

#include "feed/balance/target_kind.hpp"
#include "feed/io/heap_answer.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/quantity/amount_words.hpp"
#include "feed/quantity/number_print.hpp"
#include "heap_words.hpp"

// What is behind the answer about a heap.
namespace feed::io {
namespace {

std::string reached_lines(const HeapOfFile& heap) {
    std::string text = "\nThe recipe, as feed balance has it\n";
    for (const Reached& one : heap.recipe->answer.reached) {
        const auto& quantity = one.quantity;
        if (!quantity.has_value()) continue;
        const bool ratio = one.target.property == TargetProperty::cn_ratio;
        const bool share = !ratio && quantity.high <= 1.0;
        const auto show = [&](double number) {
            return ratio   ? significant(number, 2) + ":1"
                   : share ? percent_text(number)
                           : significant(number, 2);
        };
        text += wrapped(std::string(kind(one.target.property).name) + " " + show(quantity.value) +
                            " (" + show(quantity.low) + " to " + show(quantity.high) +
                            "); target " + (one.target.low ? "from " + show(*one.target.low) : "") +
                            (one.target.high ? " to " + show(*one.target.high) : "") + " (" +
                            one.target.source + ")",
                        2, 4);
    }
    return text;
}

std::string log_lines(const HeapOfFile& heap, UnitSystem units) {
    if (heap.looks.empty()) return "";
    std::string text = "\nThe log\n";
    for (const HeapLook& look : heap.looks)
        text += "  " + feed::text(date_of(look.day)) + "  hottest " +
                words::temperature(*look.hottest_c, units) + place_text(look.place) +
                (look.inside_c ? ", inside " + words::temperature(*look.inside_c, units)
                               : std::string()) +
                "\n";
    return text;
}

}  // namespace

std::string heap_why(const HeapOfFile& heap, UnitSystem units) {
    std::string text;
    if (heap.log && heap.recipe) {
        HeapOfFile recipe = heap;
        recipe.log.reset();
        text += "\nHow it is built\n" + screen_text(heap_lines(recipe, units, whole_screen));
    }
    if (heap.layers) text += reached_lines(heap);
    if (heap.log) text += log_lines(heap, units);
    text += "\nRules on the heat of a heap; they differ (* is gone by)\n";
    for (const HeapRule& rule : heap_rules)
        text += wrapped(std::string(rule.taken ? "* " : "  ") + std::string(rule.about) + ": " +
                            words::fixed_text(rule.says, units) + ". " + std::string(rule.source) +
                            (rule.read ? "." : ", second-hand."),
                        2, 6);
    text += "\n" + wrapped(
                       "Germs: this program says nothing of what heat does to them. The edge of a "
                       "small heap never gets hot. Local rules come first.",
                       0, 2);
    text += wrapped(
        "No forecast: the heat of a heap is not worked out ahead. No model here was held to three "
        "published heap curves.",
        0, 2);
    text += wrapped(std::string(turning_care) + " " + std::string(who_turns) +
                        " Lime and ash burn eyes and lungs: damp them, and do not breathe them in.",
                    0, 2);
    return text;
}

}  // namespace feed::io
