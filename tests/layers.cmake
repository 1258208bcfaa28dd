# The order of the layers, and that its check can fail. Needs no build.

add_test(NAME layers COMMAND ${CMAKE_CURRENT_LIST_DIR}/layers ${CMAKE_SOURCE_DIR})
add_test(NAME layers_catches COMMAND ${CMAKE_CURRENT_LIST_DIR}/layers_catches)
set_tests_properties(layers layers_catches PROPERTIES LABELS unit)
