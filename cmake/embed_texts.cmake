# throughbend_embed_texts(target NAME...): catalogue/NAME.csv of the calling folder becomes
# `std::string_view NAME_csv()` inside the program, so that it needs no installed path.
# Editing a table makes the source anew at the next build.
function(throughbend_embed_texts target)
  set(source ${CMAKE_CURRENT_BINARY_DIR}/catalogue_texts.cc)
  set(tables ${ARGN})
  list(TRANSFORM tables PREPEND ${CMAKE_CURRENT_SOURCE_DIR}/catalogue/)
  list(TRANSFORM tables APPEND .csv)
  set(writer ${PROJECT_SOURCE_DIR}/cmake/write_texts.cmake)
  add_custom_command(
    OUTPUT ${source}
    COMMAND ${CMAKE_COMMAND} "-DTABLES=${tables}" -DFILE=${source} -P ${writer}
    DEPENDS ${tables} ${writer}
    COMMENT "Embedding the catalogues"
    VERBATIM)
  # The library belongs to another folder, which does not see this folder's rule.
  add_custom_target(${target}_texts DEPENDS ${source})
  add_dependencies(${target} ${target}_texts)
  set_source_files_properties(${source} TARGET_DIRECTORY ${target} PROPERTIES GENERATED ON)
  target_sources(${target} PRIVATE ${source})
endfunction()
