#pragma once
// Forces between coupon and tools, and their exact tangent, at the surface points that this
// rank owns. Keeps, per point and outline, the friction stress and the foot point of the
// last accepted step. Decides nothing about steps.
//
// Most of a long coupon is far from most tools. A face that was so far off an outline at
// the last look that it cannot have come to touch it since is not looked at again: what it
// has moved is added up from its nodes. What is asked of such a point but its pressure,
// which is 0, is found when it is asked (settle).

#include "solver/fem/coupon_model.h"
#include "solver/fem/face_ways.h"
#include "solver/fem/linear_system.h"
#include "solver/mechanics/contact_law.h"
#include "solver/mechanics/rigid_tool.h"

#include <cassert>
#include <optional>

namespace throughbend
{
/// State of one surface point against one outline of a tool.
struct ContactState
{
  double      gap      = 1e30; ///< [mm]
  double      pressure = 0;    ///< per reference area [MPa]
  Tangential  stress{};        ///< friction stress on the coupon [MPa]
  Tangential  foot{};          ///< foot point along the outline and across the width [mm]
  bool        slipping = false;
  PlaneVector normal; ///< out of the tool
};

/// Sums over one tool, this model's share (not yet the whole coupon's).
struct ToolForce
{
  double force_x = 0, force_y = 0; ///< on the coupon [N], a plane model: per mm width
  double normal   = 0;             ///< [N]
  double slipping = 0;             ///< normal force at slipping points [N]
  double pressure = 0;             ///< largest [MPa]
};

struct ContactEnergy
{
  double springs       = 0; ///< held by normal and tangential springs [N mm]
  double friction_step = 0; ///< dissipated by slip since the last accepted state [N mm]
};

/// One outline of a tool, as the coupon meets it.
struct ToolPiece
{
  std::size_t tool    = 0; ///< place among the tools given
  std::size_t outline = 0; ///< place among that tool's outlines
};

template <int dim>
class ContactAssembly
{
public:
  ContactAssembly(const CouponModel<dim> &model, std::vector<RigidTool> tools,
                  ContactStiffness stiffness);

  /// Adds the contact forces on the coupon at displacement u, with the plunger at `travel`
  /// [mm], to `force` (this rank's share). Slip is counted from the last accepted state.
  void add_forces(const Vector &u, double travel, Vector &force);

  /// Adds minus the derivative of the forces at the last add_forces().
  void add_tangent(LinearSystem &system) const;

  /// One row for each tool of tool_list(), summed over ranks.
  std::vector<ToolForce> tool_forces() const;
  ContactEnergy          energy() const;  ///< summed over ranks
  double                 deepest() const; ///< largest penetration [mm] over all ranks

  void accept();               ///< the latest state becomes history
  void separate();             ///< from now on no tool touches (release)
  void stiffen(double factor); ///< multiplies the normal and tangential springs
  const ContactStiffness &stiffness() const { return stiffness_; }

  const std::vector<RigidTool> &tools() const { return tools_; }
  const std::vector<ToolPiece> &pieces() const { return pieces_; }
  const RigidTool &tool_of(const ToolPiece &piece) const { return tools_[piece.tool]; }

  /// Points are numbered face by face as in the model; state against a piece of point q.
  const ContactState &latest(std::size_t face, std::size_t q, std::size_t piece) const
  {
    assert(q < n_points_ && piece < pieces_.size() && "no such point, or no such piece");
    settle();
    return latest_[(face * n_points_ + q) * pieces_.size() + piece];
  }

  /// The same against the nearest outline of the tool at a place; a default one, that does
  /// not touch, when there is no such tool.
  ContactState latest(std::size_t face, std::size_t q, ToolPlace place) const;
  const std::vector<ContactState> &all_accepted() const { return accepted_; }
  std::size_t                      states_per_face() const
  {
    return model_.n_points_per_face() * pieces_.size();
  }
  void restore(std::vector<ContactState> states, const ContactStiffness &stiffness)
  {
    assert(states.size() == accepted_.size() && "the states are of another model");
    latest_ = accepted_ = std::move(states);
    stiffness_          = stiffness;
    forget_looks();
  }

private:
  /// How far a face may still go before it may touch an outline.
  struct Look
  {
    double limit   = -1;    ///< of what the face, and a tool that moves, have gone [mm]
    bool   reaches = false; ///< some of its points were within reach of the outline
    bool   stale   = false; ///< and have moved since
  };
  void forget_looks()
  {
    ways_.forget();
    settled_ = true;
  }
  Look   look(std::size_t face, std::size_t piece) const;
  void   settle() const;
  double reach_of(const ToolPiece &piece) const;          ///< [mm]
  double gone(std::size_t face, std::size_t piece) const; ///< since the first look [mm]

  dealii::Point<dim> place(const FaceData<dim> &face, std::size_t q, const Vector &u) const;
  std::optional<Proximity> approach(const ToolPiece &piece, const dealii::Point<dim> &x,
                                    double travel, ContactState &state) const;
  void touch(const ToolPiece &piece, const dealii::Point<dim> &x, double travel,
             const ContactStiffness &springs, const ContactState &old, ContactState &state,
             double *force, double *stiffness) const;
  /// Those of one face against one outline.
  ContactStiffness springs_of(std::size_t face, std::size_t piece) const;

  const CouponModel<dim>           &model_;
  std::vector<RigidTool>            tools_;
  std::vector<ToolPiece>            pieces_;
  ContactStiffness                  stiffness_;
  std::size_t                       n_points_  = 0; ///< per face
  bool                              separated_ = false;
  std::vector<double>               widening_; ///< of the band, of each face and piece [-]
  std::vector<ContactState>         accepted_;
  mutable std::vector<ContactState> latest_;
  mutable std::vector<Look>         looks_; ///< [face * pieces + piece]
  mutable bool                      settled_ = true;
  FaceWays<dim>                     ways_; ///< up to the latest states

  std::vector<double> spring_; ///< d force / d place of each point [point * dim * dim]
  std::vector<bool>   active_; ///< faces with any contact at the last evaluation
};
} // namespace throughbend
