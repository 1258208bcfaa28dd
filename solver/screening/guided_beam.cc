#include "solver/screening/guided_beam.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace throughbend
{
namespace
{
constexpr double right_angle = 3.14159265358979323846 / 2;
constexpr double upright     = right_angle - 0.002; // [rad]

/// The free part of a leg, from its contact with the shoulder to the nose.
struct FreeLeg
{
  double turn         = 0; ///< alpha, angle between its ends [rad]
  double along        = 0; ///< u, seen along its shoulder end [mm]
  double across       = 0; ///< v [mm]
  double length       = 0; ///< [mm]
  double elastic_turn = 0; ///< integral of M / (E' I) [rad]
  double elastic      = 0; ///< integral of M^2 / (2 E' I) [N mm/mm]
};

/// One coupon between one set of tools.
class GuidedBend
{
public:
  GuidedBend(const BendGeometry &g, const BendCurve &curve, const Friction &friction)
      : g_(g), curve_(curve), mu_(friction.shoulders),
        mu_nose_(std::min(friction.plunger, held_friction)),
        wrapped_(curve.at_radius(g.nose_radius))
  {
  }

  const BentStrip &wrapped() const { return wrapped_; }

  /// Equilibrium with this strip under the nose and this angle wrapped; nothing if the leg
  /// would have to stand upright.
  std::optional<BeamState> state(const BentStrip &root, const double wrap)
  {
    // More shoulder force makes a shorter, straighter leg: too short for the gap at a large
    // force, too long at a small one. The search begins where the last one ended.
    double low = last_force_ > 0 ? last_force_ : root.moment / g_.half_span, high = low;
    double f_low = misfit(root, wrap, low), f_high = f_low;
    for (int i = 0; i < 60 && f_high > 0; ++i)
    {
      low = high, f_low = f_high;
      high *= 1.15;
      f_high = misfit(root, wrap, high);
    }
    for (int i = 0; i < 60 && f_low <= 0; ++i)
    {
      high = low, f_high = f_low;
      low /= 1.15;
      f_low = misfit(root, wrap, low);
    }
    if (f_low <= 0 || f_high > 0)
      return std::nullopt;
    // Illinois variant of the secant rule (Dowell & Jarratt 1971, BIT 11, 168).
    const double close = 1e-6 * g_.thickness;
    double       force = high, f = f_high;
    int          side = 0;
    for (int i = 0; i < 60 && std::abs(f) > close; ++i)
    {
      force = (low * f_high - high * f_low) / (f_high - f_low);
      f     = misfit(root, wrap, force);
      if (f > 0)
      {
        low = force, f_low = f;
        f_high /= side == 1 ? 2 : 1;
        side = 1;
      }
      else
      {
        high = force, f_high = f;
        f_low /= side == -1 ? 2 : 1;
        side = -1;
      }
    }
    if (std::abs(f) > close)
      return std::nullopt;
    last_force_ = force;
    return given(root, wrap, force);
  }

private:
  /// The free leg that carries a shoulder force N up to the moment at its root; nothing
  /// if it would turn by more than a right angle.
  std::optional<FreeLeg> leg(const BentStrip &root, const double n) const
  {
    struct End
    {
      double moment, sine, cosine, pull; // pull = cos + mu sin
    };
    const double start = n * mu_ * g_.thickness / 2;
    const double base  = curve_.at_moment(start).co_work;
    const double size  = std::hypot(1, mu_);
    const auto   end = [&](const double moment, const double co_work) -> std::optional<End>
    {
      // sin a + mu (1 - cos a) = w is size sin(a - d) = w - mu with tan d = mu.
      const double s = ((co_work - base) / n - mu_) / size;
      if (s > 0.9999)
        return std::nullopt;
      const double c    = std::sqrt(1 - s * s);
      const double sine = (s + c * mu_) / size, cosine = (c - s * mu_) / size;
      return End{moment, sine, cosine, cosine + mu_ * sine};
    };
    FreeLeg            leg;
    std::optional<End> before = end(start, base);
    const auto         go     = [&](const double moment, const double co_work)
    {
      const std::optional<End> now = end(moment, co_work);
      if (!now)
        return false;
      // ds = dM / (N (cos + mu sin))
      const double half_step = (moment - before->moment) / (2 * n);
      const double ds        = half_step * (1 / before->pull + 1 / now->pull);
      const double mean      = (before->moment + moment) / 2;
      leg.length += ds;
      leg.across += half_step * (before->sine / before->pull + now->sine / now->pull);
      leg.elastic_turn += mean / curve_.stiffness() * ds;
      leg.elastic += mean * mean / (2 * curve_.stiffness()) * ds;
      before = now;
      return true;
    };
    for (const BentStrip &p : curve_.points())
      if (p.moment > start && p.moment < root.moment && !go(p.moment, p.co_work))
        return std::nullopt;
    if (!go(root.moment, root.co_work))
      return std::nullopt;
    leg.turn  = std::atan2(before->sine, before->cosine);
    leg.along = (root.moment - start) / n - mu_ * leg.across;
    return leg;
  }

  /// How much farther out the leg lies on its shoulder than the shoulder stands [mm];
  /// positive: the leg is too long, or past upright.
  double misfit(const BentStrip &root, const double wrap, const double n) const
  {
    if (n * mu_ * g_.thickness / 2 >= root.moment)
      return -g_.half_span;
    const std::optional<FreeLeg> free = leg(root, n);
    if (!free || wrap + free->turn > upright)
      return g_.half_span;
    return contact_x(wrap, *free) -
           (g_.half_span -
            (g_.shoulder_radius + g_.thickness / 2) * std::sin(wrap + free->turn));
  }

  double contact_x(const double wrap, const FreeLeg &free) const
  {
    const double beta = wrap + free.turn;
    return middle_radius() * std::sin(wrap) + free.along * std::cos(beta) +
           free.across * std::sin(beta);
  }

  double contact_y(const double wrap, const FreeLeg &free) const
  {
    const double beta = wrap + free.turn;
    return middle_radius() * (1 - std::cos(wrap)) + free.along * std::sin(beta) -
           free.across * std::cos(beta);
  }

  double middle_radius() const { return wrapped_.inner_radius + wrapped_.thickness / 2; }

  std::optional<BeamState> given(const BentStrip &root, const double wrap,
                                 const double n) const
  {
    const std::optional<FreeLeg> free = leg(root, n);
    if (!free)
      return std::nullopt;
    const double beta = wrap + free->turn, t = g_.thickness, r = g_.shoulder_radius;
    const double s_wrap    = wrap / wrapped_.rotation;
    const double bend_turn = root.moment / curve_.stiffness();
    // The nose's first touch is where travel begins: middle at t/2 above the shoulders.
    const double apex = -r + (r + t / 2) * std::cos(beta) - contact_y(wrap, *free);
    // All of the leg's moments are larger in one proportion, M + mu_nose N t/2 over M.
    const double held = std::min(0.5, mu_nose_ * n * t / (2 * root.moment));
    BeamState    s;
    s.travel         = t / 2 - apex;
    s.shoulder_force = n / (1 - held);
    s.force          = 2 * s.shoulder_force * (std::cos(beta) + mu_ * std::sin(beta));
    s.leg_angle      = beta;
    s.wrap           = wrap;
    s.moment         = root.moment;
    s.length         = s_wrap + free->length;
    s.outer_strain   = root.outer_strain;
    s.springback     = bend_turn * s_wrap + free->elastic_turn;
    s.elastic_energy = 2 * (root.moment * bend_turn / 2 * s_wrap + free->elastic);
    return s;
  }

  BendGeometry     g_;
  const BendCurve &curve_;
  double           mu_, mu_nose_;
  BentStrip        wrapped_;
  double           last_force_ = 0; ///< [N/mm]
};
} // namespace

std::vector<BeamState> bend_guided(const BendGeometry &g, const BendCurve &curve,
                                   const Friction &friction, const double half_length,
                                   const double steepest)
{
  GuidedBend             bend(g, curve, friction);
  std::vector<BeamState> states;
  const auto             keep = [&](const BentStrip &root, const double wrap)
  {
    const std::optional<BeamState> s = bend.state(root, wrap);
    if (!s || s->leg_angle > steepest || s->length > half_length)
      return false;
    states.push_back(*s);
    return true;
  };
  // First one touch in the middle, until the strip there is bent to the nose's radius.
  for (const BentStrip &p : curve.points())
    if (p.moment > 0 && p.moment < bend.wrapped().moment && !keep(p, 0))
      return states;
  constexpr int n = 90;
  for (int i = 0; i <= n; ++i)
    if (!keep(bend.wrapped(), right_angle * i / n))
      break;
  return states;
}
} // namespace throughbend
