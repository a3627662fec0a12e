#include "read_balance.hpp"

#include <algorithm>

#include "feed/balance/target_kind.hpp"
#include "feed/balance/target_sets.hpp"
#include "feed/feedstock/things.hpp"
#include "feed/quantity/number_text.hpp"

namespace feed::io {
namespace {

/// What an amount of an entry leaves open.
struct Bounds {
    std::optional<feed::detail::ThingText> least;
    std::optional<feed::detail::ThingText> most;
    bool wanted = false;  ///< as much as possible
};

bool take(std::string_view& text, std::string_view prefix) {
    if (text.substr(0, prefix.size()) != prefix) return false;
    text = detail::trim(text.substr(prefix.size()));
    return true;
}

/// Reads the amount part of an entry and what follows it; the grammar of docs/files.md:
/// AMOUNT | AMOUNT to AMOUNT | up to AMOUNT | at least AMOUNT | any | as much as possible [up to
/// AMOUNT].
class EntryText {
public:
    EntryText(Pantry& pantry, const FeedFile& file, YamlView at, std::string field)
        : pantry_(pantry), file_(file), at_(at), field_(std::move(field)) {}

    /// with_words: a feedstock follows the amount.
    std::optional<Bounds> read(std::string_view text, bool with_words) {
        const std::string spelled = spell_range(detail::trim(text));
        std::string_view rest = spelled;
        Bounds bounds;
        if (take(rest, "as much as possible") || take(rest, "as much as possible of")) {
            bounds.wanted = true;
            take(rest, "of ");
            if (!take(rest, "up to ")) return finish(bounds, rest, with_words);
            bounds.most = one(rest, with_words);
        } else if (take(rest, "any amount of ") || take(rest, "any ") || rest == "any" ||
                   take(rest, "free ") || rest == "free") {
            if (rest == "any" || rest == "free") rest = {};
            return finish(bounds, rest, with_words);
        } else if (take(rest, "up to ") || take(rest, "at most ")) {
            bounds.most = one(rest, with_words);
        } else if (take(rest, "at least ")) {
            bounds.least = one(rest, with_words);
        } else if (const auto middle = split_range(rest); middle != std::string_view::npos) {
            bounds.least = low_end(rest.substr(0, middle), rest.substr(middle + 4), with_words);
            bounds.most = one(rest.substr(middle + 4), with_words);
            if (!bounds.least) return std::nullopt;
        } else {
            bounds.least = bounds.most = one(rest, with_words);
        }
        if (!bounds.least && !bounds.most) return std::nullopt;
        return bounds;
    }

    const std::string& words() const noexcept { return words_; }

private:
    /// "1-2 kg" as "1 to 2 kg".
    static std::string spell_range(std::string_view text) {
        const auto number = read_number(text);
        if (!number) return std::string(text);
        const auto mark = detail::after_blanks(text, number->length);
        const bool dash = mark < text.size() && text[mark] == '-';
        const bool long_dash = mark < text.size() && text.substr(mark, 3) == "\xE2\x80\x93";
        if (!dash && !long_dash) return std::string(text);
        const auto upper = detail::trim(text.substr(mark + (dash ? 1 : 3)));
        if (!read_number(upper)) return std::string(text);
        return std::string(text.substr(0, number->length)) + " to " + std::string(upper);
    }

    /// Place of " to " between two amounts: what follows must start with a number.
    static std::size_t split_range(std::string_view text) {
        const auto middle = text.find(" to ");
        if (middle == std::string_view::npos) return middle;
        return read_number(text.substr(middle + 4)) && read_number(text) ? middle
                                                                         : std::string_view::npos;
    }

    std::optional<Bounds> finish(const Bounds& bounds, std::string_view rest, bool with_words) {
        words_ = std::string(rest);
        if (rest.empty() != with_words) return bounds;
        if (with_words) {
            pantry_.reading().report(at_, ErrorCode::missing_value, field_,
                                     "an amount and a feedstock", "this names no feedstock");
        } else {
            pantry_.reading().report(at_, ErrorCode::wrong_type, field_, allowed,
                                     "\"" + words_ + "\" does not belong to an amount");
        }
        return std::nullopt;
    }

    /// An amount alone, or what names the feedstock too.
    std::optional<feed::detail::ThingText> one(std::string_view text, bool with_words) {
        if (!with_words) return alone(text);
        if (auto piece = pantry_.one_piece(text)) {
            words_ = piece->words;
            return piece;
        }
        const auto split = parse_amount_and_words(text, file_.containers);
        if (!split) {
            auto errors = split.errors();
            for (auto& error : errors) {
                if (error.code == ErrorCode::wrong_type && !read_number(text))
                    error = offered(std::move(error), "; write ", {"any " + std::string(text)},
                                    " if the amount is free");
            }
            pantry_.reading().adopt(at_, field_, errors);
            return std::nullopt;
        }
        words_ = split->words;
        return pantry_.piece(split->amount, words_);
    }

    std::optional<feed::detail::ThingText> alone(std::string_view text) {
        const auto amount = pantry_.amount(at_, field_, text);
        return amount ? std::optional(pantry_.piece(*amount, "")) : std::nullopt;
    }

    /// "1 to 2 kg apple": the unit may stand at the upper end only.
    std::optional<feed::detail::ThingText> low_end(std::string_view low, std::string_view high,
                                                   bool with_words) {
        const auto lower = parse_number(low);
        const auto upper = read_number(high);
        if (!lower || !upper || *lower <= 0.0) {
            auto named = with_words ? pantry_.one_piece(low) : std::nullopt;
            return named ? named : alone(low);
        }
        auto same = pantry_.one_piece(high);
        if (!same) {
            const auto amount = parse_amount(high, file_.containers);
            if (!amount) return alone(low);
            same = pantry_.piece(*amount, "");
        }
        Amount& amount = *same->amount;
        const double share = *lower / upper->number;
        amount.count *= share;
        amount.mass = share * amount.mass;
        amount.volume = share * amount.volume;
        return same;
    }

    static constexpr const char* allowed =
        "AMOUNT, AMOUNT to AMOUNT, up to AMOUNT, at least AMOUNT, any, or as much as possible";

    Pantry& pantry_;
    const FeedFile& file_;
    YamlView at_;
    std::string field_;
    std::string words_;
};

class BalanceReader {
public:
    BalanceReader(Pantry& pantry, const FeedFile& file)
        : pantry_(pantry), reading_(pantry.reading()), file_(file) {}

    WrittenBalance read(YamlView at) {
        const Section section(reading_, at, "balance", keys::balance);
        if (const auto list = section.require("at_hand")) read_entries(*list);
        read_targets(section);
        if (const auto objective = section.find("objective")) read_objective(*objective);
        return std::move(balance_);
    }

private:
    void read_entries(YamlView list) {
        const std::string field = "balance: at_hand";
        if (!list.is_sequence()) {
            reading_.report(list, ErrorCode::wrong_type, field, "a list of what is at hand",
                            "a list is due here, one feedstock a line, each starting with \"- \"");
            return;
        }
        if (!reading_.fits(list, field, keys::most_at_hand)) return;
        std::size_t number = 0;
        list.for_each_item([&](YamlView item) {
            ++number;
            const auto name = entry_field(field, number);
            item.is_mapping() ? read_mapping(item, name) : read_short(item, name);
        });
        if (number == 0)
            reading_.report(list, ErrorCode::empty, field, "at least one feedstock",
                            "this list is empty");
    }

    void read_short(YamlView item, const std::string& field) {
        const auto text = reading_.scalar(item, field);
        if (!text) return;
        EntryText entry(pantry_, file_, item, field);
        const auto bounds = entry.read(*text, true);
        if (!bounds) return;
        add(item, field, entry.words(), {}, *bounds, std::nullopt);
    }

    void read_mapping(YamlView item, const std::string& field) {
        const Section section(reading_, item, field, keys::entry);
        const auto name = section.require("feedstock");
        const auto amount = section.require("amount");
        const auto how =
            pantry_.preparations(section.find("preparation"), section.field("preparation"));
        std::optional<std::string_view> words;
        if (name) words = reading_.scalar(*name, section.field("feedstock"));
        std::optional<Bounds> bounds;
        if (amount) {
            const auto text = reading_.scalar(*amount, section.field("amount"));
            EntryText entry(pantry_, file_, *amount, section.field("amount"));
            if (text) bounds = entry.read(*text, false);
        }
        if (!words) return;
        add(*name, section.field("feedstock"), *words, how, bounds.value_or(Bounds{}), section);
    }

    void add(YamlView at, const std::string& field, std::string_view words, const Preparations& how,
             const Bounds& bounds, const std::optional<Section>& section) {
        const auto feedstock = pantry_.find(at, field, words, how);
        if (!feedstock) return;
        const auto weighed = [&](feed::detail::ThingText piece) {
            // An amount apart from its name is of that name.
            if (piece.words.empty()) piece = pantry_.piece(*piece.amount, words);
            return pantry_.weigh(at, field, piece, feedstock);
        };
        Entry entry;
        entry.feedstock = feedstock;
        entry.label = std::string(words);
        std::optional<Amount> amount;
        if (bounds.wanted) entry.use_up_priority = 1;
        if (bounds.least) {
            const auto least = weighed(*bounds.least);
            if (!least) return;
            entry.feedstock = least->feedstock;
            entry.least = least->mass.wet_mass;
            amount = least->amount;
        }
        if (bounds.most) {
            const auto most = weighed(*bounds.most);
            if (!most) return;
            entry.feedstock = most->feedstock;
            entry.most = most->mass.wet_mass;
            amount = most->amount;
        }
        if (entry.most && entry.least > *entry.most) {
            reading_.report(at, ErrorCode::low_above_high, field, "the smaller amount first",
                            "the lower amount is above the upper one; are they swapped?");
        }
        if (section) read_rest(*section, entry);
        auto& entries = balance_.problem.entries;
        const auto before = std::find_if(entries.begin(), entries.end(), [&](const Entry& other) {
            return other.feedstock == feedstock || other.feedstock->name == feedstock->name;
        });
        if (before != entries.end()) {
            const bool plain = !section && !before->cost_per_wet_kg;
            if (plain && same_material(*before->feedstock, *entry.feedstock)) {
                add_up(*before, entry);
                balance_.amounts[static_cast<std::size_t>(before - entries.begin())].reset();
                return;
            }
            reading_.report(at, ErrorCode::duplicate_entry, field, "each feedstock once",
                            feedstock->name + " is listed twice; add the amounts up");
            return;
        }
        balance_.problem.entries.push_back(std::move(entry));
        balance_.amounts.push_back(std::move(amount));
    }

    /// "1 bucket leaves, 160 L leaves": there is as much of them as both say.
    static void add_up(Entry& entry, const Entry& more) {
        entry.least = entry.least + more.least;
        if (entry.most && more.most)
            entry.most = *entry.most + *more.most;
        else
            entry.most.reset();
        entry.use_up_priority = std::max(entry.use_up_priority, more.use_up_priority);
    }

    void read_rest(const Section& section, Entry& entry) {
        if (const auto priority = section.find("use_up")) {
            const auto text = reading_.scalar(*priority, section.field("use_up"));
            if (text && (*text == "first" || *text == "yes")) {
                entry.use_up_priority = 1;
            } else if (text) {
                const auto number = parse_whole(*text, 1, 9);
                if (!number)
                    reading_.adopt(*priority, section.field("use_up"), number.errors());
                else
                    entry.use_up_priority = *number;
            }
        }
        if (const auto cost = section.find("cost"))
            entry.cost_per_wet_kg =
                reading_.quantity(*cost, section.field("cost"), QuantityKind::cost);
        if (const auto usual = section.find("usual")) {
            const auto text = reading_.scalar(*usual, section.field("usual"));
            if (!text) return;
            const auto amount = pantry_.amount(*usual, section.field("usual"), *text);
            if (!amount) return;
            const auto thing = pantry_.weigh(*usual, section.field("usual"),
                                             pantry_.piece(*amount, entry.label), entry.feedstock);
            if (thing) entry.usual = thing->mass.wet_mass;
        }
    }

    void read_targets(const Section& balance) {
        const auto at = balance.find("targets");
        std::string set = file_.heap ? "hot-heap" : "worm-bed";
        std::vector<Target> own;
        bool none = false;
        if (at && at->is_scalar()) {
            set = std::string(at->text());
            check_set(*at, set);
        } else if (at) {
            const Section section(reading_, *at, "balance: targets", keys::targets);
            if (const auto name = section.find("set")) {
                const auto text = reading_.scalar(*name, section.field("set"));
                if (text) set = std::string(*text);
                none = set == "none";
                if (text && !none) check_set(*name, set);
            }
            ready_ = none ? std::vector<Target>() : target_set(set).value_or(std::vector<Target>());
            own = read_own_targets(section);
        }
        ready_ = none ? std::vector<Target>() : target_set(set).value_or(std::vector<Target>());
        balance_.problem.targets = with_own_targets(std::move(ready_), own);
        balance_.problem.place = file_.heap ? feed::Place::heap : place_of_set(set);
        if (file_.heap && set == "worm-bed")
            reading_.report(*at, ErrorCode::contradiction, "balance: targets: set",
                            "hot-heap or none; or kind: bin",
                            "the file is of a heap, and these targets are for worms");
    }

    void check_set(YamlView at, const std::string& set) {
        if (target_set(set)) return;
        reading_.report(at, ErrorCode::out_of_range, "balance: targets: set",
                        "worm-bed, hot-heap or none", "\"" + set + "\" is not a set of targets");
    }

    struct TargetKey {
        keys::Key key;
        double scale;  ///< from the unit of the quantity to that of the property
        TargetProperty property;
        QuantityKind quantity;
        bool single_is_exact;
    };
    static constexpr TargetKey target_keys[] = {
        {"cn_ratio", 1.0, TargetProperty::cn_ratio, QuantityKind::cn_ratio, false},
        {"moisture", 1.0, TargetProperty::moisture, QuantityKind::moisture, false},
        {"acid", 1000.0, TargetProperty::acid_g_citric_per_wet_kg, QuantityKind::fraction, false},
        {"salt", 1.0, TargetProperty::salt_wet_fraction, QuantityKind::fraction, false},
        {"fat", 1.0, TargetProperty::fat_wet_fraction, QuantityKind::fraction, false},
        {"free_air_space", 1.0, TargetProperty::free_air_space, QuantityKind::share, false},
        {"total_mass", 1.0, TargetProperty::total_wet_kg, QuantityKind::mass, true},
        {"total_volume", 1.0, TargetProperty::total_volume_l, QuantityKind::volume, true},
        {"bedding_for_scraps", 1.0, TargetProperty::bedding_l_per_scraps_l,
         QuantityKind::volume_ratio, false},
        {"water_over_least", 1.0, TargetProperty::water_over_least, QuantityKind::number, false},
        {"water_over_room", 1.0, TargetProperty::water_over_room, QuantityKind::number, false}};

    /// Moisture windows that end below this are slips such as "0.85 %" for 0.85.
    static constexpr double driest_moisture_aimed_at = 0.05;

    std::vector<Target> read_own_targets(const Section& section) {
        std::vector<Target> own;
        for (const auto& known : target_keys) {
            const auto at = section.find(known.key);
            if (!at) continue;
            if (auto target = read_target(*at, section.field(known.key), known))
                own.push_back(std::move(*target));
        }
        return own;
    }

    std::optional<Target> read_target(YamlView at, const std::string& field,
                                      const TargetKey& known) {
        Target target;
        for (const auto& one : ready_) {
            if (one.property == known.property) target = one;
        }
        target.property = known.property;
        target.source = "your own";
        target.label = std::string(kind(known.property).name);
        if (!at.is_mapping()) {
            std::string text(reading_.scalar(at, field).value_or(""));
            if (text.empty()) return std::nullopt;
            bool exact = known.single_is_exact;
            std::string_view rest = text;
            if (take(rest, "exactly ")) exact = true;
            const auto window = parse_window(rest, known.quantity);
            if (!window) {
                reading_.adopt(at, field, window.errors());
                return std::nullopt;
            }
            if (known.property == TargetProperty::moisture && window->high &&
                *window->high < driest_moisture_aimed_at) {
                reading_.report(at, ErrorCode::percent_slip, field, "such as 70 % to 85 %",
                                "nothing that dry feeds a worm or heats a heap; is it a share of 1 "
                                "with a % behind it?");
                return std::nullopt;
            }
            if (!window->single || exact) return with_window(target, *window, known);
            return with_aim(at, field, target, *window->low * known.scale);
        }
        const Section section(reading_, at, field, keys::window);
        const auto number = [&](keys::Key key) -> std::optional<double> {
            const auto value = section.find(key);
            if (!value) return std::nullopt;
            const auto found = reading_.quantity(*value, section.field(key), known.quantity);
            return found ? std::optional<double>(*found * known.scale) : std::nullopt;
        };
        const auto low = number("low");
        const auto high = number("high");
        const auto aim = number("aim");
        if (low || high) {
            target.low = low;
            target.high = high;
            target.aim = target.wish_low = target.wish_high = std::nullopt;
        }
        if (target.low && target.high && *target.low > *target.high) {
            reading_.report(at, ErrorCode::low_above_high, field, "low not above high",
                            "the lower end is above the upper end; are they swapped?");
            return std::nullopt;
        }
        return aim ? with_aim(at, field, target, *aim) : target;
    }

    static Target with_window(Target target, const WindowText& window, const TargetKey& known) {
        target.low = window.low;
        target.high = window.high;
        target.wish_low = target.wish_high = std::nullopt;
        if (target.low) *target.low *= known.scale;
        if (target.high) *target.high *= known.scale;
        const bool aim_fits = target.aim && (!target.low || *target.aim >= *target.low) &&
                              (!target.high || *target.aim <= *target.high);
        if (!aim_fits) target.aim = std::nullopt;
        return target;
    }

    std::optional<Target> with_aim(YamlView at, const std::string& field, Target target,
                                   double aim) {
        if (!target.low && !target.high) {
            reading_.report(at, ErrorCode::missing_value, field,
                            "a window such as \"25 to 35\", or \"exactly 30\"",
                            "a single number is an aim, and there is no window around it yet");
            return std::nullopt;
        }
        if ((target.low && aim < *target.low) || (target.high && aim > *target.high)) {
            reading_.report(at, ErrorCode::out_of_range, field,
                            "an aim inside the window; give the window too",
                            "the aim lies outside the window");
            return std::nullopt;
        }
        // An aim beyond the wish is the wish.
        if (target.wish_low && aim < *target.wish_low) target.wish_low = std::nullopt;
        if (target.wish_high && aim > *target.wish_high) target.wish_high = std::nullopt;
        target.aim = aim;
        return target;
    }

    void read_objective(YamlView at) {
        static constexpr WordFor<Objective> words[] = {
            {"closest to the aims", Objective::closest_to_aims},
            {"closest to the usual", Objective::closest_to_usual},
            {"least added", Objective::least_added},
            {"cheapest", Objective::cheapest},
            {"use up most", Objective::use_up_most}};
        if (const auto objective = reading_.word(at, "balance: objective", words))
            balance_.problem.objective = *objective;
    }

    Pantry& pantry_;
    Reading& reading_;
    const FeedFile& file_;
    WrittenBalance balance_;
    std::vector<Target> ready_;
};

}  // namespace

std::optional<WrittenBalance> read_balance(Pantry& pantry, const FeedFile& file, YamlView at) {
    return BalanceReader(pantry, file).read(at);
}

}  // namespace feed::io
