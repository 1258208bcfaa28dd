// The companion that fits hardening laws: the one that loads Ceres Solver for it. Started
// by the front program with the words behind `fit-metal`.

#include "inputs/keys/case_reader.h"
#include "inputs/text/input_error.h"
#include "inputs/text/whole_file.h"
#include "postprocess/app/help.h"
#include "postprocess/app/metal_order.h"
#include "postprocess/metal/metal_chart.h"
#include "postprocess/verbs/guarded.h"

#include <algorithm>

namespace throughbend
{
namespace
{
constexpr double usual_young = 210000; // [MPa], the default of material.young

/// Whom the metal is to serve.
struct Service
{
  double                    young = usual_young;
  std::optional<BendStrain> bend;
};

Service service_of(const MetalOrder &order)
{
  Service service;
  if (!order.case_file.empty())
  {
    const CaseReading reading = read_case(order.case_file, {});
    if (!reading.errors.empty())
      throw InputError("--case: the case cannot be used:\n" + error_list(reading.errors));
    service.young = reading.value->material.young;
    service.bend  = bend_strain(reading.value->fixture.plunger.bend_diameter(),
                                reading.value->coupon.thickness);
  }
  service.young = order.young.value_or(service.young);
  return service;
}

void save(const std::string &option, const std::string &file, const std::string &text)
{
  if (file.empty())
    return;
  write_named_file("--" + option, file, text);
}

FittedMetal fitted(const MetalOrder &order, const Service &service)
{
  const TensionReading reading = read_tension_test(order.curve, service.young);
  if (!reading.test)
  {
    std::string faults = "the curve cannot be used:";
    for (const std::string &fault : reading.faults)
      faults += "\n" + fault;
    throw InputError(faults);
  }
  FittedMetal metal{order.curve, *reading.test, {}, service.young, service.bend};
  // The point at p = 0 is the first row's stress carried back, unless it was recorded.
  std::vector<FlowPoint> points = metal.test.points;
  if (metal.test.recorded.front().plastic_strain > 0)
    points.erase(points.begin());
  if (points.size() < 6)
    throw InputError(order.curve + ": " + std::to_string(points.size()) +
                     " points are too few to choose between laws. Use the curve itself: "
                     "material.curve = " +
                     order.curve);
  metal.laws = fit_laws(points, metal.test.end.strain);
  return metal;
}

ExitCode carry_out(const std::vector<std::string> &words)
{
  if (const std::string text = companion_text(
          "throughbend-metal", version_line("throughbend-metal"), fit_metal_verb(), words);
      !text.empty())
    return show(text);
  const MetalOrder order   = metal_order(verb_arguments(fit_metal_verb(), words));
  const Service    service = service_of(order);
  if (order.certificate)
  {
    if (!order.drawing.empty())
      throw InputError("--drawing shows a test with its laws; a certificate has no test.");
    const CertificateCurve curve = certificate_curve(*order.certificate);
    save("into", order.into, estimated_keys(*order.certificate, curve, service.young));
    return show(estimated_text(*order.certificate, curve, service.bend, service.young,
                               order.units));
  }
  const FittedMetal metal = fitted(order, service);
  save("drawing", order.drawing, metal_drawing(metal));
  save("into", order.into, fitted_keys(metal));
  return show(fitted_text(metal, order.units));
}
} // namespace
} // namespace throughbend

int main(int argc, char **argv)
{
  using namespace throughbend;
  return static_cast<int>(guarded(
      [&] {
        return carry_out({argv + std::min(argc, 1), argv + argc});
      }));
}
