#include "command.hpp"
#include "feed/io/door.hpp"
#include "feed/io/text_file.hpp"
#include "feed/io/to_json.hpp"
#include "file_or_entries.hpp"

namespace feed_command {

int run_call(Arguments& arguments) {
    if (arguments.words.size() != 1)
        return refuse(arguments, wrong_words(arguments, "one request is due: a file, or -"));
    const std::string& name = arguments.words[0];
    const auto request =
        name == "-" ? feed::Result<std::string>(standard_input()) : feed::io::read_text_file(name);
    if (!request) return refuse(arguments, request.errors());
    const auto answer = feed::io::answer_request(*request);
    // Whoever asks in JSON is answered in JSON, an error too.
    return answer ? print(*answer) : print(feed::io::to_json(answer.errors()), bad_input);
}

}  // namespace feed_command
