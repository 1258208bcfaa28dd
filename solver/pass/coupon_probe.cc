#include "solver/pass/coupon_probe.h"

#include <algorithm>
#include <cmath>
#include <map>

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
CouponProbe<dim>::CouponProbe(const CouponModel<dim> &model, const PlacedCoupon &coupon)
    : model_(model), half_(model.extent() == Extent::half), length_(coupon.length),
      offset_(coupon.offset)
{
  find_middle(coupon);
  find_lines(1e-6 * coupon.thickness);
  const double                                 t = coupon.thickness, low = model.level();
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
    // This cell's nodes on either face, by line.
    std::array<std::map<std::size_t, Row>, 2> along;
    for (const auto &node : nodes)
    {
      const dealii::Point<dim> &X    = model.nodes()[node[0]];
      const dealii::Point<dim> &grid = model.grid_nodes()[node[0]];
      const std::size_t         line = dim == 3 ? line_at(grid[dim - 1]) : 0;
      const Station station{X[0], X[1], node[0], node[1], dim == 3 ? node[dim - 1] : 0};
      if (std::abs(grid[1] - low) < close)
      {
        along[0][line].push_back(station);
        if (dim == 3)
          convex_across_[line] = X[dim - 1];
      }
      else if (std::abs(grid[1] - low - t) < close)
        along[1][line].push_back(station);
    }
    for (const bool is_convex : {true, false})
      for (auto &[line, own] : along[is_convex ? 0 : 1])
      {
        std::sort(own.begin(), own.end(), left_of);
        if (line == 0)
        {
          Row &row = is_convex ? convex_ : concave_;
          row.insert(row.end(), own.begin(), own.end());
        }
        (is_convex ? convex_edges_ : concave_edges_)
            .at(line)
            .push_back({own.at(0), own.at(1), own.at(2)});
      }
  }
  // Cells that are neighbours across the width have a line in common.
  for (auto *lines : {&convex_edges_, &concave_edges_})
    for (std::vector<Edge> &edges : *lines)
    {
      std::sort(edges.begin(), edges.end(),
                [](const Edge &a, const Edge &b) { return left_of(a[1], b[1]); });
      edges.erase(std::unique(edges.begin(), edges.end(),
                              [](const Edge &a, const Edge &b)
                              { return a[1].x_dof == b[1].x_dof; }),
                  edges.end());
    }
  for (Row *row : {&convex_, &concave_})
  {
    std::sort(row->begin(), row->end(), left_of);
    row->erase(std::unique(row->begin(), row->end(),
                           [](const Station &a, const Station &b)
                           { return a.x_dof == b.x_dof; }),
               row->end());
  }
}

template <int dim>
void CouponProbe<dim>::find_lines(double close)
{
  if constexpr (dim == 3)
    for (const dealii::Point<dim> &node : model_.grid_nodes())
      lines_.push_back(node[dim - 1]);
  else
    lines_ = {0};
  std::sort(lines_.begin(), lines_.end());
  lines_.erase(std::unique(lines_.begin(), lines_.end(),
                           [&](double a, double b) { return b - a < close; }),
               lines_.end());
  convex_across_ = lines_;
  convex_edges_.resize(lines_.size());
  concave_edges_.resize(lines_.size());
}

/// The line nearest to a place across the width.
template <int dim>
std::size_t CouponProbe<dim>::line_at(double across) const
{
  const auto after = std::lower_bound(lines_.begin(), lines_.end(), across);
  if (after == lines_.begin())
    return 0;
  if (after == lines_.end() || across - *(after - 1) < *after - across)
    return static_cast<std::size_t>(after - lines_.begin()) - 1;
  return static_cast<std::size_t>(after - lines_.begin());
}

template <int dim>
unsigned CouponProbe<dim>::MidPlace::nearest() const
{
  return x_dof[static_cast<std::size_t>(std::max_element(share.begin(), share.end()) -
                                        share.begin())];
}

/// The columns of nodes of every cell that half the thickness runs through.
template <int dim>
void CouponProbe<dim>::find_middle(const PlacedCoupon &coupon)
{
  const double middle  = model_.level() + coupon.thickness / 2;
  const double close   = 1e-6 * coupon.thickness;
  const auto  &element = model_.dof_handler().get_fe();
  std::vector<dealii::types::global_dof_index> dofs(element.n_dofs_per_cell());
  for (const auto &cell : model_.dof_handler().active_cell_iterators())
  {
    cell->get_dof_indices(dofs);
    std::array<MidPlace, 3> columns;
    bool                    on_mid_plane = dim == 2;
    for (unsigned i = 0; i < dofs.size(); ++i)
    {
      const dealii::Point<dim> unit = element.unit_support_point(i);
      const dealii::Point<dim> grid = model_.grid_nodes()[dofs[i]];
      if (dim == 3 && std::abs(grid[dim - 1]) > close)
        continue;
      on_mid_plane         = true;
      MidPlace  &column    = columns[static_cast<std::size_t>(std::lround(2 * unit[0]))];
      const auto row       = static_cast<std::size_t>(std::lround(2 * unit[1]));
      const auto component = element.system_to_component_index(i).first;
      if (component == 0)
        column.x_dof[row] = static_cast<unsigned>(dofs[i]);
      else if (component == 1)
        column.y_dof[row] = static_cast<unsigned>(dofs[i]);
    }
    if (!on_mid_plane)
      continue;
    const double low  = model_.grid_nodes()[columns[0].x_dof[0]][1];
    const double high = model_.grid_nodes()[columns[0].x_dof[2]][1];
    if (middle < low - close || middle > high + close)
      continue;
    double up = (middle - low) / (high - low);
    if (const double row = std::round(2 * up) / 2;
        std::abs(up - row) * (high - low) < close)
      up = row;
    for (MidPlace &column : columns)
    {
      column.share = {(1 - 2 * up) * (1 - up), 4 * up * (1 - up), up * (2 * up - 1)};
      for (std::size_t k = 0; k < 3; ++k)
      {
        column.position += column.share[k] * model_.nodes()[column.x_dof[k]][0];
        column.height += column.share[k] * model_.nodes()[column.x_dof[k]][1];
      }
      middle_.push_back(column);
    }
  }
  // Neighbours have a column in common, but each lip of a flaw has one of its own.
  std::sort(middle_.begin(), middle_.end(),
            [](const MidPlace &a, const MidPlace &b) {
              return a.position != b.position ? a.position < b.position
                                              : a.nearest() < b.nearest();
            });
  middle_.erase(std::unique(middle_.begin(), middle_.end(),
                            [](const MidPlace &a, const MidPlace &b)
                            { return a.nearest() == b.nearest(); }),
                middle_.end());
}

template <int dim>
PlaneVector CouponProbe<dim>::place(const Station &station, const Vector &u) const
{
  return {station.position + u[station.x_dof], station.height + u[station.y_dof]};
}

template <int dim>
PlaneVector CouponProbe<dim>::place(const MidPlace &mid, const Vector &u) const
{
  PlaneVector place = {mid.position, mid.height};
  for (std::size_t k = 0; k < 3; ++k)
    place = place + mid.share[k] * PlaneVector{u[mid.x_dof[k]], u[mid.y_dof[k]]};
  return place;
}

template <int dim>
std::vector<PlaneVector> CouponProbe<dim>::outline(const Vector &u) const
{
  const auto along = [&](const Row &row)
  {
    std::vector<PlaneVector> right, line;
    for (const Station &station : row)
      right.push_back(place(station, u));
    if (half_)
      for (std::size_t i = row.size(); i-- > 0;)
        if (!model_.held()[row[i].x_dof]) // else its own image
          line.push_back({-right[i].x, right[i].y});
    line.insert(line.end(), right.begin(), right.end());
    return line;
  };
  std::vector<PlaneVector>       around = along(convex_);
  const std::vector<PlaneVector> back   = along(concave_);
  around.insert(around.end(), back.rbegin(), back.rend());
  return around;
}

template <int dim>
PlaneVector CouponProbe<dim>::middle_at(double position, const Vector &u) const
{
  const std::vector<MidPlace> &row = middle_;
  std::size_t                  i   = 1;
  while (i + 1 < row.size() && row[i].position < position)
    ++i;
  // Where a flaw crosses the row both lips stand at one place: the middle between them.
  constexpr double close = 1e-6; // [mm]
  const auto       here  = [&](std::size_t k)
  { return k < row.size() && std::abs(row[k].position - position) < close; };
  if (here(i) && (here(i - 1) || here(i + 1)))
    return 0.5 * (place(row[i], u) + place(row[here(i - 1) ? i - 1 : i + 1], u));
  const PlaneVector a = place(row[i - 1], u), b = place(row[i], u);
  const double      share =
      (position - row[i - 1].position) / (row[i].position - row[i - 1].position);
  return a + share * (b - a);
}

template <int dim>
Leg CouponProbe<dim>::leg(const Vector &u, Side side) const
{
  const bool        left = side == Side::left && !half_;
  const double      sign = left ? -1 : 1;
  const PlaneVector in   = middle_at(offset_ + sign * 0.75 * length_ / 2, u);
  const PlaneVector out  = middle_at(offset_ + sign * 0.9375 * length_ / 2, u);
  const PlaneVector low  = place(left ? convex_.front() : convex_.back(), u);
  const PlaneVector high = place(left ? concave_.front() : concave_.back(), u);
  Leg               leg;
  leg.angle = std::atan2(out.y - in.y, sign * (out.x - in.x)) * degrees;
  leg.tip_x = sign * std::max(sign * low.x, sign * high.x);
  leg.tip_y = low.y;
  if (half_ && side == Side::left)
    leg.tip_x = -leg.tip_x;
  return leg;
}

template <int dim>
std::vector<FaceStrain> CouponProbe<dim>::face_strains(const Vector &u, Face face,
                                                       std::size_t line) const
{
  std::vector<FaceStrain> strains;
  for (const Edge &edge : (face == Face::convex ? convex_edges_ : concave_edges_).at(line))
  {
    const PlaneVector a = place(edge[0], u), m = place(edge[1], u), b = place(edge[2], u);
    const double      size = edge[2].position - edge[0].position;
    const double      rise = edge[2].height - edge[0].height; // of a face that is not level
    const double      flat = std::hypot(1., rise / size);
    for (const double xi : {-1 / std::sqrt(3.), 1 / std::sqrt(3.)})
    {
      const PlaneVector slope =
          (2 / size) * ((xi - 0.5) * a + (-2 * xi) * m + (xi + 0.5) * b);
      const PlaneVector x =
          (xi * (xi - 1) / 2) * a + (1 - xi * xi) * m + (xi * (xi + 1) / 2) * b;
      strains.push_back({(edge[0].position + edge[2].position + xi * size) / 2 - offset_,
                         x.x, x.y, std::log(length(slope) / flat)});
    }
  }
  return strains;
}

template <int dim>
typename CouponProbe<dim>::Section CouponProbe<dim>::section(const Vector &u,
                                                             Face          face) const
{
  Section section;
  if constexpr (dim == 3)
  {
    const auto &lines = face == Face::convex ? convex_edges_ : concave_edges_;
    const auto &mid   = lines.front();
    std::size_t here = 0, node = 0;
    double      nearest = 1e300;
    for (std::size_t i = 0; i < mid.size(); ++i)
      for (std::size_t k = 0; k < 3; ++k)
        if (const double off = std::abs(place(mid[i][k], u).x); off < nearest)
        {
          nearest = off;
          here    = i;
          node    = k;
        }
    const Station    &edge = lines.back().at(here)[node];
    const PlaneVector way  = place(mid[here][2], u) - place(mid[here][0], u);
    const PlaneVector down = (1 / length(way)) * PlaneVector{way.y, -way.x};
    // A rounded edge stands back from the start.
    const double back = mid[here][node].height - edge.height;
    section.curl      = dot(down, place(edge, u) - place(mid[here][node], u)) - back;
    section.width     = 2 * (model_.grid_nodes()[edge.z_dof][dim - 1] + u[edge.z_dof]);
  }
  else
    (void)face;
  return section;
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
  return half_ ? 0. : middle_at(offset_, u).x - offset_;
}

template <int dim>
double CouponProbe<dim>::tilt(const Vector &u) const
{
  if (half_)
    return 0;
  // Short against the bend, but over more than a cell.
  const double      reach = length_ / 40;
  const PlaneVector way   = middle_at(reach, u) - middle_at(-reach, u);
  return std::atan2(way.y, way.x) * degrees;
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
