// The plan of a trial written into the file that it was made from.
#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/io/trial_answer.hpp"

namespace feed::io {
namespace {

constexpr std::string_view key_ahead =
    "# The key of the trial stands at the end: whoever looks should not read it.";

/// A key of the section and what to write there.
using KeyValue = std::pair<std::string, std::string>;

/// What the plan adds to the section. The portion is written where the bed bears less than asked.
std::vector<KeyValue> planned_keys(const TrialPlan& plan) {
    std::vector<KeyValue> keys;
    if (plan.portions_chosen)
        keys.emplace_back("portions", std::to_string(plan.trial.design.portions));
    if (plan.asked_share < 1.0)
        keys.emplace_back("portion",
                          mass_text(plan.portions.fresh.front().mass(), UnitSystem::metric));
    keys.emplace_back("seed", std::to_string(plan.layout.seed));
    keys.emplace_back("last_day", std::to_string(*plan.trial.last_day));
    return keys;
}

/// Where a line and column of a text are, both from 1; the end where there is no such place.
std::size_t position_of(std::string_view text, int line, int column) {
    std::size_t at = 0;
    for (int i = 1; i < line && at != std::string_view::npos; ++i) {
        at = text.find('\n', at);
        if (at != std::string_view::npos) ++at;
    }
    if (at == std::string_view::npos) return text.size();
    return std::min(text.size(), at + static_cast<std::size_t>(column) - 1);
}

/// How long the scalar is that starts at a place: between its quotation marks, or up to what ends a
/// plain one.
std::size_t scalar_length(std::string_view text, std::size_t at) {
    const char quote = text[at];
    if (quote == '"' || quote == '\'') return text.find(quote, at + 1) + 1 - at;
    std::size_t end = at;
    while (end < text.size() && std::string_view("\r\n,}]").find(text[end]) == std::string::npos &&
           text.substr(end, 2) != " #")
        ++end;
    while (end > at && text[end - 1] == ' ')
        --end;
    return end - at;
}

/// A number as it stands, a text between quotation marks.
std::string json_value(const std::string& value) {
    const bool number = value.find_first_not_of("0123456789") == std::string::npos;
    return number ? value : "\"" + value + "\"";
}

/// Puts the keys into the section: over the values of those that it has, the others at its start.
/// file: as read from its own text, so that the places are those of the text.
std::string with_keys(const FeedFile& file, const std::vector<KeyValue>& keys,
                      const std::string& wait) {
    std::string text = file.trial_text;
    const FeedFile::KeyPlace section = file.place_in_trial("");
    const std::size_t start = position_of(text, section.line, section.column);
    if (start >= text.size()) return text;
    const bool flow = text[start] == '{';
    const bool json = !text.empty() && text.front() == '{';
    const std::string line_end = text.find("\r\n") == std::string::npos ? "\n" : "\r\n";
    const std::string indent(static_cast<std::size_t>(section.column) - 1, ' ');
    std::string added;
    if (!flow && !wait.empty()) added += "# " + wait + line_end + indent;
    const std::string mark = json ? "\"" : "";
    for (const auto& [key, value] : keys) {
        if (file.place_in_trial(key).key == key) continue;
        added.append(mark).append(key).append(mark).append(": ");
        added.append(json ? json_value(value) : value);
        added.append(flow ? ", " : line_end + indent);
    }
    if (!flow && !file.trial->seed && file.trial->starts.empty())
        added += "# start: the day on which it is laid" + line_end + indent;
    // From the end, so that the places before stay where they are.
    std::vector<std::pair<std::size_t, KeyValue>> replaced;
    for (const auto& one : keys) {
        const FeedFile::KeyPlace known = file.place_in_trial(one.first);
        if (known.key == one.first)
            replaced.emplace_back(position_of(text, known.line, known.column), one);
    }
    std::sort(replaced.rbegin(), replaced.rend());
    for (const auto& [at, one] : replaced) {
        text.replace(at, scalar_length(text, at), json ? json_value(one.second) : one.second);
    }
    text.insert(flow ? start + 1 : start, added);
    return text;
}

/// What lies where, as comments.
std::string key_comments(const TrialPlan& plan) {
    const Trial& trial = plan.trial;
    std::string text = "# The key of the trial\n";
    for (const Plot& plot : plan.layout.plots)
        text += "# plot " + std::to_string(plot.number) + ": " + trial.bins[plot.bin] + ", round " +
                std::to_string(plot.round + 1) + ", place " + std::to_string(plot.place + 1) +
                ": " + (plot.feed ? trial.feeds[*plot.feed].label : std::string("bedding only")) +
                "\n";
    return text;
}

/// Whether a file that was written is of this plan.
bool is_of(const FeedFile& file, const TrialPlan& plan) {
    return file.trial && file.trial->seed == plan.layout.seed &&
           file.trial->last_day == plan.trial.last_day &&
           file.trial->design.portions == plan.trial.design.portions &&
           plots_of(file.trial->design) == plan.layout.plots.size();
}

}  // namespace

Result<std::string> trial_plan_yaml(const FeedFile& file, const TrialPlan& plan) {
    const auto written = read_feed_text(file.trial_text, file.name);
    if (!written) return written.errors();
    std::string text = with_keys(*written, planned_keys(plan), plan.wait);
    const auto again = read_feed_text(text, file.name);
    if (!again || !is_of(*again, plan)) {
        const FeedFile::KeyPlace place = file.place_in_trial("");
        Error error = make_error(
            ErrorCode::wrong_type, "trial", "", "trial: on a line of its own, its keys below it",
            "the plan cannot be written into a section of this form", file.name);
        error.line = place.line;
        error.column = place.column;
        return error;
    }
    // JSON has no comments.
    if (text.front() == '{' || text.find(key_ahead) != std::string::npos) return text;
    if (text.back() != '\n') text += '\n';
    return std::string(key_ahead) + "\n" + text + key_comments(plan);
}

}  // namespace feed::io
