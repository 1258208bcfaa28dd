#include "solver/app/process/blas.h"

#include <dlfcn.h>

#include <filesystem>

namespace throughbend
{
namespace
{
template <typename Function>
Function *loaded(const char *name)
{
  return reinterpret_cast<Function *>(dlsym(RTLD_DEFAULT, name));
}

/// File of the library whose function of this name is the one that everybody gets.
std::string library_of(const char *name)
{
  Dl_info     about{};
  void *const function = dlsym(RTLD_DEFAULT, name);
  if (function == nullptr || dladdr(function, &about) == 0 || about.dli_fname == nullptr)
    return "";
  return std::filesystem::path(about.dli_fname).filename().string();
}
} // namespace

Blas use_one_blas_thread()
{
  const std::string file = library_of("dgemm_");
  if (file.empty())
    return {"none loaded", 0};
  if (file != library_of("openblas_get_config"))
    return {"not OpenBLAS but " + file, 1};
  if (auto *set_threads = loaded<void(int)>("openblas_set_num_threads"))
    set_threads(1);
  auto *config  = loaded<char *()>("openblas_get_config");
  auto *threads = loaded<int()>("openblas_get_num_threads");
  return {std::string(config()) + " (" + file + ")", threads != nullptr ? threads() : 0};
}
} // namespace throughbend
