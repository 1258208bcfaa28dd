#include "inputs/text/own_file.h"

#include "inputs/text/input_error.h"

#include <array>
#include <fstream>

namespace throughbend
{
namespace fs = std::filesystem;

bool is_own_file(const fs::path &file, const std::string_view mark)
{
  std::error_code fault;
  if (!fs::is_regular_file(file, fault)) // opening a pipe would wait for ever
    return false;
  std::array<char, 4096> beginning{}; // marks stand within the first lines
  std::ifstream          in(file, std::ios::binary);
  in.read(beginning.data(), beginning.size());
  return std::string_view(beginning.data(), static_cast<std::size_t>(in.gcount()))
             .find(mark) != std::string_view::npos;
}

void check_place(const std::string &option, const fs::path &file,
                 const std::string_view mark, const ForeignFile foreign)
{
  const std::string place = "--" + option + " " + file.string() + ": ";
  std::error_code   fault;
  const fs::path    folder = file.parent_path();
  if (!file.has_filename() || fs::is_directory(file, fault))
    throw InputError(place + "that is a folder. Name a file in it.");
  if (!folder.empty() && !fs::is_directory(folder, fault))
    throw InputError(place + "there is no folder " + folder.string() +
                     " for it. Make it first: mkdir -p " + folder.string());
  if (!fs::exists(file, fault))
    return;
  if (!fs::is_regular_file(file, fault))
    throw InputError(place + "that is a pipe or device, and a file is needed. Choose "
                             "another name.");
  if (foreign == ForeignFile::replace || is_own_file(file, mark))
    return;
  throw InputError(place + "the file is there already, and is none that throughbend made "
                           "for this. Choose another name, or add --overwrite to replace "
                           "it.");
}
} // namespace throughbend
