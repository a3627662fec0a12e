#pragma once
#include <string>
#include <string_view>

namespace feed::io {

/// A text as content or attribute of SVG and HTML: its own brackets and quotes are shown, and what
/// XML has no place for (controls, bytes that are not UTF-8) is written out.
std::string markup_text(std::string_view text);

}  // namespace feed::io
