#include "inputs/keys/measured_metal.h"

#include "inputs/metal/bend_strain.h"
#include "inputs/metal/tension_test.h"
#include "inputs/text/file_text.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace throughbend
{
namespace
{
/// Six digits: more than any test tells, and few enough to read in a case.
double six_digits(const double value)
{
  return std::strtod(fmt::format("{:.6g}", value).c_str(), nullptr);
}

/// The text of the file is the key to what was read last: cheap to compare, and true when
/// the file changes.
const TensionReading &reading_of(const std::string &path, const double young)
{
  struct Last
  {
    std::string    path, text;
    double         young = 0;
    TensionReading reading;
  };
  thread_local Last last;
  const FileText    file = read_file_text(path);
  if (last.path != path || last.text != file.text || last.young != young ||
      !file.problem.empty())
    last = {path, file.text, young, read_tension_test(path, young)};
  return last.reading;
}

const TensionTest *test_of(const Material &material)
{
  if (material.curve.empty())
    return nullptr;
  const TensionReading &reading = reading_of(material.curve, material.young);
  return reading.test ? &*reading.test : nullptr;
}
} // namespace

std::vector<std::string> faults_of_curve(const std::string &path, const double young)
{
  if (path.empty())
    return {};
  return reading_of(path, young).faults;
}

std::optional<Material> measured_metal(const Material &material)
{
  const TensionTest *test = test_of(material);
  if (test == nullptr)
    return std::nullopt;
  Material metal;
  metal.young       = material.young;
  metal.flow.law    = HardeningLaw::table;
  metal.flow.points = test->table(material.beyond_necking);
  for (FlowPoint &point : metal.flow.points)
    point = {six_digits(point.plastic_strain), six_digits(point.stress)};
  metal.flow.last_strain = six_digits(test->end.strain);
  metal.tensile_strength = six_digits(test->tensile_strength);
  metal.flow.settle_yield();
  return metal;
}

bool is_measured(const Material &material)
{
  const auto metal = measured_metal(material);
  if (!metal || material.flow.law != HardeningLaw::table)
    return false;
  const auto &own = material.flow.points, &its = metal->flow.points;
  return std::equal(own.begin(), own.end(), its.begin(), its.end(),
                    [](const FlowPoint &a, const FlowPoint &b) {
                      return a.plastic_strain == b.plastic_strain && a.stress == b.stress;
                    });
}

std::vector<std::string> curve_remarks(const Case &c)
{
  const TensionTest *test = test_of(c.material);
  if (test == nullptr)
    return {};
  std::vector<std::string> remarks = reading_notes(*test, c.material.young);
  const BendStrain         bend =
      bend_strain(c.fixture.plunger.bend_diameter(), c.coupon.thickness);
  remarks.push_back(backing_text(*test, bend, c.material.beyond_necking));
  return remarks;
}
} // namespace throughbend
