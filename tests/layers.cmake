# The order of the layers, and that its check can fail. Needs no build.

add_test(NAME layers COMMAND ${CMAKE_CURRENT_LIST_DIR}/layers ${CMAKE_SOURCE_DIR})
add_test(NAME layers_catches COMMAND ${CMAKE_CURRENT_LIST_DIR}/layers_catches)
set_tests_properties(layers layers_catches PROPERTIES LABELS unit)

# The picture of the folders in DEVELOPERS.md shows the includes as they are.
find_package(Python3 REQUIRED COMPONENTS Interpreter)
add_test(NAME rooms COMMAND ${Python3_EXECUTABLE} -B ${CMAKE_CURRENT_LIST_DIR}/draw_rooms --check)
set_tests_properties(rooms PROPERTIES LABELS unit TIMEOUT 60)
