#include "feed/feedstock/amount_mass.hpp"

#include <cstring>

#include "guard.hpp"
#include "handles.hpp"

extern "C" feed_code feed_amount_to_wet_kg(const char* amount, const feed_feedstock* feedstock,
                                           double* wet_kg, char* how, size_t how_size,
                                           feed_error* error) {
    using namespace feed::c;
    if (how != nullptr && how_size > 0) how[0] = '\0';
    if (wet_kg == nullptr) return null_argument(error, "wet_kg");
    *wet_kg = not_a_number;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (const feed_code code = need_text(error, "amount", amount)) return code;
    if (feedstock == nullptr) return null_argument(error, "feedstock");
    if (how == nullptr && how_size > 0) return null_argument(error, "how");
    return guarded(error, [&] {
        const auto read = feed::parse_amount(amount, {});
        if (!read) return fail(error, read.errors());
        const auto mass = feed::wet_mass_of(*read, *feedstock->content);
        if (!mass) return fail(error, mass.errors());
        *wet_kg = mass->wet_mass.in_kilograms();
        if (how_size > 0) copy_text(how, how_size, mass->how);
        return succeed(error);
    });
}
