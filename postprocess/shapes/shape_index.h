#pragma once
// What a .pvd file lists: the shapes of a run and when they were kept.

#include <string>
#include <vector>

namespace throughbend
{
struct ShapeMoment
{
  double      time = 0; ///< as the index has it [mm]
  std::string file;     ///< name in the index's folder
};

/// In the order of time. Throws XmlCutOff for an index that ends too early, InputError with
/// file and line for what is none, for more moments than a run has, and for times that are
/// none.
std::vector<ShapeMoment> shape_moments(const std::string &text, const std::string &file);
} // namespace throughbend
