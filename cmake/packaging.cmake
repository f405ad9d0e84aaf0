# make package: the program and what it reads, as one Debian package in the build folder. Libraries it depends on are
# found by dpkg-shlibdeps.
install(TARGETS hourwright DESTINATION bin)
install(DIRECTORY ${CMAKE_SOURCE_DIR}/app/dist/ DESTINATION share/hourwright/app OPTIONAL)
install(DIRECTORY ${CMAKE_SOURCE_DIR}/library ${CMAKE_SOURCE_DIR}/demo DESTINATION share/hourwright OPTIONAL)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME hourwright)
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "Counts the hours that wear machine tools and says what maintenance is left")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_DEPENDS "fonts-dejavu-core, fonts-wqy-zenhei, tzdata")
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_MAINTAINER "Hourwright")
set(CPACK_STRIP_FILES ON)
include(CPack)
