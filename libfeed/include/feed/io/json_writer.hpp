#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace feed::io {

/// Builds one JSON text (RFC 8259), indented by two blanks, in the order of the calls. Numbers are
/// the shortest decimals that read back to the same bits, in every locale; what JSON cannot hold
/// (NaN, infinity) becomes null. Not shared between threads.
class JsonWriter {
public:
    void begin_object() { open('{', false); }
    void end_object() { close('}'); }
    /// inline_items: keep the items on one line, for arrays of numbers.
    void begin_array(bool inline_items = false) { open('[', inline_items); }
    void end_array() { close(']'); }
    /// The key of the next value; only inside an object.
    void key(std::string_view name);

    void value(double number);
    void value(bool truth);
    void value(std::int64_t number);
    void value(int number) { value(static_cast<std::int64_t>(number)); }
    void value(std::string_view text);
    void value(const char* text) { value(std::string_view(text)); }
    void null();
    /// A number, true or false as it is spelled in other JSON.
    void literal(std::string_view spelled);

    /// A key and its value.
    template <class T>
    void member(std::string_view name, const T& content) {
        key(name);
        value(content);
    }
    /// A key and its value, or null where there is none.
    template <class T>
    void member(std::string_view name, const std::optional<T>& content) {
        key(name);
        if (content) {
            value(*content);
        } else {
            null();
        }
    }

    /// The finished text, ending in a line feed. Leaves the writer empty.
    std::string take();

private:
    void open(char bracket, bool inline_items);
    void close(char bracket);
    void escape(char32_t c);
    void separate();
    void indent(std::size_t levels);

    struct Level {
        bool empty = true;
        bool on_one_line = false;
    };
    std::string text_;
    std::vector<Level> levels_;
    bool after_key_ = false;
};

}  // namespace feed::io
