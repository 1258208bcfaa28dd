#include "solver/pass/coupon_probe.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double degrees = 180 / 3.14159265358979323846;
}

template <int dim>
bool CouponProbe<dim>::left_of(const Station &a, const Station &b)
{
  return a.position != b.position ? a.position < b.position : a.x_dof < b.x_dof;
}

template <int dim>
CouponProbe<dim>::CouponProbe(const CouponModel<dim> &model, const Case &c)
    : model_(model), half_(model.extent() == Extent::half), length_(c.coupon.length),
      offset_(c.coupon.offset)
{
  const double                                 t = c.coupon.thickness, low = model.level();
  const double                                 close   = 1e-6 * t;
  const auto                                  &element = model.dof_handler().get_fe();
  std::vector<dealii::types::global_dof_index> dofs(element.n_dofs_per_cell());
  for (const auto &cell : model.dof_handler().active_cell_iterators())
  {
    cell->get_dof_indices(dofs);
    std::vector<std::array<unsigned, dim>> nodes(model.n_nodes_per_cell());
    for (unsigned i = 0; i < dofs.size(); ++i)
    {
      const auto [component, node] = element.system_to_component_index(i);
      nodes[node][component]       = static_cast<unsigned>(dofs[i]);
    }
    std::array<Row, 2> along; // this cell's nodes on either face
    for (const auto &node : nodes)
    {
      const dealii::Point<dim> &X    = model.nodes()[node[0]];
      const dealii::Point<dim> &grid = model.grid_nodes()[node[0]];
      if (dim == 3 && std::abs(grid[dim - 1]) > close)
        continue;
      const Station station{X[0], X[1], node[0], node[1]};
      if (std::abs(grid[1] - low) < close)
        along[0].push_back(station);
      else if (std::abs(grid[1] - low - t) < close)
        along[1].push_back(station);
      else if (std::abs(grid[1] - low - t / 2) < close)
        middle_.push_back(station);
    }
    for (const bool is_convex : {true, false})
    {
      Row &own = along[is_convex ? 0 : 1];
      if (own.size() != 3)
        continue;
      std::sort(own.begin(), own.end(), left_of);
      Row &row = is_convex ? convex_ : concave_;
      row.insert(row.end(), own.begin(), own.end());
      (is_convex ? convex_edges_ : concave_edges_).push_back({own[0], own[1], own[2]});
    }
  }
  for (std::vector<Edge> *edges : {&convex_edges_, &concave_edges_})
    std::sort(edges->begin(), edges->end(),
              [](const Edge &a, const Edge &b) { return left_of(a[1], b[1]); });
  for (Row *row : {&convex_, &middle_, &concave_})
  {
    std::sort(row->begin(), row->end(), left_of);
    row->erase(std::unique(row->begin(), row->end(),
                           [](const Station &a, const Station &b)
                           { return a.x_dof == b.x_dof; }),
               row->end());
  }
}

template <int dim>
Vec2 CouponProbe<dim>::place(const Station &station, const Vector &u) const
{
  return {station.position + u[station.x_dof], station.height + u[station.y_dof]};
}

template <int dim>
Vec2 CouponProbe<dim>::place_at(const Row &row, double position, const Vector &u) const
{
  std::size_t i = 1;
  while (i + 1 < row.size() && row[i].position < position)
    ++i;
  // Where a flaw crosses the row both lips stand at one place: the middle between them.
  constexpr double close = 1e-6; // [mm]
  const auto       here  = [&](std::size_t k)
  { return k < row.size() && std::abs(row[k].position - position) < close; };
  if (here(i) && (here(i - 1) || here(i + 1)))
    return 0.5 * (place(row[i], u) + place(row[here(i - 1) ? i - 1 : i + 1], u));
  const Vec2   a = place(row[i - 1], u), b = place(row[i], u);
  const double share =
      (position - row[i - 1].position) / (row[i].position - row[i - 1].position);
  return a + share * (b - a);
}

template <int dim>
Leg CouponProbe<dim>::leg(const Vector &u, Side side) const
{
  const bool   left = side == Side::left && !half_;
  const double sign = left ? -1 : 1;
  const Vec2   in   = place_at(middle_, offset_ + sign * 0.75 * length_ / 2, u);
  const Vec2   out  = place_at(middle_, offset_ + sign * 0.9375 * length_ / 2, u);
  const Vec2   low  = place(left ? convex_.front() : convex_.back(), u);
  const Vec2   high = place(left ? concave_.front() : concave_.back(), u);
  Leg          leg;
  leg.angle = std::atan2(out.y - in.y, sign * (out.x - in.x)) * degrees;
  leg.tip_x = sign * std::max(sign * low.x, sign * high.x);
  leg.tip_y = low.y;
  if (half_ && side == Side::left)
    leg.tip_x = -leg.tip_x;
  return leg;
}

template <int dim>
std::vector<FaceStrain> CouponProbe<dim>::face_strains(const Vector &u, Face face) const
{
  std::vector<FaceStrain> strains;
  for (const Edge &edge : face == Face::convex ? convex_edges_ : concave_edges_)
  {
    const Vec2   a = place(edge[0], u), m = place(edge[1], u), b = place(edge[2], u);
    const double size = edge[2].position - edge[0].position;
    const double rise = edge[2].height - edge[0].height; // of a face that is not level
    const double flat = std::hypot(1., rise / size);
    for (const double xi : {-1 / std::sqrt(3.), 1 / std::sqrt(3.)})
    {
      const Vec2 slope = (2 / size) * ((xi - 0.5) * a + (-2 * xi) * m + (xi + 0.5) * b);
      const Vec2 x = (xi * (xi - 1) / 2) * a + (1 - xi * xi) * m + (xi * (xi + 1) / 2) * b;
      strains.push_back({(edge[0].position + edge[2].position + xi * size) / 2 - offset_,
                         x.x, x.y, std::log(length(slope) / flat)});
    }
  }
  return strains;
}

template <int dim>
std::vector<LipGap> CouponProbe<dim>::flaw_gaps(const Vector &u) const
{
  std::vector<LipGap> gaps;
  if constexpr (dim == 2)
    for (const FlawLips &lips : model_.flaws())
      gaps.push_back(lip_gap(lips, model_.nodes(), u));
  return gaps;
}

template <int dim>
double CouponProbe<dim>::walk(const Vector &u) const
{
  return half_ ? 0. : place_at(middle_, offset_, u).x - offset_;
}

template <int dim>
double CouponProbe<dim>::outermost_x(const Vector &u) const
{
  double outermost = 0;
  for (const Row *row : {&convex_, &concave_})
    for (const Station &station : *row)
      outermost = std::max(outermost, std::abs(place(station, u).x));
  return outermost;
}

template <int dim>
double CouponProbe<dim>::highest_y(const Vector &u) const
{
  return std::max(leg(u, Side::left).tip_y, leg(u, Side::right).tip_y);
}

template class CouponProbe<2>;
template class CouponProbe<3>;
} // namespace throughbend
