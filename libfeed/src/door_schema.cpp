#include <string>

#include "door_request.hpp"
#include "feed/io/door.hpp"
#include "feed/io/json_tree.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed::io {
namespace door {
namespace {

void write_one_of(JsonWriter& json, std::string_view list) {
    json.key("enum");
    json.begin_array(true);
    for (const std::string& word : words_of(list))
        json.value(word);
    json.end_array();
}

/// {"type": "string"} and the like for what a member may be.
void write_form(JsonWriter& json, const Member& member) {
    const auto either = [&](auto first, auto second) {
        json.key("oneOf");
        json.begin_array();
        json.begin_object();
        first();
        json.end_object();
        json.begin_object();
        second();
        json.end_object();
        json.end_array();
    };
    const auto text = [&] { json.member("type", "string"); };
    switch (member.kind) {
        case MemberKind::text:
            return text();
        case MemberKind::texts:
            return either(text, [&] {
                json.member("type", "array");
                json.key("items");
                json.begin_object();
                json.member("type", "string");
                json.end_object();
            });
        case MemberKind::files:
            json.member("type", "array");
            json.key("items");
            json.begin_object();
            either(text, [&] { json.member("$ref", "feed-file.schema.json"); });
            return json.end_object();
        case MemberKind::file:
            return either(text, [&] { json.member("$ref", "feed-file.schema.json"); });
        case MemberKind::date:
            json.member("type", "string");
            return json.member("format", "date");
        case MemberKind::whole:
            json.member("type", "integer");
            json.member("minimum", member.lowest);
            return json.member("maximum", member.highest);
        case MemberKind::truth:
            return json.member("type", "boolean");
        case MemberKind::choice:
            return write_one_of(json, member.choices);
    }
}

void write_example(JsonWriter& json, const Member& member) {
    json.key("examples");
    json.begin_array();
    const auto tree = parse_json(member.example, "example");
    if (tree) write_node(json, tree->root(), true);
    json.end_array();
}

void write_verb(JsonWriter& json, const Verb& one) {
    json.begin_object();
    json.member("title", one.name);
    std::string meaning(one.meaning);
    if (!one.adds.empty()) meaning += " The answer also has " + std::string(one.adds) + ".";
    json.member("description", meaning);
    json.member("type", "object");
    json.key("properties");
    json.begin_object();
    json.key(verb.name);
    json.begin_object();
    json.member("const", one.name);
    json.end_object();
    for (const Asked& asked : one.members) {
        const Member& member = *asked.member;
        json.key(member.name);
        json.begin_object();
        json.member("description", member.meaning);
        write_form(json, member);
        write_example(json, member);
        json.end_object();
    }
    json.end_object();
    json.key("required");
    json.begin_array(true);
    json.value(verb.name);
    for (const Asked& asked : one.members) {
        if (asked.needed) json.value(asked.member->name);
    }
    json.end_array();
    json.member("additionalProperties", false);
    json.end_object();
}

}  // namespace
}  // namespace door

std::string request_schema() {
    JsonWriter json;
    json.begin_object();
    json.member("$schema", "https://json-schema.org/draft/2020-12/schema");
    json.member("$id", "request.schema.json");
    json.member("title", "Request");
    json.member("description",
                "What may be asked of libfeed through its one door: feed_call in C, feed::call in "
                "C++, libfeed.call in Python.");
    json.key("oneOf");
    json.begin_array();
    for (const door::Verb& one : door::verbs)
        door::write_verb(json, one);
    json.end_array();
    json.end_object();
    return json.take();
}

}  // namespace feed::io
