#pragma once
// How the library's problems become Python exceptions, and how numbers from Python are looked at
// before they become quantities.
#include <pybind11/pybind11.h>

#include <array>
#include <cstddef>
#include <exception>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "feed/quantity/border.hpp"
#include "feed/quantity/error.hpp"

namespace feed::python {

namespace py = pybind11;

/// Carries problems to Python, where they become a FeedError of the first one's group.
class Raised : public std::exception {
public:
    explicit Raised(Errors errors) : errors_(std::move(errors)) {}
    explicit Raised(Error error) : errors_{std::move(error)} {}
    const char* what() const noexcept override { return "libfeed.FeedError"; }
    const Errors& errors() const noexcept { return errors_; }

private:
    Errors errors_;
};

/// The value of a result, or its problems as an exception.
template <class T>
T unwrap(Result<T> result) {
    if (!result) throw Raised(std::move(result).errors());
    return std::move(result).value();
}

/// The error of a key that nothing has.
Error unknown_key(std::string_view field, std::string_view key, std::string allowed);

/// The number, if it is finite and within its border. Raises not_a_number, out_of_range,
/// percent_slip.
double checked(std::string_view field, double number, const Border& border);
std::optional<double> checked(std::string_view field, std::optional<double> number,
                              const Border& border);

/// Place of a word among the words of an enumeration; blanks, underscores and hyphens are alike.
/// Raises out_of_range.
std::size_t place_of_word(std::string_view field, std::string_view word,
                          const std::string_view* words, std::size_t count);

/// Place of a key among items, each with the key that key_of gives. Raises unknown_property.
template <class Items, class KeyOf>
std::size_t place_of_key(std::string_view field, std::string_view key, const Items& items,
                         KeyOf key_of) {
    std::string allowed;
    for (std::size_t i = 0; i < std::size(items); ++i) {
        if (key == key_of(items[i])) return i;
        if (i > 0) allowed += ", ";
        allowed += key_of(items[i]);
    }
    throw Raised(unknown_key(field, key, std::move(allowed)));
}

template <class Choice, std::size_t count>
Choice choice_of(std::string_view field, std::string_view word,
                 const std::array<std::string_view, count>& words) {
    return static_cast<Choice>(place_of_word(field, word, words.data(), count));
}

template <class Choice, std::size_t count>
std::optional<Choice> choice_of(std::string_view field, const std::optional<std::string>& word,
                                const std::array<std::string_view, count>& words) {
    if (!word) return std::nullopt;
    return choice_of<Choice>(field, std::string_view(*word), words);
}

template <class Choice, std::size_t count>
std::string word_of(Choice choice, const std::array<std::string_view, count>& words) {
    return std::string(words[static_cast<std::size_t>(choice)]);
}

void bind_errors(py::module_& module);

}  // namespace feed::python
