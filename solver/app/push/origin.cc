#include "solver/app/push/origin.h"

#include "inputs/keys/case_text.h"
#include "meshes/coupon/coupon_grading.h"
#include "postprocess/app/version.h"
#include "solver/app/process/blas.h"
#include "solver/fem/mpi_session.h"

#include <fmt/core.h>

#include <boost/version.hpp>

namespace throughbend
{
namespace
{
std::string model_name(const Case &c)
{
  const bool half = model_extent(c) == Extent::half;
  if (c.mesh.dimension == 2)
    return half ? "half" : "full";
  return half ? "quarter" : "half, cut along its length"; // 3D: mid-plane of the width
}

std::string dotted(int major, int minor, int patch)
{
  return fmt::format("{}.{}.{}", major, minor, patch);
}
} // namespace

RunOrigin run_origin(const Case &c, const std::string &case_file, const int ranks)
{
  const Blas blas = use_one_blas_thread();

  RunOrigin origin;
  origin.title        = c.title;
  origin.case_source  = case_file;
  origin.case_hash    = case_hash(c);
  origin.case_values  = case_values(c);
  origin.version      = program_version();
  origin.git_revision = git_revision();
  origin.started      = time_stamp();
  origin.blas         = blas.name;
  origin.blas_threads = blas.threads;
  origin.ranks        = ranks;
  origin.dimension    = c.mesh.dimension;
  origin.model        = model_name(c);
  origin.libraries    = fem_libraries();
  origin.libraries.emplace_back(
      "Boost",
      dotted(BOOST_VERSION / 100000, BOOST_VERSION / 100 % 1000, BOOST_VERSION % 100));
  origin.libraries.emplace_back("compiler", __VERSION__);
  return origin;
}
} // namespace throughbend
