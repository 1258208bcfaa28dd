#pragma once
// A shape that several ranks have written: a .pvtu, which names the .vtu files with the
// parts of the coupon. Put together it is a shape like any other.

#include "postprocess/shapes/shape_file.h"

#include <string>
#include <vector>

namespace throughbend
{
/// Names of the parts, which lie in the folder of the .pvtu. Throws XmlCutOff for a text
/// that ends too early, InputError with file and line for what is no .pvtu, for none and
/// for more parts than a run has, and for names that are none of a file beside it.
std::vector<std::string> shape_part_files(const std::string &text, const std::string &file);

/// Puts the points and cells of a part after those that are there. Throws InputError that
/// names the part's file when it holds other arrays, or when the whole grows beyond what
/// one shape may have.
void append_part(ShapeFile &whole, const ShapeFile &part, const std::string &file);
} // namespace throughbend
