#pragma once
// Passes that are interrupted and resumed, on the quick mesh. Dimensions are invented.

#include "tests/support/case_texts.h"

#include <sstream>
#include <string>
#include <vector>

namespace throughbend
{
/// `overrides` as on the command line, `--ram.stroke;90 mm`, with semicolons in between.
inline Case resume_case(const std::string &overrides)
{
  std::istringstream       in(overrides);
  std::vector<std::string> words;
  for (std::string word; std::getline(in, word, ';');)
    words.push_back(word);
  return case_of(coupon_section + metal_section + "hardening = 150 MPa\n" + jig_sections +
                     "[ram]\ncapacity = 80 kN\nstroke = 140 mm\n[mesh]\nlevel = quick\n",
                 words);
}

struct ResumeCase
{
  std::string name;
  Case        c;
};

enum class CaseSize
{
  small, ///< coarse, and those that are slow not to their end: for the default tests
  whole
};

/// Goes through; runs out of force and is followed beyond; a flawed weld; off-centre with a
/// backstress.
inline std::vector<ResumeCase> resume_cases(CaseSize size)
{
  const bool        small  = size == CaseSize::small;
  const std::string coarse = small ? ";--mesh.layers;2;--mesh.cell_size;6 mm" : "";
  const auto        stroke = [small](const std::string &length)
  { return small ? ";--ram.stroke;" + length : ""; };
  return {
      {"sound", resume_case("--coupon.width;38 mm" + coarse)},
      {"over capacity", resume_case("--ram.capacity;15 kN" + coarse)},
      {"flawed", resume_case("--weld.preparation;square;--weld.width;6 mm;--flaw.depth;3 "
                             "mm;--weld.bend;root" +
                             coarse + stroke("6 mm"))},
      {"off-centre", resume_case("--coupon.offset;8 mm;--material.kinematic_saturation;60 "
                                 "MPa;--material.kinematic_rate;30" +
                                 coarse + stroke("50 mm"))}};
}
} // namespace throughbend
