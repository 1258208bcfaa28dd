#pragma once
// MPI and the libraries below the mesh, for several ranks: begun once, ended with the
// object. One rank alone needs none of it. Nothing above needs to know which library does
// it. They take no options from the environment or from files in the working folder.

#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace throughbend
{
/// Whether this rank tells when MPI cannot be started: one of them does, for all.
enum class StartSpeech
{
  tell,
  keep_quiet
};

class MpiSession
{
public:
  /// `program` is argv[0]; the libraries get no word of the user's, so that they take none
  /// of ours for theirs. One thread each: BLAS and cells are shared out elsewhere. Where
  /// MPI ends the process, or does not come back, it ends with exit code 5 and a message.
  MpiSession(char *program, StartSpeech speech);
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
