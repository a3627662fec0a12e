#include "feed/version.hpp"

#include "feed/feedstock/generated/table.hpp"
#include "guard.hpp"

extern "C" feed_code feed_version(feed_version_info* out, feed_error* error) {
    using namespace feed::c;
    if (!has_room(out)) return no_room(error, out, "out");
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    Filled<feed_version_info> filled(out, {sizeof *out, 0, 0, "", "", ""});
    filled->library_number = FEED_VERSION_NUMBER;
    filled->library_version = feed::library_version.data();
    filled->table_layout = feed::table::layout_version;
    filled->table_version = feed::table::data_version.data();
    filled->table_sha256 = feed::table::content_sha256.data();
    return succeed(error);
}
