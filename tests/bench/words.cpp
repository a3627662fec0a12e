// Time to read what people write: a phrase that matches, one with a slip, and the suggestion.
#include <cstdio>
#include <string>

#include "feed/feedstock/things.hpp"
#include "measure.hpp"

int main() {
    const auto time = [](const char* text) {
        const double ns = feed_bench::median_nanoseconds([&] {
            const auto read = feed::read_things(text);
            feed_bench::keep(read);
        });
        std::printf("%9.2f us  %s\n", ns / 1000.0, text);
    };
    std::printf("match\n");
    for (const char* text :
         {"1.2 kg coffee grounds", "3 apples", "2 banana peels", "a cup of coffee grounds",
          "half a bucket of leaves", "coffee grounds 1.2 kg", "500 g Kaffeesatz",
          "300 g frozen banana peels", "2 lb 3 oz potatoes"})
        time(text);
    std::printf("a list of three\n");
    time("3 apples, a cup of coffee grounds and 2 banana peels");
    std::printf("slip or suggestion\n");
    for (const char* text :
         {"200 g cofee grounds", "3 wibbles", "2 kg of purple sprouting brocolli tops",
          "1 kg unobtainium shavings extra"})
        time(text);
    std::printf("hostile, 4000 characters\n");
    std::string text;
    while (text.size() + 12 < feed::longest_list)
        text += "1 old and ";
    const double ns = feed_bench::median_nanoseconds([&] {
        const auto read = feed::read_things(text);
        feed_bench::keep(read);
    });
    std::printf("%9.2f us\n", ns / 1000.0);
}
