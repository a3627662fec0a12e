#include "plot_notes.hpp"

#include <algorithm>
#include <utility>

#include "feed/diary/plot_history.hpp"
#include "feed/io/yaml_tree.hpp"
#include "feed/quantity/plain_text.hpp"
#include "feed/trial/heavy_look.hpp"

namespace feed::io {
namespace {

/// "1-3, 7 and 9" of rising numbers.
std::string ranges_text(const std::vector<std::size_t>& numbers) {
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < numbers.size();) {
        std::size_t end = i;
        while (end + 1 < numbers.size() && numbers[end + 1] == numbers[end] + 1)
            ++end;
        if (end > i + 1) {
            parts.push_back(std::to_string(numbers[i]) + "-" + std::to_string(numbers[end]));
            i = end + 1;
        } else {
            parts.push_back(std::to_string(numbers[i++]));
        }
    }
    std::string text;
    for (std::size_t i = 0; i < parts.size(); ++i)
        text += (i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ") + parts[i];
    return text;
}

bool opens_plot(std::string_view piece) {
    const std::string words = plain_text(piece.substr(0, piece.find_first_of("0123456789: ")));
    return words == "plot" || words == "plots";
}

bool opens_note(std::string_view piece) {
    return plain_text(piece.substr(0, piece.find_first_of(" :"))) == "note";
}

/// "5", "7-9": numbers and nothing else.
bool only_numbers(std::string_view piece) {
    return !piece.empty() && piece.find_first_not_of("0123456789- ") == std::string_view::npos;
}

/// Pieces that belong together, in words of their own.
struct PlotGroups {
    std::vector<std::string> groups;
    std::vector<std::string> rest;

    void add(const std::string& piece) {
        if (opens_plot(piece)) {
            groups.push_back(piece);
            open = true;
            return;
        }
        open = open && !opens_note(piece);
        if (!open) {
            rest.push_back(piece);
            return;
        }
        std::string& group = groups.back();
        const bool whole = read_plot_look(group).has_value();  // not yet: "plots 1" and "2 gone"
        if (whole && (only_numbers(piece) || read_plot_look("plot " + piece))) {
            groups.push_back("plot " + piece);
        } else if (!whole || read_plot_look("plot 1 " + piece)) {
            group += ", " + piece;
        } else {
            open = false;
            rest.push_back(piece);
        }
    }

private:
    bool open = false;
};

template <class T>
bool clashes(std::optional<T>& to, const std::optional<T>& from) {
    if (!from) return false;
    if (to && !(*to == *from)) return true;
    to = from;
    return false;
}

/// Adds what a second look at the same plot says to the first; false where both cannot be.
bool merge(PlotLook& all, const PlotLook& one) {
    if (clashes(all.found, one.found) || clashes(all.worms, one.worms) ||
        clashes(all.share_left, one.share_left) || clashes(all.gone, one.gone) ||
        (one.left && all.left) || (!all.photo.empty() && !one.photo.empty()))
        return false;
    if (one.left) all.left = one.left;
    if (!one.photo.empty()) all.photo = one.photo;
    all.lost = all.lost || one.lost;
    // What the words of one look may not say, those of two may not either.
    return read_plot_look(text(all)).has_value();
}

Error entry_error(ErrorCode code, std::size_t plot, std::string allowed, std::string message) {
    return make_error(code, "plots", "plot " + std::to_string(plot), std::move(allowed),
                      std::move(message));
}

/// Where the looks at plots of an observation stand in a text.
Place place_of(std::string_view written, std::size_t observation) {
    Place place;
    const auto tree = parse_yaml(written, "");
    if (!tree) return place;
    tree->root().for_each_pair([&](YamlView key, YamlView list) {
        if (key.text() != "observations") return;
        std::size_t index = 0;
        list.for_each_item([&](YamlView item) {
            if (index++ != observation) return;
            item.for_each_pair([&](YamlView name, YamlView) {
                if (name.text() == "plots") place = name.place();
            });
        });
    });
    return place;
}

}  // namespace

std::vector<std::string> plot_texts(std::span<const PlotLook> looks) {
    std::vector<std::string> texts;
    for (std::size_t i = 0; i < looks.size();) {
        std::vector<std::size_t> numbers{looks[i].plot};
        const std::string seen = seen_text(looks[i]);
        for (++i; i < looks.size() && looks[i].plot > numbers.back(); ++i) {
            if (seen_text(looks[i]) != seen) break;
            numbers.push_back(looks[i].plot);
        }
        texts.push_back((numbers.size() > 1 ? "plots " : "plot ") + ranges_text(numbers) + " " +
                        seen);
    }
    return texts;
}

Result<std::vector<PlotLook>> take_plot_looks(std::vector<std::string>& pieces) {
    PlotGroups parted;
    for (const std::string& piece : pieces)
        parted.add(piece);
    Errors errors;
    std::vector<PlotLook> all;
    for (const std::string& group : parted.groups) {
        const auto looks = read_plot_look(group);
        if (!looks) {
            errors.insert(errors.end(), looks.errors().begin(), looks.errors().end());
            continue;
        }
        for (const PlotLook& look : *looks) {
            const auto known = std::find_if(all.begin(), all.end(), [&](const PlotLook& other) {
                return other.plot == look.plot;
            });
            if (known == all.end())
                all.push_back(look);
            else if (!merge(*known, look))
                errors.push_back(entry_error(
                    ErrorCode::contradiction, look.plot, "one of the two",
                    "plot " + std::to_string(look.plot) + " is said to be two things at once"));
        }
    }
    pieces = std::move(parted.rest);
    if (!errors.empty()) return errors;
    return all;
}

std::optional<Date> laid_on(const Trial& trial, std::size_t plot) {
    const std::size_t per_round = plots_of(trial.design) / trial.design.rounds;
    const std::size_t round = (plot - 1) / per_round;
    return round < trial.starts.size() ? std::optional(trial.starts[round]) : std::nullopt;
}

std::string laid_later(std::size_t plot, Date laid) {
    return "plot " + std::to_string(plot) + " was laid on " + text(laid) + ", after this look";
}

Errors plot_entry_errors(const FeedFile& before, std::string_view before_text,
                         const FeedFile& after) {
    const auto& seen = after.diary.observations;
    if (seen.size() <= before.diary.observations.size() || seen.back().plots.empty()) return {};
    const Observation& newest = seen.back();
    if (!after.trial)
        return {entry_error(ErrorCode::missing_value, newest.plots.front().plot,
                            "a file with a section trial",
                            "this file describes no trial, so it has no plots; for the whole "
                            "feeding leave the word plot out")};
    Errors errors;
    for (const PlotLook& look : newest.plots) {
        if (laid_on(*after.trial, look.plot)) continue;
        const std::string name = "plot " + std::to_string(look.plot);
        errors.push_back(entry_error(
            ErrorCode::missing_value, look.plot, "start: and the day, under trial:",
            "nobody wrote when " + name + " was laid: write the day of each round under start"));
        const FeedFile::KeyPlace place = after.place_in_trial("start");
        errors.back().file = after.name;
        errors.back().line = place.line;
        errors.back().column = place.column;
        break;
    }
    if (const auto laid = laid_trial(*after.trial)) {
        for (const DatedPlotLook& look :
             heavy_looks(*after.trial, laid->layout, laid->portions, seen)) {
            if (look.observation + 1 == seen.size())
                errors.push_back(entry_error(
                    ErrorCode::contradiction, look.look.plot,
                    "what is left of it, weighed without bedding: no more than was laid",
                    heavy_look_text(look)));
        }
    }
    std::vector<std::string> known;
    for (const PlotQuestion& question : plot_questions(before.diary.observations))
        known.push_back(text(question));
    for (const PlotQuestion& question : plot_questions(seen)) {
        const std::string asks = text(question);
        if (std::find(known.begin(), known.end(), asks) != known.end()) continue;
        const bool newest_first = question.before.observation + 1 == seen.size();
        const DatedPlotLook& other = newest_first ? question.now : question.before;
        Error error = entry_error(
            ErrorCode::contradiction, other.look.plot,
            newest_first ? "no less left than was seen later" : "no more left than was seen before",
            asks + " Look again; if that of " + text(other.date) +
                " was wrong, put it right in the file first");
        const Place place = place_of(before_text, other.observation);
        error.file = after.name;
        error.line = place.line;
        error.column = place.column;
        errors.push_back(std::move(error));
    }
    return errors;
}

}  // namespace feed::io
