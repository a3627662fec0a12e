#include "feed/feed.hpp"
// The whole core, compiled: every function that is no template.
int main() {
    return 0;
}
