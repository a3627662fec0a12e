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

/// Copies what the caller says into the core's form; the core judges the numbers.
feed_code read_own(const feed_own_feedstock& from, feed::OwnFeedstock& to, feed_error* error) {
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
    if (!has_room(own)) return no_room(error, own, "own");
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        feed::OwnFeedstock said;
        if (const feed_code code = read_own(*own, said, error)) return code;
        return hand_out(feed::own_feedstock(said, like != nullptr ? like->content.get() : nullptr),
                        allocator, out, error);
    });
}

feed_code feed_feedstock_from_label(const feed_own_feedstock* own,
                                    const feed_nutrition_label* label,
                                    const feed_allocator* allocator, feed_feedstock** out,
                                    feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!has_room(own)) return no_room(error, own, "own");
    if (!has_room(label)) return no_room(error, label, "label");
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        feed::OwnFeedstock said;
        if (const feed_code code = read_own(*own, said, error)) return code;
        if (const feed_code code =
                check_truth(error, "label.carbohydrate_has_fibre", label->carbohydrate_has_fibre)) {
            return code;
        }
        feed::NutritionLabel read;
        read.protein = label->protein;
        read.fat = label->fat;
        read.carbohydrate = label->carbohydrate;
        read.carbohydrate_has_fibre = label->carbohydrate_has_fibre != 0;
        read.sugars = given(label->sugars);
        read.fibre = given(label->fibre);
        read.water = given(label->water);
        read.ash = given(label->ash);
        read.salt = given(label->salt);
        read.sodium = given(label->sodium);
        if (const auto factor = given(label->protein_factor)) read.protein_factor = *factor;
        return hand_out(feed::feedstock_from_label(said, read), allocator, out, error);
    });
}

feed_code feed_feedstock_from_report(const feed_own_feedstock* own,
                                     const feed_laboratory_report* report,
                                     const feed_allocator* allocator, feed_feedstock** out,
                                     feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!has_room(own)) return no_room(error, own, "own");
    if (!has_room(report)) return no_room(error, report, "report");
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        feed::OwnFeedstock said;
        if (const feed_code code = read_own(*own, said, error)) return code;
        if (const feed_code code = check_truth(error, "report.as_received", report->as_received)) {
            return code;
        }
        feed::LaboratoryReport read;
        read.basis =
            report->as_received != 0 ? feed::ReportBasis::as_received : feed::ReportBasis::dry;
        read.moisture = given(report->moisture_wet);
        read.carbon = given(report->carbon);
        read.nitrogen = given(report->nitrogen);
        read.cn_ratio = given(report->cn_ratio);
        read.ash = given(report->ash);
        read.volatile_solids = given(report->volatile_solids);
        return hand_out(feed::feedstock_from_report(said, read), allocator, out, error);
    });
}

feed_code feed_feedstock_from_text(const char* text, const feed_allocator* allocator,
                                   feed_feedstock** out, feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
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
