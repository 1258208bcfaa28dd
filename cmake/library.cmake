# throughbend_library(NAME SOURCE...): a library of ours, with includes written from the root.
function(throughbend_library name)
  add_library(${name} STATIC ${ARGN})
  target_include_directories(${name} PUBLIC ${CMAKE_SOURCE_DIR})
  target_link_libraries(${name} PUBLIC fmt::fmt PRIVATE throughbend_warnings)
endfunction()
