# Warnings for our own code only; errors in CI, so that a newer compiler does not stop a user.

add_library(throughbend_warnings INTERFACE)
target_compile_options(
  throughbend_warnings
  INTERFACE -Wall -Wextra -Wshadow -Wconversion -Wno-sign-conversion -Wpedantic
            $<$<BOOL:${THROUGHBEND_WARNINGS_AS_ERRORS}>:-Werror>)

if(THROUGHBEND_SANITIZE)
  target_compile_options(throughbend_warnings INTERFACE -fsanitize=address,undefined
                                                        -fno-omit-frame-pointer)
  target_link_options(throughbend_warnings INTERFACE -fsanitize=address,undefined)
endif()
