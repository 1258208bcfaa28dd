#pragma once
// log.txt: how the computation went, line by line as it goes, for whoever has to judge or
// repair it. For people; what programs read is in run.json and travel.csv.

#include "inputs/text/growing_file.h"
#include "solver/outcome/pass_sample.h"
#include "solver/record/run_summary.h"

#include <filesystem>
#include <string>
#include <vector>

namespace throughbend
{
/// What is computed with; known once the model stands.
struct ModelSize
{
  long long   cells = 0, dofs = 0;
  int         ranks = 1;
  std::string model;  ///< "half", "full", "quarter"
  std::string solver; ///< of the linear systems
};

class RunLog
{
public:
  using Start = GrowingFile::Start; ///< append: to that of an earlier part of the pass
  RunLog(const std::filesystem::path &file, Start start);

  /// From here on the steps after `step` are made again.
  void resumed(const std::string &when, int step, double travel);

  void origin(const RunOrigin &origin, const std::vector<std::string> &remarks);
  void model(const ModelSize &size);
  void step(const PassSample &sample); ///< one line
  void note(const std::string &line);
  void end(const RunSummary &summary);

private:
  void put(const std::string &line); ///< with the operating system when this returns

  GrowingFile out_;
  bool        headed_ = false;
};
} // namespace throughbend
