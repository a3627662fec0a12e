#pragma once
// Members that stand at the end of an answer which is written elsewhere.
#include <span>
#include <string>
#include <string_view>

namespace feed::io {

/// An object with those of another behind its own; both as JsonWriter makes them, with at least one
/// member, and with different keys.
std::string with_members(std::string object, std::string_view more);
/// The same for one text.
std::string with_text(std::string object, std::string_view key, std::string_view text);
/// The same for a list of texts.
std::string with_texts(std::string object, std::string_view key,
                       std::span<const std::string> texts);

}  // namespace feed::io
