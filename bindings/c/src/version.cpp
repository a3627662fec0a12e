#include "feed/version.hpp"

#include "feed/feedstock/generated/table.hpp"
#include "guard.hpp"

extern "C" feed_code feed_version(feed_version_info* out, feed_error* error) {
    using namespace feed::c;
    if (!has_room(out)) return no_room(error, out, "out");
    out->library_number = FEED_VERSION_NUMBER;
    out->library_version = feed::library_version.data();
    out->table_layout = feed::table::layout_version;
    out->table_version = feed::table::data_version.data();
    out->table_sha256 = feed::table::content_sha256.data();
    return succeed(error);
}
