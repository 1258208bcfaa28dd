# What `cmake --install` puts where, and the Debian package that CPack makes of it. The
# front goes to bin; the program that loads deal.II to libexec, where only the front looks.

include(GNUInstallDirs)

# Manual page and completions come from the program's own table of words, so that they
# cannot say anything else than --help.
set(words ${CMAKE_BINARY_DIR}/words)
file(MAKE_DIRECTORY ${words})
add_custom_command(
  OUTPUT ${words}/throughbend.1 ${words}/throughbend.bash ${words}/_throughbend
  COMMAND throughbend manual > ${words}/throughbend.1
  COMMAND throughbend completion bash > ${words}/throughbend.bash
  COMMAND throughbend completion zsh > ${words}/_throughbend
  DEPENDS throughbend
  COMMENT "Writing the manual page and the shells' completions")
add_custom_target(throughbend_words_files ALL DEPENDS ${words}/throughbend.1)

install(TARGETS throughbend RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(TARGETS throughbend-push throughbend-study throughbend-metal throughbend-report
        RUNTIME DESTINATION ${CMAKE_INSTALL_LIBEXECDIR}/throughbend)
install(FILES ${words}/throughbend.1 DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(
  FILES ${words}/throughbend.bash
  DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions
  RENAME throughbend)
install(FILES ${words}/_throughbend DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions)
install(FILES README.md CHANGELOG.md DESTINATION ${CMAKE_INSTALL_DOCDIR})
foreach(folder inputs meshes solver postprocess tests/verify examples)
  install(FILES ${folder}/README.md DESTINATION ${CMAKE_INSTALL_DOCDIR}/${folder})
endforeach()
install(FILES LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR} RENAME copyright)
install(FILES solver/record/formats/run.schema.json solver/record/formats/columns.csv
        DESTINATION ${CMAKE_INSTALL_DATADIR}/throughbend)
install(FILES solver/record/formats/README.md DESTINATION ${CMAKE_INSTALL_DOCDIR} RENAME run-folder.md)
install(FILES examples/paraview.md DESTINATION ${CMAKE_INSTALL_DOCDIR}/examples)
install(DIRECTORY examples/python DESTINATION ${CMAKE_INSTALL_DOCDIR}/examples USE_SOURCE_PERMISSIONS)
install(DIRECTORY examples/kestrel-haven DESTINATION ${CMAKE_INSTALL_DOCDIR}/examples)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME throughbend)
set(CPACK_PACKAGE_VENDOR "the throughbend authors")
set(CPACK_PACKAGE_CONTACT "the throughbend authors <throughbend@kestrel-haven.invalid>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "pushes a weld-test coupon through a guided-bend fixture")
set(CPACK_PACKAGE_DESCRIPTION
    "Says before steel is cut whether a coupon goes through a guided-bend fixture or stops,
 and why: instant closed-form screening, and a finite-strain elastoplastic
 frictional-contact finite-element simulation of the whole pass.")
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON) # asks dpkg-shlibdeps which packages our libraries are in
set(CPACK_DEBIAN_PACKAGE_DEPENDS libmumps-seq-5.5) # loaded at run time, so it cannot know
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
include(CPack)
