// Samples, laws, probabilities, quantiles and weights against closed forms. Functions and
// laws are those of the sources named; seeds and sizes are invented.

#include "solver/study/statistics/chance.h"
#include "solver/study/statistics/key_weights.h"
#include "solver/study/statistics/law_quantile.h"
#include "solver/study/statistics/quantile_band.h"
#include "solver/study/statistics/sample_sets.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>
#include <random>
#include <set>

using namespace throughbend;

namespace
{
constexpr double pi = 3.14159265358979323846;

ScatterLaw law(const ScatterKind kind, const double a, const double b, const double c = 0)
{
  ScatterLaw made;
  made.kind   = kind;
  made.first  = a;
  made.second = b;
  made.third  = c;
  return made;
}

struct Moments
{
  double mean = 0, variance = 0;
};

/// By the midpoints of many equal shares.
Moments moments(const ScatterLaw &of)
{
  constexpr int n   = 200000;
  double        sum = 0, squares = 0;
  for (int i = 0; i < n; ++i)
  {
    const double x = quantile(of, (i + 0.5) / n);
    sum += x;
    squares += x * x;
  }
  return {sum / n, squares / n - sum / n * sum / n};
}

/// P(Z <= x).
double normal_below(const double x)
{
  return std::erfc(-x / std::sqrt(2.)) / 2;
}

std::vector<std::size_t> sets_of(const std::size_t n, const std::size_t sets)
{
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < n; ++i)
    all.push_back(i % sets);
  return all;
}

/// Ishigami & Homma (1990), "An importance quantification technique in uncertainty analysis
/// for computer models"; a = 7, b = 0.1, x in (-pi, pi).
double ishigami(const std::vector<double> &u)
{
  const double x1 = pi * (2 * u[0] - 1), x2 = pi * (2 * u[1] - 1), x3 = pi * (2 * u[2] - 1);
  return std::sin(x1) + 7 * std::pow(std::sin(x2), 2) +
         0.1 * std::pow(x3, 4) * std::sin(x1);
}
} // namespace

TEST_CASE("laws have the moments of their formulas", "[study][statistics]")
{
  // Uniform: (b - a)^2 / 12, which is JCGM 100:2008, 4.3.7: a^2 / 3 of the half width.
  const Moments uniform = moments(law(ScatterKind::uniform, 9.43, 9.63));
  CHECK(uniform.mean == Approx(9.53));
  CHECK(uniform.variance == Approx(0.1 * 0.1 / 3).epsilon(1e-6));

  const Moments normal = moments(law(ScatterKind::normal, 350, 15));
  CHECK(normal.mean == Approx(350));
  CHECK(normal.variance == Approx(225).epsilon(1e-3));

  // Triangular: mean (a + b + c) / 3, variance (a^2 + b^2 + c^2 - ab - ac - bc) / 18
  // (Johnson, Kotz & Balakrishnan 1995, Continuous Univariate Distributions 2, from
  // memory).
  const double  a = 0.05, m = 0.08, b = 0.2;
  const Moments triangle = moments(law(ScatterKind::triangular, a, m, b));
  CHECK(triangle.mean == Approx((a + m + b) / 3));
  CHECK(triangle.variance ==
        Approx((a * a + b * b + m * m - a * b - a * m - b * m) / 18).epsilon(1e-4));

  // Lognormal: mean m exp(s^2 / 2), variance (exp(s^2) - 1) mean^2.
  const double  s = std::log(1.2), mean = 300 * std::exp(s * s / 2);
  const Moments lognormal = moments(law(ScatterKind::lognormal, 300, 1.2));
  CHECK(lognormal.mean == Approx(mean));
  CHECK(lognormal.variance == Approx(std::expm1(s * s) * mean * mean).epsilon(1e-3));

  // A normal law cut at one deviation on both sides: 1 - 2 phi(1) / (Phi(1) - Phi(-1)),
  // phi(1) = 0.2419707 (tables).
  ScatterLaw cut = law(ScatterKind::normal, 0, 1);
  cut.low        = -1;
  cut.high       = 1;
  CHECK(std::abs(moments(cut).mean) < 1e-9);
  CHECK(moments(cut).variance ==
        Approx(1 - 2 * 0.2419707 / (normal_below(1) - normal_below(-1))).epsilon(1e-5));
}

TEST_CASE("quantiles of known laws", "[study][statistics]")
{
  // 1.959964: tables of the normal distribution.
  CHECK(quantile(law(ScatterKind::normal, 0, 1), 0.975) == Approx(1.959964).epsilon(1e-6));
  CHECK(quantile(law(ScatterKind::lognormal, 300, 1.1), 0.5) == Approx(300));
  CHECK(quantile(law(ScatterKind::lognormal, 300, 1.1), normal_below(1)) == Approx(330));
  const ScatterLaw triangle = law(ScatterKind::triangular, 1, 2, 4);
  CHECK(quantile(triangle, 1. / 3) == Approx(2)); // (m - a) / (b - a), by hand
  CHECK(quantile(triangle, 0.5) == Approx(triangle.middle()));
  // One-sided triangles: the right angle at either end.
  CHECK(quantile(law(ScatterKind::triangular, 0, 0, 1), 0.75) == Approx(0.5));
  CHECK(quantile(law(ScatterKind::triangular, 0, 1, 1), 0.25) == Approx(0.5));
  ScatterLaw cut = law(ScatterKind::uniform, 0, 10);
  cut.low        = 4;
  cut.high       = 100;
  CHECK(quantile(cut, 0.5) == Approx(7));
  for (const double u : {1e-16, 1 - 1e-16})
    CHECK(std::isfinite(quantile(law(ScatterKind::normal, 0, 1), u)));
}

TEST_CASE("samples fill every key evenly, set by set", "[study][statistics]")
{
  const CubePoints points = sample_points(320, 5, 10, 7);
  REQUIRE(points.size() == 320);
  for (std::size_t set = 0; set < 10; ++set)
    for (std::size_t d = 0; d < 5; ++d)
    {
      // A digital shift keeps one point of 32 in each interval of 1/32.
      std::set<int> cells;
      for (std::size_t i = set; i < 320; i += 10)
      {
        CHECK((points[i][d] > 0 && points[i][d] < 1));
        cells.insert(static_cast<int>(32 * points[i][d]));
      }
      CHECK(cells.size() == 32);
    }
  CHECK(sample_points(320, 5, 10, 7) == points);
  CHECK(sample_points(320, 5, 10, 8) != points);
  // Sets differ from each other, and a longer study begins with the same points.
  CHECK(points[0] != points[1]);
  CHECK(sample_points(400, 5, 10, 7)[17] == points[17]);
  CHECK(usual_sets(400) == 10);
  CHECK(usual_sets(10) == 2);
  CHECK(usual_sets(3) == 1);
}

TEST_CASE("an interval of a share by hand and by tables", "[study][statistics]")
{
  const auto passes = [](std::size_t yes, std::size_t not_known, std::size_t n)
  {
    std::vector<Happened> all(n, Happened::no);
    std::fill_n(all.begin(), yes, Happened::yes);
    std::fill_n(all.begin() + static_cast<std::ptrdiff_t>(yes), not_known,
                Happened::not_known);
    return all;
  };
  // Nothing of n: the upper end is 1 - (0.025)^(1/n), by hand from the binomial law.
  const Chance none = chance(passes(0, 0, 400), 1);
  CHECK(none.share == 0);
  CHECK(none.low == 0);
  CHECK(none.high == Approx(1 - std::pow(0.025, 1. / 400)));
  const Chance all = chance(passes(50, 0, 50), 1);
  CHECK(all.high == 1);
  CHECK(all.low == Approx(std::pow(0.025, 1. / 50)));
  // 10 of 100: 0.0490 to 0.1762 (tables of Clopper & Pearson, from memory).
  const Chance ten = chance(passes(10, 0, 100), 1);
  CHECK(ten.low == Approx(0.0490).epsilon(0.001));
  CHECK(ten.high == Approx(0.1762).epsilon(0.001));

  // Undecided passes are no event at the lower end and events at the upper one.
  const Chance open = chance(passes(10, 5, 100), 1);
  CHECK(open.share == Approx(0.10));
  CHECK(open.most == Approx(0.15));
  CHECK(open.low == Approx(ten.low));
  CHECK(open.high == Approx(chance(passes(15, 0, 100), 1).high));
  CHECK(open.not_known == 5);
  CHECK(chance(passes(0, 20, 20), 2).high == 1);
  CHECK(chance(passes(0, 20, 20), 2).low == 0);
  CHECK(chance({}, 1).high == 1);
}

TEST_CASE("sets that disagree widen the interval", "[study][statistics]")
{
  // In two sets all, in two none: independent passes would never do that.
  std::vector<Happened> passes;
  for (int i = 0; i < 80; ++i)
    passes.push_back(i % 4 < 2 ? Happened::yes : Happened::no);
  const Chance apart = chance(passes, 4), single = chance(passes, 1);
  CHECK(apart.low < single.low);
  CHECK(apart.high > single.high);
  // t(3, 0.975) = 3.182 (tables); shares 1 1 0 0: s / sqrt(4) = 0.2887.
  CHECK(apart.high == 1);
  CHECK(apart.low == 0);
}

TEST_CASE("a known probability lies inside its interval in 95 % of 200 studies",
          "[study][statistics]")
{
  // How it is counted: 200 studies that differ in the seed alone; a study counts as good if
  // low <= true <= high. An interval that covers exactly 95 % would have 190 or more good
  // ones in 58 % of such series only, so this asks for an interval that is wide enough.
  struct Trial
  {
    const char *name;
    std::size_t keys, passes;
    bool (*fails)(const std::vector<double> &);
    double truth;
  };
  const auto z = [](double u) { return quantile(law(ScatterKind::normal, 0, 1), u); };
  static const auto normal   = z;
  const Trial       trials[] = {
            // Sum of four normal keys, variance 1 + 0.25 + 0.25 + 0.25, over 2.
      {"normal keys", 4, 400,
             [](const std::vector<double> &u)
             { return normal(u[0]) + 0.5 * (normal(u[1]) + normal(u[2]) + normal(u[3])) > 2; },
             1 - normal_below(2 / std::sqrt(1.75))},
      // A corner of the cube, 0.2^3.
      {"corner", 3, 400,
             [](const std::vector<double> &u) { return u[0] < 0.2 && u[1] < 0.2 && u[2] < 0.2; },
             0.008},
      // A ball's share of the cube, pi / 6.
      {"ball", 3, 100,
             [](const std::vector<double> &u)
             {
         double r = 0;
         for (const double x : u)
           r += (x - 0.5) * (x - 0.5);
         return r < 0.25;
       },
             pi / 6},
      // Stripes that fall in step with a net of points: a checkerboard of 32 by 32 cells.
      {"checkerboard", 2, 320,
             [](const std::vector<double> &u)
             { return (static_cast<int>(32 * u[0]) + static_cast<int>(32 * u[1])) % 2 == 0; },
             0.5}};
  for (const Trial &trial : trials)
  {
    int inside = 0;
    for (std::uint64_t seed = 1; seed <= 200; ++seed)
    {
      const std::size_t     sets = usual_sets(trial.passes);
      std::vector<Happened> passes;
      for (const auto &u : sample_points(trial.passes, trial.keys, sets, seed))
        passes.push_back(trial.fails(u) ? Happened::yes : Happened::no);
      const Chance found = chance(passes, sets);
      inside += found.low <= trial.truth && trial.truth <= found.high ? 1 : 0;
    }
    INFO(trial.name << ": " << inside << " of 200");
    CHECK(inside >= 190);
  }
}

TEST_CASE("quantiles of a figure with a known law", "[study][statistics]")
{
  const ScatterLaw force = law(ScatterKind::lognormal, 30000, 1.1);
  for (const double at : {0.05, 0.5, 0.95})
  {
    int inside = 0;
    for (std::uint64_t seed = 1; seed <= 200; ++seed)
    {
      std::vector<double> figures;
      for (const auto &u : sample_points(400, 1, 10, seed))
        figures.push_back(quantile(force, u[0]));
      const QuantileBand band  = quantile_band(figures, at);
      const double       truth = quantile(force, at);
      inside += band.low <= truth && truth <= band.high ? 1 : 0;
      // Independent passes have a standard error of sqrt(p (1 - p) / n) / density, which at
      // 5 % is 0.0953 x 0.0109 / 0.1031 = 1 % of the value (by hand); evenly spread ones
      // must stay within three of these.
      CHECK(band.value == Approx(truth).epsilon(0.03));
    }
    INFO(at << ": " << inside << " of 200");
    CHECK(inside >= 190);
  }
  // So few passes tell nothing of a tail; the median of 1, 2, 3, 4 is 2.5.
  const QuantileBand tail = quantile_band({1, 2, 3, 4}, 0.95);
  CHECK(std::isnan(tail.high));
  CHECK(quantile_band({4, 2, 3, 1}, 0.5).value == Approx(2.5));
  CHECK(std::isnan(quantile_band({}, 0.5).value));
  // Median of 10, by hand from the binomial law: ranks 2 and 9 leave 0.0107 on each side
  // (1 and 10 of 1024 ways), ranks 3 and 8 leave 0.0547.
  std::vector<double> ten(10);
  std::iota(ten.begin(), ten.end(), 1.);
  CHECK(quantile_band(ten, 0.5).low == 2);
  CHECK(quantile_band(ten, 0.5).high == 9);
}

TEST_CASE("weights of Ishigami's function", "[study][statistics]")
{
  // Closed forms: Saltelli et al. (2008), Global Sensitivity Analysis: The Primer, 4.
  const double a = 7, b = 0.1, p4 = std::pow(pi, 4), p8 = p4 * p4;
  const double v  = a * a / 8 + b * p4 / 5 + b * b * p8 / 18 + 0.5;
  const double s1 = std::pow(1 + b * p4 / 5, 2) / 2 / v, s2 = a * a / 8 / v;
  const double s13 = 8 * b * b * p8 / 225 / v;
  CHECK(s1 == Approx(0.3139).epsilon(0.001)); // as the book prints them
  CHECK(s2 == Approx(0.4424).epsilon(0.001));
  CHECK(s13 == Approx(0.2437).epsilon(0.001));

  const std::size_t   n      = 800;
  const CubePoints    points = sample_points(n, 3, 10, 3);
  std::vector<double> figures;
  for (const auto &u : points)
    figures.push_back(ishigami(u));
  const FigureWeights found =
      figure_weights(points, figures, {3, KeyBasis::legendre}, sets_of(n, 10));
  REQUIRE(found.weights.size() == 3);
  CHECK(found.left_out_share > 0.99);
  const double first[] = {s1, s2, 0}, total[] = {s1 + s13, s2, s13};
  for (std::size_t k = 0; k < 3; ++k)
  {
    INFO("key " << k + 1 << ": " << found.weights[k].first << " +- "
                << found.weights[k].first_error << ", " << found.weights[k].total << " +- "
                << found.weights[k].total_error);
    CHECK(std::abs(found.weights[k].first - first[k]) <= found.weights[k].first_error);
    CHECK(std::abs(found.weights[k].total - total[k]) <= found.weights[k].total_error);
    CHECK(found.weights[k].first_error < 0.05);
  }
}

TEST_CASE("weights of Sobol's g-function, whose kinks no polynomial follows",
          "[study][statistics]")
{
  // Product of (|4 u - 2| + a) / (1 + a); V_i = 1 / (3 (1 + a_i)^2), V = prod(1 + V_i) - 1
  // (Saltelli et al. 2008, as above).
  const double a[] = {0, 1, 4.5, 9};
  double       v   = 1, vi[4];
  for (int i = 0; i < 4; ++i)
  {
    vi[i] = 1 / (3 * (1 + a[i]) * (1 + a[i]));
    v *= 1 + vi[i];
  }
  v -= 1;
  const std::size_t   n      = 1000;
  const CubePoints    points = sample_points(n, 4, 10, 11);
  std::vector<double> figures;
  for (const auto &u : points)
  {
    double product = 1;
    for (std::size_t i = 0; i < 4; ++i)
      product *= (std::abs(4 * u[i] - 2) + a[i]) / (1 + a[i]);
    figures.push_back(product);
  }
  const FigureWeights found =
      figure_weights(points, figures, {4, KeyBasis::legendre}, sets_of(n, 10));
  INFO("left out " << found.left_out_share << ", terms " << found.terms);
  REQUIRE(found.weights.size() == 4);
  CHECK(found.left_out_share < 0.99);
  for (std::size_t i = 0; i < 4; ++i)
  {
    const double first = vi[i] / v, total = vi[i] * (1 + v) / (1 + vi[i]) / v;
    INFO("key " << i + 1 << ": " << found.weights[i].first << " +- "
                << found.weights[i].first_error << " against " << first);
    CHECK(std::abs(found.weights[i].first - first) <= found.weights[i].first_error);
    CHECK(std::abs(found.weights[i].total - total) <= found.weights[i].total_error);
  }
}

TEST_CASE("weights of a sum of normal keys are their shares of the variance",
          "[study][statistics]")
{
  // Variances 9, 4, 0: shares 9/13, 4/13, 0 by hand, first and total alike.
  const std::size_t   n      = 200;
  const CubePoints    points = sample_points(n, 3, 10, 5);
  std::vector<double> figures;
  for (const auto &u : points)
    figures.push_back(3 * quantile(law(ScatterKind::normal, 0, 1), u[0]) -
                      2 * quantile(law(ScatterKind::normal, 0, 1), u[1]));
  const FigureWeights found =
      figure_weights(points, figures, {3, KeyBasis::hermite}, sets_of(n, 10));
  REQUIRE(found.weights.size() == 3);
  CHECK(found.weights[0].first == Approx(9. / 13));
  CHECK(found.weights[1].total == Approx(4. / 13));
  CHECK(found.weights[2].total < 1e-9);
  CHECK(found.ranks[0].rank > 0.7);
  CHECK(found.ranks[1].rank < -0.4);
  CHECK(std::abs(found.ranks[2].rank) <= std::max(0.1, found.ranks[2].error));
}

TEST_CASE("figures that no key explains get no weights", "[study][statistics]")
{
  std::mt19937_64     random(1);
  const std::size_t   n      = 200;
  const CubePoints    points = sample_points(n, 2, 10, 5);
  std::vector<double> figures;
  for (std::size_t i = 0; i < n; ++i)
    figures.push_back(std::uniform_real_distribution<>(0, 1)(random));
  const FigureWeights found =
      figure_weights(points, figures, {2, KeyBasis::legendre}, sets_of(n, 10));
  CHECK(found.weights.empty());
  CHECK(found.left_out_share < 0.1);
  for (const KeyRank &rank : found.ranks)
    CHECK(std::abs(rank.rank) <= rank.error + 0.05);
  // The same figure always: no variance, no weights, no fault.
  const FigureWeights same = figure_weights(points, std::vector<double>(n, 5.),
                                            {2, KeyBasis::legendre}, sets_of(n, 10));
  CHECK(same.weights.empty());
  // Rank correlation of a rising figure is 1, by definition.
  std::vector<double> rising;
  for (const auto &u : points)
    rising.push_back(std::exp(5 * u[0]));
  CHECK(figure_weights(points, rising, {2, KeyBasis::legendre}, sets_of(n, 10))
            .ranks[0]
            .rank == Approx(1));
}
