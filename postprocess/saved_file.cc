#include "postprocess/saved_file.h"

#include "inputs/input_error.h"

#include <fstream>

namespace throughbend
{
void save_file(const std::filesystem::path &file, const std::string &bytes)
{
  std::filesystem::path aside = file;
  aside += ".part";
  std::ofstream out(aside, std::ios::binary);
  out << bytes;
  out.close();
  std::error_code reason;
  if (out)
    std::filesystem::rename(aside, file, reason);
  if (out && !reason)
    return;
  std::error_code ignored;
  std::filesystem::remove(aside, ignored);
  throw InputError(file.string() +
                   ": cannot be written. Is its folder there, with room and "
                   "open to you? --page FILE puts the page elsewhere, "
                   "--no-pictures leaves the pictures out.");
}
} // namespace throughbend
