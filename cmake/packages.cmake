# The libraries throughbend stands on, each as one target of our own choosing.

set(CMAKE_CXX_FLAGS_RELEASE "-O3 -DNDEBUG" CACHE STRING "" FORCE)
find_package(deal.II 9.4 REQUIRED QUIET)
find_package(Boost 1.74 REQUIRED COMPONENTS program_options)
find_package(Threads REQUIRED)
find_package(VTK 9.1 REQUIRED QUIET COMPONENTS CommonCore CommonDataModel IOXML IOImage
                                               RenderingCore RenderingFreeType)

# KLU factorises the one-rank systems; OpenBLAS serves UMFPACK, MUMPS and whatever else
# asks for BLAS.
find_path(KLU_INCLUDE_DIR klu.h PATH_SUFFIXES suitesparse REQUIRED)
find_library(KLU_LIBRARY klu REQUIRED)
find_library(OPENBLAS_LIBRARY openblas REQUIRED)
add_library(throughbend_klu INTERFACE)
target_include_directories(throughbend_klu SYSTEM INTERFACE ${KLU_INCLUDE_DIR})
target_link_libraries(throughbend_klu INTERFACE ${KLU_LIBRARY})

# deal_ii_setup_target() uses the signature-less target_link_libraries and insists on two
# build types; these few lines say the same with PRIVATE/PUBLIC intact and any build type.
# gold: Debian's default linker needs half a minute per executable against deal.II.
# OpenBLAS stands before deal.II and is kept although we call nothing of it: the loader looks
# BLAS symbols up in this order, so deal.II's solvers get it even where the distribution's
# default BLAS is the slow reference one.
include(${DEAL_II_TARGET_CONFIG})
add_library(throughbend_dealii INTERFACE)
target_include_directories(throughbend_dealii SYSTEM INTERFACE ${DEAL_II_INCLUDE_DIRS})
target_compile_definitions(throughbend_dealii INTERFACE ${DEAL_II_USER_DEFINITIONS}
                                                        $<$<CONFIG:Debug>:DEBUG>)
target_compile_options(throughbend_dealii INTERFACE -Wno-psabi)
target_link_libraries(
  throughbend_dealii
  INTERFACE -Wl,--push-state,--no-as-needed ${OPENBLAS_LIBRARY} -Wl,--pop-state
            $<IF:$<CONFIG:Debug>,deal.ii.g,deal.ii> ${CMAKE_DL_LIBS})
target_link_options(throughbend_dealii INTERFACE -fuse-ld=gold)
