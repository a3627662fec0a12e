#include "convert.hpp"
#include "feed/feedstock/generated/table.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/version.hpp"

PYBIND11_MODULE(_core, module) {
    using namespace feed::python;
    module.doc() =
        "The compiled part of libfeed: every number comes from here.\n\n"
        "Import libfeed, not this module.";
    bind_errors(module);
    bind_feedstock(module);
    bind_portion(module);
    bind_own_feedstock(module);
    bind_blend(module);
    bind_blend_many(module);
    bind_entry(module);
    bind_target(module);
    bind_balance(module);
    bind_balance_many(module);
    bind_bed(module);
    bind_observation(module);
    bind_diary(module);
    bind_findings(module);
    bind_ration(module);
    bind_check(module);
    bind_signs(module);
    bind_source(module);
    bind_feed_file(module);
    bind_door(module);
    bind_trial(module);
    bind_forecast(module);
    bind_bin_sheet(module);
    module.attr("__version__") = std::string(feed::library_version);
    module.attr("TABLE_VERSION") = std::string(feed::table_version());
    module.attr("TABLE_LAYOUT_VERSION") = feed::table::layout_version;
    module.attr("TABLE_CONTENT_SHA256") = std::string(feed::table_content_hash());
}
