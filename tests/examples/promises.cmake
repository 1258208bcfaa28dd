# Folders of examples that promise figures. One without what an example needs is an error: it
# would silently not be tested. A folder with a run-study keeps its own results.
#
# As a script, to look at a folder of examples: cmake -D EXAMPLES=FOLDER -P promises.cmake

function(throughbend_promising_examples examples result)
  if(CMAKE_SCRIPT_MODE_FILE)
    file(GLOB cases ${examples}/*/case.ini)
  else()
    file(GLOB cases CONFIGURE_DEPENDS ${examples}/*/case.ini)
  endif()
  set(found)
  foreach(case IN LISTS cases)
    get_filename_component(folder ${case} DIRECTORY)
    if(EXISTS ${folder}/run-study)
      continue()
    endif()
    foreach(part README.md expected.csv picture.png)
      if(NOT EXISTS ${folder}/${part})
        message(FATAL_ERROR "${folder} has no ${part}: see \"Add an example\" in DEVELOPERS.md.")
      endif()
    endforeach()
    list(APPEND found ${folder})
  endforeach()
  if(NOT found)
    message(FATAL_ERROR "${examples} has no example.")
  endif()
  set(${result} ${found} PARENT_SCOPE)
endfunction()

if(CMAKE_SCRIPT_MODE_FILE)
  throughbend_promising_examples(${EXAMPLES} found)
endif()
