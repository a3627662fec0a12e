#include <string>

#include "command.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/io/json_writer.hpp"
#include "feed/version.hpp"

namespace feed_command {

int run_version(const Arguments& arguments) {
    if (!arguments.words.empty())
        return refuse(arguments, wrong_words(arguments, "this command takes no words"));
    if (arguments.json()) {
        feed::io::JsonWriter json;
        json.begin_object();
        json.member("version", feed::library_version);
        json.member("table_version", feed::table_version());
        json.member("table_sha256", feed::table_content_hash());
        json.end_object();
        return print(json.take());
    }
    std::string text = "feed " + std::string(feed::library_version) + "\ntable " +
                       std::string(feed::table_version()) + ", " +
                       feed::io::counted(feed::feedstock_count(), "feedstock") + ", sha256 " +
                       std::string(feed::table_content_hash().substr(0, 16)) + "...\n";
    return print(text);
}

}  // namespace feed_command
