# feed/version.hpp is committed so that the headers work with nothing but -I; it must repeat the
# version of the root CMakeLists.txt exactly. A build with FEED_WRITE_VERSION=ON rewrites it.
include_guard(GLOBAL)
set(feed_version_header ${CMAKE_CURRENT_LIST_DIR}/../include/feed/version.hpp)
configure_file(${CMAKE_CURRENT_LIST_DIR}/version.hpp.in ${PROJECT_BINARY_DIR}/version.hpp @ONLY)
if(FEED_WRITE_VERSION)
    configure_file(${PROJECT_BINARY_DIR}/version.hpp ${feed_version_header} COPYONLY)
endif()
file(READ ${PROJECT_BINARY_DIR}/version.hpp feed_version_wanted)
file(READ ${feed_version_header} feed_version_found)
if(NOT feed_version_wanted STREQUAL feed_version_found)
    message(FATAL_ERROR "libfeed/include/feed/version.hpp does not say ${PROJECT_VERSION}, "
        "the version in CMakeLists.txt. Run: cmake -B build -DFEED_WRITE_VERSION=ON")
endif()
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${feed_version_header})
