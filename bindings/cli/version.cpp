#include <string>

#include "command.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/io/answers.hpp"
#include "feed/version.hpp"

namespace feed_command {

int run_version(Arguments& arguments) {
    if (!arguments.words.empty())
        return refuse(arguments, wrong_words(arguments, "this command takes no words"));
    if (arguments.json()) return print(feed::io::version_json());
    std::string text = "feed " + std::string(feed::library_version) + "\ntable " +
                       std::string(feed::table_version()) + ", " +
                       feed::io::counted(feed::feedstock_count(), "feedstock") + ", sha256 " +
                       std::string(feed::table_content_hash().substr(0, 16)) + "...\n";
    return print(text);
}

}  // namespace feed_command
