#pragma once
// For tests that start MPI on one rank alone, as the program does not: a folder for the
// temporary files of MPI that no other test shares. Tests that start and end at the same
// moment would otherwise use one between them, and the one that ends may take it away while
// the other starts (Open MPI 4). No daemon is started beside the rank, either.

#include <filesystem>

namespace throughbend
{
/// To be made before MPI is started, and kept until it has ended. Where no folder can be
/// made, MPI goes on with the shared one.
class OwnScratch
{
public:
  OwnScratch();
  ~OwnScratch(); ///< takes the folder away
  OwnScratch(const OwnScratch &)            = delete;
  OwnScratch &operator=(const OwnScratch &) = delete;

  const std::filesystem::path &folder() const { return folder_; } ///< empty: shared

private:
  std::filesystem::path folder_;
};
} // namespace throughbend
