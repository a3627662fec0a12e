// A stranger's program that uses the compiled YAML and JSON layer.
#include <feed/feed.hpp>
#include <feed/io/human_text.hpp>
#include <feed/io/json_writer.hpp>
#include <string>

int main() {
    feed::io::JsonWriter json;
    json.begin_object();
    json.member("wet_mass", feed::io::mass_text(feed::grams(170.0), feed::io::UnitSystem::metric));
    json.end_object();
    return json.take() == "{\n  \"wet_mass\": \"170 g\"\n}\n" ? 0 : 1;
}
