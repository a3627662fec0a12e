#include "feed/diary/diary.hpp"

#include "check.hpp"
#include "feed/diary/calibration.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/feed_file.hpp"
#include "guard.hpp"
#include "handles.hpp"
#include "memory.hpp"

namespace {

using namespace feed::c;

constexpr feed_calibration no_calibration{sizeof(feed_calibration),
                                          0,
                                          0,
                                          0,
                                          {not_a_number, not_a_number, not_a_number},
                                          {not_a_number, not_a_number, not_a_number},
                                          {not_a_number, not_a_number, not_a_number},
                                          {not_a_number, not_a_number, not_a_number},
                                          {not_a_number, not_a_number, not_a_number},
                                          {not_a_number, not_a_number, not_a_number}};

feed_code no_bed(feed_error* error, const feed_diary& diary) {
    return fail(error, feed::io::missing_section(diary.content, "bed", "{container: tote}"));
}

}  // namespace

extern "C" {

feed_code feed_diary_from_text(const char* text, const char* name, const feed_allocator* allocator,
                               feed_diary** out, feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (const feed_code code = need_text(error, "text", text)) return code;
    if (const feed_code code = need_text(error, "name", name)) return code;
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        auto file = feed::io::read_feed_text(text, name);
        if (!file) return fail(error, file.errors());
        *out = make_handle<feed_diary>(allocator, std::move(file).value());
        return succeed(error);
    });
}

feed_code feed_diary_bed(const feed_diary* diary, const feed_allocator* allocator, feed_bed** out,
                         feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (diary == nullptr) return null_argument(error, "diary");
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        if (!diary->content.has_bed) return no_bed(error, *diary);
        *out = make_handle<feed_bed>(allocator, feed::io::bed_on_day_zero(diary->content),
                                     feed::io::planned_feedings(diary->content));
        return succeed(error);
    });
}

feed_code feed_diary_check(const feed_diary* diary, const feed_allocator* allocator,
                           feed_check_result** out, feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (diary == nullptr) return null_argument(error, "diary");
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        if (!diary->content.has_bed) return no_bed(error, *diary);
        *out = make_check_result(allocator, feed::io::check_of(diary->content));
        return succeed(error);
    });
}

feed_code feed_diary_calibrate(const feed_diary* diary, feed_calibration* out, feed_error* error) {
    if (!has_room(out)) return no_room(error, out, "out");
    Filled<feed_calibration> filled(out, no_calibration);
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (diary == nullptr) return null_argument(error, "diary");
    return guarded(error, [&] {
        if (!diary->content.has_bed) return no_bed(error, *diary);
        const auto learned = feed::calibrate(diary->content.diary);
        filled->used_count = static_cast<int32_t>(learned.used);
        filled->misfit_count = static_cast<int32_t>(learned.misfits.size());
        filled->unused_count = static_cast<int32_t>(learned.unused.size());
        for (size_t pool = 0; pool < learned.rates.size(); ++pool) {
            const feed::RateChange& rate = learned.rates[pool];
            filled->before_per_day[pool] = rate.before_per_day;
            filled->before_low_per_day[pool] = rate.before_low_per_day;
            filled->before_high_per_day[pool] = rate.before_high_per_day;
            filled->after_per_day[pool] = rate.after_per_day;
            filled->after_low_per_day[pool] = rate.after_low_per_day;
            filled->after_high_per_day[pool] = rate.after_high_per_day;
        }
        return succeed(error);
    });
}

void feed_diary_free(feed_diary* diary) {
    free_handle(diary);
}

}  // extern "C"
