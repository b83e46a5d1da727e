# What `cmake --install` puts where, and the Debian package that `cpack` makes of it.
set(contact "fallwright developers <fallwright@users.invalid>")
set(texts ${CMAKE_CURRENT_BINARY_DIR}/texts)
set(made fallwright.1.gz fallwright-job.5.gz job.schema.json report.schema.json fallwright.bash fallwright.zsh fallwright.fish changelog.gz)
list(TRANSFORM made PREPEND ${texts}/)
add_custom_command(OUTPUT ${made}
  COMMAND ${CMAKE_COMMAND} -DFALLWRIGHT=$<TARGET_FILE:fallwright> -DVERSION=${PROJECT_VERSION} "-DCONTACT=${contact}"
          -DCHANGELOG=${PROJECT_SOURCE_DIR}/docs/changelog.md -DOUT=${texts} -P ${CMAKE_CURRENT_SOURCE_DIR}/texts.cmake
  DEPENDS fallwright ${PROJECT_SOURCE_DIR}/docs/changelog.md ${CMAKE_CURRENT_SOURCE_DIR}/texts.cmake VERBATIM)
add_custom_target(texts ALL DEPENDS ${made})

set(share ${CMAKE_INSTALL_DATAROOTDIR})
set(doc ${CMAKE_INSTALL_DOCDIR})
set(CMAKE_INSTALL_DEFAULT_COMPONENT_NAME program)
install(TARGETS fallwright)
install(TARGETS fallwright-step LIBRARY DESTINATION ${module_folder})
install(FILES ${texts}/fallwright.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${texts}/fallwright-job.5.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man5)
install(FILES ${texts}/job.schema.json ${texts}/report.schema.json DESTINATION ${share}/fallwright)
install(FILES ${texts}/fallwright.bash DESTINATION ${share}/bash-completion/completions RENAME fallwright)
install(FILES ${texts}/fallwright.fish DESTINATION ${share}/fish/vendor_completions.d)
# zsh looks for those of packages, and for those of this machine, in folders of different names.
foreach(folder site-functions vendor-completions)
  install(FILES ${texts}/fallwright.zsh DESTINATION ${share}/zsh/${folder} RENAME _fallwright COMPONENT ${folder})
endforeach()
# As they lie beside each other here, so that their links hold; jobs to begin from are in params.
install(DIRECTORY ${PROJECT_SOURCE_DIR}/docs ${PROJECT_SOURCE_DIR}/params DESTINATION ${doc})
install(FILES ${PROJECT_SOURCE_DIR}/README.md DESTINATION ${doc})
install(DIRECTORY ${PROJECT_SOURCE_DIR}/src/rules/books/ DESTINATION ${doc}/rule-books)
install(FILES ${texts}/changelog.gz ${CMAKE_CURRENT_SOURCE_DIR}/copyright DESTINATION ${doc})
install(FILES ${PROJECT_SOURCE_DIR}/LICENSE DESTINATION ${doc} COMPONENT licence)  # Debian has it already

# The library: one archive of all rooms, with the header that others include and what it is linked with.
set(rooms units points diag survey job brep parts intake measure rules study takeoff revision drawing exchange report page app)
set(archive ${CMAKE_CURRENT_BINARY_DIR}/libfallwright.a)
list(TRANSFORM rooms REPLACE "(.+)" "$<TARGET_FILE:\\1>" OUTPUT_VARIABLE archives)
add_custom_command(OUTPUT ${archive}
  COMMAND ${CMAKE_COMMAND} -DAR=${CMAKE_AR} -DOUT=${archive} "-DARCHIVES=${archives}" -P ${CMAKE_CURRENT_SOURCE_DIR}/one_archive.cmake
  DEPENDS ${rooms} ${CMAKE_CURRENT_SOURCE_DIR}/one_archive.cmake VERBATIM)
add_custom_target(library ALL DEPENDS ${archive})
get_target_property(kernel occ INTERFACE_LINK_LIBRARIES)
get_target_property(kernel_exchange occ_exchange INTERFACE_LINK_LIBRARIES)
list(REMOVE_ITEM kernel_exchange occ)
set(linked ${kernel_exchange} ${kernel} spdlog fmt tomlplusplus glpk nettle cairo z mpfr gmp tbb)
file(RELATIVE_PATH prefix_from_config /p/${CMAKE_INSTALL_LIBDIR}/cmake/fallwright /p)
configure_file(fallwright-config.cmake.in fallwright-config.cmake @ONLY)
include(CMakePackageConfigHelpers)
write_basic_package_version_file(${CMAKE_CURRENT_BINARY_DIR}/fallwright-config-version.cmake COMPATIBILITY SameMajorVersion)
set(CMAKE_INSTALL_DEFAULT_COMPONENT_NAME development)
install(FILES fallwright.hpp DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})
install(FILES ${archive} DESTINATION ${CMAKE_INSTALL_LIBDIR})
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/fallwright-config.cmake ${CMAKE_CURRENT_BINARY_DIR}/fallwright-config-version.cmake
  DESTINATION ${CMAKE_INSTALL_LIBDIR}/cmake/fallwright)
install(FILES ${texts}/changelog.gz ${CMAKE_CURRENT_SOURCE_DIR}/copyright DESTINATION ${share}/doc/libfallwright-dev)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_CONTACT "${contact}")
set(CPACK_DEBIAN_FALLWRIGHT_DESCRIPTION "solids, numbers and drawings for a sloped shower base
For the person who fits a stiff, pre-sloped shower base and a framed bench
into an alcove. From one job file every part is built as an exact solid,
measured, checked against limits of building codes, and drawn: 3D model,
shop drawings, cut list, buy list and report.")
set(CPACK_DEBIAN_DEVELOPMENT_DESCRIPTION "library of fallwright, to load, check and build jobs
One header with results as plain values, one archive, and a CMake package.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_COMPONENTS_GROUPING ONE_PER_GROUP)
set(CPACK_COMPONENTS_ALL program vendor-completions development)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_FALLWRIGHT_PACKAGE_NAME fallwright)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libfallwright-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SHLIBDEPS OFF)
string(CONCAT needed "libocct-foundation-dev, libocct-modeling-data-dev, libocct-modeling-algorithms-dev, libocct-data-exchange-dev, "
  "libocct-ocaf-dev, libocct-visualization-dev, libtbb-dev, libspdlog-dev, libtomlplusplus-dev, nettle-dev, libglpk-dev, libcairo2-dev, "
  "libgmp-dev, libmpfr-dev, zlib1g-dev, fonts-osifont")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS "${needed}")
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS "fonts-osifont")  # letters of the sheets; shlibdeps finds the rest
include(CPack)
cpack_add_component(program GROUP fallwright)
cpack_add_component(vendor-completions GROUP fallwright)
cpack_add_component(development GROUP development)
