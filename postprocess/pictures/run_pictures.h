#pragma once
// Which moments of a run are drawn, what is written above each picture, and under which
// name it is kept. The drawing is postprocess/pictures/strain_picture.

#include "postprocess/runs/run_record.h"
#include "postprocess/shapes/shape_scale.h"
#include "postprocess/words/reader_units.h"

namespace throughbend
{
struct RunPicture
{
  std::string heading; ///< travel and ram force, or that the coupon is released
  std::string file;    ///< name in the folder of pictures
  std::string bytes;   ///< a PNG file
};

/// At the kept shapes nearest to the travels [mm], or at those that tell the most.
std::vector<RunPicture> run_pictures(const RunRecord &run, const PassShapes &shapes,
                                     const ShapeScale          &scale,
                                     const std::vector<double> &travels,
                                     const ReaderUnits         &units);

/// The one moment that tells the most: the peak force where the coupon left the fixture,
/// else where it stopped. There must be a shape.
RunPicture telling_picture(const RunRecord &run, const PassShapes &shapes,
                           const ReaderUnits &units);

/// Keeps them in `pictures` of the run's folder, in place of those of an earlier report.
void save_pictures(const RunRecord &run, const std::vector<RunPicture> &pictures);
} // namespace throughbend
