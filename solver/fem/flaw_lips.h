#pragma once
// The two lips of each flaw as pairs of nodes that lay together (or across the gap) before
// the bend, and how far apart they are in a displaced coupon. Measures only: what keeps
// closing lips apart is lip_contact.

#include "meshes/cells/coupon_mesh.h"

#include <deal.II/dofs/dof_handler.h>
#include <deal.II/lac/vector.h>

#include <array>
#include <vector>

namespace throughbend
{
/// Unknowns of one node.
struct NodeUnknowns
{
  unsigned x = 0, y = 0;
};

struct LipPair
{
  double       height = 0;  ///< above the convex face of the flat plate [mm]
  NodeUnknowns left, right; ///< the same node at a tip, and all along a mirrored flaw
};

/// One flaw from its lower edge up.
struct FlawLips
{
  std::size_t          flaw        = 0;     ///< its number in Flaws
  bool                 mouth_below = false; ///< it comes out at the convex face
  bool                 mirrored    = false; ///< the left lip is the image of the right one
  std::vector<LipPair> pairs;
};

/// Where the lips stand. `grid_nodes` are the nodes on the straight grid.
std::vector<FlawLips> flaw_lips(const dealii::DoFHandler<2>         &dof_handler,
                                const std::vector<dealii::Point<2>> &grid_nodes,
                                const std::vector<Seam> &seams, double level);

/// Unknowns of two cells' ends that face each other across a flaw: x and y of the left
/// one's three nodes, then of the right one's, from below. Of a mirrored flaw the right
/// one's alone.
std::vector<std::vector<unsigned>> facing_unknowns(const FlawLips &lips);

/// How far the lips are apart.
struct LipGap
{
  double opening = 0; ///< at its mouth on the convex face, else where it is widest [mm]
  double overlap = 0; ///< deepest that one lip has run into the other [mm]
};

/// At a mouth the distance between the two edges, whichever way they moved. Elsewhere, and
/// for the overlap, square to the mean of the two lips.
LipGap lip_gap(const FlawLips &lips, const std::vector<dealii::Point<2>> &nodes,
               const dealii::Vector<double> &u);
} // namespace throughbend
