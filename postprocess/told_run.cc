#include "postprocess/told_run.h"

#include <optional>

namespace throughbend
{
ToldRun tell_run(const std::string &folder, const ReportOrder &order,
                 const ReaderUnits &units)
{
  ToldRun told;
  told.run = read_run_record(folder);
  if (compares_only(order))
    return told;
  std::optional<ModelPart> part;
  if (!told.run.word("made_with.model").empty())
    part = told.run.right_half() ? ModelPart::right_half : ModelPart::whole;
  told.shapes = read_pass_shapes(folder, part);
  if (order.pictures == Pictures::drawn && !told.shapes.empty())
  {
    told.pictures =
        run_pictures(told.run, told.shapes, shape_scale(told.shapes), order.at, units);
    if (!order.index.empty())
      told.telling = telling_picture(told.run, told.shapes, units);
  }
  return told;
}

void save_pictures(const ToldRun &told)
{
  std::vector<RunPicture> pictures = told.pictures;
  if (told.telling)
    pictures.push_back(*told.telling);
  if (!pictures.empty())
    save_pictures(told.run, pictures);
}
} // namespace throughbend
