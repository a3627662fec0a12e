#include "feed/io/human_text.hpp"

#include <string>

#include "catch2.hpp"

using namespace feed;
using namespace feed::io;

TEST_CASE("amounts change their unit where a person would") {
    CHECK(mass_text(grams(170), UnitSystem::metric) == "170 g");
    CHECK(mass_text(grams(994), UnitSystem::metric) == "990 g");
    CHECK(mass_text(grams(999.4), UnitSystem::metric) == "1 kg");
    CHECK(mass_text(kilograms(1.234), UnitSystem::metric) == "1.2 kg");
    CHECK(mass_text(grams(170), UnitSystem::us) == "6 oz");
    CHECK(mass_text(kilograms(1.2), UnitSystem::us) == "2.6 lb");
    CHECK(volume_text(litres(3), UnitSystem::metric) == "3 L");
    CHECK(volume_text(litres(0.25), UnitSystem::metric) == "250 ml");
    CHECK(volume_text(litres(3.785411784), UnitSystem::us) == "1 gal");
    CHECK(volume_text(litres(0.2365882365), UnitSystem::us) == "1 cup");
    CHECK(temperature_text(celsius(20), UnitSystem::us) == "68 F");
    CHECK(percent_text(0.784) == "78 %");
    CHECK(cn_ratio_text(30.2) == "30:1, carbon to nitrogen by mass");
}

TEST_CASE("lines break at blanks within the width") {
    CHECK(wrapped("one two three four", 0, 2, 10) == "one two\n  three\n  four\n");
    CHECK(wrapped("", 2, 2, 10) == "  \n");
    // A code point is one column: nine columns, eighteen bytes.
    CHECK(wrapped("\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9 \xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9", 0, 0, 9) ==
          "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9 \xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\n");
    CHECK(padded("\xC2\xBD", 3) == "\xC2\xBD  ");
    CHECK(counted(1, "thing") == "1 thing");
    CHECK(counted(2, "thing") == "2 things");
}

TEST_CASE("an error names place, field, given and allowed") {
    Error error;
    error.field = "moisture";
    error.value = "78";
    error.allowed = "0 % to 100 %";
    error.message = "is \"78 %\" meant?";
    error.file = "kitchen.yaml";
    error.line = 4;
    error.column = 5;
    CHECK(errors_text({error}) ==
          "kitchen.yaml:4:5: moisture: is \"78 %\" meant?\n    given: 78\n    allowed: 0 % to 100 "
          "%\n");
}

TEST_CASE("an error that names a repair says it once and has it typed") {
    Error error = feed::make_error(feed::ErrorCode::unit_missing, "worms", "3", "with a unit",
                                   "the unit is missing");
    error = offered(std::move(error), "; write ", {"3 kg", "3 lb", "3 oz"});
    CHECK(error.message == "the unit is missing; write \"3 kg\", \"3 lb\" or \"3 oz\"");
    REQUIRE(error.repairs.size() == 3);
    CHECK(error.repairs.front() == "3 kg");
}
