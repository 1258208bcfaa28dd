#pragma once
// A run with all that is read of it and drawn for it, so that its page and an index of
// several runs need to read it once. Lays nothing out.

#include "postprocess/pictures/run_pictures.h"
#include "postprocess/runs/run_record.h"
#include "postprocess/shapes/pass_shapes.h"
#include "postprocess/verbs/report_words.h"
#include "postprocess/words/reader_units.h"

#include <optional>

namespace throughbend
{
struct ReportedRun
{
  RunRecord                 run;
  PassShapes                shapes;
  std::vector<RunPicture>   pictures;
  std::optional<RunPicture> telling; ///< the one for an index, where there is to be one
};

/// With pictures, if they are asked for; writes nothing. Throws InputError for a folder
/// that is no run.
ReportedRun reported_run(const std::string &folder, const ReportOrder &order,
                         const ReaderUnits &units);

/// Writes its pictures, if it has any, into the run's folder.
void save_pictures(const ReportedRun &reported);
} // namespace throughbend
