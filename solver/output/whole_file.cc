#include "solver/output/whole_file.h"

#include <cerrno>
#include <fstream>
#include <stdexcept>
#include <system_error>

namespace throughbend
{
void write_whole_file(const std::filesystem::path &file, const std::string_view text)
{
  const std::filesystem::path aside = file.string() + ".part";
  const auto                  fail  = [&](const std::error_code &reason)
  {
    std::error_code ignored;
    std::filesystem::remove(aside, ignored);
    throw std::runtime_error("cannot write " + file.string() + ": " + reason.message() +
                             ". Is the disk full, or the folder not yours to write in?");
  };

  errno = 0;
  std::ofstream out(aside, std::ios::binary | std::ios::trunc);
  out.write(text.data(), static_cast<std::streamsize>(text.size()));
  out.close();
  if (!out)
    fail({errno != 0 ? errno : EIO, std::generic_category()});

  std::error_code reason;
  std::filesystem::rename(aside, file, reason);
  if (reason)
    fail(reason);
}
} // namespace throughbend
