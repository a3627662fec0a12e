#include "feed/io/json_writer.hpp"

#include <charconv>
#include <cmath>
#include <utility>

#include "feed/quantity/printable.hpp"

namespace feed::io {

void JsonWriter::indent(std::size_t levels) {
    text_.push_back('\n');
    text_.append(2 * levels, ' ');
}

void JsonWriter::separate() {
    if (after_key_) {
        after_key_ = false;
        return;
    }
    if (levels_.empty()) return;
    Level& level = levels_.back();
    if (!level.empty) text_.push_back(',');
    if (level.on_one_line) {
        if (!level.empty) text_.push_back(' ');
    } else {
        indent(levels_.size());
    }
    level.empty = false;
}

void JsonWriter::open(char bracket, bool inline_items) {
    separate();
    text_.push_back(bracket);
    levels_.push_back({true, inline_items});
}

void JsonWriter::close(char bracket) {
    const Level level = levels_.back();
    levels_.pop_back();
    if (!level.empty && !level.on_one_line) indent(levels_.size());
    text_.push_back(bracket);
}

void JsonWriter::key(std::string_view name) {
    separate();
    after_key_ = true;
    value(name);
    text_ += ": ";
    after_key_ = true;
}

void JsonWriter::value(double number) {
    if (!std::isfinite(number)) return null();
    separate();
    char digits[32];
    const auto end = std::to_chars(digits, digits + sizeof digits, number).ptr;
    text_.append(digits, end);
}

void JsonWriter::value(bool truth) {
    separate();
    text_ += truth ? "true" : "false";
}

void JsonWriter::value(std::int64_t number) {
    separate();
    char digits[32];
    const auto end = std::to_chars(digits, digits + sizeof digits, number).ptr;
    text_.append(digits, end);
}

void JsonWriter::literal(std::string_view spelled) {
    separate();
    text_ += spelled;
}

void JsonWriter::null() {
    separate();
    text_ += "null";
}

void JsonWriter::value(std::string_view text) {
    separate();
    text_.push_back('"');
    for (std::size_t at = 0; at < text.size();) {
        const CodePoint c = code_point_at(text, at);
        if (!c.valid) {
            text_ += "\\ufffd";  // JSON is UTF-8: the character for what is none
        } else if (c.value == '"' || c.value == '\\') {
            text_.push_back('\\');
            text_.push_back(static_cast<char>(c.value));
        } else if (is_hidden(c.value)) {
            escape(c.value);
        } else {
            text_ += text.substr(at, c.length);
        }
        at += c.length;
    }
    text_.push_back('"');
}

/// A hidden character as an escape; beyond the first plane as a surrogate pair (RFC 8259).
void JsonWriter::escape(char32_t c) {
    if (c == '\n' || c == '\t' || c == '\r') {
        text_ += c == '\n' ? "\\n" : c == '\t' ? "\\t" : "\\r";
        return;
    }
    constexpr char hex[] = "0123456789abcdef";
    const auto put = [&](char32_t unit) {
        text_ += "\\u";
        for (unsigned shift = 16; shift > 0; shift -= 4)
            text_.push_back(hex[(unit >> (shift - 4)) & 0xFU]);
    };
    if (c > 0xFFFF) {
        put(0xD800 + ((c - 0x10000) >> 10U));
        put(0xDC00 + ((c - 0x10000) & 0x3FFU));
    } else {
        put(c);
    }
}

std::string JsonWriter::take() {
    std::string done = std::move(text_);
    *this = JsonWriter();
    done.push_back('\n');
    return done;
}

}  // namespace feed::io
