#pragma once
// A folder of a test's own under the system's place for temporary files, gone with it. Not
// for anything but tests.

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

namespace throughbend
{
class ScratchFolder
{
public:
  ScratchFolder()
  {
    std::string name =
        (std::filesystem::temp_directory_path() / "throughbend-test-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr)
      throw std::runtime_error("cannot make a scratch folder like " + name);
    path_ = name;
  }
  ~ScratchFolder()
  {
    std::error_code ignored;
    std::filesystem::permissions(path_, std::filesystem::perms::owner_all, ignored);
    std::filesystem::remove_all(path_, ignored);
  }
  ScratchFolder(const ScratchFolder &)            = delete;
  ScratchFolder &operator=(const ScratchFolder &) = delete;

  const std::filesystem::path &path() const { return path_; }
  std::filesystem::path operator/(const std::string &name) const { return path_ / name; }

private:
  std::filesystem::path path_;
};

inline std::string content(const std::filesystem::path &file)
{
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

inline void put_content(const std::filesystem::path &file, const std::string &text)
{
  std::ofstream(file, std::ios::binary) << text;
}
} // namespace throughbend
