# Settings that libfeed's own compiled targets share. Never applied to a parent project.
include_guard(GLOBAL)

# feed_own_target(<target>): warnings, no fused multiply-add, so that every compiler gives the same bits.
function(feed_own_target target)
    target_compile_options(${target} PRIVATE
        -Wall -Wextra -Wpedantic -Wconversion -ffp-contract=off
        $<$<BOOL:${FEED_WARNINGS_AS_ERRORS}>:-Werror>)
    # GCC 12 warns of overlapping memory in `"text" + std::string` when optimising; there is none
    # (GCC bug 105651, mended in 13). It also takes the memory of a vector for memory that cannot be
    # freed, deep inside the inlined destructor; the address sanitizer sees nothing of the kind.
    if(CMAKE_CXX_COMPILER_ID STREQUAL GNU AND CMAKE_CXX_COMPILER_VERSION VERSION_LESS 13)
        target_compile_options(${target} PRIVATE -Wno-restrict -Wno-free-nonheap-object)
    endif()
    set_target_properties(${target} PROPERTIES CXX_EXTENSIONS OFF C_EXTENSIONS OFF)
    if(FEED_HARDEN)
        feed_harden(${target})
    endif()
endfunction()

# feed_harden(<target>): what Debian builds its packages with (dpkg-buildflags, hardening=+all); the
# test of the packages reads it off the binaries.
function(feed_harden target)
    target_compile_options(${target} PRIVATE -fstack-protector-strong
        $<$<NOT:$<CONFIG:Debug>>:-U_FORTIFY_SOURCE> $<$<NOT:$<CONFIG:Debug>>:-D_FORTIFY_SOURCE=2>)
    get_target_property(kind ${target} TYPE)
    set_target_properties(${target} PROPERTIES POSITION_INDEPENDENT_CODE ON)
    if(kind STREQUAL EXECUTABLE OR kind STREQUAL SHARED_LIBRARY)
        target_link_options(${target} PRIVATE -Wl,-z,relro -Wl,-z,now)
    endif()
endfunction()

# feed_join_sources(<target> [<apart>...]): compiles a dozen sources as one where FEED_JOIN_SOURCES asks
# for it: the core's headers are then read and its templates made a few times instead of a hundred. What
# has names of its own that would clash is compiled apart. tests/tooling/alone.py shows that each source
# includes all it uses.
function(feed_join_sources target)
    if(FEED_JOIN_SOURCES)
        set_target_properties(${target} PROPERTIES UNITY_BUILD ON UNITY_BUILD_BATCH_SIZE 12)
        set_source_files_properties(${ARGN} PROPERTIES SKIP_UNITY_BUILD_INCLUSION ON)
    endif()
endfunction()

# feed_precompile(<target> <header>...): reads headers that every source of a target includes only once,
# where FEED_PRECOMPILE_HEADERS asks for it. The presets ask for it with Clang only: GCC 12 then loses
# sight of what is a system header and warns of it.
function(feed_precompile target)
    if(FEED_PRECOMPILE_HEADERS)
        target_precompile_headers(${target} PRIVATE ${ARGN})
    endif()
endfunction()
