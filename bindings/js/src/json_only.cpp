#include <string>
#include <string_view>

#include "feed/io/json_tree.hpp"

namespace feed::io {

// Where no reader of YAML is linked. JSON is read everywhere; a file in YAML is made an object by
// libfeed/yaml, or by whatever the caller has, before it comes here.
Result<YamlTree> parse_yaml(std::string_view text, std::string_view name,
                            const YamlLimits& limits) {
    const std::size_t start = text.find_first_not_of(" \t\r\n");
    if (start != std::string_view::npos && text[start] != '{')
        return make_error(ErrorCode::wrong_type, "file", "", "an object, or a text in JSON",
                          "this is no JSON: libfeed/yaml reads YAML", std::string(name));
    return parse_json(text, name, limits);
}

}  // namespace feed::io
