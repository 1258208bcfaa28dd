#include "postprocess/study/contour_lines.h"

#include <array>
#include <cmath>
#include <map>

namespace throughbend
{
namespace
{
/// An edge of the grid: from a point to the next one right (0) or up (1) of it.
using Edge = std::array<std::size_t, 3>;

struct Piece
{
  Edge from, to;
  bool used = false;
};

class Tracer
{
public:
  Tracer(const ContourField &field, const double level) : field_(field), level_(level)
  {
    for (std::size_t j = 0; j + 1 < field.y.size(); ++j)
      for (std::size_t i = 0; i + 1 < field.x.size(); ++i)
        square(i, j);
  }

  std::vector<Points> curves()
  {
    std::map<Edge, std::vector<std::size_t>> ends;
    for (std::size_t p = 0; p < pieces_.size(); ++p)
    {
      ends[pieces_[p].from].push_back(p);
      ends[pieces_[p].to].push_back(p);
    }
    std::vector<Points> all;
    const auto          follow = [&](const std::size_t first, Edge at)
    {
      Points      curve = {place(at)};
      std::size_t p     = first;
      while (true)
      {
        pieces_[p].used = true;
        at              = pieces_[p].from == at ? pieces_[p].to : pieces_[p].from;
        curve.push_back(place(at));
        std::size_t next = p;
        for (const std::size_t q : ends[at])
          if (!pieces_[q].used)
            next = q;
        if (next == p)
          break;
        p = next;
      }
      all.push_back(curve);
    };
    for (const auto &[edge, pieces] : ends) // open curves from their ends
      if (pieces.size() == 1 && !pieces_[pieces[0]].used)
        follow(pieces[0], edge);
    for (std::size_t p = 0; p < pieces_.size(); ++p) // closed ones
      if (!pieces_[p].used)
        follow(p, pieces_[p].from);
    return all;
  }

private:
  std::size_t index(const std::size_t i, const std::size_t j) const
  {
    return j * field_.x.size() + i;
  }
  double value(const std::size_t i, const std::size_t j) const
  {
    return field_.values[index(i, j)];
  }

  void square(const std::size_t i, const std::size_t j)
  {
    const std::array<std::array<std::size_t, 2>, 4> corners = {
        {{i, j}, {i + 1, j}, {i + 1, j + 1}, {i, j + 1}}};
    int    above = 0;
    double mean  = 0;
    for (std::size_t c = 0; c < 4; ++c)
    {
      const auto [a, b] = corners[c];
      const double v    = value(a, b);
      if (!std::isfinite(v))
        return;
      if (!field_.groups.empty() &&
          field_.groups[index(a, b)] != field_.groups[index(i, j)])
        return;
      above |= v >= level_ ? 1 << c : 0;
      mean += v / 4;
    }
    // The edges around: below, right, above, left.
    const Edge below = {i, j, 0}, right = {i + 1, j, 1}, top = {i, j + 1, 0},
               left   = {i, j, 1};
    const auto add    = [&](const Edge &a, const Edge &b) { pieces_.push_back({a, b}); };
    const bool inside = mean >= level_;
    switch (above)
    {
    case 1:
    case 14:
      return add(left, below);
    case 2:
    case 13:
      return add(below, right);
    case 3:
    case 12:
      return add(left, right);
    case 4:
    case 11:
      return add(right, top);
    case 6:
    case 9:
      return add(below, top);
    case 7:
    case 8:
      return add(top, left);
    case 5: // lower left and upper right above
      add(left, inside ? top : below);
      return add(right, inside ? below : top);
    case 10:
      add(left, inside ? below : top);
      return add(right, inside ? top : below);
    default:
      return;
    }
  }

  std::pair<double, double> place(const Edge &edge) const
  {
    const auto [i, j, up] = edge;
    const std::size_t i2 = i + (up == 0 ? 1 : 0), j2 = j + up;
    const double      a = value(i, j), b = value(i2, j2);
    const double      part = (level_ - a) / (b - a);
    return {field_.x[i] + part * (field_.x[i2] - field_.x[i]),
            field_.y[j] + part * (field_.y[j2] - field_.y[j])};
  }

  const ContourField &field_;
  double              level_;
  std::vector<Piece>  pieces_;
};
} // namespace

std::vector<Points> contour_lines(const ContourField &field, const double level)
{
  return Tracer(field, level).curves();
}
} // namespace throughbend
