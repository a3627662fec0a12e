#pragma once
#include <optional>
#include <string>

#include "feed/feedstock/own_feedstock.hpp"

namespace feed {

/// Which mass the percentages of a laboratory report are of.
enum class ReportBasis : std::uint8_t {
    dry,         ///< after drying
    as_received  ///< as it came, water included
};

/// What a laboratory says of a material; fractions 0 to 1 of the mass named by `basis`, moisture
/// always of the wet mass.
struct LaboratoryReport {
    ReportBasis basis = ReportBasis::dry;
    std::optional<double> moisture;  ///< needed
    std::optional<double> carbon;
    std::optional<double> nitrogen;
    std::optional<double> cn_ratio;
    std::optional<double> ash;
    std::optional<double> volatile_solids;  ///< ash is what it leaves of the dry mass
};

/// Volatile solids over carbon, where a report gives nothing better (Adams et al. 1951; the carbon
/// of volatile solids runs from 45 to 60 %, so the factor from 2.22 to 1.67).
inline constexpr double volatile_solids_per_carbon = 1.8;
inline constexpr double carbon_per_volatile_solids_low = 0.45;
inline constexpr double carbon_per_volatile_solids_high = 0.60;

/// A feedstock from a laboratory report, given dry or as received. Carbon that is missing is taken
/// as volatile solids over 1.8 only where neither carbon nor a C:N ratio with nitrogen is there,
/// and `said` tells that this reads about a fifth high. `own` gives the name and what else is
/// known; its values go before those of the report. Errors, all at once: missing_value (moisture),
/// not_a_number, out_of_range, contradiction (ash against volatile solids; C:N against C and N; a
/// part as received larger than the dry mass), and those of own_feedstock. Threads: pure.
inline Result<DefinedFeedstock> feedstock_from_report(const OwnFeedstock& own,
                                                      const LaboratoryReport& report,
                                                      const Feedstock* like = nullptr) {
    Errors errors;
    const auto fail = [&](ErrorCode code, Property property, double value, std::string allowed,
                          std::string message) {
        errors.push_back(detail::own_error(code, own.name, property, value, std::move(allowed),
                                           std::move(message)));
    };
    if (!report.moisture)
        fail(ErrorCode::missing_value, Property::moisture_wet, std::nan(""),
             "moisture of the wet mass", "a report without moisture cannot be turned to amounts");
    else if (!(*report.moisture >= 0.0 && *report.moisture < 1.0))
        fail(ErrorCode::out_of_range, Property::moisture_wet, *report.moisture, "0 to below 1",
             "moisture is a share of the wet mass");
    if (!errors.empty()) return errors;
    const double dry = 1.0 - *report.moisture;
    OwnFeedstock both = own;
    const auto put = [&](OwnValue value) {
        if (!detail::gives(own, value.property)) both.values.push_back(value);
    };
    const auto on_dry = [&](Property property,
                            const std::optional<double>& part) -> std::optional<double> {
        if (!part || report.basis == ReportBasis::dry) return part;
        if (*part > dry * (1.0 + 1e-9)) {
            fail(ErrorCode::contradiction, property, *part, "at most " + significant(dry, 4),
                 "as received this is more than the dry mass; is the report on dry mass?");
            return std::nullopt;
        }
        return *part / dry;
    };
    put({Property::moisture_wet, *report.moisture, {}, {}});
    const auto carbon = on_dry(Property::carbon_dry, report.carbon);
    const auto nitrogen = on_dry(Property::nitrogen_dry, report.nitrogen);
    auto ash = on_dry(Property::ash_dry, report.ash);
    const auto volatile_solids = on_dry(Property::ash_dry, report.volatile_solids);
    if (ash && volatile_solids && std::abs(*ash + *volatile_solids - 1.0) > 0.02)
        fail(ErrorCode::contradiction, Property::ash_dry, *ash,
             significant(1.0 - *volatile_solids, 3) + ", what volatile solids leave",
             "ash and volatile solids do not add up to the dry mass");
    if (!ash && volatile_solids) ash = 1.0 - *volatile_solids;
    if (ash) put({Property::ash_dry, *ash, {}, {}});
    if (carbon) put({Property::carbon_dry, *carbon, {}, {}});
    if (nitrogen) put({Property::nitrogen_dry, *nitrogen, {}, {}});
    if (report.cn_ratio) put({Property::cn_ratio, *report.cn_ratio, {}, {}});
    if (!errors.empty()) return errors;
    const bool from_ash =
        ash && !detail::gives(both, Property::carbon_dry) &&
        !(detail::gives(both, Property::nitrogen_dry) && detail::gives(both, Property::cn_ratio));
    if (from_ash) {
        const double organic = 1.0 - *ash;
        put({Property::carbon_dry, organic / volatile_solids_per_carbon,
             organic * carbon_per_volatile_solids_low, organic * carbon_per_volatile_solids_high});
    }
    auto made = own_feedstock(both, like);
    if (!made) return made;
    if (from_ash) {
        auto& datum = *made->feedstock[Property::carbon_dry];
        datum.grade = Grade::b;
        datum.method = "derived F3, volatile solids / 1.8";
        made->said.push_back("carbon of " + own.name +
                             " is taken as volatile solids / 1.8, about a fifth higher than from "
                             "its make-up; C:N reads high by as much");
    }
    return made;
}

}  // namespace feed
