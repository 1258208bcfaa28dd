#include "solver/fem/contact_patch.h"

#include <deal.II/base/mpi.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>
#include <vector>

namespace throughbend
{
namespace
{
/// A short length of the face under pressure.
struct Pressed
{
  double from = 0, to = 0; ///< along the coupon or, on an end, through it [mm]
  double pressure = 0;     ///< its part of the mean over the strip's width [MPa]
};
using Strip = std::vector<Pressed>;

/// Tool, face, and middle across the width (in 1e-6 mm): the cells that lie in one row
/// along the coupon.
using StripName = std::tuple<int, int, long long>;

/// A face's points on one line along the coupon or, on an end, through it.
struct LineOfPoints
{
  std::vector<std::size_t> points;
  double                   area   = 0; ///< that they stand for [mm^(dim-1)]
  double                   from   = 0; ///< where the face begins on the line [mm]
  double                   length = 0; ///< of the face on it [mm]
};

/// Begin and end of a face on a line along the coupon, or on an end through it, that lies
/// `across` from the mid-width [mm]. Cells that lean with a weld begin elsewhere on each.
template <int dim, typename Cell>
std::pair<dealii::Point<dim>, dealii::Point<dim>>
ends_of_line(const Cell &cell, const CouponFace name, const double across)
{
  const bool     along     = name == CouponFace::convex || name == CouponFace::concave;
  const unsigned first     = name == CouponFace::concave ? 2 : 0,
                 last      = first + (along ? 1 : 2);
  dealii::Point<dim> begin = cell->vertex(first), end = cell->vertex(last);
  if constexpr (dim == 3)
  {
    const auto at = [&](const unsigned near)
    {
      const dealii::Point<dim> a = cell->vertex(near), b = cell->vertex(near + 4);
      return a + (across - a[2]) / (b[2] - a[2]) * (b - a);
    };
    begin = at(first);
    end   = at(last);
  }
  return {begin, end};
}

/// Middle of a face across the width (in 1e-6 mm).
template <int dim, typename Cell>
long long middle_across(const Cell &cell)
{
  return dim == 3 ? std::llround(5e5 * (cell->vertex(0)[dim - 1] +
                                        cell->vertex(dim == 3 ? 4 : 0)[dim - 1]))
                  : 0;
}

/// The touching points of this rank's faces, as numbers that can be sent: tool, face,
/// middle of the strip, from, to, pressure.
template <int dim>
std::vector<double> touching(const CouponModel<dim>     &model,
                             const ContactAssembly<dim> &contact)
{
  std::vector<double> all;
  for (std::size_t f = 0; f < model.faces().size(); ++f)
  {
    const FaceData<dim> &face = model.faces()[f];
    const auto          &cell = model.cells()[face.cell].cell;
    const bool along = face.name == CouponFace::convex || face.name == CouponFace::concave;
    // Points by line; each stands for the length of its weight on the line, and each line
    // for its part of the strip's width.
    std::map<long long, LineOfPoints> lines;
    for (std::size_t q = 0; q < face.weight.size(); ++q)
    {
      LineOfPoints &line =
          lines[dim == 3 ? std::llround(1e6 * face.position[q][dim - 1]) : 0];
      line.points.push_back(q);
      line.area += face.weight[q];
    }
    double strip_width = 0;
    for (auto &[across, line] : lines)
    {
      const int d = along ? 0 : 1;
      std::sort(line.points.begin(), line.points.end(),
                [&](std::size_t a, std::size_t b)
                { return face.position[a][d] < face.position[b][d]; });
      const auto [begin, end] = ends_of_line<dim>(
          cell, face.name, dim == 3 ? 1e-6 * static_cast<double>(across) : 0.);
      line.from   = begin[d];
      line.length = begin.distance(end);
      strip_width += line.area / line.length;
    }
    const auto strip = static_cast<double>(middle_across<dim>(cell));
    const auto name  = static_cast<double>(static_cast<int>(face.name));
    for (const auto &[across, line] : lines)
    {
      const double part = line.area / line.length / strip_width;
      double       from = line.from;
      for (const std::size_t q : line.points)
      {
        const double to = from + line.length * face.weight[q] / line.area;
        for (std::size_t k = 0; k < contact.pieces().size(); ++k)
          if (const double pressure = part * contact.latest(f, q, k).pressure; pressure > 0)
          {
            const ToolPlace place = contact.tool_of(contact.pieces()[k]).place;
            const auto      tool  = static_cast<double>(tool_number(place));
            all.insert(all.end(), {tool, name, strip, from, to, pressure});
            // The half that is not modelled presses alike on a tool in the middle.
            if (model.extent() == Extent::half && along && place.side == ToolSide::middle)
              all.insert(all.end(), {tool, name, strip, -to, -from, pressure});
          }
        from = to;
      }
    }
  }
  return all;
}

/// Largest mean over a window of the length: one that begins or ends where a piece does.
double largest_mean(const Strip &strip, double length)
{
  const auto force_in = [&](double from, double to)
  {
    double force = 0;
    for (const Pressed &piece : strip)
      force += piece.pressure *
               std::max(0., std::min(piece.to, to) - std::max(piece.from, from));
    return force;
  };
  double largest = 0;
  for (const Pressed &piece : strip)
    largest = std::max({largest, force_in(piece.from, piece.from + length),
                        force_in(piece.to - length, piece.to)});
  return largest / length;
}

void look(const Strip &strip, double length, PatchFigures &figures)
{
  figures.smoothed = std::max(figures.smoothed, largest_mean(strip, length));
  double     force = 0, begin = 0;
  const auto finish = [&](double end)
  {
    if (force <= figures.line_load)
      return;
    figures.line_load = force;
    figures.length    = end - begin;
    figures.pressure  = force / figures.length;
  };
  double reached = 0; // lines of one strip overlap
  for (std::size_t i = 0; i < strip.size(); ++i)
  {
    if (i == 0 || strip[i].from - reached > length)
    {
      if (i > 0)
        finish(reached);
      begin = reached = strip[i].from;
      force           = 0;
    }
    reached = std::max(reached, strip[i].to);
    force += strip[i].pressure * (strip[i].to - strip[i].from);
  }
  if (!strip.empty())
    finish(reached);
}
} // namespace

template <int dim>
std::vector<PatchFigures> contact_patches(const CouponModel<dim>     &model,
                                          const ContactAssembly<dim> &contact,
                                          double                      length)
{
  std::map<StripName, Strip> strips;
  const std::vector<double>  own = touching(model, contact);
  for (const std::vector<double> &part :
       model.alone() ? std::vector<std::vector<double>>{own}
                     : dealii::Utilities::MPI::all_gather(model.communicator(), own))
    for (std::size_t i = 0; i + 5 < part.size(); i += 6)
      strips[{static_cast<int>(part[i]), static_cast<int>(part[i + 1]),
              std::llround(part[i + 2])}]
          .push_back({part[i + 3], part[i + 4], part[i + 5]});
  std::vector<PatchFigures> figures(tool_list().size());
  for (auto &[name, strip] : strips)
  {
    std::sort(strip.begin(), strip.end(),
              [](const Pressed &a, const Pressed &b) { return a.from < b.from; });
    look(strip, length, figures[static_cast<std::size_t>(std::get<0>(name))]);
  }
  return figures;
}

template std::vector<PatchFigures> contact_patches(const CouponModel<2> &,
                                                   const ContactAssembly<2> &, double);
template std::vector<PatchFigures> contact_patches(const CouponModel<3> &,
                                                   const ContactAssembly<3> &, double);
} // namespace throughbend
