#pragma once
// Structs that cross the border grow by appending. A caller has the first version of each at least
// and says with struct_size how much more: nothing is read or written beyond that.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstring>

#include "feed/feed.h"

namespace feed::c {

/// The size of the first version of a struct, without padding behind its last member. It never
/// changes: who appends a member leaves it as it is.
template <class Struct>
inline constexpr std::size_t first_size = 0;

// NOLINTBEGIN(bugprone-macro-parentheses): it declares, so it cannot stand in parentheses.
#define FEED_FIRST_VERSION_ENDS_WITH(Struct, member)    \
    template <>                                         \
    inline constexpr std::size_t first_size<::Struct> = \
        offsetof(::Struct, member) + sizeof(::Struct::member)

// NOLINTEND(bugprone-macro-parentheses)
FEED_FIRST_VERSION_ENDS_WITH(feed_error, message);
FEED_FIRST_VERSION_ENDS_WITH(feed_allocator, release);
FEED_FIRST_VERSION_ENDS_WITH(feed_version_info, table_sha256);
FEED_FIRST_VERSION_ENDS_WITH(feed_feedstock_info, most_wet_kg_per_kg_worms);
FEED_FIRST_VERSION_ENDS_WITH(feed_value, method);
FEED_FIRST_VERSION_ENDS_WITH(feed_own_feedstock, value_count);
FEED_FIRST_VERSION_ENDS_WITH(feed_nutrition_label, protein_factor);
FEED_FIRST_VERSION_ENDS_WITH(feed_laboratory_report, volatile_solids);
FEED_FIRST_VERSION_ENDS_WITH(feed_blend_properties, neutralising_g_caco3);
FEED_FIRST_VERSION_ENDS_WITH(feed_entry, usual_wet_kg);
FEED_FIRST_VERSION_ENDS_WITH(feed_target, source);
FEED_FIRST_VERSION_ENDS_WITH(feed_answer_summary, unbounded_label);
FEED_FIRST_VERSION_ENDS_WITH(feed_reached, label);
FEED_FIRST_VERSION_ENDS_WITH(feed_bed_description, own_feeding_rate_wet_kg_per_kg_day);
FEED_FIRST_VERSION_ENDS_WITH(feed_hazard_finding, why);
FEED_FIRST_VERSION_ENDS_WITH(feed_ration, share_left);
FEED_FIRST_VERSION_ENDS_WITH(feed_take_out, instead);
FEED_FIRST_VERSION_ENDS_WITH(feed_ration_thing, measure);
FEED_FIRST_VERSION_ENDS_WITH(feed_forecast_summary, new_bedding_reason);
FEED_FIRST_VERSION_ENDS_WITH(feed_calibration, after_high_per_day);

#undef FEED_FIRST_VERSION_ENDS_WITH

/// True when the caller's struct is at least as large as the first version of it.
template <class Struct>
bool has_room(const Struct* given) noexcept {
    static_assert(first_size<Struct> > 0, "say where its first version ends");
    return given != nullptr && given->struct_size >= first_size<Struct>;
}

/// Copies what the caller's struct has into `to`, which holds "not given" for the rest.
template <class Struct>
Struct taken(const Struct& from, Struct to) noexcept {
    std::memcpy(static_cast<void*>(&to), &from,
                std::min<std::size_t>(from.struct_size, sizeof(Struct)));
    to.struct_size = sizeof(Struct);
    return to;
}

/// Writes into the caller's struct what it has room for; its struct_size stays.
template <class Struct>
void give(Struct* to, const Struct& from) noexcept {
    static_assert(offsetof(Struct, struct_size) == 0 && sizeof(Struct::struct_size) == 4);
    constexpr std::size_t behind_size = sizeof(std::uint32_t);
    std::memcpy(reinterpret_cast<unsigned char*>(to) + behind_size,
                reinterpret_cast<const unsigned char*>(&from) + behind_size,
                std::min<std::size_t>(to->struct_size, sizeof(Struct)) - behind_size);
}

/// A struct to fill for a caller, who gets it at the end of the scope: as it was made where nothing
/// more was found.
template <class Struct>
class Filled {
public:
    Filled(Struct* to, const Struct& cleared) noexcept : to_(to), content_(cleared) {}
    ~Filled() { give(to_, content_); }
    Filled(const Filled&) = delete;
    Filled& operator=(const Filled&) = delete;
    Struct* operator->() noexcept { return &content_; }
    Struct& operator*() noexcept { return content_; }

private:
    Struct* to_;
    Struct content_;
};

}  // namespace feed::c
