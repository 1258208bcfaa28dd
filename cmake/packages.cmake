# The libraries throughbend stands on, each as one target of our own choosing.

set(CMAKE_CXX_FLAGS_RELEASE "-O3 -DNDEBUG" CACHE STRING "" FORCE)
find_package(deal.II 9.4 REQUIRED QUIET)
find_package(Boost 1.74 REQUIRED COMPONENTS program_options)
find_package(Threads REQUIRED)
find_package(nlohmann_json 3.11 REQUIRED)
find_package(fmt 9.1 REQUIRED)
find_package(SQLite3 3.40 REQUIRED)
find_package(Ceres 2.1 REQUIRED QUIET) # least squares; only what fits readings loads it
find_package(ZLIB REQUIRED) # unpacks the shapes of a run
find_path(MUPARSER_INCLUDE_DIR muParser.h REQUIRED)
find_library(MUPARSER_LIBRARY muparser REQUIRED)
find_package(VTK 9.1 REQUIRED QUIET COMPONENTS CommonCore CommonDataModel IOXML IOImage
                                               RenderingCore RenderingFreeType)

# The direct solvers of one rank: KLU, CHOLMOD and UMFPACK (SuiteSparse), needed by Debian's
# deal.II too, and MUMPS in single precision as it is built without MPI, which is loaded at
# run time (solver/fem/sole_mumps). OpenBLAS serves them all.
find_path(SUITESPARSE_INCLUDE_DIR klu.h PATH_SUFFIXES suitesparse REQUIRED)
find_path(MUMPS_INCLUDE_DIR smumps_c.h REQUIRED)
find_library(KLU_LIBRARY klu REQUIRED)
find_library(CHOLMOD_LIBRARY cholmod REQUIRED)
find_library(SOLE_MUMPS_LIBRARY NAMES smumps_seq-5.5 smumps_seq REQUIRED)
get_filename_component(SOLE_MUMPS_FILE ${SOLE_MUMPS_LIBRARY} NAME)
find_library(OPENBLAS_LIBRARY openblas REQUIRED)
add_library(throughbend_direct_solvers INTERFACE)
target_include_directories(throughbend_direct_solvers SYSTEM
                           INTERFACE ${SUITESPARSE_INCLUDE_DIR} ${MUMPS_INCLUDE_DIR})
target_link_libraries(throughbend_direct_solvers INTERFACE ${KLU_LIBRARY} ${CHOLMOD_LIBRARY})

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
