#include "solver/app/process/launch.h"

#include <cstdlib>
#include <string>

namespace throughbend
{
bool is_started_by_launcher()
{
  for (const char *name : {"OMPI_COMM_WORLD_SIZE", "OMPI_COMM_WORLD_RANK", "PMIX_RANK",
                           "PMI_RANK", "PMI_SIZE"})
    if (std::getenv(name) != nullptr)
      return true;
  return false;
}

bool is_one_of_many()
{
  for (const char *name : {"OMPI_COMM_WORLD_SIZE", "PMI_SIZE"})
    if (const char *ranks = std::getenv(name); ranks != nullptr)
      return std::string(ranks) != "1";
  return is_started_by_launcher();
}
} // namespace throughbend
