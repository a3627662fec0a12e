#pragma once
// Lists of sentences that a handle holds: how many there are, and one of them.
#include <cstddef>
#include <string>

#include "feed/bed/hazard.hpp"
#include "feed/blend/blend_properties.hpp"
#include "guard.hpp"

namespace feed::c {

inline const std::string& sentence_of(const std::string& sentence) noexcept {
    return sentence;
}
inline const std::string& sentence_of(const Assumption& assumption) noexcept {
    return assumption.text;
}
inline const std::string& sentence_of(const CautionFinding& caution) noexcept {
    return caution.text;
}

/// Sets *count to the length of a list of the handle; 0 on failure.
/// list_of: gives the list of a handle that is there. name: the handle's, for errors.
template <class Handle, class ListOf>
feed_code give_count(const Handle* handle, const char* name, ListOf list_of, size_t* count,
                     feed_error* error) noexcept {
    if (count == nullptr) return null_argument(error, "count");
    *count = 0;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (handle == nullptr) return null_argument(error, name);
    *count = list_of(*handle).size();
    return succeed(error);
}

/// Sets *sentence to one member of a list of the handle, which keeps it; NULL on failure.
/// sentence_name: the output's, for errors.
template <class Handle, class ListOf>
feed_code give_sentence(const Handle* handle, const char* name, ListOf list_of, size_t index,
                        const char** sentence, const char* sentence_name,
                        feed_error* error) noexcept {
    if (sentence == nullptr) return null_argument(error, sentence_name);
    *sentence = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (handle == nullptr) return null_argument(error, name);
    const auto& list = list_of(*handle);
    if (index >= list.size()) return bad_index(error, "index");
    *sentence = sentence_of(list[index]).c_str();
    return succeed(error);
}

}  // namespace feed::c
