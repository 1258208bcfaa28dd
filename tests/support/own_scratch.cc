#include "own_scratch.h"

#include "solver/app/process/launch.h"

#include <cstdlib>
#include <string>
#include <system_error>

#include <stdlib.h> // mkdtemp, setenv: POSIX

namespace throughbend
{
namespace
{
constexpr const char *place_of_open_mpi = "OMPI_MCA_orte_tmpdir_base";
constexpr const char *alone_of_open_mpi = "OMPI_MCA_ess_singleton_isolated";
} // namespace

OwnScratch::OwnScratch()
{
  if (is_started_by_launcher())
    return;
  // One rank needs no daemon (orted) beside it, which Open MPI 4 starts in case the rank
  // should want to start others. What the user has chosen himself stays.
  setenv(alone_of_open_mpi, "1", 0);
  if (std::getenv(place_of_open_mpi) != nullptr)
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
