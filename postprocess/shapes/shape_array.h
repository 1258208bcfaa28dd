#pragma once
// The numbers of one DataArray of a .vtu or .vtp file: as text, or packed by zlib in one
// block and written in base64, which are the two ways that runs are written. Lengths are
// checked before memory is taken.

#include "postprocess/shapes/xml_scan.h"

#include <cstddef>
#include <vector>

namespace throughbend
{
/// How many numbers there must be.
struct ArrayLength
{
  std::size_t least = 0, most = 0;
};

/// The scan stands at the open of the element; after, at its close. All numbers are finite
/// and none larger than `largest`. Throws as XmlScan does.
std::vector<double> read_shape_array(XmlScan &scan, ArrayLength length, double largest);

/// Passes over the element that the scan stands at the open of, with all that is in it.
void skip_element(XmlScan &scan);
} // namespace throughbend
