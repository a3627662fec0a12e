#include "read_diary.hpp"

#include <string>
#include <utility>

#include "feed/bed/bed_borders.hpp"
#include "feed/bed/bed_keys.hpp"
#include "plot_notes.hpp"
#include "read_bed.hpp"

namespace feed::io {
namespace {

/// The text of an optional key, or "".
std::string text_of(Reading& reading, const Section& section, keys::Key key) {
    const auto at = section.find(key);
    return at ? std::string(reading.scalar(*at, section.field(key)).value_or("")) : std::string();
}

/// Calls `use(item, field)` for each entry of a list; reports what is no list.
template <class Use>
void each_entry(Reading& reading, YamlView at, std::string_view section, Use&& use) {
    if (!at.is_sequence()) {
        reading.report(at, ErrorCode::wrong_type, std::string(section), "a list of entries",
                       "a list is due here, each entry starting with \"- \"");
        return;
    }
    if (!reading.fits(at, std::string(section), keys::most_entries)) return;
    std::size_t number = 0;
    at.for_each_item([&](YamlView item) { use(item, entry_field(section, ++number)); });
}

}  // namespace

std::vector<DatedFeeding> read_feedings(Pantry& pantry, YamlView at, std::string_view list) {
    Reading& reading = pantry.reading();
    std::vector<DatedFeeding> feedings;
    each_entry(reading, at, list, [&](YamlView item, const std::string& field) {
        const Section section(reading, item, field, keys::feeding);
        if (!section.is_mapping()) return;
        DatedFeeding feeding;
        const auto date = section.require("date");
        const auto portions = section.require("portions");
        if (date) {
            if (const auto day = read_date(reading, *date, section.field("date")))
                feeding.date = *day;
        }
        if (portions) {
            for (auto& one : pantry.portions(*portions, section.field("portions")))
                feeding.portions.push_back(std::move(one.portion));
        }
        feeding.by = text_of(reading, section, "by");
        feeding.note = text_of(reading, section, "note");
        feedings.push_back(std::move(feeding));
    });
    return feedings;
}

void read_stock(Pantry& pantry, FeedFile& file, YamlView at) {
    Reading& reading = pantry.reading();
    each_entry(reading, at, "stock", [&](YamlView item, const std::string& field) {
        if (item.is_scalar()) {
            const std::string day = text(file.diary.bed_date.value_or(Date{2026, 3, 14}));
            const std::string what(item.text());
            reading.report(item, offered(make_error(ErrorCode::wrong_type, field, what,
                                                    "a date and what was put by that day",
                                                    "the day is missing"),
                                         "; write for instance ",
                                         {"{date: " + day + ", portions: [" + what + "]}"}));
            return;
        }
        const Section section(reading, item, field, keys::stock);
        if (!section.is_mapping()) return;
        StockEntry entry;
        if (const auto date = section.require("date")) {
            if (const auto day = read_date(reading, *date, section.field("date")))
                entry.date = *day;
        }
        const auto put = section.find("portions");
        const auto taken = section.find("taken");
        if (put) {
            for (WrittenPortion& one : pantry.portions(*put, section.field("portions")))
                entry.put.push_back({std::move(one.portion.feedstock), std::move(one.label),
                                     one.portion.wet_mass, one.amount});
        }
        if (taken) {
            for (WrittenPortion& one : pantry.portions(*taken, section.field("taken")))
                entry.taken.push_back(std::move(one.portion));
        }
        if (!put && !taken)
            reading.report(item, ErrorCode::missing_value, field, "portions: [2 kg frozen melon]",
                           "what was put by, or taken out?");
        entry.container = text_of(reading, section, "container");
        text_of(reading, section, "by");
        file.stock.push_back(std::move(entry));
    });
}

namespace {

class ObservationReader {
public:
    ObservationReader(Pantry& pantry, YamlView at, std::string field,
                      const std::optional<Trial>& trial)
        : pantry_(pantry),
          reading_(pantry.reading()),
          trial_(trial),
          section_(reading_, at, std::move(field), keys::observation) {}

    std::optional<Observation> read() {
        if (!section_.is_mapping()) return std::nullopt;
        Observation seen;
        if (const auto at = section_.require("date")) {
            if (const auto date = read_date(reading_, *at, section_.field("date")))
                seen.date = *date;
        }
        if (const auto at = section_.find("of_feeding"))
            seen.of_feeding = read_date(reading_, *at, section_.field("of_feeding"));
        seen.left = wet_mass("left");
        seen.share_gone = number("share_gone", QuantityKind::share, borders::share_gone);
        if (const auto at = section_.find("gone")) {
            if (const auto gone = reading_.yes_or_no(*at, section_.field("gone")))
                seen.gone = *gone ? FoodGone::yes : FoodGone::no;
        }
        if (const auto at = section_.find("plots")) read_plots(*at, seen);
        read_bed_signs(seen);
        read_records(seen);
        return seen;
    }

private:
    void read_bed_signs(Observation& seen) {
        seen.worms = word<WormPlace>("worms", worm_place_words, SeenKey::worms);
        seen.vigour = word<WormVigour>("vigour", worm_vigour_words, SeenKey::vigour);
        if (const auto kg = number("worm_weight", QuantityKind::mass, borders::worms_wet_mass))
            seen.worm_weight = wet_kilograms(*kg);
        seen.smell = word<Smell>("smell", smell_words, SeenKey::smell);
        if (const auto at = section_.find("squeeze"))
            seen.squeeze = reading_.word<Squeeze>(*at, section_.field("squeeze"), squeeze_keys,
                                                  SeenKey::squeeze);
        if (const auto share = number("moisture", QuantityKind::moisture, borders::moisture))
            seen.moisture = Moisture(*share);
        if (const auto at = section_.find("pooling"))
            seen.pooling = reading_.yes_or_no(*at, section_.field("pooling"));
        seen.ph = number("ph", QuantityKind::ph, borders::ph);
        if (const auto at = section_.find("temperature")) read_temperatures(*at, seen);
        seen.air_low = temperature("air_low");
        seen.air_high = temperature("air_high");
        if (seen.air_low && seen.air_high && *seen.air_high < *seen.air_low) {
            reading_.report(*section_.find("air_low"), ErrorCode::low_above_high,
                            section_.field("air_low"), "at most air_high",
                            "the low of the air is above its high; are they swapped?");
        }
    }

    void read_records(Observation& seen) {
        seen.by = plain("by");
        seen.weight_in = wet_mass("weight_in");
        seen.running_total = wet_mass("running_total");
        seen.bedding = plain("bedding");
        if (!seen.bedding.empty()) seen.bedding_read = bedding_named(seen.bedding, pantry_.words());
        seen.pests = plain("pests");
        seen.action = plain("action");
        seen.note = plain("note");
    }

    /// "plot 3 gone", or a list of such words.
    void read_plots(YamlView at, Observation& seen) {
        const auto field = section_.field("plots");
        const auto read = [&](YamlView item) {
            const auto words = reading_.scalar(item, field);
            if (!words) return;
            const auto looks = read_plot_look(*words);
            if (!looks) return reading_.adopt(item, field, looks.errors());
            for (const PlotLook& look : *looks)
                if (trial_ && !is_in_trial(item, field, look.plot, seen.date)) return;
            seen.plots.insert(seen.plots.end(), looks->begin(), looks->end());
        };
        if (at.is_sequence())
            at.for_each_item(read);
        else
            read(at);
    }

    /// Whether the trial has a plot and it was laid by then. Where nobody wrote when, the reading
    /// of the trial asks for it.
    bool is_in_trial(YamlView item, const std::string& field, std::size_t plot, Date day) {
        const std::size_t last = plots_of(trial_->design);
        if (plot > last) {
            reading_.report(item, ErrorCode::out_of_range, field,
                            "plot 1 to " + std::to_string(last),
                            "the trial has no plot " + std::to_string(plot));
            return false;
        }
        const auto laid = laid_on(*trial_, plot);
        if (!laid || day_number(*laid) <= day_number(day)) return true;
        reading_.report(item, ErrorCode::out_of_range, field, "a day on or after " + text(*laid),
                        laid_later(plot, *laid));
        return false;
    }

    /// One value for the whole bin, or a mapping from places to values.
    void read_temperatures(YamlView at, Observation& seen) {
        const auto field = section_.field("temperature");
        if (!at.is_mapping()) {
            if (const auto degrees =
                    reading_.quantity(at, field, QuantityKind::temperature, borders::temperature))
                seen.temperatures.push_back({"", celsius(*degrees)});
            return;
        }
        at.for_each_pair([&](YamlView place, YamlView value) {
            if (const auto degrees = reading_.quantity(value, field, QuantityKind::temperature,
                                                       borders::temperature))
                seen.temperatures.push_back({std::string(place.text()), celsius(*degrees)});
        });
    }

    std::optional<double> number(keys::Key key, QuantityKind kind, const Border& border) {
        const auto at = section_.find(key);
        return at ? reading_.quantity(*at, section_.field(key), kind, border) : std::nullopt;
    }
    std::optional<WetMass> wet_mass(keys::Key key) {
        const auto at = section_.find(key);
        if (!at) return std::nullopt;
        const auto kg = reading_.quantity(*at, section_.field(key), QuantityKind::weighed);
        return kg ? std::optional<WetMass>(wet_kilograms(*kg)) : std::nullopt;
    }
    std::optional<Temperature> temperature(keys::Key key) {
        const auto degrees = number(key, QuantityKind::temperature, borders::temperature);
        return degrees ? std::optional<Temperature>(celsius(*degrees)) : std::nullopt;
    }
    template <class T, std::size_t count>
    std::optional<T> word(keys::Key key, const std::array<std::string_view, count>& words,
                          SeenKey seen) {
        const auto at = section_.find(key);
        if (!at) return std::nullopt;
        if (const auto said = Reading::said_value(*at, seen)) return static_cast<T>(*said);
        const auto index = reading_.word_index(*at, section_.field(key), words);
        return index ? std::optional<T>(static_cast<T>(*index)) : std::nullopt;
    }
    std::string plain(keys::Key key) { return text_of(reading_, section_, key); }

    Pantry& pantry_;
    Reading& reading_;
    const std::optional<Trial>& trial_;
    Section section_;
};

}  // namespace

std::vector<Observation> read_bin_looks(Pantry& pantry, YamlView at, std::string_view list) {
    Reading& reading = pantry.reading();
    std::vector<Observation> looks;
    const std::optional<Trial> no_trial;
    each_entry(reading, at, list, [&](YamlView item, std::string field) {
        auto seen = ObservationReader(pantry, item, field, no_trial).read();
        if (!seen) return;
        if (!seen->plots.empty())
            return reading.report(item, ErrorCode::contradiction, field + ": plots",
                                  "observations: of the file, beside trial:",
                                  "plots are numbered through all bins, so looks at them stand in "
                                  "one list");
        looks.push_back(std::move(*seen));
    });
    return looks;
}

void read_observations(Pantry& pantry, FeedFile& file, YamlView at) {
    each_entry(pantry.reading(), at, "observations", [&](YamlView item, std::string field) {
        if (auto seen = ObservationReader(pantry, item, std::move(field), file.trial).read())
            file.diary.observations.push_back(std::move(*seen));
    });
}

}  // namespace feed::io
