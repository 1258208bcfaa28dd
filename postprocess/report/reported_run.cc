#include "postprocess/report/reported_run.h"

#include <optional>

namespace throughbend
{
ReportedRun reported_run(const std::string &folder, const ReportOrder &order,
                         const ReaderUnits &units)
{
  ReportedRun reported;
  reported.run = read_run_record(folder);
  if (compares_only(order))
    return reported;
  std::optional<ModelPart> part;
  if (!reported.run.word("made_with.model").empty())
    part = reported.run.right_half() ? ModelPart::right_half : ModelPart::whole;
  reported.shapes = read_pass_shapes(folder, part);
  if (order.pictures == Pictures::drawn && !reported.shapes.empty())
  {
    reported.pictures = run_pictures(reported.run, reported.shapes,
                                     shape_scale(reported.shapes), order.at, units);
    if (!order.index.empty())
      reported.telling = telling_picture(reported.run, reported.shapes, units);
  }
  return reported;
}

void save_pictures(const ReportedRun &reported)
{
  std::vector<RunPicture> pictures = reported.pictures;
  if (reported.telling)
    pictures.push_back(*reported.telling);
  if (!pictures.empty())
    save_pictures(reported.run, pictures);
}
} // namespace throughbend
