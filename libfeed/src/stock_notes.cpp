#include "stock_notes.hpp"

#include <algorithm>
#include <array>
#include <span>
#include <utility>
#include <vector>

#include "diary_entry.hpp"
#include "feed/feedstock/things.hpp"
#include "note_text.hpp"

namespace feed::io {
namespace {

bool is_in_freezer(std::string_view words) {
    return plain_text(words).find("freezer") != std::string::npos;
}

/// Whether a place is one where things are kept, and no bin.
bool is_store(std::string_view words) {
    constexpr std::array<std::string_view, 10> stores{
        "freezer", "fridge", "refrigerator", "shed",     "garage",
        "cellar",  "pantry", "cupboard",     "basement", "larder"};
    const std::string plain = plain_text(words);
    return std::any_of(stores.begin(), stores.end(), [&](std::string_view store) {
        return plain.find(store) != std::string::npos;
    });
}

std::string frozen(std::string_view thing) {
    if (plain_text(thing).find("frozen") != std::string::npos) return std::string(thing);
    return "frozen " + std::string(thing);
}

/// How the things of a text are written down.
enum class Kept { as_said, frozen };

std::vector<std::string> things_in(std::string_view words, Kept kept) {
    std::vector<std::string> things;
    for (const auto& piece : feed::detail::split_things(words, feed::detail::ThingReader({})))
        things.push_back(kept == Kept::frozen ? frozen(piece.written) : std::string(piece.written));
    return things;
}

/// Whether words are things with their amounts, and nothing else.
bool are_things(std::string_view words) {
    const ReadThings read = read_things(words);
    return read.questions.empty() && !read.things.empty();
}

/// Words without a place at their end, and the place: "2 kg rind in the blue box".
std::string_view take_container(std::string_view& words) {
    std::string_view container;
    for (const std::string_view place :
         {" into the ", " in the ", " into my ", " in my ", " in a "}) {
        const auto at = words.rfind(place);
        if (at == std::string_view::npos) continue;
        const std::size_t article = place.find(' ', 1) + 1;  // it stays: "my second box"
        container = detail::trim(words.substr(at + article));
        words = detail::trim(words.substr(0, at));
    }
    return container;
}

Result<NoteEntry> stock_entry(std::string_view words, Kept kept, Date date, std::string_view by) {
    bool taken = false;
    for (const std::string_view word : {"took out", "took", "used", "gave away"}) {
        if (taken || !begins_with(words, word)) continue;
        words = without(words, word.size());
        taken = true;
    }
    const std::string_view container = take_container(words);
    auto portions = things_in(words, is_in_freezer(container) ? Kept::frozen : kept);
    if (portions.empty())
        return offered(
            note_error(ErrorCode::empty, words, "stock 2 kg frozen melon rind", "what was put by?"),
            " Write ", {"stock 2 kg frozen melon rind"});
    DiaryEntry entry(date);
    entry.list(taken ? "taken" : "portions", std::move(portions), false);
    entry.quoted("container", container);
    entry.quoted("by", by);
    return NoteEntry{"stock", entry.yaml(0), entry.json(), date, {}, {}};
}

/// What stands behind one of the words, or nothing.
std::optional<std::string_view> behind(std::string_view words,
                                       std::span<const std::string_view> openings) {
    for (const std::string_view one : openings)
        if (begins_with(words, one)) return without(words, one.size());
    return std::nullopt;
}

/// Words without "from the freezer" or "out of the freezer" at either end; nothing where they do
/// not say so.
std::optional<std::string> out_of_freezer(std::string_view words) {
    constexpr std::array<std::string_view, 4> ways{"out of the freezer", "from the freezer",
                                                   "out of my freezer", "from my freezer"};
    if (const auto food = behind(words, ways)) return std::string(*food);
    for (const std::string_view way : ways)
        if (const auto food = without_end(words, way)) return std::string(*food);
    return std::nullopt;
}

/// What was taken out to thaw goes in on another day: noted twice it would be used up twice.
std::optional<Error> thawed(std::string_view words) {
    constexpr std::array<std::string_view, 3> openings{"thawed", "defrosted", "thawing"};
    constexpr std::array<std::string_view, 3> takes{"took out", "took", "taken"};
    std::optional<std::string> food;
    if (const auto what = behind(words, openings)) food = std::string(*what);
    if (const auto what = behind(words, takes)) food = out_of_freezer(*what);
    if (!food || !are_things(*food)) return std::nullopt;
    return offered(note_error(ErrorCode::bad_argument, words, "what was fed",
                              "what comes out of the freezer is noted when it is fed"),
                   "; then write ", {"fed " + frozen(*food)});
}

/// What was put by; "put" alone says so only of where things are kept: "put 3 apples in" is fed.
std::optional<std::string_view> put_by(std::string_view words) {
    constexpr std::array<std::string_view, 4> openings{"put by", "put aside", "put away", "stored"};
    constexpr std::array<std::string_view, 1> put{"put"};
    const auto kept = behind(words, openings);
    const auto what = kept ? kept : behind(words, put);
    if (!what) return std::nullopt;
    std::string_view things = *what;
    const std::string_view container = take_container(things);
    return (kept || is_store(container)) && are_things(things) ? what : std::nullopt;
}

}  // namespace

std::optional<Result<NoteEntry>> stock_note(std::string_view words, Date date,
                                            std::string_view by) {
    constexpr std::array<std::string_view, 1> says_stock{"stock"};
    constexpr std::array<std::string_view, 3> says_frozen{"froze", "freeze", "freezing"};
    if (const auto what = behind(words, says_stock))
        return stock_entry(*what, Kept::as_said, date, by);
    if (const auto what = behind(words, says_frozen))
        return stock_entry(*what, Kept::frozen, date, by);
    if (auto error = thawed(words)) return Result<NoteEntry>(*std::move(error));
    if (const auto what = put_by(words)) return stock_entry(*what, Kept::as_said, date, by);
    return std::nullopt;
}

std::string fed_from_stock(std::string_view food) {
    constexpr std::array<std::string_view, 3> from_stock{"from the stock", "from stock",
                                                         "from my stock"};
    if (const auto what = behind(food, from_stock)) return std::string(*what);
    const auto cold = out_of_freezer(food);
    if (!cold) return std::string(food);
    std::string all;
    for (const std::string& one : things_in(*cold, Kept::frozen))
        all += (all.empty() ? "" : ", ") + one;
    return all.empty() ? std::string(food) : all;
}

}  // namespace feed::io
