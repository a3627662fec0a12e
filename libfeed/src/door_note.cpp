#include "door_note.hpp"

#include <utility>

#include "feed/io/json_tree.hpp"
#include "feed/io/note.hpp"
#include "feed/io/to_json.hpp"
#include "json_members.hpp"
#include "plot_notes.hpp"

namespace feed::io::door {
namespace {

/// A file in JSON with an entry more at the end of a list of its root.
Result<std::string> json_with_entry(const std::string& object, const NoteEntry& note) {
    const auto tree = parse_json(object, "file");
    if (!tree) return tree.errors();
    const auto parsed = parse_json(note.object, "note");
    if (!parsed) return parsed.errors();
    const YamlView entry = parsed->root();
    JsonWriter json;
    bool found = false;
    json.begin_object();
    tree->root().for_each_pair([&](YamlView key, YamlView value) {
        json.key(key.text());
        if (key.text() != note.section) return write_node(json, value, true);
        found = true;
        json.begin_array();
        value.for_each_item([&](YamlView item) { write_node(json, item, true); });
        write_node(json, entry, false);
        json.end_array();
    });
    if (!found) {
        json.key(note.section);
        json.begin_array();
        write_node(json, entry, false);
        json.end_array();
    }
    json.end_object();
    return json.take();
}

/// The same as with_note does to a text, for a file that is an object.
Result<FeedFile> file_with(const Request& request, const NoteEntry& note) {
    auto text = json_with_entry(request.file_object, note);
    for (const NoteEntry& one : note.more)
        if (text) text = json_with_entry(*text, one);
    if (!text) return text.errors();
    auto after = read_feed_text(*text, request.file_name());
    Errors errors =
        after ? plot_entry_errors(*request.file, request.file_object, *after) : after.errors();
    if (errors.empty()) return after;
    for (Error& error : errors) {
        error.field = "note";
        forget_place(error);
    }
    return errors;
}

/// The list that an entry goes to, and the entry.
std::optional<Errors> write_entry(JsonWriter& json, const NoteEntry& note) {
    const auto entry = parse_json(note.object, "note");
    if (!entry) return entry.errors();
    json.member("section", note.section);
    json.key("entry");
    write_node(json, entry->root(), false);
    return std::nullopt;
}

}  // namespace

Result<std::string> answer_note(const Request& request) {
    const std::string words = request.text(note_words.name);
    const std::string author = request.text(by.name);
    const auto note = read_note(words, *request.date, author);
    if (!note) return note.errors();
    std::string whole;
    std::string added = note->lines;
    std::optional<FeedFile> file;
    if (!request.file_object.empty()) {
        auto with = file_with(request, *note);
        if (!with) return with.errors();
        file = std::move(with).value();
    } else {
        auto with = with_note(request.file_text, words, *request.date, author, request.file_name());
        if (!with) return with.errors();
        whole = std::move(with->text);
        added = std::move(with->entry);
        file = std::move(with->file);
    }
    const DiaryNews news = news_of(*file, note->has_look(), added);
    JsonWriter json;
    json.begin_object();
    if (const auto wrong = write_entry(json, *note)) return *wrong;
    if (!note->more.empty()) {
        json.key("also");
        json.begin_object();
        if (const auto wrong = write_entry(json, note->more.front())) return *wrong;
        json.end_object();
    }
    if (request.file_object.empty()) json.member("file_text", whole);
    json.end_object();
    return with_members(to_json(news), json.take());
}

}  // namespace feed::io::door
