#include "tests/verify/bent_strip.h"

#include <deal.II/base/quadrature_lib.h>
#include <deal.II/grid/grid_generator.h>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double tiny = 1e-9;

dealii::Triangulation<2> strip(const StripMesh &mesh)
{
  dealii::Triangulation<2> shape;
  dealii::GridGenerator::subdivided_hyper_rectangle(
      shape, {static_cast<unsigned>(mesh.along), static_cast<unsigned>(mesh.layers)},
      dealii::Point<2>(0, 0),
      dealii::Point<2>(mesh.along * mesh.cell_length, BentStrip::thickness));
  return shape;
}

bool is_held(const dealii::Point<2> &node, unsigned component)
{
  return node[0] < tiny && (component == 0 || node[1] < tiny);
}
} // namespace

BentStrip::BentStrip(const StripMesh &mesh, const ZoneMaterial &metal)
    : mesh_(mesh), length_(mesh.along * mesh.cell_length),
      body_(strip(mesh), is_held, metal, [](const auto &...) { return 0.; })
{
  const auto &nodes = model().nodes();
  for (unsigned i = 0; i < nodes.size(); ++i)
    if (nodes[i][0] > length_ - tiny)
      (body_.component(i) == 0 ? end_x_ : end_y_).push_back(i);
  for (auto *const end : {&end_x_, &end_y_})
    std::sort(end->begin(), end->end(),
              [&](unsigned a, unsigned b) { return nodes[a][1] < nodes[b][1]; });

  // A node of the plane lies at distance d along the normal and s along the plane: its x
  // unknown stands for the change of s, the one shared unknown for that of d.
  body_.guide(1,
              [this](double angle)
              {
                const double            c = std::cos(angle), s = std::sin(angle);
                const unsigned          d = model().n_dofs();
                std::map<unsigned, Tie> ties;
                for (std::size_t k = 0; k < end_x_.size(); ++k)
                {
                  const unsigned x = end_x_[k];
                  const double   y = model().nodes()[x][1];
                  ties[x]          = {length_ * c - y * s - length_, {{d, c}, {x, -s}}};
                  ties[end_y_[k]]  = {length_ * s + y * c - y, {{d, s}, {x, c}}};
                }
                return ties;
              });
}

void BentStrip::bend(double bend, int steps, const std::function<void()> &look)
{
  body_.go(bend * length_ / thickness, steps, look);
}

double BentStrip::bending() const
{
  return body_.load() * thickness / length_;
}

double BentStrip::moment() const
{
  const double c = std::cos(body_.load()), s = std::sin(body_.load());
  double       moment = 0;
  for (std::size_t k = 0; k < end_x_.size(); ++k)
  {
    const unsigned x = end_x_[k], y = end_y_[k];
    const double   px = length_ + body_.displacement()[x],
                 py   = model().nodes()[y][1] + body_.displacement()[y];
    moment -= (c * body_.forces()[x] + s * body_.forces()[y]) * (c * py - s * px);
  }
  return moment;
}

/// The two end planes meet in the bend's centre, so r = x / sin(angle).
double BentStrip::radius_at(double y) const
{
  const double height = thickness / mesh_.layers;
  const auto   cell =
      static_cast<std::size_t>(std::clamp(int(y / height), 0, mesh_.layers - 1));
  const double e    = y / height - static_cast<double>(cell);
  const double N[3] = {(1 - e) * (1 - 2 * e), 4 * e * (1 - e), e * (2 * e - 1)};
  double       x    = 0;
  for (std::size_t a = 0; a < 3; ++a)
    x += N[a] * (length_ + body_.displacement()[end_x_[2 * cell + a]]);
  return x / std::sin(body_.load());
}

/// - dr/dy
double BentStrip::shrinkage_at(double y) const
{
  const double step = 1e-3 * thickness / mesh_.layers;
  return (radius_at(y - step) - radius_at(y + step)) / (2 * step);
}

double BentStrip::inner_radius() const
{
  return radius_at(thickness);
}
double BentStrip::outer_radius() const
{
  return radius_at(0);
}
double BentStrip::outer_log() const
{
  return std::log(body_.load() * outer_radius() / length_);
}
double BentStrip::inner_log() const
{
  return std::log(body_.load() * inner_radius() / length_);
}

/// Calls look(x, y, number of the point).
template <typename Look>
void BentStrip::for_each_point(Look look) const
{
  const dealii::QGauss<2> rule(3);
  for (std::size_t c = 0; c < model().cells().size(); ++c)
  {
    const auto corner = model().cells()[c].cell->vertex(0);
    for (unsigned q = 0; q < rule.size(); ++q)
      look(corner[0] + mesh_.cell_length * rule.point(q)[0],
           corner[1] + thickness / mesh_.layers * rule.point(q)[1],
           body_.equilibrium().point(c, q));
  }
}

std::vector<DepthPoint> BentStrip::across() const
{
  std::map<long, std::pair<DepthPoint, int>, std::greater<>> rows;
  for_each_point(
      [&](double x, double y, std::size_t point)
      {
        const double   turned = body_.load() * x / length_;
        const double   c = std::cos(turned), s = std::sin(turned);
        const Matrix3 &tau = body_.equilibrium().kirchhoff(point);
        const double   xx = tau[0][0], yy = tau[1][1], xy = tau[0][1];
        auto &[row, count] = rows[std::lround(y * 1e6)];
        row.radius         = radius_at(y);
        row.span           = shrinkage_at(y) * thickness / mesh_.layers;
        row.hoop += c * c * xx + s * s * yy + 2 * c * s * xy;
        row.radial += s * s * xx + c * c * yy - 2 * c * s * xy;
        row.plastic_strain +=
            body_.equilibrium().history().accepted(point).equivalent_plastic_strain;
        ++count;
      });
  std::vector<DepthPoint> points;
  for (const auto &[depth, sum] : rows)
  {
    const auto &[row, count] = sum;
    points.push_back({row.radius, row.span, row.hoop / count, row.radial / count,
                      row.plastic_strain / count});
  }
  return points;
}

double BentStrip::neutral_offset() const
{
  const auto points = across();
  for (std::size_t i = 1; i < points.size(); ++i)
  {
    const double a = points[i - 1].hoop - points[i - 1].radial,
                 b = points[i].hoop - points[i].radial;
    if (a < 0 && b >= 0)
    {
      const double radius =
          points[i - 1].radius + (points[i].radius - points[i - 1].radius) * a / (a - b);
      return (radius - (inner_radius() + outer_radius()) / 2) / thickness;
    }
  }
  return std::nan("");
}

double BentStrip::least_radial_at_points() const
{
  double least = 0;
  for (const DepthPoint &point : across())
    least = std::min(least, point.radial);
  return least;
}

/// Balance of the ring from the inner face to a layer's boundary at radius c:
/// sigma_r(c) c = integral of the hoop stress from the inner face to c.
double BentStrip::least_radial() const
{
  const auto          points    = across();
  constexpr double    weight[3] = {5. / 18, 8. / 18, 5. / 18};
  std::vector<double> radius{inner_radius()}, stress{0.};
  double              pull = 0;
  for (int layer = 0; layer < mesh_.layers; ++layer)
  {
    for (std::size_t q = 0; q < 3; ++q)
    {
      const auto &point = points[3 * static_cast<std::size_t>(layer) + q];
      pull += weight[q] * point.span * point.hoop;
    }
    radius.push_back(radius_at(thickness * (mesh_.layers - layer - 1) / mesh_.layers));
    stress.push_back(pull / radius.back());
  }
  const double neutral =
      (inner_radius() + outer_radius()) / 2 + neutral_offset() * thickness;
  std::size_t cell = 0; // the neutral layer's
  while (cell + 1 < radius.size() && radius[cell + 1] < neutral)
    ++cell;
  const auto carried_on = [&](std::size_t i, std::size_t j)
  {
    return stress[i] +
           (stress[j] - stress[i]) * (neutral - radius[i]) / (radius[j] - radius[i]);
  };
  return (carried_on(cell - 1, cell) + carried_on(cell + 1, cell + 2)) / 2;
}

double BentStrip::spread_along() const
{
  std::map<long, std::pair<double, double>> range;
  for_each_point(
      [&](double, double y, std::size_t point)
      {
        const double p =
            body_.equilibrium().history().accepted(point).equivalent_plastic_strain;
        const auto [at, fresh] = range.try_emplace(std::lround(y * 1e6), p, p);
        at->second.first       = std::min(at->second.first, p);
        at->second.second      = std::max(at->second.second, p);
      });
  double spread = 0;
  for (const auto &[depth, pair] : range)
    spread = std::max(spread, pair.second - pair.first);
  return spread;
}
} // namespace throughbend
