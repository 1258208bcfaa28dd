#pragma once
// Finds places for the words inside a chart so that they stand on no other words, on few
// lines, and not outside. Plain geometry in the chart's own units; draws nothing.

#include <string>
#include <vector>

namespace throughbend
{
struct LabelPlace
{
  double      x = 0, y = 0;     ///< of the anchor, on the base line of the letters
  const char *anchor = "start"; ///< "start", "middle", "end"
};

struct LabelBox
{
  double left = 0, top = 0, right = 0, bottom = 0;
};

class ChartLabels
{
public:
  explicit ChartLabels(const LabelBox &inside) : inside_(inside) {}

  void avoid_point(double x, double y);  ///< of a curve
  void avoid_line(const LabelBox &line); ///< level or upright; or a mark
  /// The best of the places for these words, the first of equals. It is taken from then on.
  LabelPlace put(const std::string &words, double size,
                 const std::vector<LabelPlace> &places);

  /// What words take up at a place, by the mean width of a letter.
  static LabelBox box(const std::string &words, double size, const LabelPlace &place);

private:
  double cost(const LabelBox &box) const;

  LabelBox              inside_;
  std::vector<LabelBox> taken_, lines_, points_;
};
} // namespace throughbend
