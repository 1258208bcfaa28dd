#include "postprocess/charts/chart_labels.h"

namespace throughbend
{
namespace
{
constexpr double letter = 0.6; // mean width over size, of sans serif letters

bool overlap(const LabelBox &a, const LabelBox &b)
{
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
} // namespace

LabelBox ChartLabels::box(const std::string &words, const double size,
                          const LabelPlace &place)
{
  const double      wide = letter * size * static_cast<double>(words.size());
  const std::string side = place.anchor;
  const double      left = side == "start" ? place.x
                           : side == "end" ? place.x - wide
                                           : place.x - wide / 2;
  return {left, place.y - 0.8 * size, left + wide, place.y + 0.25 * size};
}

void ChartLabels::avoid_point(const double x, const double y)
{
  points_.push_back({x - 1, y - 1, x + 1, y + 1});
}

void ChartLabels::avoid_line(const LabelBox &line)
{
  lines_.push_back(line);
}

double ChartLabels::cost(const LabelBox &box) const
{
  double sum = 0;
  if (box.left < inside_.left || box.right > inside_.right || box.top < inside_.top ||
      box.bottom > inside_.bottom)
    sum += 1000;
  for (const LabelBox &other : taken_)
    sum += overlap(box, other) ? 500 : 0;
  for (const LabelBox &line : lines_)
    sum += overlap(box, line) ? 20 : 0;
  for (const LabelBox &point : points_)
    sum += overlap(box, point) ? 1 : 0;
  return sum;
}

LabelPlace ChartLabels::put(const std::string &words, const double size,
                            const std::vector<LabelPlace> &places)
{
  LabelPlace best;
  double     least = -1;
  for (const LabelPlace &place : places)
    if (const double here = cost(box(words, size, place)); least < 0 || here < least)
    {
      least = here;
      best  = place;
    }
  taken_.push_back(box(words, size, best));
  return best;
}
} // namespace throughbend
