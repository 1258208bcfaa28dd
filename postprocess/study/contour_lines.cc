#include "postprocess/study/contour_lines.h"

#include <array>
#include <cmath>
#include <map>

namespace throughbend
{
namespace
{
/// An edge of a cell: column and row of its two ends, left before right, below before
/// above.
using Edge = std::array<std::size_t, 4>;

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
    for (const ContourField::Cell &one : field.cells)
      cell(one.left, one.below, one.right, one.above);
    if (field.cells.empty())
      for (std::size_t j = 0; j + 1 < field.y.size(); ++j)
        for (std::size_t i = 0; i + 1 < field.x.size(); ++i)
          cell(i, j, i + 1, j + 1);
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

  void cell(const std::size_t i, const std::size_t j, const std::size_t i2,
            const std::size_t j2)
  {
    const std::array<std::array<std::size_t, 2>, 4> corners = {
        {{i, j}, {i2, j}, {i2, j2}, {i, j2}}};
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
    const Edge below = {i, j, i2, j}, right = {i2, j, i2, j2}, top = {i, j2, i2, j2},
               left   = {i, j, i, j2};
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
    const auto [i, j, i2, j2] = edge;
    const double a = value(i, j), b = value(i2, j2);
    const double part = (level_ - a) / (b - a);
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
