#pragma once
// opening.csv: how far the lips of each flaw are apart at every accepted step, a row per
// row of travel.csv. Written only where the coupon has flaws; in mm, like every file.

#include "inputs/case/flaw.h"
#include "inputs/text/growing_file.h"
#include "solver/outcome/pass_sample.h"

#include <filesystem>

namespace throughbend
{
class OpeningRecord
{
public:
  /// Starts a new file with the line of heads.
  OpeningRecord(const std::filesystem::path &file, const Flaws &flaws);

  /// Adds one row; it is with the operating system when this returns. Throws
  /// WriteError when the disk does not take it.
  void add(const PassSample &sample);

private:
  GrowingFile out_;
};
} // namespace throughbend
