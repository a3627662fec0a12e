#include "door_request.hpp"

#include <algorithm>
#include <utility>

#include "feed/io/json_tree.hpp"
#include "feed/io/week_answer.hpp"
#include "feed/quantity/plain_text.hpp"
#include "read_file_node.hpp"
#include "reading.hpp"

namespace feed::io::door {
namespace {

constexpr std::string_view request_name = "request";

/// Reads one member of a request into it.
class MemberReader {
public:
    MemberReader(Request& request, Reading& reading, const YamlTree& tree, std::string_view json)
        : request_(request), reading_(reading), tree_(tree), json_(json) {}

    void read(const Member& member, YamlView at) {
        switch (member.kind) {
            case MemberKind::text:
                return read_text(member, at);
            case MemberKind::texts:
                return read_texts(member, at);
            case MemberKind::files:
                return read_files(member, at);
            case MemberKind::file:
                return read_file(member, at);
            case MemberKind::date:
                return read_date(member, at);
            case MemberKind::whole:
                return read_whole(member, at);
            case MemberKind::truth:
                return read_truth(member, at);
            case MemberKind::choice:
                return read_choice(member, at);
        }
    }

    /// What was wrong in the file, each with its own place.
    const Errors& file_errors() const { return file_errors_; }

private:
    void wrong(const Member& member, YamlView at, std::string allowed, std::string message) {
        reading_.report(at, ErrorCode::wrong_type, std::string(member.name), std::move(allowed),
                        std::move(message));
    }

    static bool is_text(YamlView at) { return at.is_scalar() && at.quoted(); }

    void keep(const Member& member, std::string_view text) {
        request_.texts[member.name].emplace_back(text);
    }

    void read_text(const Member& member, YamlView at) {
        if (!is_text(at))
            return wrong(member, at, std::string(member.example), "a text is due here");
        keep(member, at.text());
    }

    void read_texts(const Member& member, YamlView at) {
        if (at.is_scalar()) return read_text(member, at);
        if (!at.is_sequence())
            return wrong(member, at, std::string(member.example), "a list of texts is due here");
        if (!reading_.fits(at, std::string(member.name), keys::most_portions)) return;
        request_.texts[member.name];  // given, though the list may be empty
        at.for_each_item([&](YamlView item) { read_text(member, item); });
    }

    void read_files(const Member& member, YamlView at) {
        if (!at.is_sequence())
            return wrong(member, at, std::string(member.example), "a list of files is due here");
        if (!reading_.fits(at, std::string(member.name), most_bins)) return;
        at.for_each_item([&](YamlView item) {
            const std::string called = "file " + std::to_string(request_.files.size() + 1);
            request_.files.push_back(
                file_at(member, item, object_at(item), called).value_or(FeedFile()));
        });
    }

    void read_file(const Member& member, YamlView at) {
        request_.file_object = object_at(at);
        if (is_text(at)) request_.file_text = at.text();
        request_.file = file_at(member, at, request_.file_object, request_.file_name());
    }

    /// An object by itself, as JSON; "" where it is none.
    static std::string object_at(YamlView at) {
        if (!at.is_mapping()) return "";
        JsonWriter json;
        write_node(json, at, true);
        return json.take();
    }

    /// The file of a bin at a node; nothing where it is none, with its problems kept.
    /// object: of that node.
    std::optional<FeedFile> file_at(const Member& member, YamlView at, std::string_view object,
                                    const std::string& called) {
        if (!at.is_mapping() && !is_text(at)) {
            wrong(member, at, std::string(member.example),
                  "the file of a bin is an object, or its text");
            return std::nullopt;
        }
        auto file = at.is_mapping() ? read_feed_node(tree_, at, json_, object, called)
                                    : read_feed_text(at.text(), called);
        if (file) return std::move(file).value();
        file_errors_.insert(file_errors_.end(), file.errors().begin(), file.errors().end());
        return std::nullopt;
    }

    void read_date(const Member& member, YamlView at) {
        if (!is_text(at))
            return wrong(member, at, std::string(member.example), "a day is due here, as a text");
        request_.date = parse_date(at.text());
        if (!request_.date)
            reading_.report(at, ErrorCode::out_of_range, std::string(member.name),
                            "a day such as 2026-03-14 (year-month-day)",
                            "this is not a day of the calendar written as year-month-day");
    }

    void read_whole(const Member& member, YamlView at) {
        const std::string allowed = "a whole number from " + std::to_string(member.lowest) +
                                    " to " + std::to_string(member.highest);
        if (!at.is_scalar() || at.quoted())
            return wrong(member, at, allowed, "a whole number is due here");
        const auto number = parse_whole(at.text(), member.lowest, member.highest);
        if (number)
            request_.numbers[member.name] = *number;
        else
            reading_.report(at, number.errors().front().code, std::string(member.name), allowed,
                            number.errors().front().message);
    }

    void read_truth(const Member& member, YamlView at) {
        const bool known =
            at.is_scalar() && !at.quoted() && (at.text() == "true" || at.text() == "false");
        if (!known) return wrong(member, at, "true or false", "true or false is due here");
        keep(member, at.text());
    }

    void read_choice(const Member& member, YamlView at) {
        if (!is_text(at))
            return wrong(member, at, std::string(member.choices), "a word is due here");
        const auto list = words_of(member.choices);
        const std::vector<std::string_view> words(list.begin(), list.end());
        const auto which = reading_.word_index(at, std::string(member.name), words);
        if (which) keep(member, words[*which]);
    }

    Request& request_;
    Reading& reading_;
    const YamlTree& tree_;
    std::string_view json_;
    Errors file_errors_;
};

}  // namespace

std::string Request::text(std::string_view member) const {
    const auto at = texts.find(member);
    return at == texts.end() || at->second.empty() ? std::string() : at->second.front();
}

std::string Request::file_name() const {
    if (has(name.name)) return text(name.name);
    return file_text.empty() ? std::string(request_name) : "file";
}

std::vector<std::string_view> verb_names() {
    std::vector<std::string_view> names;
    names.reserve(verbs.size());
    for (const Verb& known : verbs)
        names.push_back(known.name);
    return names;
}

namespace {

/// The units that a request names, else those of its file, of several the first that names any.
UnitSystem units_of(const Request& request) {
    if (request.has(units.name))
        return request.text(units.name) == "us" ? UnitSystem::us : UnitSystem::metric;
    if (request.file && request.file->units) return *request.file->units;
    for (const FeedFile& file : request.files)
        if (file.units) return *file.units;
    return UnitSystem::metric;
}

}  // namespace

Result<Request> read_request(std::string_view json) {
    // A file in a request stands one level deeper than in a text of its own, in a list two.
    YamlLimits limits;
    limits.depth += 2;
    const auto tree = parse_json(json, request_name, limits);
    if (!tree) return tree.errors();
    Reading reading{std::string(request_name), json};
    const YamlView root = tree->root();
    if (!root.is_mapping()) {
        reading.report(root, ErrorCode::wrong_type, "request", "{\"verb\": \"ration\", ...}",
                       "a request is a JSON object");
        return reading.take();
    }
    Request request;
    const auto names = verb_names();
    std::optional<YamlView> asked;
    root.for_each_pair([&](YamlView key, YamlView value) {
        if (key.text() == verb.name && !asked) asked = value;
    });
    if (!asked) {
        reading.report(root, ErrorCode::missing_value, "verb", listed(names),
                       "the request does not say what is asked");
        return reading.take();
    }
    const auto which = reading.word_index(*asked, "verb", names);
    if (!which) return reading.take();
    request.verb = &verbs[*which];
    std::vector<keys::Key> known{verb.name};
    known.reserve(request.verb->members.size() + 1);
    for (const Asked& one : request.verb->members)
        known.push_back(one.member->name);
    const Section section(reading, root, "request", known);
    MemberReader reader(request, reading, *tree, json);
    // The name goes first: it is part of the errors of the file.
    if (const auto at = section.find(name.name)) reader.read(name, *at);
    for (const Asked& one : request.verb->members) {
        if (one.member == &name) continue;
        const auto at =
            one.needed ? section.require(one.member->name) : section.find(one.member->name);
        if (at) reader.read(*one.member, *at);
    }
    request.units = units_of(request);
    Errors errors;
    if (reader.file_errors().empty()) reading.add(*tree);
    if (reading.has_problems()) errors = reading.take();
    errors.insert(errors.end(), reader.file_errors().begin(), reader.file_errors().end());
    if (!errors.empty()) return errors;
    if (request.file) request.file->today = request.date;
    return request;
}

}  // namespace feed::io::door
