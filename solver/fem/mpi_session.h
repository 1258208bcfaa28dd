#pragma once
// MPI and the libraries below the mesh, for whoever starts the program: begun once, ended
// with the object. Nothing above needs to know which library does it.

#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace throughbend
{
class MpiSession
{
public:
  /// `program` is argv[0]; the libraries get no other word, so that they take none of ours
  /// for theirs. One thread each: BLAS and cells are shared out elsewhere.
  explicit MpiSession(char *program);
  ~MpiSession(); ///< waits for all ranks

  MpiSession(const MpiSession &)            = delete;
  MpiSession &operator=(const MpiSession &) = delete;

private:
  class Started;
  std::unique_ptr<Started> started_;
};

/// Gives the libraries below one thread, as MpiSession does, where no MPI is started: their
/// sums are taken in an order that depends on it, and a pass would differ in its last
/// digits.
void use_one_library_thread();

/// Name and version of what the numbers come from: deal.II, PETSc.
std::vector<std::pair<std::string, std::string>> fem_libraries();
} // namespace throughbend
