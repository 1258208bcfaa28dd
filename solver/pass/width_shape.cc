#include "solver/pass/width_shape.h"

#include "solver/outcome/coupon_end.h"
#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
const RigidTool &plunger(const ContactAssembly<3> &contact)
{
  return *std::find_if(contact.tools().begin(), contact.tools().end(),
                       [](const RigidTool &tool)
                       { return tool.place == tool_at::plunger; });
}

/// Largest along a line of nodes, but for the coupon's ends; true when it beats `strain`.
bool take_if_larger(const Coupon &coupon, const std::vector<FaceStrain> &line,
                    double &strain, double &position)
{
  bool larger = false;
  for (const FaceStrain &point : line)
    if (point.strain > strain && !is_at_an_end(coupon, point.position))
    {
      strain   = point.strain;
      position = point.position;
      larger   = true;
    }
  return larger;
}

/// Of the three points of a column in the value at its end: a straight line through them by
/// least squares, to which order an element's stress is accurate.
constexpr std::array<double, 3> to_face = {0.9233, 0.4444, -0.3677};

/// Stress across the width on the convex face at mid-width, nearest to x = 0 [MPa].
double crown_stress(const PassEquations<3> &equations, const Vector &u)
{
  const CouponModel<3> &model   = equations.model();
  double                nearest = 1e300, stress = 0;
  for (const FaceData<3> &face : model.faces())
  {
    const CellData<3> &cell = model.cells()[face.cell];
    if (face.name != CouponFace::convex ||
        !(cell.cell->face(4)->at_boundary() &&
          cell.cell->face(4)->boundary_id() ==
              static_cast<dealii::types::boundary_id>(CouponFace::mid_plane)))
      continue;
    for (unsigned i = 0; i < 3; ++i)
    {
      double x = cell.position[i][0]; // its motion is that of the face's middle, about
      for (const unsigned node : face.nodes)
        x += u[cell.dofs[node]] / static_cast<double>(face.nodes.size());
      if (std::abs(x) >= nearest)
        continue;
      nearest = std::abs(x);
      stress  = 0;
      for (unsigned j = 0; j < 3; ++j)
      {
        const std::size_t point = equations.equilibrium().point(face.cell, i + 3 * j);
        stress += to_face[j] * equations.equilibrium().kirchhoff(point)[2][2] /
                  equations.equilibrium().dilatation(point);
      }
    }
  }
  // The rank that has the nearest point tells it.
  const double least = -model.max_over_ranks(-nearest);
  const double ours  = nearest == least ? 1. : 0.;
  const double count = model.sum_over_ranks(ours);
  return model.sum_over_ranks(ours * stress) / std::max(1., count);
}

/// Whether the nose presses within a quarter of the thickness of its lowest line, on the
/// row of points nearest to mid-width.
bool crown_touches(const PassSetup &setup, const PassEquations<3> &equations)
{
  const CouponModel<3>     &model     = equations.model();
  const ContactAssembly<3> &contact   = equations.contact();
  double                    innermost = 1e300;
  for (const FaceData<3> &face : model.faces())
    for (const dealii::Point<3> &point : face.position)
      innermost = std::min(innermost, point[2]);
  innermost    = -model.max_over_ranks(-innermost);
  double touch = 0;
  for (std::size_t f = 0; f < model.faces().size(); ++f)
    for (std::size_t q = 0; q < model.faces()[f].position.size(); ++q)
    {
      const ContactState &state = contact.latest(f, q, tool_at::plunger);
      if (state.pressure > 0 &&
          model.faces()[f].position[q][2] < innermost + 1e-6 * setup.coupon.thickness &&
          std::abs(state.normal.x) * setup.tool(tool_at::plunger).gauge.round <
              setup.coupon.thickness / 4)
        touch = 1;
    }
  return model.max_over_ranks(touch) > 0;
}
} // namespace

WidthShape width_shape(const PassSetup &setup, const PassEquations<3> &equations,
                       const CouponProbe<3> &probe, const Vector &u)
{
  WidthShape shape;
  const auto convex   = probe.section(u, Face::convex);
  const auto concave  = probe.section(u, Face::concave);
  shape.convex_curl   = convex.curl;
  shape.convex_width  = convex.width;
  shape.concave_curl  = concave.curl;
  shape.concave_width = concave.width;

  const std::size_t edge = probe.lines().size() - 1;
  shape.edge_strain = shape.largest_strain = -1e300;
  for (std::size_t line = 0; line <= edge; ++line)
  {
    const auto strains = probe.face_strains(u, Face::convex, line);
    if (line == edge)
      take_if_larger(setup.coupon, strains, shape.edge_strain, shape.edge_strain_at);
    if (take_if_larger(setup.coupon, strains, shape.largest_strain,
                       shape.largest_strain_at))
      shape.largest_strain_across = probe.convex_across(line);
  }
  shape.crown_width_stress = crown_stress(equations, u);
  shape.crown_on_nose      = crown_touches(setup, equations);
  return shape;
}

void put_nose_gaps(const PlacedCoupon &coupon, const NoseStretch &stretch,
                   const PassEquations<3> &equations, const CouponProbe<3> &probe,
                   const Vector &u, WidthShape &shape)
{
  const RigidTool &nose   = plunger(equations.contact());
  const auto       gap_on = [&](std::size_t line, double offset)
  {
    double largest = 0;
    for (const FaceStrain &point : probe.face_strains(u, Face::concave, line))
      if (const double at = point.position + offset; at > stretch.from && at < stretch.to)
        largest = std::max(largest, nose.proximity({point.x, point.y}, stretch.travel).gap);
    return largest;
  };
  shape.nose_gap_middle = gap_on(0, probe.offset());
  // A rounded edge stands off the nose from the start: the gap is that of the flat face.
  std::size_t edge = probe.lines().size() - 1;
  while (edge > 0 && probe.lines()[edge] > coupon.flat_half_width() * (1 + 1e-9))
    --edge;
  shape.nose_gap_edge = gap_on(edge, probe.offset());
}
} // namespace throughbend
