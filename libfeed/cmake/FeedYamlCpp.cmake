# feed::yaml_cpp - one name for yaml-cpp, whose target is "yaml-cpp" up to 0.7 and
# "yaml-cpp::yaml-cpp" from 0.8. Included by the build and, once installed, by find_package(libfeed).
include_guard(GLOBAL)
find_package(yaml-cpp REQUIRED GLOBAL)
add_library(feed::yaml_cpp INTERFACE IMPORTED GLOBAL)
if(TARGET yaml-cpp::yaml-cpp)
    set_target_properties(feed::yaml_cpp PROPERTIES INTERFACE_LINK_LIBRARIES yaml-cpp::yaml-cpp)
else()
    set_target_properties(feed::yaml_cpp PROPERTIES INTERFACE_LINK_LIBRARIES yaml-cpp)
endif()
