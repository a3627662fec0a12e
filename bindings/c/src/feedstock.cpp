#include "feed/feedstock/feedstock.hpp"

#include "convert.hpp"
#include "feed/feedstock/lookup.hpp"
#include "feed/feedstock/table.hpp"
#include "guard.hpp"
#include "handles.hpp"
#include "memory.hpp"

namespace {

using namespace feed::c;

constexpr feed_feedstock_info no_info{
    sizeof(feed_feedstock_info), "", "", "", "", "", 0, 0, 0, 0, not_a_number};
constexpr feed_value no_value{sizeof(feed_value),
                              0,
                              not_a_number,
                              not_a_number,
                              not_a_number,
                              FEED_GRADE_D,
                              FEED_GRADE_D,
                              "",
                              ""};

}  // namespace

extern "C" {

feed_code feed_table_count(size_t* count, feed_error* error) {
    if (count == nullptr) return null_argument(error, "count");
    *count = 0;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    *count = feed::feedstock_count();
    return succeed(error);
}

feed_code feed_feedstock_at(size_t row, const feed_allocator* allocator, feed_feedstock** out,
                            feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (!is_valid(allocator)) return bad_allocator(error);
    if (row >= feed::feedstock_count()) return bad_index(error, "row");
    return guarded(error, [&] {
        *out = make_handle<feed_feedstock>(
            allocator, std::make_shared<const feed::Feedstock>(feed::feedstock_at(row)),
            std::string());
        return succeed(error);
    });
}

feed_code feed_feedstock_look_up(const char* words, const feed_allocator* allocator,
                                 feed_feedstock** out, feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (const feed_code code = need_text(error, "words", words)) return code;
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        auto found = feed::look_up(words);
        if (!found) return fail(error, found.errors());
        *out = make_handle<feed_feedstock>(allocator, found->feedstock, found->part);
        return succeed(error);
    });
}

feed_code feed_table_search(const char* words, size_t capacity, size_t* rows, size_t* count,
                            feed_error* error) {
    if (count == nullptr) return null_argument(error, "count");
    *count = 0;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (const feed_code code = need_text(error, "words", words)) return code;
    if (rows == nullptr && capacity > 0) return null_argument(error, "rows");
    return guarded(error, [&] {
        const auto found = feed::search(words);
        for (size_t i = 0; i < found.size() && i < capacity; ++i)
            rows[i] = found[i].index;
        *count = found.size();
        return succeed(error);
    });
}

feed_code feed_feedstock_describe(const feed_feedstock* feedstock, feed_feedstock_info* out,
                                  feed_error* error) {
    if (!has_room(out)) return no_room(error, out, "out");
    Filled<feed_feedstock_info> filled(out, no_info);
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (feedstock == nullptr) return null_argument(error, "feedstock");
    const feed::Feedstock& content = *feedstock->content;
    filled->id = content.id.c_str();
    filled->name = content.name.c_str();
    filled->part = feedstock->part.c_str();
    filled->note = content.note.c_str();
    filled->preparation_hint = content.preparation_hint.c_str();
    filled->group = static_cast<int32_t>(content.group);
    filled->roles = content.roles;
    filled->stance = static_cast<int32_t>(content.stance);
    filled->cautions = static_cast<int32_t>(content.cautions);
    filled->most_wet_kg_per_kg_worms = content.most_wet_kg_per_kg_worms.value_or(not_a_number);
    return succeed(error);
}

feed_code feed_feedstock_get(const feed_feedstock* feedstock, int32_t property, feed_value* out,
                             feed_error* error) {
    if (!has_room(out)) return no_room(error, out, "out");
    Filled<feed_value> filled(out, no_value);
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (feedstock == nullptr) return null_argument(error, "feedstock");
    if (property < 0 || property >= static_cast<int32_t>(feed::property_count)) {
        return fail(error, FEED_UNKNOWN_PROPERTY, "property", "", "a property enumerator",
                    "there is no such property");
    }
    const auto& datum = (*feedstock->content)[static_cast<feed::Property>(property)];
    if (datum) {
        filled->known = 1;
        filled->value = datum->value;
        filled->low = datum->low;
        filled->high = datum->high;
        filled->grade = static_cast<int32_t>(datum->grade);
        filled->range_grade = static_cast<int32_t>(datum->range_grade);
        // Both come from the table or from literals and end with NUL.
        filled->sources = datum->sources.empty() ? "" : datum->sources.data();
        filled->method = datum->method.empty() ? "" : datum->method.data();
    }
    return succeed(error);
}

void feed_feedstock_free(feed_feedstock* feedstock) {
    free_handle(feedstock);
}

}  // extern "C"
