#include "inputs/metal/tension_test.h"

#include "inputs/metal/force_maximum.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace throughbend
{
namespace
{
constexpr std::size_t least_rows   = 5; // of a curve
constexpr double      first_p      = 5e-4;
constexpr double      proof_p      = 2e-3;
constexpr std::size_t pieces       = 40;
constexpr double      largest_rise = 3; // of strain: no tension test gets there
// Proof over tensile strength is 0.25 and more in plates of steel and aluminium (from
// memory: soft stainless steel 0.35, soft aluminium 0.3).
constexpr double soft_share = 0.25;

/// As the rows are, in engineering measures.
std::vector<Pull> engineering(const TensionFile &file, const double young)
{
  std::vector<Pull> pulls;
  for (const TestRow &row : file.rows)
  {
    if (file.stress == TestStress::engineering)
    {
      pulls.push_back({row.strain, row.stress});
      continue;
    }
    const double log_strain =
        row.strain + (file.strain == TestStrain::plastic ? row.stress / young : 0);
    pulls.push_back({std::expm1(log_strain), row.stress * std::exp(-log_strain)});
  }
  return pulls;
}

/// Only rows that go on: an unloading and its way back are left out.
std::vector<Pull> rising(const std::vector<Pull> &pulls)
{
  std::vector<Pull> kept;
  for (const Pull &pull : pulls)
    if (kept.empty() || pull.strain > kept.back().strain)
      kept.push_back(pull);
  return kept;
}

/// Means over pieces of strain, shorter near 0. Few points are left as they are.
std::vector<FlowPoint> means(const std::vector<FlowPoint> &points)
{
  if (points.size() <= 2 * pieces)
    return points;
  const double           first = points.front().plastic_strain;
  const double           range = points.back().plastic_strain - first;
  std::vector<FlowPoint> means;
  std::size_t            i = 0;
  for (std::size_t piece = 1; piece <= pieces; ++piece)
  {
    const double to = first + range * std::pow(static_cast<double>(piece) / pieces, 2);
    double       p = 0, s = 0, n = 0;
    for (; i < points.size() && (points[i].plastic_strain <= to || piece == pieces);
         ++i, ++n)
    {
      p += points[i].plastic_strain;
      s += points[i].stress;
    }
    if (n > 0)
      means.push_back({p / n, s / n});
  }
  return means;
}

/// The closest stresses that never fall.
void pool(std::vector<FlowPoint> &points)
{
  struct Block
  {
    double      sum   = 0;
    std::size_t count = 0;
    double      mean() const { return sum / static_cast<double>(count); }
  };
  std::vector<Block> blocks;
  for (const FlowPoint &point : points)
  {
    blocks.push_back({point.stress, 1});
    while (blocks.size() > 1 && blocks[blocks.size() - 2].mean() > blocks.back().mean())
    {
      blocks[blocks.size() - 2].sum += blocks.back().sum;
      blocks[blocks.size() - 2].count += blocks.back().count;
      blocks.pop_back();
    }
  }
  std::size_t i = 0;
  for (const Block &block : blocks)
    for (std::size_t k = 0; k < block.count; ++k)
      points[i++].stress = block.mean();
}

double on_lines(const std::vector<FlowPoint> &points, const double p)
{
  FlowCurve curve;
  curve.law    = HardeningLaw::table;
  curve.points = points;
  return curve.stress(p);
}

/// Slope of the last fifth of the strain, for a test that ended before its maximum.
double last_slope(const std::vector<FlowPoint> &points)
{
  std::vector<Pull> last;
  for (std::size_t i = points.size(); i-- > 0;)
    if (last.size() < 3 || points[i].plastic_strain > 0.8 * points.back().plastic_strain)
      last.push_back({points[i].plastic_strain, points[i].stress});
  return line_through(last).slope;
}

std::string rows_text(const std::size_t rows)
{
  return std::to_string(rows) + (rows == 1 ? " row" : " rows");
}
} // namespace

std::vector<FlowPoint> TensionTest::table(const BeyondNecking which) const
{
  return continued(thinned(points, 1e-3), beyond, end, which);
}

TensionReading read_tension_test(const TensionFile &file, const double young,
                                 const std::string &name)
{
  TensionReading reading;
  reading.faults  = file.faults;
  const auto fail = [&](const std::string &words)
  {
    reading.faults.push_back(name + ": " + words);
    return reading;
  };
  if (!reading.faults.empty())
    return reading;
  for (const TestRow &row : file.rows)
    if (!(std::abs(row.strain) < largest_rise) || !(std::abs(row.stress) < 1e5))
    {
      reading.faults.push_back(fmt::format(
          "{}:{}: a strain of {:.4g} at {:.4g} MPa is too large for a tension test; "
          "check units, gauge length and section",
          name, row.line, row.strain, row.stress));
      return reading;
    }

  TensionTest test;
  test.rows                     = file.rows.size();
  const std::vector<Pull> pulls = rising(engineering(file, young));
  test.not_rising               = test.rows - pulls.size();
  if (pulls.size() < least_rows)
    return fail(fmt::format("only {} of {} rise in strain; a curve needs {} or more",
                            pulls.size(), rows_text(test.rows), least_rows));
  if (2 * test.not_rising > test.rows)
    return fail(fmt::format("the strain does not rise in {} of {}; is the first column the "
                            "strain, and is it a pull?",
                            test.not_rising, rows_text(test.rows)));
  const ForceMaximum maximum = force_maximum(pulls);
  if (!(maximum.stress > 1))
    return fail(
        fmt::format("the largest stress is {:.4g} MPa; pull counts as positive, and "
                    "the units may be wrong",
                    maximum.stress));
  test.tensile_strength = maximum.stress;
  test.necks            = maximum.passed;

  const bool    plastic = file.strain == TestStrain::plastic;
  const Elastic elastic =
      plastic ? Elastic{ElasticPart::assumed, young, 0} : elastic_part(pulls, young);
  test.elastic = elastic.part;
  test.slope   = elastic.slope;
  test.toe     = elastic.toe;
  // A record of few rows in the elastic part is off by some; beyond that no machine makes a
  // bar stiffer than its metal.
  if (elastic.slope > 1.25 * young)
    return fail(
        fmt::format("the elastic part rises by {:.0f} GPa, and Young's modulus is {:.0f} "
                    "GPa; look at gauge length, section and units, or set "
                    "material.young to that of the metal",
                    elastic.slope / 1000, young / 1000));

  if (!plastic && elastic.part == ElasticPart::assumed)
    for (const Pull &pull : pulls)
      if (pull.stress > 0 && pull.stress < soft_share * maximum.stress &&
          pull.strain - pull.stress / young > proof_p)
        return fail(fmt::format(
            "too few rows in the elastic part to tell the bar's strain from what the "
            "machine gives: at {:.3g} MPa the strain is {:.2g} %, and Young's modulus "
            "allows {:.2g} %; record four or more rows between 20 and 50 % of the proof "
            "stress, or measure the extension on the bar",
            pull.stress, 100 * pull.strain, 100 * pull.stress / young));

  // What the machine, the grips or a slipping gauge add to the extension goes with the
  // force, and is no strain of the bar: with it the section would seem to shrink by more.
  const double give       = std::max(0., 1 / test.slope - 1 / young);
  const auto   bar_strain = [&](const double strain, const double stress)
  { return strain - test.toe - stress * give; };
  // Plastic strain and true stress, up to the end.
  const auto flow_point = [&](const double strain, const double stress)
  {
    const double of_bar      = bar_strain(strain, stress);
    const double true_stress = stress * (1 + of_bar);
    return FlowPoint{std::log1p(of_bar) - true_stress / young, true_stress};
  };
  const FlowPoint last =
      flow_point(maximum.strain, test.necks ? maximum.stress : pulls.back().stress);
  std::vector<FlowPoint> used;
  double                 before = 0;
  for (std::size_t i = 0; i <= maximum.last; ++i)
  {
    const FlowPoint point = flow_point(pulls[i].strain, pulls[i].stress);
    if (point.plastic_strain < last.plastic_strain &&
        (point.plastic_strain >= first_p || (plastic && used.empty())))
      used.push_back(point);
    else if (point.plastic_strain < first_p)
      before = point.stress;
  }
  test.beyond_end = pulls.size() - 1 - maximum.last;
  test.uniform    = bar_strain(maximum.strain, maximum.stress);
  if (last.plastic_strain < 0.005)
    return fail(
        fmt::format("the force is largest at a plastic strain of {:.4g}, at yield: such "
                    "a bar stretches in one place only, and the record shows no "
                    "hardening",
                    last.plastic_strain));
  if (used.size() < least_rows - 1)
    return fail(
        fmt::format("only {} lie between yield and the force maximum; a curve needs "
                    "{} or more",
                    rows_text(used.size()), least_rows - 1));
  std::stable_sort(used.begin(), used.end(),
                   [](const FlowPoint &a, const FlowPoint &b)
                   { return a.plastic_strain < b.plastic_strain; });
  test.recorded = used;

  std::vector<FlowPoint> curve = means(used);
  for (FlowPoint &point : curve)
    point.stress = std::min(point.stress, last.stress);
  pool(curve);
  // Strains that rise, from 0.
  if (curve.front().plastic_strain > 0)
  {
    double first = curve.front().stress;
    if (before > 0 && before < first && curve.front().plastic_strain > 2 * first_p)
      first = before; // the next row before, where rows are far apart
    curve.insert(curve.begin(), {0, first});
  }
  else
    curve.front().plastic_strain = 0;
  std::vector<FlowPoint> apart;
  for (const FlowPoint &point : curve)
    if (apart.empty() || point.plastic_strain > apart.back().plastic_strain + 1e-7)
      apart.push_back(point);
  while (apart.size() > 2 && apart.back().plastic_strain > last.plastic_strain * (1 - 1e-3))
    apart.pop_back();
  apart.push_back({last.plastic_strain, std::max(last.stress, apart.back().stress)});
  test.points = apart;
  if (!(test.points.front().stress > 1))
    return fail("the curve starts without stress; check the units");

  double sum = 0;
  for (const FlowPoint &point : used)
    sum += std::pow(point.stress - on_lines(test.points, point.plastic_strain), 2);
  test.scatter = std::sqrt(sum / static_cast<double>(used.size()));
  test.proof   = on_lines(test.points, proof_p) * std::exp(-proof_p);

  test.end.strain = last.plastic_strain;
  test.end.stress = test.points.back().stress;
  test.end.slope  = test.necks ? test.end.stress
                               : std::clamp(last_slope(test.points), 1e-3 * test.end.stress,
                                            test.end.stress / test.end.strain);
  test.beyond     = necking_curves(test.points, test.end);
  reading.test    = test;
  return reading;
}

TensionReading read_tension_test(const std::string &path, const double young)
{
  return read_tension_test(read_tension_file(path), young, path);
}

ElasticFault elastic_fault(const TensionTest &test, const double young)
{
  const double share = test.slope / young;
  return test.elastic != ElasticPart::measured || std::abs(share - 1) < 0.1
             ? ElasticFault::none
         : share < 1 ? ElasticFault::soft
                     : ElasticFault::stiff;
}

std::vector<std::string> reading_notes(const TensionTest &test, const double young)
{
  std::vector<std::string> notes;
  notes.push_back(fmt::format(
      "{} used; 0.2 % proof stress {:.4g} MPa, tensile strength {:.4g} MPa{}",
      rows_text(test.recorded.size()), test.proof, test.tensile_strength,
      test.necks ? fmt::format(" at an elongation of {:.3g} %", 100 * test.uniform)
                 : std::string(" at the last row")));
  if (test.elastic == ElasticPart::measured)
  {
    const std::string modulus = fmt::format("Young's modulus is {:.3g} GPa", young / 1000);
    std::string       note =
        fmt::format("the elastic part rises by {:.3g} GPa, ", test.slope / 1000);
    switch (elastic_fault(test, young))
    {
    case ElasticFault::none:
      note += "within 10 % of Young's modulus";
      break;
    case ElasticFault::soft:
      note += modulus + ": the extension includes more than the bar, and that part, which "
                        "goes with the force, is subtracted";
      break;
    case ElasticFault::stiff:
      note += modulus + ": gauge length or section is wrong; nothing is corrected";
      break;
    }
    if (std::abs(test.toe) >= 1e-4)
      note +=
          fmt::format("; {:.2g} % of strain is a toe and is subtracted", 100 * test.toe);
    notes.push_back(note);
  }
  else
    notes.push_back(fmt::format(
        "no elastic part to measure; Young's modulus of {:.3g} GPa is used, "
        "and no toe is corrected. If the extension was not measured on the bar, "
        "yield and forces come out too low",
        young / 1000));
  if (!test.necks)
    notes.push_back(
        "the force maximum was not reached: the tensile strength is the largest "
        "stress recorded, and the slope at the end is that of the last fifth");
  else
    notes.push_back(
        fmt::format("the bar necks at the force maximum (Considere); {} beyond it "
                    "left out",
                    rows_text(test.beyond_end)));
  if (100 * test.not_rising > test.rows)
    notes.push_back(rows_text(test.not_rising) +
                    " left out in which the strain does not rise");
  if (test.scatter > 0.01 * test.end.stress)
    notes.push_back(
        fmt::format("the record scatters by {:.2g} MPa about the curve", test.scatter));
  return notes;
}
} // namespace throughbend
