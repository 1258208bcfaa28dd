#include "solver/fem/flaw_lips.h"

#include "meshes/tools/rigid_profile.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>

namespace throughbend
{
namespace
{
constexpr double close = 1e-6; // [mm]

PlaneVector place(const NodeUnknowns &node, const std::vector<dealii::Point<2>> &nodes,
                  const dealii::Vector<double> &u)
{
  return {nodes[node.x][0] + u[node.x], nodes[node.y][1] + u[node.y]};
}

/// Where the left lip stands: in a half model the image of the right one.
PlaneVector left_place(const FlawLips &lips, std::size_t i,
                       const std::vector<dealii::Point<2>> &nodes,
                       const dealii::Vector<double>        &u)
{
  const PlaneVector at = place(lips.pairs[i].left, nodes, u);
  return lips.mirrored ? PlaneVector{-at.x, at.y} : at;
}
} // namespace

std::vector<FlawLips> flaw_lips(const dealii::DoFHandler<2>         &dof_handler,
                                const std::vector<dealii::Point<2>> &grid_nodes,
                                const std::vector<Seam> &seams, const double level)
{
  const auto                                  &element = dof_handler.get_fe();
  std::vector<dealii::types::global_dof_index> dofs(element.n_dofs_per_cell());
  std::vector<FlawLips>                        flaws;
  for (const Seam &seam : seams)
  {
    FlawLips lips;
    lips.flaw        = seam.flaw;
    lips.mouth_below = seam.opens_below();
    const auto on_it = [&](const dealii::Point<2> &at)
    {
      return std::abs(at[0] - seam.grid) < close && at[1] - level > seam.span.low - close &&
             at[1] - level < seam.span.high + close;
    };
    std::map<unsigned, LipPair> left, right; // by the x unknown
    for (const auto &cell : dof_handler.active_cell_iterators())
      for (const unsigned f : cell->face_indices())
      {
        if (!cell->face(f)->at_boundary())
          continue;
        const auto name = static_cast<CouponFace>(cell->face(f)->boundary_id());
        if (name != CouponFace::left_lip && name != CouponFace::right_lip)
          continue;
        cell->get_dof_indices(dofs);
        for (unsigned i = 0; i < dofs.size(); ++i)
        {
          if (!element.has_support_on_face(i, f) ||
              element.system_to_component_index(i).first != 0)
            continue;
          const auto x = static_cast<unsigned>(dofs[i]);
          if (!on_it(grid_nodes[x]))
            continue;
          LipPair pair;
          pair.height = grid_nodes[x][1] - level;
          NodeUnknowns node{x, 0};
          for (unsigned j = 0; j < dofs.size(); ++j)
            if (element.system_to_component_index(j).first == 1 &&
                element.system_to_component_index(j).second ==
                    element.system_to_component_index(i).second)
              node.y = static_cast<unsigned>(dofs[j]);
          pair.left = pair.right                           = node;
          (name == CouponFace::left_lip ? left : right)[x] = pair;
        }
      }
    lips.mirrored = left.empty();
    for (const auto &[x, pair] : lips.mirrored ? right : left)
      lips.pairs.push_back(pair);
    if (lips.pairs.size() != right.size())
      throw std::logic_error("the lips of a flaw do not fit each other");
    std::vector<LipPair> others;
    for (const auto &[x, pair] : right)
      others.push_back(pair);
    const auto lower = [](const LipPair &a, const LipPair &b)
    { return a.height < b.height; };
    std::sort(lips.pairs.begin(), lips.pairs.end(), lower);
    std::sort(others.begin(), others.end(), lower);
    for (std::size_t i = 0; i < others.size(); ++i)
      lips.pairs[i].right = others[i].right;
    flaws.push_back(lips);
  }
  return flaws;
}

std::vector<std::vector<unsigned>> facing_unknowns(const FlawLips &lips)
{
  std::vector<std::vector<unsigned>> all;
  for (std::size_t first = 0; first + 2 < lips.pairs.size(); first += 2)
  {
    std::vector<unsigned> unknowns;
    for (const bool left : {true, false})
      for (std::size_t i = first; i < first + 3 && !(left && lips.mirrored); ++i)
      {
        const NodeUnknowns &node = left ? lips.pairs[i].left : lips.pairs[i].right;
        unknowns.push_back(node.x);
        unknowns.push_back(node.y);
      }
    all.push_back(unknowns);
  }
  return all;
}

LipGap lip_gap(const FlawLips &lips, const std::vector<dealii::Point<2>> &nodes,
               const dealii::Vector<double> &u)
{
  const std::size_t n     = lips.pairs.size();
  const auto        apart = [&](std::size_t i)
  { return place(lips.pairs[i].right, nodes, u) - left_place(lips, i, nodes, u); };
  const auto middle = [&](std::size_t i)
  { return 0.5 * (place(lips.pairs[i].right, nodes, u) + left_place(lips, i, nodes, u)); };
  LipGap gap;
  for (std::size_t i = 0; i < n; ++i)
  {
    const PlaneVector up     = middle(std::min(i + 1, n - 1)) - middle(i > 0 ? i - 1 : 0);
    const double      square = dot(apart(i), {up.y, -up.x}) / length(up);
    gap.opening              = std::max(gap.opening, square);
    gap.overlap              = std::max(gap.overlap, -square);
  }
  if (lips.mouth_below)
    gap.opening = length(apart(0));
  return gap;
}
} // namespace throughbend
