#include "read_trial.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <string>
#include <utility>

#include "feed/feedstock/place.hpp"
#include "feed/io/human_text.hpp"
#include "feed/quantity/number_text.hpp"
#include "read_bed.hpp"
#include "read_diary.hpp"
#include "trial_bins.hpp"

namespace feed::io {
namespace {

/// Whole numbers up to here are the same in every program that reads JSON.
constexpr std::uint64_t largest_seed = (1ULL << 53U) - 1;

class TrialReader {
public:
    TrialReader(Pantry& pantry, FeedFile& file, YamlView at)
        : pantry_(pantry),
          reading_(pantry.reading()),
          file_(file),
          section_(pantry.reading(), at, "trial", keys::trial) {}

    std::optional<Trial> read() {
        if (!section_.is_mapping()) return std::nullopt;
        const std::size_t problems = reading_.count();
        keep_places();
        if (const auto kind = word<TrialKind>("kind", trial_kind_words)) trial_.design.kind = *kind;
        if (const auto question = word<TrialQuestion>("question", trial_question_words))
            trial_.question = *question;
        if (const auto at = section_.require("feeds")) read_feeds(*at);
        read_bins();
        if (const auto number = whole("portions", 1, static_cast<int>(most_trial_portions))) {
            trial_.design.portions = static_cast<std::size_t>(*number);
            trial_.portions_said = true;
        }
        const bool alone = trial_.design.kind == TrialKind::alone;
        if (alone) trial_.design.rounds = std::max<std::size_t>(trial_.feeds.size(), 1);
        if (const auto number = whole("rounds", 1, static_cast<int>(most_trial_rounds)))
            trial_.design.rounds = static_cast<std::size_t>(*number);
        if (const auto at = section_.find("blank"))
            trial_.design.blank = reading_.yes_or_no(*at, section_.field("blank")).value_or(false);
        read_portion();
        read_days();
        if (const auto at = section_.find("prior")) {
            const auto number =
                reading_.quantity(*at, section_.field("prior"), QuantityKind::number);
            if (number && *number >= 0.05 && *number <= 3.0)
                trial_.prior.ratio_log_sd = *number;
            else if (number)
                reading_.report(*at, ErrorCode::out_of_range, section_.field("prior"),
                                "0.05 to 3, the log sd of a ratio; 0.7 where it is left out",
                                "this prior leaves no room for the trial to speak");
        }
        trial_.laid_by = plain("laid_by");
        trial_.changed = plain("changed");
        trial_.design.feeds = trial_.feeds.size();
        if (reading_.count() > problems) return std::nullopt;
        for (Error& error : design_errors(trial_.design)) {
            const auto at = section_.find(error.field.substr(error.field.rfind(' ') + 1));
            reading_.report(at.value_or(section_.node()), std::move(error));
        }
        ask_for_portions();
        if (reading_.count() > problems) return std::nullopt;
        return std::move(trial_);
    }

private:
    /// For problems that show only when the trial is planned or read.
    void keep_places() {
        const auto keep = [&](std::string key, YamlView at) {
            const Place place = reading_.place_of(at);
            file_.trial_places.push_back({std::move(key), place.line, place.column});
        };
        keep("", section_.node());
        for (const keys::Key key : keys::trial) {
            if (const auto at = section_.find(key)) keep(std::string(key), *at);
        }
    }

    template <class T, std::size_t count>
    std::optional<T> word(keys::Key key, const std::array<std::string_view, count>& words) {
        const auto at = section_.find(key);
        if (!at) return std::nullopt;
        const auto index = reading_.word_index(*at, section_.field(key), words);
        return index ? std::optional<T>(static_cast<T>(*index)) : std::nullopt;
    }

    std::string plain(keys::Key key) {
        const auto at = section_.find(key);
        return at ? std::string(reading_.scalar(*at, section_.field(key)).value_or(""))
                  : std::string();
    }

    std::optional<int> whole(keys::Key key, int low, int high) {
        const auto at = section_.find(key);
        if (!at) return std::nullopt;
        const auto text = reading_.scalar(*at, section_.field(key));
        if (!text) return std::nullopt;
        const auto number = parse_whole(*text, low, high);
        if (number) return *number;
        reading_.adopt(*at, section_.field(key), number.errors());
        return std::nullopt;
    }

    /// "melon rind", "100 g melon rind", or a mapping with feedstock, preparation and amount.
    void read_feed(YamlView item, const std::string& field) {
        TrialFeed feed;
        std::optional<Amount> amount;
        YamlView name_at = item;
        Preparations how;
        if (item.is_mapping()) {
            const Section section(reading_, item, field, keys::portion);
            const auto name = section.require("feedstock");
            if (!name) return;
            name_at = *name;
            feed.label = std::string(reading_.scalar(*name, field).value_or(""));
            how = pantry_.preparations(section.find("preparation"), section.field("preparation"));
            if (const auto written = section.find("amount")) {
                if (const auto text = reading_.scalar(*written, section.field("amount")))
                    amount = pantry_.amount(*written, section.field("amount"), *text);
            }
        } else {
            const auto text = reading_.scalar(item, field);
            if (!text) return;
            feed.label = std::string(*text);
            if (read_number(*text)) {
                auto split = parse_amount_and_words(*text, file_.containers);
                if (!split) return reading_.adopt(item, field, split.errors());
                amount = split->amount;
                feed.label = split->words;
            }
        }
        feed.fresh = pantry_.find(name_at, field, feed.label, {});
        if (!feed.fresh) return;
        feed.feedstock = how.empty() ? feed.fresh : pantry_.find(name_at, field, feed.label, how);
        if (amount) feed.written = weighed(item, field, *amount, feed);
        if (!how.empty()) feed.label = feed.feedstock->prepared_as + " " + feed.label;
        if (barred_in(*feed.fresh, feed::Place::worm_bed)) {
            reading_.report(name_at, ErrorCode::out_of_range, field, "a feed that worms may have",
                            feed.fresh->name +
                                " is never fed: " + std::string(why_barred(*feed.fresh)) +
                                "; instead: " + std::string(instead_of(*feed.fresh)));
            return;
        }
        for (const TrialFeed& other : trial_.feeds) {
            if (other.label == feed.label) {
                reading_.report(item, ErrorCode::duplicate_entry, field,
                                "each feed once; a preparation tells two of one food apart",
                                "\"" + feed.label + "\" stands here twice");
                return;
            }
        }
        trial_.feeds.push_back(std::move(feed));
    }

    void read_feeds(YamlView at) {
        const auto field = section_.field("feeds");
        if (!at.is_sequence()) {
            reading_.report(at, ErrorCode::wrong_type, field, "a list of two to four feeds",
                            "a list is due here, one feed a line, each starting with \"- \"");
            return;
        }
        std::size_t number = 0;
        at.for_each_item([&](YamlView item) { read_feed(item, entry_field(field, ++number)); });
        if (number < 2 || number > most_trial_feeds)
            reading_.report(at, make_error(ErrorCode::out_of_range, field, counted(number, "feed"),
                                           "2 to 4 feeds", "a trial compares two to four feeds"));
        check_amounts(at, field);
    }

    /// Amounts for all feeds or for none: one that is dropped would be laid all the same.
    void check_amounts(YamlView at, const std::string& field) {
        const auto has = [](const TrialFeed& feed) { return feed.written.has_value(); };
        const auto with = std::find_if(trial_.feeds.begin(), trial_.feeds.end(), has);
        const auto without = std::find_if_not(trial_.feeds.begin(), trial_.feeds.end(), has);
        if (with == trial_.feeds.end()) return;
        if (without != trial_.feeds.end())
            return reading_.report(
                at, make_error(ErrorCode::missing_value, field, with->label,
                               "an amount for every feed, or for none: then portion: 60 g says how "
                               "much of the first, and the rest is made equal",
                               "\"" + with->label + "\" has an amount, \"" + without->label +
                                   "\" has none"));
        if (const auto portion = section_.find("portion"))
            reading_.report(*portion, ErrorCode::contradiction, section_.field("portion"),
                            "portion alone, or amounts at the feeds alone",
                            "the feeds have amounts already, and the portion says another");
    }

    /// The name of a bin that is like the first, or a mapping that describes it.
    void read_bin(YamlView item, const std::string& field, bool is_first) {
        std::optional<Diary> own;
        YamlView name_at = item;
        if (item.is_mapping()) {
            const Section section(reading_, item, field, keys::trial_bin);
            const auto name = section.require("name");
            if (!name) return;
            name_at = *name;
            const auto bed = section.find("bed");
            const auto feedings = section.find("feedings");
            const auto looks = section.find("observations");
            if ((bed || feedings || looks) && is_first)
                return reading_.report(
                    item, ErrorCode::contradiction, field, "a name alone for the first bin",
                    "the first bin is the one that bed:, feedings: and observations: of this file "
                    "describe; write them there, beside trial:");
            if ((feedings || looks) && !bed)
                return reading_.report(
                    item, ErrorCode::missing_value, section.field("bed"),
                    "bed: {container: 60 L tote, worms: 500 g}",
                    "what went in and was seen says little without the bin itself");
            if (bed) {
                own.emplace();
                read_bed(pantry_, *own, *bed, section.field("bed"));
            }
            if (feedings)
                own->feedings = read_feedings(pantry_, *feedings, section.field("feedings"));
            if (looks)
                own->observations = read_bin_looks(pantry_, *looks, section.field("observations"));
        }
        const auto name = reading_.scalar(name_at, field);
        if (!name) return;
        if (std::find(trial_.bins.begin(), trial_.bins.end(), *name) != trial_.bins.end())
            reading_.report(name_at, ErrorCode::duplicate_entry, field, "a name of its own",
                            "two bins are called \"" + std::string(*name) +
                                "\": nobody could tell what lies in which");
        trial_.bins.emplace_back(*name);
        file_.trial_bins.push_back(std::move(own));
    }

    /// A seed that was drawn for more portions than one, without their number, would make another
    /// layout of it.
    void ask_for_portions() {
        const auto number = portions_of_seed(trial_);
        if (!number) return;
        const std::string line = "portions: " + std::to_string(*number);
        reading_.report(section_.find("seed").value_or(section_.node()), ErrorCode::missing_value,
                        section_.field("portions"), line,
                        "feed trial plan drew this seed for " + std::to_string(*number) +
                            " portions of each feed in a bin: write " + line + " too");
    }

    /// A number, or a list of names.
    void read_bins() {
        const auto at = section_.find("bins");
        if (at && at->is_sequence()) {
            std::size_t number = 0;
            at->for_each_item([&](YamlView item) {
                ++number;
                read_bin(item, entry_field(section_.field("bins"), number), number == 1);
            });
            trial_.design.bins = trial_.bins.size();
            return;
        }
        if (const auto number = whole("bins", 1, static_cast<int>(most_trial_bins)))
            trial_.design.bins = static_cast<std::size_t>(*number);
        for (std::size_t bin = 0; bin < trial_.design.bins; ++bin)
            trial_.bins.push_back("bin " + std::to_string(bin + 1));
    }

    /// A portion of the first feed, fresh.
    void read_portion() {
        const auto at = section_.find("portion");
        if (!at || trial_.feeds.empty()) return;
        const auto field = section_.field("portion");
        const auto text = reading_.scalar(*at, field);
        if (!text) return;
        if (const auto amount = pantry_.amount(*at, field, *text))
            trial_.portion = weighed(*at, field, *amount, trial_.feeds.front());
    }

    /// An amount of a feed as it is before it is prepared.
    std::optional<WetMass> weighed(YamlView at, const std::string& field, const Amount& amount,
                                   const TrialFeed& feed) {
        const auto thing = pantry_.weigh(at, field, pantry_.piece(amount, feed.label), feed.fresh);
        return thing ? std::optional(thing->mass.wet_mass) : std::nullopt;
    }

    void read_days() {
        if (const auto at = section_.find("seed")) {
            const auto text = reading_.scalar(*at, section_.field("seed"));
            std::uint64_t seed = 0;
            if (text) {
                const auto end = std::from_chars(text->data(), text->data() + text->size(), seed);
                const bool whole_text = end.ptr == text->data() + text->size();
                if (end.ec == std::errc() && whole_text && seed <= largest_seed)
                    trial_.seed = seed;
                else
                    reading_.report(
                        *at, ErrorCode::not_a_number, section_.field("seed"),
                        "a whole number from 0 to 9007199254740991, such as the plan prints",
                        "this is no such whole number");
            }
        }
        if (const auto at = section_.find("start")) {
            const auto field = section_.field("start");
            const auto add = [&](YamlView item) {
                if (const auto date = read_date(reading_, item, field))
                    trial_.starts.push_back(*date);
            };
            if (at->is_sequence())
                at->for_each_item(add);
            else
                add(*at);
            for (std::size_t i = 1; i < trial_.starts.size(); ++i) {
                if (day_number(trial_.starts[i]) > day_number(trial_.starts[i - 1])) continue;
                reading_.report(*at, ErrorCode::out_of_range, field,
                                "the day of each round, one after another",
                                "round " + std::to_string(i + 1) + " starts no later than round " +
                                    std::to_string(i));
            }
            if (trial_.starts.size() > trial_.design.rounds)
                reading_.report(*at, ErrorCode::out_of_range, field,
                                std::to_string(trial_.design.rounds) + " at most, one a round",
                                "there are more days than rounds");
        }
        trial_.last_day = whole("last_day", 1, 365);
        if (const auto number = whole("looks", 1, 365))
            trial_.looks = static_cast<std::size_t>(*number);
    }

    Pantry& pantry_;
    Reading& reading_;
    FeedFile& file_;
    Section section_;
    Trial trial_;
};

}  // namespace

void read_trial_section(Pantry& pantry, FeedFile& file, YamlView at) {
    file.trial = TrialReader(pantry, file, at).read();
}

}  // namespace feed::io
