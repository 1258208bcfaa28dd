#include "solver/study/passes/shape_watch.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
double distance(const PlaneVector point, const PlaneVector a, const PlaneVector b)
{
  const PlaneVector along = b - a;
  const double      span  = dot(along, along);
  const double share = span > 0 ? std::clamp(dot(point - a, along) / span, 0., 1.) : 0.;
  return length(point - a - share * along);
}

/// Marks what is needed between two points that stay (Douglas & Peucker 1973, Cartographica
/// 10, 112).
void mark(const std::vector<PlaneVector> &line, const std::size_t from,
          const std::size_t to, const double tolerance, std::vector<bool> &stays)
{
  double      most = tolerance;
  std::size_t at   = from;
  for (std::size_t i = from + 1; i < to; ++i)
    if (const double off = distance(line[i], line[from], line[to]); off > most)
    {
      most = off;
      at   = i;
    }
  if (at == from)
    return;
  stays[at] = true;
  mark(line, from, at, tolerance, stays);
  mark(line, at, to, tolerance, stays);
}
} // namespace

StudyOutline thinned(const std::string &name, const std::vector<PlaneVector> &line,
                     const double tolerance)
{
  StudyOutline outline;
  outline.name = name;
  if (line.empty())
    return outline;
  std::vector<bool> stays(line.size(), false);
  std::size_t       farthest = 0;
  for (std::size_t i = 0; i < line.size(); ++i)
    if (length(line[i] - line[0]) > length(line[farthest] - line[0]))
      farthest = i;
  stays[0] = stays[farthest] = stays.back() = true;
  mark(line, 0, farthest, tolerance, stays);
  mark(line, farthest, line.size() - 1, tolerance, stays);
  for (std::size_t i = 0; i < line.size(); ++i)
    if (stays[i])
    {
      outline.x.push_back(line[i].x);
      outline.y.push_back(line[i].y);
    }
  return outline;
}

void EvenMoments::put(StudyMoment moment)
{
  const double travel = moment.travel;
  kept_.push_back(std::move(moment));
  if (kept_.size() > 2 * fewest_)
  {
    std::vector<StudyMoment> half;
    for (std::size_t i = 0; i < kept_.size(); i += 2)
      half.push_back(std::move(kept_[i]));
    kept_ = std::move(half);
    spacing_ *= 2;
  }
  next_ = spacing_ * (std::floor(travel / spacing_) + 1);
}
} // namespace throughbend
