#pragma once
// Passes that are interrupted and resumed, on the quick mesh. Dimensions are invented.

#include "inputs/case_reader.h"

#include <stdexcept>
#include <string>
#include <vector>

namespace throughbend
{
inline Case resume_case(const std::vector<std::string> &overrides)
{
  const CaseReading reading = read_case_text("[coupon]\n"
                                             "length = 160 mm\n"
                                             "width = 38 mm\n"
                                             "thickness = 10 mm\n"
                                             "[material]\n"
                                             "law = voce\n"
                                             "yield = 250 MPa\n"
                                             "saturation = 200 MPa\n"
                                             "rate = 12\n"
                                             "hardening = 150 MPa\n"
                                             "[plunger]\n"
                                             "width = 40 mm\n"
                                             "[shoulders]\n"
                                             "radius = 20 mm\n"
                                             "opening = 63.2 mm\n"
                                             "[ram]\n"
                                             "capacity = 80 kN\n"
                                             "stroke = 140 mm\n"
                                             "[mesh]\n"
                                             "level = quick\n",
                                             "the case", overrides);
  if (!reading.value)
    throw std::logic_error(error_list(reading.errors));
  return *reading.value;
}

struct ResumeCase
{
  std::string name;
  Case        c;
};

/// Goes through; runs out of force and is followed beyond; a flawed weld; off-centre with a
/// backstress.
inline std::vector<ResumeCase> resume_cases()
{
  return {{"sound", resume_case({})},
          {"over capacity", resume_case({"--ram.capacity", "35 kN"})},
          {"flawed", resume_case({"--weld.preparation", "square", "--weld.width", "6 mm",
                                  "--flaw.depth", "3 mm", "--weld.bend", "root"})},
          {"off-centre",
           resume_case({"--coupon.offset", "8 mm", "--material.kinematic_saturation",
                        "60 MPa", "--material.kinematic_rate", "30"})}};
}
} // namespace throughbend
