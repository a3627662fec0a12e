/* A stranger's program that uses the C library. */
#include <feed/feed.h>
#include <string.h>

int main(void) {
    feed_version_info version;
    version.struct_size = sizeof version;
    if (feed_version(&version, NULL) != FEED_OK) return 1;
    return strcmp(version.library_version, CONSUMER_EXPECTS) == 0 ? 0 : 1;
}
