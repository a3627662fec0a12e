#include "feed/io/feed_file.hpp"

#include <functional>
#include <utility>

#include "feed/balance/target_sets.hpp"
#include "feed/bed/completed.hpp"
#include "feed/io/human_text.hpp"
#include "feed/io/text_file.hpp"
#include "feed/io/trial_answer.hpp"
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
        if (const auto at = section.find("units")) read_units(*at);
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

    void read_units(YamlView at) {
        static constexpr WordFor<UnitSystem> systems[] = {{"metric", UnitSystem::metric},
                                                          {"us", UnitSystem::us}};
        file_.units = reading_.word(at, "units", systems);
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

}  // namespace feed::io
