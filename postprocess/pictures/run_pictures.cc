#include "postprocess/pictures/run_pictures.h"

#include "postprocess/pictures/picture_folder.h"
#include "postprocess/pictures/strain_picture.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
const std::string name_start = "strain_";

std::vector<std::size_t> chosen_shapes(const RunRecord &run, const PassShapes &shapes,
                                       const std::vector<double> &travels)
{
  std::vector<std::size_t> chosen;
  const auto               add = [&](const std::size_t i)
  {
    if (std::find(chosen.begin(), chosen.end(), i) == chosen.end())
      chosen.push_back(i);
  };
  if (!travels.empty())
  {
    for (const double travel : travels)
      add(shapes.nearest(travel));
    return chosen;
  }
  const double peak = run.peak_force_travel();
  if (std::isfinite(peak))
  {
    add(shapes.nearest(peak / 2));
    add(shapes.nearest(peak));
  }
  add(shapes.last_loaded());
  if (shapes.shapes.back().hold == Loading::released)
    add(shapes.shapes.size() - 1);
  return chosen;
}

/// Ram force at the step next to a shape's travel [N].
double force_near(const RunRecord &run, const double travel)
{
  const std::vector<double> way   = run.column("travel [mm]"),
                            force = run.column("ram force [N]");
  double best = std::numeric_limits<double>::quiet_NaN(), least = 0;
  for (std::size_t i = 0; i < std::min(way.size(), force.size()); ++i)
    if (i == 0 || std::abs(way[i] - travel) <= least)
    {
      least = std::abs(way[i] - travel);
      best  = force[i];
    }
  return best;
}

RunPicture picture_of(const RunRecord &run, const PassShapes &shapes, const Shape &shape,
                      const ShapeScale &scale, const ReaderUnits &units)
{
  RunPicture picture;
  if (shape.hold == Loading::released)
  {
    picture.heading = "released: tools taken away, sprung free";
    picture.file    = name_start + "released.png";
  }
  else
  {
    const double force = force_near(run, shape.travel);
    picture.heading    = "travel " + units.length(shape.travel) +
                      (std::isfinite(force) ? ", ram " + units.force(force) : "");
    picture.file = name_start + fmt::format("{:07.2f}_mm.png", shape.travel);
  }
  picture.bytes = strain_picture(shapes, shape, scale, picture.heading);
  return picture;
}
} // namespace

std::vector<RunPicture> run_pictures(const RunRecord &run, const PassShapes &shapes,
                                     const ShapeScale          &scale,
                                     const std::vector<double> &travels,
                                     const ReaderUnits         &units)
{
  std::vector<RunPicture> pictures;
  if (shapes.empty())
    return pictures;
  for (const std::size_t i : chosen_shapes(run, shapes, travels))
  {
    const Shape &shape = shapes.shapes[i];
    pictures.push_back(
        picture_of(run, shapes, shape, level_scale(scale, shapes, shape), units));
  }
  return pictures;
}

RunPicture telling_picture(const RunRecord &run, const PassShapes &shapes,
                           const ReaderUnits &units)
{
  const std::string outcome = run.word("finding.outcome");
  const double      peak    = run.peak_force_travel();
  const bool        left    = outcome == "through" || outcome == "dropped";
  const std::size_t i =
      left && std::isfinite(peak) ? shapes.nearest(peak) : shapes.last_loaded();
  const Shape &shape   = shapes.shapes[i];
  RunPicture   picture = picture_of(run, shapes, shape, closer_scale(shapes, shape), units);
  picture.file         = name_start + "telling.png";
  return picture;
}

void save_pictures(const RunRecord &run, const std::vector<RunPicture> &pictures)
{
  const PictureFolder folder(run.folder / "pictures", name_start, {".png"});
  for (const RunPicture &picture : pictures)
    folder.save(picture.file, picture.bytes);
}
} // namespace throughbend
