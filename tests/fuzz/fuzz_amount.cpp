// Amounts, names and lists of things as people type them: any bytes give a value or an error.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "feed/feedstock/amount.hpp"
#include "feed/feedstock/amount_mass.hpp"
#include "feed/feedstock/preparation.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/feedstock/things.hpp"

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

void expect_range(const feed::MassFromAmount& mass) {
    expect(std::isfinite(mass.wet_mass.in_kilograms()));
    expect(mass.low.in_kilograms() <= mass.wet_mass.in_kilograms() * (1.0 + 1e-9));
    expect(mass.high.in_kilograms() >= mass.wet_mass.in_kilograms() * (1.0 - 1e-9));
}

/// A text is understood or asked about, in pieces that are no more than the text.
void read_list(std::string_view text, const feed::KeeperWords& keeper) {
    const auto read = feed::read_things(text, keeper);
    expect(!read.things.empty() || !read.questions.empty());
    for (const auto& thing : read.things) {
        expect(thing.feedstock != nullptr && !thing.words.empty());
        expect(thing.barred == (thing.feedstock->stance == feed::Stance::avoid));
        expect_range(thing.mass);
    }
    for (const auto& question : read.questions)
        expect(!question.message.empty());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    const feed::Container bucket{"bucket", feed::litres(10.0)};
    const feed::Meaning meaning{"bananas", "banana peels"};
    const feed::KeeperWords keeper{{&bucket, 1}, {}, {&meaning, 1}};
    if (const auto amount = feed::parse_amount(text, keeper.containers)) {
        expect(std::isfinite(amount->count) && amount->count > 0.0);
        expect(amount->low_share <= 1.0 + 1e-9 && amount->high_share >= 1.0 - 1e-9);
        static const auto carrot = feed::feedstock_at(*feed::find_id("carrot"));
        const auto mass = feed::wet_mass_of(*amount, carrot);
        if (mass)
            expect_range(*mass);
        else
            expect_errors(mass);
    } else {
        expect_errors(amount);
    }
    if (const auto both = feed::parse_amount_and_words(text, keeper.containers))
        expect(!both->words.empty());
    else
        expect_errors(both);
    (void)feed::parse_preparation(text);
    if (size <= 400) read_list(text, keeper);
    return 0;
}
