#include "feed/feedstock/own_feedstock.hpp"

#include <cmath>

#include "feed/feedstock/laboratory_report.hpp"
#include "feed/feedstock/nutrition_label.hpp"
#include "feed/feedstock/preparation.hpp"
#include "feed/io/feed_file.hpp"
#include "guard.hpp"
#include "handles.hpp"
#include "memory.hpp"

namespace {

using namespace feed::c;

std::optional<double> given(double number) {
    return std::isnan(number) ? std::nullopt : std::optional<double>(number);
}

feed_code no_choice(feed_error* error, const char* field, int32_t value) {
    return fail(error, FEED_OUT_OF_RANGE, field, std::to_string(value),
                "an enumerator or FEED_NOT_GIVEN", "there is no such choice");
}

constexpr feed_own_feedstock no_own = FEED_OWN_FEEDSTOCK_INIT;
constexpr feed_nutrition_label no_label = FEED_NUTRITION_LABEL_INIT;
constexpr feed_laboratory_report no_report = FEED_LABORATORY_REPORT_INIT;

feed_code zeroed(feed_error* error, const char* field, const char* message) {
    return fail(error, FEED_OUT_OF_RANGE, field, "0",
                "FEED_NOT_GIVEN, as in FEED_OWN_FEEDSTOCK_INIT, or another value", message);
}

/// Refuses the zeros of memory that nobody set where they would make a material look harmless: one
/// that is never fed like one that is, one with cautions like one without, food like sand.
/// like: what it differs from, or null.
feed_code refuse_zeroed(const feed_own_feedstock& own, const feed::Feedstock* like,
                        feed_error* error) {
    if (own.roles == 0) return zeroed(error, "own.roles", "a feedstock without any role");
    const bool barred = like != nullptr && like->stance == feed::Stance::avoid;
    if (own.stance == FEED_STANCE_FEED && barred) {
        return zeroed(error, "own.stance",
                      "0 would let what is never fed be fed; only FEED_STANCE_FEED_LITTLE does");
    }
    if (own.cautions == 0 && like != nullptr && like->cautions != 0) {
        return zeroed(error, "own.cautions", "0 would drop the cautions of what it is like");
    }
    const int32_t roles = own.roles != FEED_NOT_GIVEN ? own.roles
                          : like != nullptr           ? like->roles
                                                      : int32_t{FEED_ROLE_SCRAPS};
    const bool was_inert = like != nullptr && like->decay_class == feed::DecayClass::inert;
    if (own.decay_class == FEED_DECAY_INERT && (roles & FEED_ROLE_SCRAPS) != 0 && !was_inert) {
        return zeroed(error, "own.decay_class", "scraps that never decay would not count as food");
    }
    return FEED_OK;
}

/// Copies what the caller says into the core's form; the core judges the numbers.
/// like: what it differs from, or null.
feed_code read_own(const feed_own_feedstock& given_own, const feed::Feedstock* like,
                   feed::OwnFeedstock& to, feed_error* error) {
    const feed_own_feedstock from = taken(given_own, no_own);
    constexpr int32_t all_roles =
        FEED_ROLE_SCRAPS | FEED_ROLE_BEDDING | FEED_ROLE_AMENDMENT | FEED_ROLE_WATER;
    constexpr int32_t all_cautions = (FEED_CAUTION_LIME_DUST << 1) - 1;
    if (const feed_code code = need_text(error, "own.name", from.name)) return code;
    if (from.values == nullptr && from.value_count > 0) return null_argument(error, "own.values");
    if (from.roles < FEED_NOT_GIVEN || from.roles > all_roles) {
        return no_choice(error, "own.roles", from.roles);
    }
    if (from.stance < FEED_NOT_GIVEN || from.stance > FEED_STANCE_AVOID) {
        return no_choice(error, "own.stance", from.stance);
    }
    if (from.decay_class < FEED_NOT_GIVEN || from.decay_class > FEED_DECAY_VERY_SLOW) {
        return no_choice(error, "own.decay_class", from.decay_class);
    }
    if (from.cautions < FEED_NOT_GIVEN || from.cautions > all_cautions) {
        return no_choice(error, "own.cautions", from.cautions);
    }
    if (const feed_code code = refuse_zeroed(from, like, error)) return code;
    to.name = from.name;
    if (from.roles >= 0) to.roles = static_cast<std::uint8_t>(from.roles);
    if (from.stance >= 0) to.stance = static_cast<feed::Stance>(from.stance);
    if (from.decay_class >= 0) to.decay_class = static_cast<feed::DecayClass>(from.decay_class);
    if (from.cautions >= 0) to.cautions = static_cast<std::uint32_t>(from.cautions);
    for (size_t i = 0; i < from.value_count; ++i) {
        const feed_own_value& value = from.values[i];
        if (value.property < 0 || value.property >= static_cast<int32_t>(feed::property_count)) {
            return fail(error, FEED_UNKNOWN_PROPERTY,
                        "own.values[" + std::to_string(i) + "].property",
                        std::to_string(value.property), "a property enumerator",
                        "there is no such property");
        }
        to.values.push_back({static_cast<feed::Property>(value.property), value.value,
                             given(value.low), given(value.high)});
    }
    return FEED_OK;
}

feed_code hand_out(const feed::Result<feed::DefinedFeedstock>& made,
                   const feed_allocator* allocator, feed_feedstock** out, feed_error* error) {
    if (!made) return fail(error, made.errors());
    *out = make_handle<feed_feedstock>(
        allocator, std::make_shared<const feed::Feedstock>(made->feedstock), std::string());
    return succeed(error);
}

/// One member of the `feedstocks` of a file as a whole file: two lines before it, two columns to
/// its left.
constexpr int lines_before = 2;
constexpr int columns_before = 2;

std::string as_file(std::string_view text) {
    std::string file = "libfeed: 1\nfeedstocks:\n";
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        file += "  ";
        file += text.substr(0, end);
        file += '\n';
        text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
    }
    return file;
}

/// Errors with the places of the caller's own text.
feed::Errors file_place_removed(feed::Errors errors) {
    for (auto& error : errors) {
        if (error.line > lines_before) error.line -= lines_before;
        if (error.column > columns_before) error.column -= columns_before;
        error.file.clear();
    }
    return errors;
}

}  // namespace

extern "C" {

feed_code feed_feedstock_define(const feed_own_feedstock* own, const feed_feedstock* like,
                                const feed_allocator* allocator, feed_feedstock** out,
                                feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (!has_room(own)) return no_room(error, own, "own");
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        feed::OwnFeedstock said;
        const feed::Feedstock* model = like != nullptr ? like->content.get() : nullptr;
        if (const feed_code code = read_own(*own, model, said, error)) return code;
        return hand_out(feed::own_feedstock(said, model), allocator, out, error);
    });
}

feed_code feed_feedstock_from_label(const feed_own_feedstock* own,
                                    const feed_nutrition_label* label,
                                    const feed_allocator* allocator, feed_feedstock** out,
                                    feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (!has_room(own)) return no_room(error, own, "own");
    if (!has_room(label)) return no_room(error, label, "label");
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        const feed_nutrition_label told = taken(*label, no_label);
        feed::OwnFeedstock said;
        if (const feed_code code = read_own(*own, nullptr, said, error)) return code;
        if (const feed_code code =
                check_truth(error, "label.carbohydrate_has_fibre", told.carbohydrate_has_fibre)) {
            return code;
        }
        feed::NutritionLabel read;
        read.protein = told.protein;
        read.fat = told.fat;
        read.carbohydrate = told.carbohydrate;
        read.carbohydrate_has_fibre = told.carbohydrate_has_fibre != 0;
        read.sugars = given(told.sugars);
        read.fibre = given(told.fibre);
        read.water = given(told.water);
        read.ash = given(told.ash);
        read.salt = given(told.salt);
        read.sodium = given(told.sodium);
        if (const auto factor = given(told.protein_factor)) read.protein_factor = *factor;
        return hand_out(feed::feedstock_from_label(said, read), allocator, out, error);
    });
}

feed_code feed_feedstock_from_report(const feed_own_feedstock* own,
                                     const feed_laboratory_report* report,
                                     const feed_allocator* allocator, feed_feedstock** out,
                                     feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (!has_room(own)) return no_room(error, own, "own");
    if (!has_room(report)) return no_room(error, report, "report");
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        const feed_laboratory_report told = taken(*report, no_report);
        feed::OwnFeedstock said;
        if (const feed_code code = read_own(*own, nullptr, said, error)) return code;
        if (const feed_code code = check_truth(error, "report.as_received", told.as_received)) {
            return code;
        }
        feed::LaboratoryReport read;
        read.basis =
            told.as_received != 0 ? feed::ReportBasis::as_received : feed::ReportBasis::dry;
        read.moisture = given(told.moisture_wet);
        read.carbon = given(told.carbon);
        read.nitrogen = given(told.nitrogen);
        read.cn_ratio = given(told.cn_ratio);
        read.ash = given(told.ash);
        read.volatile_solids = given(told.volatile_solids);
        return hand_out(feed::feedstock_from_report(said, read), allocator, out, error);
    });
}

feed_code feed_feedstock_from_text(const char* text, const feed_allocator* allocator,
                                   feed_feedstock** out, feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (const feed_code code = need_text(error, "text", text)) return code;
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        const auto file = feed::io::read_feed_text(as_file(text), "text");
        if (!file) return fail(error, file_place_removed(file.errors()));
        if (file->own_feedstocks.size() != 1) {
            return fail(error, FEED_WRONG_TYPE, "text", "", "the keys of one feedstock",
                        "the text does not define one feedstock");
        }
        *out = make_handle<feed_feedstock>(allocator, file->own_feedstocks.front(), std::string());
        return succeed(error);
    });
}

feed_code feed_feedstock_prepare(const feed_feedstock* feedstock, int32_t preparation,
                                 const feed_allocator* allocator, feed_feedstock** out,
                                 feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (feedstock == nullptr) return null_argument(error, "feedstock");
    if (!is_valid(allocator)) return bad_allocator(error);
    if (preparation < 0 || preparation >= static_cast<int32_t>(feed::preparation_count)) {
        return bad_index(error, "preparation");
    }
    return guarded(error, [&] {
        *out = make_handle<feed_feedstock>(
            allocator,
            std::make_shared<const feed::Feedstock>(
                feed::prepared(*feedstock->content, static_cast<feed::Preparation>(preparation))),
            feedstock->part);
        return succeed(error);
    });
}

}  // extern "C"
