#include "solver/app/companion.h"

#include "inputs/input_error.h"

#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>

namespace throughbend
{
void become(const std::string &name, const std::vector<std::string> &words)
{
  namespace fs             = std::filesystem;
  const fs::path  here     = fs::read_symlink("/proc/self/exe").parent_path();
  const fs::path  places[] = {here / name,
                              here.parent_path() / "libexec/throughbend" / name};
  std::error_code fault;
  for (const fs::path &place : places)
    if (fs::exists(place, fault))
    {
      const std::string   program   = place.string();
      std::vector<char *> arguments = {const_cast<char *>(program.c_str())};
      for (const std::string &word : words)
        arguments.push_back(const_cast<char *>(word.c_str()));
      arguments.push_back(nullptr);
      ::execv(program.c_str(), arguments.data());
      throw std::runtime_error("cannot start " + program + ": " + std::strerror(errno));
    }
  throw InputError("the program " + name +
                   " is missing: it belongs beside throughbend or " + places[1].string() +
                   ". Build or install all of throughbend.");
}
} // namespace throughbend
