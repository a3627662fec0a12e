# Read after project() in the copy of the sources: every C++ file sees the switches.
get_filename_component(switches ${CMAKE_SOURCE_DIR}/libfeed/include/feed/mutant.hpp ABSOLUTE)
add_compile_options("$<$<COMPILE_LANGUAGE:CXX>:SHELL:-include ${switches}>" -w -ferror-limit=0)
