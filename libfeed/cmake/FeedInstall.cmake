# Install rules: find_package(libfeed), pkg-config, and the components the packages are made of:
# "library" (what programs need at run time), "dev" (what a C program is built with), "cpp" (headers,
# static libraries and build files for C++), "command".
include_guard(GLOBAL)
include(GNUInstallDirs)
include(CMakePackageConfigHelpers)
set(feed_package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/libfeed)

install(TARGETS feed_core EXPORT libfeedTargets)
install(DIRECTORY ${PROJECT_SOURCE_DIR}/libfeed/include/feed DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}
        COMPONENT cpp FILES_MATCHING PATTERN "*.hpp")
if(TARGET feed_io)
    install(TARGETS feed_io EXPORT libfeedTargets
            ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT cpp)
    install(FILES ${CMAKE_CURRENT_LIST_DIR}/FeedYamlCpp.cmake DESTINATION ${feed_package_dir} COMPONENT cpp)
endif()
if(TARGET feed_c)
    install(TARGETS feed_c EXPORT libfeedTargets
            LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT library NAMELINK_COMPONENT dev)
    # Whoever links the static C library links the YAML layer and what that needs.
    target_link_libraries(feed_c_static INTERFACE $<INSTALL_INTERFACE:$<LINK_ONLY:feed::io>>)
    install(TARGETS feed_c_static EXPORT libfeedTargets
            ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR} COMPONENT cpp)
    install(DIRECTORY ${PROJECT_SOURCE_DIR}/bindings/c/include/feed
            DESTINATION ${CMAKE_INSTALL_INCLUDEDIR} COMPONENT dev FILES_MATCHING PATTERN "*.h")
endif()
if(TARGET feed_command)
    install(TARGETS feed_command RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR} COMPONENT command)
    install(FILES ${PROJECT_SOURCE_DIR}/bindings/cli/feed.1
            DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT command)
    install(FILES ${PROJECT_SOURCE_DIR}/bindings/cli/feed.bash RENAME feed
            DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions COMPONENT command)
endif()

# feed_package_terms(<component> <package>): each package states its terms.
function(feed_package_terms component package)
    install(FILES ${PROJECT_SOURCE_DIR}/LICENSE RENAME copyright
            DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/${package} COMPONENT ${component})
endfunction()
feed_package_terms(cpp libfeed-cpp-dev)
if(TARGET feed_c)
    feed_package_terms(dev libfeed-dev)
    feed_package_terms(library libfeed${PROJECT_VERSION_MAJOR})
endif()
if(TARGET feed_command)
    feed_package_terms(command libfeed-command)
endif()

install(EXPORT libfeedTargets NAMESPACE feed:: DESTINATION ${feed_package_dir} COMPONENT cpp)
configure_package_config_file(${CMAKE_CURRENT_LIST_DIR}/libfeedConfig.cmake.in
    ${PROJECT_BINARY_DIR}/libfeedConfig.cmake INSTALL_DESTINATION ${feed_package_dir})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/libfeedConfigVersion.cmake
    COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/libfeedConfig.cmake ${PROJECT_BINARY_DIR}/libfeedConfigVersion.cmake
        DESTINATION ${feed_package_dir} COMPONENT cpp)

# feed_pkg_config(<name> <component>): fills <name>.pc.in beside this file and installs it.
function(feed_pkg_config name component)
    configure_file(${CMAKE_CURRENT_FUNCTION_LIST_DIR}/${name}.pc.in ${PROJECT_BINARY_DIR}/${name}.pc @ONLY)
    install(FILES ${PROJECT_BINARY_DIR}/${name}.pc
            DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig COMPONENT ${component})
endfunction()
feed_pkg_config(libfeed-core cpp)
if(TARGET feed_io)
    feed_pkg_config(libfeed-io cpp)
endif()
if(TARGET feed_c)
    feed_pkg_config(libfeed dev)
endif()
