// Catch2's main for programs without MPI.
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
