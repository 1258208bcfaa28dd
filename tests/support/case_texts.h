#pragma once
// Texts of cases: the workshop's coupon and jig (invented), section by section, and the
// reading of such a text.

#include "inputs/keys/case_reader.h"

#include <stdexcept>
#include <string>
#include <vector>

namespace throughbend
{
inline const std::string coupon_section =
    "[coupon]\nlength = 160 mm\nwidth = 38 mm\nthickness = 10 mm\n";
/// Further keys of the metal may follow.
inline const std::string metal_section =
    "[material]\nlaw = voce\nyield = 250 MPa\nsaturation = 200 MPa\nrate = 12\n";
inline const std::string jig_sections =
    "[plunger]\nwidth = 40 mm\n[shoulders]\nradius = 20 mm\nopening = 63.2 mm\n";
inline const std::string ram_section = "[ram]\ncapacity = 80 kN\nstroke = 120 mm\n";

/// A whole case; `more` are sections of its own, or further keys of the ram.
inline std::string workshop_text(const std::string &more = "")
{
  return coupon_section + metal_section + jig_sections + ram_section + more;
}

/// The case that a text and words of a command line give. Throws std::logic_error with all
/// complaints where there is none.
inline Case case_of(const std::string &text, const std::vector<std::string> &words = {})
{
  const CaseReading reading = read_case_text(text, "case.ini", words);
  if (!reading.value)
    throw std::logic_error(error_list(reading.errors));
  return *reading.value;
}

/// The only complaint about a case. Throws std::logic_error where there is none, or more.
inline std::string only_complaint(const std::string              &text,
                                  const std::vector<std::string> &words)
{
  const CaseReading reading = read_case_text(text, "case.ini", words);
  if (reading.errors.size() != 1)
    throw std::logic_error(reading.errors.empty() ? "no complaint"
                                                  : error_list(reading.errors));
  return reading.errors.front().text();
}
} // namespace throughbend
