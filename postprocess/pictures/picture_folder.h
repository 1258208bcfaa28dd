#pragma once
// The folder `pictures` of a run or a study, where a report leaves pictures in place of
// those of an earlier one. What others have put there stays.

#include <filesystem>
#include <initializer_list>
#include <string_view>

namespace throughbend
{
class PictureFolder
{
public:
  /// Makes the folder, and takes away the files that begin and end so. Throws InputError
  /// where it is a link or a file: a link would lead out of the run.
  PictureFolder(std::filesystem::path folder, std::string_view beginning,
                std::initializer_list<std::string_view> endings);

  /// Throws InputError where the folder does not take it, WriteError where the disk does
  /// not.
  void save(const std::string &name, std::string_view bytes) const;

private:
  std::filesystem::path folder_;
};

/// Writes a page. Throws InputError, with the cure, where another place would do, and
/// WriteError where the disk does not take it.
void save_page(const std::filesystem::path &file, std::string_view html);
} // namespace throughbend
