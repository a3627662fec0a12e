#include "json_members.hpp"

#include "feed/io/to_json.hpp"

namespace feed::io {

std::string with_members(std::string object, std::string_view more) {
    constexpr std::string_view end = "\n}\n";
    object.resize(object.size() - end.size());
    object += ',';
    object += more.substr(1);
    return object;
}

std::string with_text(std::string object, std::string_view key, std::string_view text) {
    JsonWriter json;
    json.begin_object();
    json.member(key, text);
    json.end_object();
    return with_members(std::move(object), json.take());
}

std::string with_texts(std::string object, std::string_view key,
                       std::span<const std::string> texts) {
    JsonWriter json;
    json.begin_object();
    write_texts(json, key, texts);
    json.end_object();
    return with_members(std::move(object), json.take());
}

}  // namespace feed::io
