#include "feed/io/json_writer.hpp"

#include <charconv>
#include <cmath>
#include <utility>

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

void JsonWriter::null() {
    separate();
    text_ += "null";
}

void JsonWriter::value(std::string_view text) {
    separate();
    constexpr char hex[] = "0123456789abcdef";
    text_.push_back('"');
    for (const char c : text) {
        switch (c) {
            case '"':
                text_ += "\\\"";
                break;
            case '\\':
                text_ += "\\\\";
                break;
            case '\n':
                text_ += "\\n";
                break;
            case '\t':
                text_ += "\\t";
                break;
            case '\r':
                text_ += "\\r";
                break;
            default:
                if (static_cast<unsigned char>(c) < 0x20) {
                    text_ += "\\u00";
                    text_.push_back(hex[static_cast<unsigned char>(c) >> 4]);
                    text_.push_back(hex[static_cast<unsigned char>(c) & 15]);
                } else {
                    text_.push_back(c);
                }
        }
    }
    text_.push_back('"');
}

std::string JsonWriter::take() {
    std::string done = std::move(text_);
    *this = JsonWriter();
    done.push_back('\n');
    return done;
}

}  // namespace feed::io
