#include "feed/io/bin_start.hpp"

#include <algorithm>
#include <utility>
#include <vector>

#include "feed/feedstock/plain_name.hpp"
#include "feed/feedstock/thing_list.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/json_writer.hpp"
#include "feed/io/observation_text.hpp"
#include "feed/io/quantity_text.hpp"
#include "feed/io/to_json.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed::io {
namespace {

/// A value as people would write it, or between quotation marks where YAML could take it for more.
std::string value_text(std::string_view words) {
    const bool plain = !words.empty() && words.front() != ' ' && words.back() != ' ' &&
                       std::all_of(words.begin(), words.end(), [](char c) {
                           return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                                  (c >= '0' && c <= '9') || c == ' ' || c == '.' || c == '/';
                       });
    constexpr std::string_view taken[] = {"true", "false", "yes", "no", "null", "Null", "NULL"};
    const bool word = std::find(std::begin(taken), std::end(taken), words) != std::end(taken);
    return plain && !word ? std::string(words) : yaml_text(words);
}

/// "60 L tote" of a kind and a size.
std::string container_of(const BinStart& said) {
    if (said.size.empty()) return said.container;
    const bool has_size = read_number(said.container).has_value();
    if (has_size) return said.container;
    // "18 gal tote" as a size says the kind too.
    const auto blank = said.size.find_last_of(' ');
    if (said.container.empty() && blank != std::string::npos &&
        parse_quantity(said.size.substr(0, blank), QuantityKind::volume).has_value())
        return said.size;
    return said.size + " " + (said.container.empty() ? "tote" : said.container);
}

bool is_called_new(const BinStart& said) {
    return plain_text(said.age) == "new";
}

/// A portion of a file: "3.5 kg corrugated cardboard", or apart where those words mean another row
/// of the table.
struct FilePortion {
    std::string words;  ///< or empty: what follows
    std::string feedstock;
    std::string amount;
    std::string preparation;
};

/// The file of a bin that has its bedding, or, on another day and with a depth, of one that will.
struct BinFile {
    const BinStart& said;
    Date date;
    std::string_view date_remark;
    std::vector<FilePortion> bedding;
    std::string depth;  ///< of the contents, or empty
    UnitSystem units = UnitSystem::metric;
};

/// A key of the section `bed`.
struct BedLine {
    std::string_view key;
    std::string value;         ///< empty where nothing is said
    std::string_view such_as;  ///< then shown in a remark, where there is any
};

constexpr std::string_view bedding_key = "bedding";

/// What is said of the bin, in the order of its file; the bedding is written from its list.
std::vector<BedLine> bed_lines(const BinFile& file) {
    const BinStart& said = file.said;
    const bool is_new = is_called_new(said) || !file.depth.empty();
    return {{"container", container_of(said), "60 L tote"},
            {"worms", said.worms, "1 lb as bought"},
            {"age", is_new ? "0 days" : said.age, ""},
            {bedding_key, "", "[2 kg shredded cardboard]"},
            {"depth_of_contents", file.depth, ""},
            {"squeeze", said.squeeze, "damp"},
            {"temperature", said.temperature, "20 C"}};
}

std::string listed_yaml(const std::vector<FilePortion>& list) {
    std::string text;
    for (const FilePortion& one : list) {
        const std::string how =
            one.preparation.empty() ? "" : ", preparation: " + yaml_text(one.preparation);
        text += text.empty() ? "" : ", ";
        text += !one.words.empty() ? yaml_text(one.words)
                                   : "{feedstock: " + yaml_text(one.feedstock) +
                                         ", amount: " + one.amount + how + "}";
    }
    return text.empty() ? "" : "[" + text + "]";
}

/// The text for the keeper, with remarks where nothing was said.
std::string file_text(const BinFile& file) {
    std::string written = "libfeed: 1\n# One worm bin. Lines that begin with # are remarks.\n";
    if (!file.said.title.empty()) written += "title: " + value_text(file.said.title) + "\n";
    if (file.units == UnitSystem::us) written += "units: us\n";
    written += "bed:\n  date: " + text(file.date) + "  # " + std::string(file.date_remark) + "\n";
    for (const BedLine& line : bed_lines(file)) {
        const std::string value = line.key == bedding_key ? listed_yaml(file.bedding)
                                  : line.value.empty()    ? std::string()
                                                          : value_text(line.value);
        if (value.empty() && line.such_as.empty()) continue;
        written += value.empty() ? "  # " : "  ";
        written += std::string(line.key) + ": ";
        written += value.empty() ? std::string(line.such_as) : value;
        written += "\n";
    }
    return written +
           "# feed note adds below what you feed and see: feed note FILE fed a handful of carrot\n";
}

void write_portions_of(JsonWriter& json, const std::vector<FilePortion>& list) {
    json.begin_array();
    for (const FilePortion& one : list) {
        if (!one.words.empty()) {
            json.value(one.words);
            continue;
        }
        json.begin_object();
        json.member("feedstock", one.feedstock);
        json.member("amount", one.amount);
        if (!one.preparation.empty()) json.member("preparation", one.preparation);
        json.end_object();
    }
    json.end_array();
}

/// The same file in JSON: what is said of the bin is read from it, with or without YAML.
std::string file_json(const BinFile& file) {
    JsonWriter json;
    json.begin_object();
    json.member("libfeed", 1);
    if (!file.said.title.empty()) json.member("title", file.said.title);
    if (file.units == UnitSystem::us) json.member("units", "us");
    json.key("bed");
    json.begin_object();
    json.member("date", text(file.date));
    for (const BedLine& line : bed_lines(file)) {
        if (line.key == bedding_key && !file.bedding.empty()) {
            json.key(line.key);
            write_portions_of(json, file.bedding);
        }
        if (!line.value.empty()) json.member(line.key, line.value);
    }
    json.end_object();
    json.end_object();
    return json.take();
}

/// The keeper has not seen the text that was read: say which answer it is.
Errors as_answers(Errors errors, const BinStart& said) {
    for (Error& error : errors) {
        for (const StartQuestion& question : start_questions) {
            const std::string field = "bed: " + std::string(question.field);
            const bool is_size = question.option == "--size" && said.size.empty();
            if (error.field.substr(0, field.size()) == field && !is_size)
                error.field = std::string(question.option);
        }
        forget_place(error);
    }
    return errors;
}

/// One thing of what is at hand, read as a balance reads it; without an amount it may be any.
Result<FeedFile> read_at_hand(const std::string& piece) {
    const auto file_with = [](const std::string& entry) {
        JsonWriter json;
        json.begin_object();
        json.member("libfeed", 1);
        json.key("balance");
        json.begin_object();
        write_texts(json, "at_hand", std::vector<std::string>{entry});
        json.end_object();
        json.end_object();
        return read_feed_text(json.take(), "");
    };
    auto read = file_with(piece);
    if (read) return read;
    auto any = file_with("any " + piece);
    if (any) return any;
    const bool names_no_amount = read.errors().front().code == ErrorCode::wrong_type;
    return names_no_amount ? std::move(any) : std::move(read);
}

/// The bedding at hand. Errors: those of reading, and food that is called bedding.
Result<std::vector<ThingAtHand>> read_bedding(const std::string& words) {
    std::vector<ThingAtHand> things;
    Errors errors;
    for (const std::string_view piece : detail::pieces_between_seams(words)) {
        const auto read = read_at_hand(std::string(piece));
        if (!read) {
            for (Error error : read.errors()) {
                error.field = "--bedding";
                forget_place(error);
                errors.push_back(std::move(error));
            }
            continue;
        }
        const WrittenBalance& balance = *read->balance;
        for (std::size_t i = 0; i < balance.problem.entries.size(); ++i) {
            const Entry& entry = balance.problem.entries[i];
            const bool barred = barred_in(*entry.feedstock, Place::worm_bed);
            if (barred || part_of(*entry.feedstock) == Part::bedding) {
                things.push_back({entry.feedstock, entry.label, entry.most, balance.amounts[i]});
                continue;
            }
            errors.push_back(
                make_error(ErrorCode::wrong_type, "--bedding", std::string(piece),
                           "bedding, such as cardboard, newspaper, dry leaves, straw or coir",
                           entry.label + " is no bedding; feed table --bedding lists what is"));
        }
    }
    if (!errors.empty()) return errors;
    return things;
}

FilePortion file_portion(const Portion& portion, const std::string& label) {
    const Feedstock& f = *portion.feedstock;
    const std::string kg = significant(portion.wet_mass.in_kilograms(), 6) + " kg";
    const std::string words = kg + " " + plain_name(label, f);
    const auto read = read_portions({words});
    const bool same = read && read->blend && read->blend->size() == 1 &&
                      same_material(*read->blend->front().portion.feedstock, f);
    if (same) return {words, "", "", ""};
    return {"", f.name, kg, f.prepared_as};
}

/// The bedding of a new bin as the file has it, its water last.
std::vector<FilePortion> bedding_of(const NewBin& bin) {
    std::vector<FilePortion> list;
    for (std::size_t i = 0; i < bin.bed.bedding.size(); ++i) {
        const std::string label = i < bin.bedding.size() ? bin.bedding[i].thing.label : "water";
        list.push_back(file_portion(bin.bed.bedding[i], label));
    }
    return list;
}

/// The bin with its file, which is one that can be read.
Result<StartedBin> written(const BinFile& file, StartedBin started) {
    started.text = file_text(file);
    const auto read = read_feed_text(file_json(file), "");
    if (!read) return as_answers(read.errors(), file.said);
    return started;
}

Result<StartedBin> set_up(const BinStart& said, Date today, UnitSystem units) {
    // What is said of the bin is read as its file would be.
    const auto described = read_feed_text(file_json({said, today, "", {}, "", units}), "");
    const auto bedding = read_bedding(said.bedding);
    Errors errors;
    if (!described) errors = as_answers(described.errors(), said);
    if (!bedding) errors.insert(errors.end(), bedding.errors().begin(), bedding.errors().end());
    if (!errors.empty()) return errors;
    StartedBin started;
    started.to_set_up = new_bin({described->diary.bed, *bedding, today, units});
    const NewBin& bin = *started.to_set_up;
    const BinFile planned{said,
                          bin.bed_date,
                          "the day the worms go in",
                          bedding_of(bin),
                          significant(100.0 * in_metres(bin.depth), 3) + " cm",
                          units};
    return written(planned, std::move(started));
}

}  // namespace

bool BinStart::is_to_be_set_up() const {
    return squeeze.empty() && (age.empty() || is_called_new(*this));
}

Result<StartedBin> start_bin(const BinStart& said, Date today, UnitSystem units) {
    if (said.is_to_be_set_up()) return set_up(said, today, units);
    BinFile file{said, today, "the day on which this was so", {}, "", units};
    if (!said.bedding.empty()) file.bedding.push_back({said.bedding, "", "", ""});
    return written(file, {});
}

}  // namespace feed::io
