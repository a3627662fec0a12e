#include <algorithm>
#include <utility>

#include "feed/blend/take_out.hpp"
#include "feed/feedstock/things.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/json_writer.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/to_json.hpp"
#include "feed/quantity/plain_text.hpp"
#include "pantry.hpp"
#include "read_balance.hpp"

// A call in words becomes a file of its own, so that there is one reader for both.
namespace feed::io {
namespace {

/// Errors of a text that nobody sees: without its places, and with the field that was typed.
Errors as_typed(Errors errors) {
    constexpr std::string_view sections[] = {"blend: ", "balance: at_hand: "};
    for (auto& error : errors) {
        error.line = 0;
        error.column = 0;
        error.file.clear();
        for (const auto section : sections)
            if (error.field.substr(0, section.size()) == section)
                error.field.erase(0, section.size());
    }
    return errors;
}

/// What is offered to a recipe in words that name no bedding, and its row.
constexpr std::string_view offered_bedding = "cardboard-corrugated";
constexpr std::string_view offered_bedding_words = "shredded cardboard";

/// The words of a command line as sentences: words typed without quotation marks belong together.
std::vector<std::string> sentences_of_words(const std::vector<std::string>& words) {
    std::vector<std::string> sentences;
    bool joining = false;
    for (const std::string& word : words) {
        const bool single = word.find(' ') == std::string::npos;
        if (single && joining)
            sentences.back() += " " + word;
        else
            sentences.push_back(word);
        joining = single;
    }
    return sentences;
}

/// What is at hand, in the grammar of `at_hand`, and what of it needs not be offered beside.
struct AtHandWords {
    std::vector<std::string> pieces;
    bool free_bedding = false;  ///< bedding of any amount, or the cardboard that is offered
    bool water = false;
};

/// The words parted where one thing ends and the next begins; a thing without an amount is free.
AtHandWords things_of_words(const std::vector<std::string>& words) {
    AtHandWords all;
    const feed::detail::ThingReader names({});
    for (const std::string& sentence : sentences_of_words(words)) {
        for (const auto& piece : feed::detail::split_things(sentence, names)) {
            const bool free = !piece.amount && !piece.question && piece.mixed_with.empty() &&
                              names.names(piece.words);
            all.pieces.push_back((free ? "any " : "") + piece.written);
            const auto found = names.find(piece.deciding_words());
            if (!found) continue;
            const Feedstock& feedstock = *found->feedstock;
            const bool offered = feedstock.id == offered_bedding;
            if (feedstock.has(Role::bedding) && (free || offered)) all.free_bedding = true;
            if (feedstock.has(Role::water)) all.water = true;
        }
    }
    return all;
}

/// What is fed, as it is said, and bedding without an amount: of that there is enough.
struct FedWords {
    std::vector<std::string> fed;
    std::vector<std::string> bedding;
};

bool names_bedding(const feed::detail::ThingReader& names, std::string_view words) {
    if (!names.names(words)) return false;
    const auto found = names.find(words);
    return found && part_of(*found->feedstock) == Part::bedding &&
           found->feedstock->stance == Stance::feed;
}

/// What is wrong with words, and before it what among them is never fed: who is asked how much an
/// apple peel weighs must not miss that the bacon stays out.
Errors never_first(Errors errors, const std::vector<std::string>& words) {
    const feed::detail::ThingReader names({});
    Errors all;
    for (const std::string& sentence : sentences_of_words(words)) {
        for (const auto& piece : feed::detail::split_things(sentence, names)) {
            const auto found = names.find(piece.deciding_words());
            if (!found || !barred_in(*found->feedstock, feed::Place::worm_bed)) continue;
            all.push_back(make_error(
                ErrorCode::out_of_range, "", "", "",
                never_text(take_out(*found->feedstock,
                                    std::string(feed::detail::without_owner(piece.words))))));
        }
    }
    errors = as_typed(std::move(errors));
    all.insert(all.end(), errors.begin(), errors.end());
    return all;
}

FedWords fed_words(const std::vector<std::string>& words) {
    FedWords all;
    const feed::detail::ThingReader names({});
    for (const std::string& sentence : sentences_of_words(words)) {
        std::vector<std::string> fed;
        const std::size_t before = all.bedding.size();
        for (const auto& piece : feed::detail::split_things(sentence, names)) {
            if (!piece.amount && !piece.question && names_bedding(names, piece.deciding_words()))
                all.bedding.push_back("any " + piece.written);
            else
                fed.push_back(piece.written);
        }
        // A sentence without such bedding stays as it is.
        if (all.bedding.size() == before) fed = {sentence};
        all.fed.insert(all.fed.end(), fed.begin(), fed.end());
    }
    return all;
}

void write_at_hand(JsonWriter& json, const std::vector<std::string>& pieces) {
    json.key("balance");
    json.begin_object();
    write_texts(json, "at_hand", pieces);
    json.member("targets", "worm-bed");
    json.end_object();
}

void write_bin(JsonWriter& json, const BinWords& bin) {
    json.key("bed");
    json.begin_object();
    const auto member = [&](std::string_view key, const std::string& words) {
        if (!words.empty()) json.member(key, words);
    };
    member("container", bin.container);
    member("worms", bin.worms);
    member("temperature", bin.temperature);
    member("squeeze", bin.squeeze);
    json.end_object();
}

/// Writes what is said to be there as a file has it; gives the number of things at hand that were
/// said. What is fed is read as it is said; what is at hand has bounds of its own for each piece.
std::size_t write_things(JsonWriter& json, const std::vector<std::string>& texts, bool as_balance) {
    if (!as_balance) {
        const FedWords words = fed_words(texts);
        if (!words.fed.empty()) write_texts(json, "blend", words.fed);
        if (!words.bedding.empty()) write_at_hand(json, words.bedding);
        return words.bedding.size();
    }
    AtHandWords at_hand = things_of_words(texts);
    const std::size_t said = at_hand.pieces.size();
    if (said == 0) return 0;
    if (!at_hand.free_bedding)
        at_hand.pieces.push_back("any " + std::string(offered_bedding_words));
    if (!at_hand.water) at_hand.pieces.emplace_back("any water");
    write_at_hand(json, at_hand.pieces);
    return said;
}

}  // namespace

Result<FeedFile> read_bin_words(const BinWords& bin, const std::vector<std::string>& texts,
                                bool as_balance) {
    // The words become a file of their own, so that there is one reader for both.
    JsonWriter json;
    json.begin_object();
    json.member("libfeed", 1);
    if (!bin.empty()) write_bin(json, bin);
    const std::size_t said = write_things(json, texts, as_balance);
    json.end_object();
    auto file = read_feed_text(json.take(), "");
    if (!file) return never_first(std::move(file).errors(), texts);
    if (file->balance) file->balance->said_entries = said;
    return file;
}

Result<FeedFile> with_things(FeedFile file, const std::vector<std::string>& texts,
                             bool as_balance) {
    if (file.is_of_a_heap())
        return make_error(ErrorCode::contradiction, "things", "", "feed heap, then what is there",
                          "the file is of a heap, and these words would go to worms");
    JsonWriter json;
    json.begin_object();
    // With a bed a balance is the ration.
    const std::size_t said = write_things(json, texts, as_balance && !file.has_bed);
    json.end_object();
    const std::string text = json.take();
    const auto tree = parse_yaml(text, "");
    if (!tree) return never_first(tree.errors(), texts);
    file.blend.reset();
    file.balance.reset();
    Reading reading("", text);
    Pantry pantry(reading, file);
    tree->root().for_each_pair([&](YamlView key, YamlView value) {
        if (key.text() == "blend") file.blend = pantry.portions(value, "blend");
        if (key.text() == "balance") file.balance = read_balance(pantry, file, value);
    });
    if (reading.has_problems()) return never_first(reading.take(), texts);
    if (file.balance) file.balance->said_entries = said;
    return file;
}

namespace {

/// A heap of which nobody said how much there is: a cubic metre heats and can still be turned
/// (common practice; at least 3 ft each way, Oregon county extension page).
constexpr std::string_view usual_heap = "1 m3";

/// One thing at hand for a heap in the grammar of `at_hand`: an amount is the most there is of it.
std::string as_at_hand(const std::string& piece) {
    const std::string plain = plain_text(piece);
    for (const std::string_view open : {"any ", "as much ", "at least "})
        if (plain.substr(0, open.size()) == open) return piece;
    const bool bounded = plain.substr(0, 6) == "up to " || plain.substr(0, 8) == "at most ";
    return (bounded ? "as much as possible " : "as much as possible up to ") + piece;
}

}  // namespace

Result<FeedFile> read_heap_words(const std::vector<std::string>& texts) {
    JsonWriter json;
    json.begin_object();
    json.member("libfeed", 1);
    json.member("kind", "heap");
    std::vector<std::string> at_hand;
    const AtHandWords said = things_of_words(texts);
    for (const std::string& piece : said.pieces)
        at_hand.push_back(as_at_hand(piece));
    const bool no_amounts =
        std::all_of(said.pieces.begin(), said.pieces.end(),
                    [](const std::string& piece) { return piece.substr(0, 4) == "any "; });
    if (!said.water) at_hand.emplace_back("any water");
    json.key("balance");
    json.begin_object();
    write_texts(json, "at_hand", at_hand);
    if (no_amounts) {
        json.key("targets");
        json.begin_object();
        json.member("set", "hot-heap");
        json.member("total_volume", usual_heap);
        json.end_object();
    }
    json.end_object();
    json.end_object();
    auto file = read_feed_text(json.take(), "");
    if (file) return file;
    return as_typed(std::move(file).errors());
}

Result<FeedFile> read_portions(const std::vector<std::string>& texts) {
    JsonWriter json;
    json.begin_object();
    json.member("libfeed", 1);
    if (!texts.empty()) write_texts(json, "blend", sentences_of_words(texts));
    json.end_object();
    auto file = read_feed_text(json.take(), "");
    if (file) return file;
    return as_typed(std::move(file).errors());
}

}  // namespace feed::io
