# What needs no build: the order of the layers and the pages, and that their checks can fail.

add_test(NAME layers COMMAND ${CMAKE_CURRENT_LIST_DIR}/layers ${CMAKE_SOURCE_DIR})
add_test(NAME layers_catches COMMAND ${CMAKE_CURRENT_LIST_DIR}/layers_catches)
set_tests_properties(layers layers_catches PROPERTIES LABELS unit)

# The picture of the folders in DEVELOPERS.md shows the includes as they are.
find_package(Python3 REQUIRED COMPONENTS Interpreter)
add_test(NAME rooms COMMAND ${Python3_EXECUTABLE} -B ${CMAKE_CURRENT_LIST_DIR}/draw_rooms --check)
set_tests_properties(rooms PROPERTIES LABELS unit TIMEOUT 300)

# No page of the repository links to what is not there.
add_test(NAME page_links COMMAND ${Python3_EXECUTABLE} -B ${CMAKE_CURRENT_LIST_DIR}/page_links)
add_test(NAME page_links_catches COMMAND ${CMAKE_CURRENT_LIST_DIR}/page_links_catches)
set_tests_properties(page_links page_links_catches PROPERTIES LABELS unit TIMEOUT 300)

# No two types of one name.
add_test(NAME one_name COMMAND ${Python3_EXECUTABLE} -B ${CMAKE_CURRENT_LIST_DIR}/one_name ${CMAKE_SOURCE_DIR} ${CMAKE_BINARY_DIR})
add_test(NAME one_name_catches COMMAND ${CMAKE_CURRENT_LIST_DIR}/one_name_catches)
set_tests_properties(one_name one_name_catches PROPERTIES LABELS unit TIMEOUT 300)
