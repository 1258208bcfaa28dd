#pragma once
// A file that grows line by line as a run goes, so that a killed run leaves every line it
// made. A link in its place is never written through. What is not to be seen half-made is
// written by inputs/text/whole_file.

#include <filesystem>
#include <string_view>

namespace throughbend
{
class GrowingFile
{
public:
  enum class Start
  {
    anew,
    append ///< to what is there
  };

  /// Throws WriteError when it cannot be opened, or is a link.
  GrowingFile(std::filesystem::path file, Start start);
  ~GrowingFile();
  GrowingFile(const GrowingFile &)            = delete;
  GrowingFile &operator=(const GrowingFile &) = delete;

  /// With the operating system when this returns. Throws WriteError with the reason where
  /// it does not take all.
  void put(std::string_view text);

  /// Nothing can be put into it after.
  void close();

  const std::filesystem::path &file() const { return file_; }

private:
  std::filesystem::path file_;
  int                   descriptor_ = -1;
};
} // namespace throughbend
