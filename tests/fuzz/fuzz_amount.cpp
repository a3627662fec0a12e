// Amounts and preparations as people type them: any bytes give a value or an error.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "feed/feedstock/amount_mass.hpp"
#include "feed/feedstock/preparation.hpp"
#include "feed/feedstock/table.hpp"

namespace {

void expect(bool holds) {
    if (!holds) std::abort();
}

template <class T>
void expect_errors(const feed::Result<T>& result) {
    expect(!result.errors().empty());
    for (const auto& error : result.errors())
        expect(!error.message.empty());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    const feed::Container bucket{"bucket", feed::litres(10.0)};
    const std::span<const feed::Container> containers(&bucket, 1);
    if (const auto amount = feed::parse_amount(text, containers)) {
        expect(std::isfinite(amount->count) && amount->count > 0.0);
        static const auto carrot = feed::feedstock_at(*feed::find_id("carrot"));
        const auto mass = feed::wet_mass_of(*amount, carrot);
        if (mass)
            expect(std::isfinite(mass->wet_mass.in_kilograms()));
        else
            expect_errors(mass);
    } else {
        expect_errors(amount);
    }
    if (const auto both = feed::parse_amount_and_words(text, containers))
        expect(!both->words.empty());
    else
        expect_errors(both);
    (void)feed::parse_preparation(text);
    return 0;
}
