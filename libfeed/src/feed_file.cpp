#include "feed/io/feed_file.hpp"

#include <functional>
#include <utility>

#include "feed/balance/target_sets.hpp"
#include "feed/bed/completed.hpp"
#include "feed/feedstock/things.hpp"
#include "feed/io/human_text.hpp"
#include "feed/io/json_writer.hpp"
#include "feed/io/text_file.hpp"
#include "feed/io/to_json.hpp"
#include "feed/io/trial_answer.hpp"
#include "feed/quantity/plain_text.hpp"
#include "pantry.hpp"
#include "read_balance.hpp"
#include "read_bed.hpp"
#include "read_diary.hpp"
#include "read_feedstocks.hpp"
#include "read_file_node.hpp"
#include "read_trial.hpp"

namespace feed::io {
namespace {

class FileReader {
public:
    FileReader(const YamlTree& tree, YamlView root, std::string_view text, std::string_view name)
        : tree_(tree), root_(root), reading_(std::string(name), text), pantry_(reading_, file_) {
        file_.name = std::string(name);
    }

    Result<FeedFile> read() {
        reading_.add(tree_);
        const auto root = root_;
        if (!root.is_mapping()) {
            reading_.report(root, ErrorCode::wrong_type, "file", "libfeed: 1, then sections",
                            "a feed file is a mapping whose first line is \"libfeed: 1\"");
            return reading_.take();
        }
        // Without the version nobody can say what the keys mean: it is the one problem then.
        if (!read_version(root)) return reading_.take();
        const Section section(reading_, root, "", keys::file);
        if (const auto at = section.find("title"))
            file_.title = std::string(reading_.scalar(*at, "title").value_or(""));
        if (const auto at = section.find("group"))
            file_.group = std::string(reading_.scalar(*at, "group").value_or(""));
        if (const auto at = section.find("kind")) read_kind(*at);
        if (const auto at = section.find("containers")) read_containers(*at);
        if (const auto at = section.find("words")) read_words(*at);
        if (const auto at = section.find("feedstocks")) read_feedstocks(pantry_, file_, *at);
        if (const auto at = section.find("blend")) file_.blend = pantry_.portions(*at, "blend");
        if (const auto at = section.find("balance"))
            file_.balance = read_balance(pantry_, file_, *at);
        if (const auto at = section.find("bed")) {
            file_.has_bed = true;
            read_bed(pantry_, file_.diary, *at);
        }
        if (const auto at = section.find("trial")) read_trial_section(pantry_, file_, *at);
        if (const auto at = section.find("feedings"))
            file_.diary.feedings = read_feedings(pantry_, *at, "feedings");
        if (const auto at = section.find("observations")) read_observations(pantry_, file_, *at);
        if (const auto at = section.find("stock")) read_stock(pantry_, file_, *at);
        refuse_heap_in_a_bin(section);
        file_.diary.name = file_.title;
        if (reading_.has_problems()) return reading_.take();
        add_trial(file_);
        return std::move(file_);
    }

private:
    bool read_version(YamlView root) {
        bool first = true;
        bool found = false;
        bool right = false;
        root.for_each_pair([&](YamlView key, YamlView value) {
            if (key.text() == "libfeed" && !found) {
                found = true;
                right = first && value.text() == "1";
                if (!first)
                    reading_.report(key, ErrorCode::wrong_version, "libfeed", "libfeed: 1",
                                    "this must be the first line of the file");
                if (value.text() != "1")
                    reading_.report(value, ErrorCode::wrong_version, "libfeed", "1",
                                    "this file says version " + std::string(value.text()) +
                                        " of the file form; this program reads version 1");
            }
            first = false;
        });
        if (!found) {
            reading_.report(root, ErrorCode::wrong_version, "libfeed", "libfeed: 1",
                            "the first line must be \"libfeed: 1\"");
        }
        return right && found;
    }

    void read_kind(YamlView at) {
        static constexpr WordFor<bool> kinds[] = {{"bin", false}, {"heap", true}};
        if (const auto heap = reading_.word(at, "kind", kinds)) file_.heap = *heap;
    }

    void read_containers(YamlView at) {
        if (!at.is_mapping()) {
            reading_.report(at, ErrorCode::wrong_type, "containers", "bucket: 10 L",
                            "a mapping (name: volume) is due here");
            return;
        }
        if (!reading_.fits(at, "containers", keys::most_containers)) return;
        at.for_each_pair([&](YamlView key, YamlView value) {
            const auto field = "containers: " + std::string(key.text());
            const auto number = reading_.quantity(value, field, QuantityKind::volume);
            if (number) file_.containers.push_back({std::string(key.text()), litres(*number)});
        });
    }

    void read_words(YamlView at) {
        if (!at.is_mapping()) {
            reading_.report(at, ErrorCode::wrong_type, "words", "bananas: banana peels",
                            "a mapping (word: what it means) is due here");
            return;
        }
        at.for_each_pair([&](YamlView key, YamlView value) {
            const auto field = "words: " + std::string(key.text());
            if (const auto means = reading_.scalar(value, field))
                file_.words.push_back({std::string(key.text()), std::string(*means)});
        });
    }

    /// A heap in a small container never gets hot, and what is worked out for a bed is for worms.
    void refuse_heap_in_a_bin(const Section& section) {
        if (file_.heap) {
            for (const keys::Key key : {keys::Key("bed"), keys::Key("trial"), keys::Key("stock")}) {
                if (const auto at = section.find(key))
                    reading_.report(*at, ErrorCode::contradiction, std::string(key),
                                    "kind: bin; or leave " + std::string(key) + " out",
                                    "a file of a heap has no " + std::string(key) +
                                        ": worms have a file of their own");
            }
            return;
        }
        const auto bed_at = section.find("bed");
        if (!file_.for_heap() || !file_.has_bed || !bed_at) return;
        const CompletedBed bed = completed(file_.diary.bed, UnitSystem::metric);
        const Volume room = bed.contents + bed.free_room;
        if (room.value() >= least_hot_heap_m3) return;
        reading_.report(
            *bed_at, ErrorCode::out_of_range, "bed: container",
            "targets: worm-bed for worms in this bin; or no bed, for a heap of 3 x 3 x 3 "
            "ft (0.8 m3) or more",
            "a heap in a container of " + volume_text(room, UnitSystem::metric) +
                " is too small to get hot, so nothing is worked out for it");
    }

    const YamlTree& tree_;
    YamlView root_;
    Reading reading_;
    FeedFile file_;
    Pantry pantry_;
};

}  // namespace

Result<FeedFile> read_feed_text(std::string_view text, std::string_view name) {
    const auto tree = parse_yaml(text, name);
    if (!tree) return tree.errors();
    return read_feed_node(*tree, tree->root(), text, text, name);
}

Result<FeedFile> read_feed_node(const YamlTree& tree, YamlView root, std::string_view text,
                                std::string_view object, std::string_view name) {
    auto file = FileReader(tree, root, text, name).read();
    if (!file) return file;
    file->content_hash = std::hash<std::string_view>{}(object);
    if (file->trial) file->trial_text = object;
    return file;
}

Result<FeedFile> read_feed_file(const std::string& path) {
    const auto text = read_text_file(path);
    if (!text) return text.errors();
    return read_feed_text(*text, path);
}

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
            const bool free = !piece.amount && !piece.question && names.names(piece.words);
            all.pieces.push_back((free ? "any " : "") + piece.written);
            const auto found = names.find(piece.words);
            if (!found) continue;
            const Feedstock& feedstock = *found->feedstock;
            const bool offered = feedstock.id == offered_bedding;
            if (feedstock.has(Role::bedding) && (free || offered)) all.free_bedding = true;
            if (feedstock.has(Role::water)) all.water = true;
        }
    }
    return all;
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

/// Writes what is said to be there as a file has it; gives the number of things that were said.
/// What is fed is read as it is said; what is at hand has bounds of its own for each piece.
std::size_t write_things(JsonWriter& json, const std::vector<std::string>& texts, bool as_balance) {
    const AtHandWords at_hand = as_balance ? things_of_words(texts) : AtHandWords{};
    auto pieces = as_balance ? at_hand.pieces : sentences_of_words(texts);
    const std::size_t said = pieces.size();
    if (as_balance && !pieces.empty()) {
        if (!at_hand.free_bedding) pieces.push_back("any " + std::string(offered_bedding_words));
        if (!at_hand.water) pieces.emplace_back("any water");
        json.key("balance");
        json.begin_object();
        write_texts(json, "at_hand", pieces);
        json.member("targets", "worm-bed");
        json.end_object();
    } else if (!pieces.empty()) {
        write_texts(json, "blend", pieces);
    }
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
    if (!file) return as_typed(std::move(file).errors());
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
    if (!tree) return as_typed(tree.errors());
    file.blend.reset();
    file.balance.reset();
    Reading reading("", text);
    Pantry pantry(reading, file);
    tree->root().for_each_pair([&](YamlView key, YamlView value) {
        if (key.text() == "blend") file.blend = pantry.portions(value, "blend");
        if (key.text() == "balance") file.balance = read_balance(pantry, file, value);
    });
    if (reading.has_problems()) return as_typed(reading.take());
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
    return read_bin_words({}, texts, false);
}

}  // namespace feed::io
