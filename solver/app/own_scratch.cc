#include "solver/app/own_scratch.h"

#include <cstdlib>
#include <string>
#include <system_error>

#include <stdlib.h> // mkdtemp, setenv: POSIX

namespace throughbend
{
namespace
{
constexpr const char *place_of_open_mpi = "OMPI_MCA_orte_tmpdir_base";

/// By a launcher, or by a user who chose the folder himself.
bool is_provided()
{
  for (const char *name : {"OMPI_COMM_WORLD_RANK", "PMI_RANK", place_of_open_mpi})
    if (std::getenv(name) != nullptr)
      return true;
  return false;
}
} // namespace

OwnScratch::OwnScratch()
{
  if (is_provided())
    return;
  std::error_code   none;
  const std::string temporary = std::filesystem::temp_directory_path(none).string();
  if (none)
    return;
  std::string name = temporary + "/throughbend-XXXXXX";
  if (mkdtemp(name.data()) == nullptr)
    return;
  folder_ = name;
  setenv(place_of_open_mpi, name.c_str(), 1);
}

OwnScratch::~OwnScratch()
{
  if (folder_.empty())
    return;
  unsetenv(place_of_open_mpi);
  std::error_code left_behind; // MPI may be clearing it up itself
  std::filesystem::remove_all(folder_, left_behind);
}
} // namespace throughbend
