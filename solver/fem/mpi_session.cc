#include "solver/fem/mpi_session.h"

#include <deal.II/base/config.h>
#include <deal.II/base/mpi.h>
#include <deal.II/base/multithread_info.h>

#include <petscversion.h>

#include <signal.h> // sigaction, alarm, setenv, getrlimit: POSIX
#include <stdlib.h>
#include <sys/resource.h>
#include <unistd.h>

#include <atomic>
#include <cstring>

namespace throughbend
{
namespace
{
/// Far more than MPI needs to start, on a loaded machine, too [s].
constexpr unsigned patience = 120;

constexpr int failed = 5; ///< as ExitCode::failed

std::atomic<bool> starting{false};
bool              tells = true;

/// The end where MPI ends the process itself, or never comes back.
[[noreturn]] void give_up(const char *what)
{
  constexpr const char *cure =
      " Is there room in the temporary folder (TMPDIR), and do the limits (ulimit -a) "
      "leave "
      "memory and file handles for it? One rank needs no MPI: leave mpirun out.\n";
  if (tells)
    for (const char *text : {"\nthroughbend: MPI, which several ranks need, ", what, cure})
      if (write(STDERR_FILENO, text, std::strlen(text)) < 0)
        break;
  _exit(failed);
}

extern "C" void too_long(int)
{
  give_up("has not started within two minutes.");
}

void ended_early()
{
  if (starting)
    give_up("could not be started.");
}

/// MPI ends the process itself, with a code and words of its own, where it gets no more
/// files: it opens some twenty of its own.
constexpr rlim_t fewest_files = 32;

/// Before MPI is started; what it is told goes through the environment.
void prepare()
{
  rlimit files{};
  if (getrlimit(RLIMIT_NOFILE, &files) == 0 && files.rlim_cur < fewest_files)
    give_up("cannot be started with fewer than 32 open files (ulimit -n).");
  // Ranks that wait give way to those that work, as there may be more of them than cores.
  setenv("OMPI_MCA_mpi_yield_when_idle", "1", 1);
  // Options of PETSc may name files and start programs. Ours are in the code.
  for (const char *options : {"PETSC_OPTIONS", "PETSC_OPTIONS_YAML"})
    unsetenv(options);
}
} // namespace

class MpiSession::Started
{
public:
  explicit Started(char *program)
      : words_{program, no_file_.data(), no_handler_.data(), nullptr}, own_(words_),
        mpi_(n_words_, own_, 1)
  {
  }

private:
  std::string no_file_    = "-skip_petscrc";      ///< no .petscrc
  std::string no_handler_ = "-no_signal_handler"; ///< signals are heeded elsewhere
  int         n_words_    = 3;
  char       *words_[4];
  char      **own_;
  dealii::Utilities::MPI::MPI_InitFinalize mpi_;
};

MpiSession::MpiSession(char *program, const StartSpeech speech)
{
  tells = speech == StartSpeech::tell;
  prepare();
  struct sigaction ours
  {
  }, before{};
  ours.sa_handler = too_long;
  sigaction(SIGALRM, &ours, &before);
  static const int registered = std::atexit(ended_early);
  static_cast<void>(registered);
  starting = true;
  alarm(patience);
  started_ = std::make_unique<Started>(program);
  alarm(0);
  starting = false;
  sigaction(SIGALRM, &before, nullptr);
}
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
