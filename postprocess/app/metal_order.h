#pragma once
// The words of the verb fit-metal, as an order: for the front program, which explains and
// checks them, and for the companion that fits. Reads no curve.

#include "inputs/metal/certificate_curve.h"
#include "inputs/text/own_file.h"
#include "postprocess/verbs/verb.h"

#include <optional>
#include <string>

namespace throughbend
{
/// fit-metal; the front goes on as throughbend-metal.
Verb fit_metal_verb();

struct MetalOrder
{
  std::string                curve;       ///< file of a tension test; empty: none
  std::optional<Certificate> certificate; ///< in its place
  std::string                case_file;   ///< for Young's modulus and the bend; empty: none
  std::optional<double>      young;       ///< [MPa]; nothing: the case's, or 210 GPa
  std::string                drawing;     ///< file; empty: none
  std::string                into;        ///< file for the keys; empty: none
  ForeignFile                foreign = ForeignFile::keep;
  UnitSystem                 units   = UnitSystem::metric;
};

/// Throws InputError, with the cure, for words that cannot be followed and files that may
/// not be written.
MetalOrder metal_order(const VerbArguments &given);
} // namespace throughbend
