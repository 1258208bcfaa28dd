#include "solver/fem/mpi_session.h"

#include <deal.II/base/config.h>
#include <deal.II/base/mpi.h>
#include <deal.II/base/multithread_info.h>

#include <petscversion.h>

namespace throughbend
{
class MpiSession::Started
{
public:
  explicit Started(char *program)
      : words_{program, nullptr}, own_(words_), mpi_(n_words_, own_, 1)
  {
  }

private:
  int                                      n_words_ = 1;
  char                                    *words_[2];
  char                                   **own_;
  dealii::Utilities::MPI::MPI_InitFinalize mpi_;
};

MpiSession::MpiSession(char *program) : started_(std::make_unique<Started>(program)) {}
MpiSession::~MpiSession() = default;

void use_one_library_thread()
{
  dealii::MultithreadInfo::set_thread_limit(1);
}

std::vector<std::pair<std::string, std::string>> fem_libraries()
{
  return {{"deal.II", DEAL_II_PACKAGE_VERSION},
          {"PETSc", std::to_string(PETSC_VERSION_MAJOR) + "." +
                        std::to_string(PETSC_VERSION_MINOR) + "." +
                        std::to_string(PETSC_VERSION_SUBMINOR)}};
}
} // namespace throughbend
