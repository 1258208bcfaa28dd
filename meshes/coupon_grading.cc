#include "meshes/coupon_grading.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double pi = 3.14159265358979323846;

/// Cell sizes asked for, as functions of the distance from the bend's centre.
struct SizeWish
{
  double bend = 0, leg = 0, tip = 0; ///< [mm]
  double bend_reach = 0;             ///< half length of the stretch that bends [mm]
  double tip_from   = 0;             ///< distance from which the tip size holds [mm]

  double at(double distance) const
  {
    // Sizes grow by a quarter of the distance walked, so neighbours stay alike.
    const double past  = std::max(0., distance - bend_reach);
    const double ahead = std::max(0., tip_from - distance);
    return std::min({bend + past / 4, leg, tip + ahead / 4});
  }
};

int layers_at(const MeshSettings &mesh)
{
  if (mesh.layers > 0)
    return mesh.layers;
  switch (mesh.level)
  {
  case MeshLevel::quick:
    return 3;
  case MeshLevel::standard:
    return 4;
  case MeshLevel::fine:
    return 8;
  }
  return 4;
}

SizeWish size_wish(const Case &c)
{
  const double t = c.coupon.thickness, nose = c.fixture.plunger.nose_radius;
  const double factor = c.mesh.level == MeshLevel::quick  ? 1.5
                        : c.mesh.level == MeshLevel::fine ? 0.5
                                                          : 1.;
  SizeWish     wish;
  // A tenth of the radius that a face lies on keeps the force smooth; thinner slices than
  // an eighth of the thickness resolve nothing that the layers could follow.
  wish.bend = std::clamp(0.1 * nose, t / 8, t / 4) * factor;
  wish.leg  = std::clamp(0.15 * c.fixture.shoulders.radius, t / 4, t / 2) * factor;
  if (c.mesh.cell_size > 0)
  {
    wish.leg *= c.mesh.cell_size / wish.bend;
    wish.bend = c.mesh.cell_size;
  }
  wish.leg        = std::max(wish.leg, wish.bend);
  wish.tip        = wish.leg;
  wish.bend_reach = (c.fixture.plunger.width / 2 + t / 2) * pi / 2 + t;
  wish.tip_from   = c.coupon.length / 2;
  if (c.fixture.frame.present() &&
      c.coupon.length / 2 + std::abs(c.coupon.offset) > c.fixture.frame.distance)
  {
    wish.tip =
        std::min(wish.leg, std::max(1.5 * c.fixture.frame.edge_radius, t / 8)) * factor;
    wish.tip_from = c.fixture.frame.distance - t;
  }
  return wish;
}

/// Cuts [from, to] so that each cell comes close to the wished size.
void cut(std::vector<double> &lines, double from, double to, double centre,
         const SizeWish &wish)
{
  // Cells needed = integral of dx / size; lines where that count passes whole multiples.
  constexpr int       samples = 400;
  std::vector<double> count(samples + 1, 0.);
  for (int i = 0; i < samples; ++i)
  {
    const double x = from + (to - from) * (i + 0.5) / samples;
    count[i + 1]   = count[i] + (to - from) / samples / wish.at(std::abs(x - centre));
  }
  const int cells = std::max(1, static_cast<int>(std::ceil(count.back() - 0.25)));
  int       i     = 0;
  for (int cell = 1; cell < cells; ++cell)
  {
    const double goal = count.back() * cell / cells;
    while (count[i + 1] < goal)
      ++i;
    const double share = (goal - count[i]) / (count[i + 1] - count[i]);
    lines.push_back(from + (to - from) * (i + share) / samples);
  }
  lines.push_back(to);
}
} // namespace

Extent model_extent(const Case &c)
{
  const bool symmetric = c.coupon.offset == 0 && (!c.weld.present() || c.weld.offset == 0);
  return symmetric && c.mesh.model == ModelChoice::automatic ? Extent::half : Extent::full;
}

int zone_at(const Weld &weld, double position)
{
  const double distance = std::abs(position - weld.offset);
  if (weld.width > 0 && distance < weld.width / 2)
    return 2;
  if (weld.haz_width > 0 && distance < weld.width / 2 + weld.haz_width)
    return 1;
  return 0;
}

CouponGrid coupon_grid(const Case &c, Extent extent)
{
  const double half = c.coupon.length / 2, shift = c.coupon.offset;
  const double left = extent == Extent::half ? 0. : shift - half, right = shift + half;

  std::vector<double> stations = {left, right};
  const auto          add      = [&](double x)
  {
    if (x > left + 1e-6 && x < right - 1e-6)
      stations.push_back(x);
  };
  if (c.weld.present())
    for (const double sign : {-1., 1.})
    {
      add(shift + c.weld.offset + sign * c.weld.width / 2);
      add(shift + c.weld.offset + sign * (c.weld.width / 2 + c.weld.haz_width));
    }
  if (extent == Extent::full)
    add(0); // the plunger's centre line, so that a symmetric case gets a symmetric mesh
  std::sort(stations.begin(), stations.end());
  stations.erase(std::unique(stations.begin(), stations.end(),
                             [](double a, double b) { return b - a < 1e-6; }),
                 stations.end());

  const SizeWish wish = size_wish(c);
  CouponGrid     grid;
  grid.x.push_back(left);
  for (std::size_t i = 0; i + 1 < stations.size(); ++i)
    cut(grid.x, stations[i], stations[i + 1], 0., wish);

  const int layers = layers_at(c.mesh);
  for (int i = 0; i <= layers; ++i)
    grid.y.push_back(c.coupon.thickness * i / layers);
  if (c.mesh.dimension == 3)
  {
    // Half the width; the outer quarter, where the edge curls, gets half of the cells.
    const double half_width = c.coupon.width / 2;
    const int    pairs      = std::max(1, layers_at(c.mesh) / 2);
    for (int i = 0; i <= pairs; ++i)
      grid.z.push_back(half_width * 0.6 * i / pairs);
    for (int i = 1; i <= pairs; ++i)
      grid.z.push_back(half_width * (0.6 + 0.4 * i / pairs));
  }
  return grid;
}
} // namespace throughbend
