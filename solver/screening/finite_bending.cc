#include "solver/screening/finite_bending.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace throughbend
{
namespace
{
const double plane_strain      = 2 / std::sqrt(3.); // stress of plane flow over uniaxial
constexpr std::size_t n_fibres = 48; // 400 change the moment by less than 0.2 %

/// One fibre's axial minus radial stress, carried along the bending.
struct Fibre
{
  double stress  = 0; ///< [MPa]
  double strain  = 0; ///< axial log strain [-]
  double plastic = 0; ///< equivalent plastic strain [-]
};

/// The fibre after its strain has gone to a new value: one return to the yield stress,
/// linearised at the start of the step (the steps are small).
Fibre strained(const Fibre &before, const double strain, const FlowCurve &flow,
               const double modulus)
{
  Fibre now             = before;
  now.strain            = strain;
  const double    trial = before.stress + modulus * (strain - before.strain);
  const FlowState state = flow.at(before.plastic);
  const double    over  = std::abs(trial) - plane_strain * state.stress;
  now.stress            = trial;
  if (over <= 0)
    return now;
  // |S| falls by modulus * d(axial plastic), axial plastic = p / (2/sqrt3).
  double dp = over / (modulus / plane_strain + plane_strain * state.slope);
  // Once more with the stress at the end, for curves that bend sharply at first.
  const double end = flow.stress(before.plastic + dp);
  dp += (std::abs(trial) - modulus * dp / plane_strain - plane_strain * end) /
        (modulus / plane_strain + plane_strain * flow.slope(before.plastic + dp));
  dp          = std::max(0., dp);
  now.plastic = before.plastic + dp;
  now.stress  = std::copysign(std::abs(trial) - modulus * dp / plane_strain, trial);
  return now;
}

/// A strip of fibres on its way from flat to bent.
class Strip
{
public:
  Strip(const Material &material, double thickness)
      : flow_(material.flow),
        modulus_(material.young / (1 - material.poisson * material.poisson)),
        thickness_(thickness), fibres_(n_fibres), latest_(n_fibres)
  {
  }

  /// Bends on to a rotation, larger than the last one.
  BentStrip bend(const double rotation)
  {
    // The convex face is left free by one inner radius, near the one at which the middle
    // keeps its length. Illinois rule, because a fibre that yields bends the function.
    const double k = rotation, middle = 1 / k - thickness_ / 2;
    const double close = 1e-6 * flow_.initial_stress() * k * thickness_;
    double       reach = 1e-3 * thickness_;
    double low = middle + lag_, high = low, f_low = face_stress(k, low), f_high = f_low;
    for (; f_low > 0 && reach < thickness_; reach *= 2)
      f_low = face_stress(k, low -= reach);
    for (; f_high < 0 && reach < thickness_; reach *= 2)
      f_high = face_stress(k, high += reach);
    double a = low, f = f_low;
    int    side = 0;
    for (int i = 0; i < 40 && std::abs(f) > close; ++i)
    {
      a = f_high > f_low ? (low * f_high - high * f_low) / (f_high - f_low) : low;
      f = face_stress(k, a);
      if (f < 0)
      {
        low = a, f_low = f;
        f_high /= side == 1 ? 2 : 1;
        side = 1;
      }
      else
      {
        high = a, f_high = f;
        f_low /= side == -1 ? 2 : 1;
        side = -1;
      }
    }
    lag_    = a - (1 / k - thickness_ / 2);
    fibres_ = latest_;

    BentStrip bent;
    double    sum = 0;
    // Minus r_m^2 / 2 times the face's balance, so that small curvatures stay accurate.
    for (std::size_t i = 0; i < n_fibres; ++i)
      sum += fibres_[i].stress * (1 - 1 / (k * k * radius_squared(k, a, i)));
    const double b    = std::sqrt(a * a + 2 * thickness_ / k);
    bent.rotation     = k;
    bent.moment       = sum * thickness_ / n_fibres / (2 * k);
    bent.inner_radius = a;
    bent.thickness    = b - a;
    bent.outer_strain = std::log(b * k);
    bent.inner_strain = std::log(a * k);
    return bent;
  }

private:
  /// Radial stress that would be left on the convex face [MPa].
  double face_stress(const double k, const double a)
  {
    double sum = 0;
    for (std::size_t i = 0; i < n_fibres; ++i)
    {
      const double r2 = radius_squared(k, a, i);
      latest_[i]      = strained(fibres_[i], 0.5 * std::log(r2 * k * k), flow_, modulus_);
      sum += latest_[i].stress / (k * r2);
    }
    return sum * thickness_ / n_fibres;
  }

  double radius_squared(const double k, const double a, const std::size_t fibre) const
  {
    return a * a + 2 * (static_cast<double>(fibre) + 0.5) * thickness_ / (n_fibres * k);
  }

  const FlowCurve   &flow_;
  double             modulus_, thickness_;
  double             lag_ = 0; ///< of the inner radius behind 1/k - t/2 [mm]
  std::vector<Fibre> fibres_, latest_;
};

BentStrip mixed(const BentStrip &a, const BentStrip &b, const double share)
{
  const auto mix = [share](double x, double y) { return x + share * (y - x); };
  BentStrip  m;
  m.rotation     = mix(a.rotation, b.rotation);
  m.moment       = mix(a.moment, b.moment);
  m.thickness    = mix(a.thickness, b.thickness);
  m.outer_strain = mix(a.outer_strain, b.outer_strain);
  m.inner_strain = mix(a.inner_strain, b.inner_strain);
  m.co_work      = mix(a.co_work, b.co_work);
  m.inner_radius = 1 / mix(1 / a.inner_radius, 1 / b.inner_radius);
  return m;
}

/// The two neighbours and the place between them, by a figure that rises or falls along the
/// points.
template <class Figure>
BentStrip found(const std::vector<BentStrip> &points, const double wanted,
                const Figure &figure)
{
  const auto next =
      std::lower_bound(points.begin() + 1, points.end() - 1, wanted,
                       [&](const BentStrip &p, double value) { return figure(p) < value; });
  const double low = figure(*(next - 1)), high = figure(*next);
  return mixed(*(next - 1), *next, std::clamp((wanted - low) / (high - low), 0., 1.));
}
} // namespace

BendCurve::BendCurve(const Material &material, const double thickness,
                     const double tightest)
    : stiffness_(material.young / (1 - material.poisson * material.poisson) *
                 std::pow(thickness, 3) / 12)
{
  // Fine where the strip begins to yield, even steps of strain after that.
  const double first_yield = plane_strain * material.flow.initial_stress() * 2 *
                             (1 - material.poisson * material.poisson) /
                             (material.young * thickness);
  const double last = 1.25 / (tightest + thickness / 2);
  BentStrip    flat;
  flat.thickness    = thickness;
  flat.inner_radius = 1e12;
  points_.push_back(flat);
  Strip  strip(material, thickness);
  double k = 0;
  while (k < last)
  {
    k += k < first_yield ? first_yield / 4
                         : std::min({0.15 * k, last / 40, 0.02 / thickness});
    BentStrip bent = strip.bend(k);
    // A perfectly plastic strip gets a little weaker as it thins; the least rise keeps
    // moment and curvature a pair of values that determine each other.
    const BentStrip &before = points_.back();
    bent.moment             = std::max(bent.moment, before.moment * (1 + 1e-6));
    bent.co_work            = before.co_work +
                   (bent.rotation + before.rotation) / 2 * (bent.moment - before.moment);
    points_.push_back(bent);
  }
}

BentStrip BendCurve::at_moment(const double moment) const
{
  return found(points_, moment, [](const BentStrip &p) { return p.moment; });
}

BentStrip BendCurve::at_radius(const double inner) const
{
  return found(points_, 1 / inner, [](const BentStrip &p) { return 1 / p.inner_radius; });
}

BentStrip BendCurve::at_rotation(const double rotation) const
{
  return found(points_, rotation, [](const BentStrip &p) { return p.rotation; });
}
} // namespace throughbend
