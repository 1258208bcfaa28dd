#pragma once
// A .pvd file: which shape file belongs to which time, for viewers. Rewritten whole with
// every entry, so that a killed run leaves one that opens. Times here are mm of travel.

#include <filesystem>
#include <map>
#include <string>

namespace throughbend
{
class PvdIndex
{
public:
  /// Names a file; nothing is written yet.
  explicit PvdIndex(std::filesystem::path file) : file_(std::move(file)) {}

  /// Adds or replaces the file `name`, which lies beside the .pvd, and writes the .pvd.
  void put(const std::string &name, double time);

  const std::map<std::string, double> &times() const { return times_; }
  /// Holds these and no others, and writes the .pvd; without any there is none.
  void hold(std::map<std::string, double> times);

private:
  void write() const;

  std::filesystem::path         file_;
  std::map<std::string, double> times_; // by name, so that a file stands in it once
};
} // namespace throughbend
