#include "postprocess/pictures/picture_folder.h"

#include "inputs/text/input_error.h"
#include "inputs/text/whole_file.h"

#include <algorithm>
#include <system_error>
#include <utility>
#include <vector>

namespace throughbend
{
namespace fs = std::filesystem;

namespace
{
const std::string cure = " --no-pictures leaves the pictures out.";
}

PictureFolder::PictureFolder(fs::path folder, const std::string_view beginning,
                             const std::initializer_list<std::string_view> endings)
    : folder_(std::move(folder))
{
  std::error_code       reason;
  const fs::file_status there = fs::symlink_status(folder_, reason);
  if (fs::is_symlink(there))
    throw InputError(folder_.string() +
                     " is a link, and pictures are not written through links. Replace "
                     "it by a folder, or remove it." +
                     cure);
  if (!fs::is_directory(there) && !fs::create_directory(folder_, reason))
    throw InputError(folder_.string() + ": cannot be made: " +
                     (reason ? reason.message() : std::string("it is a file")) + "." +
                     cure);
  std::vector<fs::path> earlier;
  for (const fs::directory_entry &entry : fs::directory_iterator(folder_, reason))
  {
    const std::string file = entry.path().filename().string();
    const fs::path    name = name_of_aside(file).value_or(file);
    if (name.string().rfind(beginning, 0) == 0 &&
        std::find(endings.begin(), endings.end(), name.extension().string()) !=
            endings.end() &&
        !fs::is_directory(entry.symlink_status(reason)))
      earlier.push_back(entry.path());
  }
  for (const fs::path &file : earlier)
    fs::remove(file, reason);
}

void PictureFolder::save(const std::string &name, const std::string_view bytes) const
{
  try
  {
    write_whole_file(folder_ / name, bytes, FolderLink::refuse);
  }
  catch (const WriteError &fault)
  {
    if (fault.is_of_the_place())
      throw InputError(fault.what() + cure);
    throw;
  }
}

void save_page(const fs::path &file, const std::string_view html)
{
  try
  {
    write_whole_file(file, html);
  }
  catch (const WriteError &fault)
  {
    if (fault.is_of_the_place())
      throw InputError(std::string(fault.what()) + " --page FILE puts the page elsewhere.");
    throw;
  }
}
} // namespace throughbend
