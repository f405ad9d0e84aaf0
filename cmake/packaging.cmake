# make package: the program and what it reads, as one Debian package in the build folder. Libraries it depends on are
# found by dpkg-shlibdeps. Manual page and completions are made by the program itself.
set(package_files ${CMAKE_SOURCE_DIR}/packaging)
set(made_files ${CMAKE_BINARY_DIR}/packaged)

function(made_by_the_program name)
  add_custom_command(OUTPUT ${made_files}/${name}
    COMMAND ${CMAKE_COMMAND} -E make_directory ${made_files}
    COMMAND hourwright help ${ARGN} > ${made_files}/${name}
    DEPENDS hourwright VERBATIM)
endfunction()
made_by_the_program(hourwright.1 --man)
made_by_the_program(hourwright.bash --completion bash)
made_by_the_program(hourwright.fish --completion fish)
add_custom_command(OUTPUT ${made_files}/hourwright.1.gz
  COMMAND gzip -9nkf ${made_files}/hourwright.1 DEPENDS ${made_files}/hourwright.1 VERBATIM)
add_custom_target(packaged DEPENDS ${made_files}/hourwright.1.gz ${made_files}/hourwright.bash ${made_files}/hourwright.fish)

install(TARGETS hourwright DESTINATION bin)
install(DIRECTORY ${CMAKE_SOURCE_DIR}/app/dist DESTINATION share/hourwright/app OPTIONAL)
install(FILES ${CMAKE_SOURCE_DIR}/api/openapi.yaml DESTINATION share/hourwright/api)
install(DIRECTORY ${CMAKE_SOURCE_DIR}/library ${CMAKE_SOURCE_DIR}/demo DESTINATION share/hourwright)
install(FILES ${made_files}/hourwright.1.gz DESTINATION share/man/man1)
install(FILES ${made_files}/hourwright.bash DESTINATION share/bash-completion/completions RENAME hourwright)
install(FILES ${made_files}/hourwright.fish DESTINATION share/fish/vendor_completions.d)
install(FILES ${package_files}/hourwright.service ${package_files}/hourwright-edge.service
  DESTINATION /lib/systemd/system)
install(FILES ${package_files}/hourwright.toml DESTINATION /etc/hourwright)
file(WRITE ${made_files}/conffiles "/etc/hourwright/hourwright.toml\n")

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME hourwright)
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "Counts the hours that wear machine tools and says what maintenance is left")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_DEPENDS "adduser, fonts-dejavu-core, fonts-wqy-zenhei, tzdata")
set(CPACK_DEBIAN_PACKAGE_SECTION misc)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_MAINTAINER "Hourwright")
set(CPACK_DEBIAN_PACKAGE_CONTROL_EXTRA ${package_files}/preinst ${package_files}/postinst ${package_files}/prerm
    ${package_files}/postrm ${made_files}/conffiles)
set(CPACK_STRIP_FILES ON)
include(CPack)
