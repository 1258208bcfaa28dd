#pragma once
// A folder for the temporary files of MPI that no other run shares. Runs that start and end
// at the same moment would otherwise use one between them, and the one that ends may take
// it away while the other starts (Open MPI 4). A single rank is also told to start no
// daemon beside it. Ranks that a launcher started share its folder and its daemon instead.

#include <filesystem>

namespace throughbend
{
/// Whether mpirun, or another launcher of ranks, has started this process.
bool is_started_by_launcher();

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
