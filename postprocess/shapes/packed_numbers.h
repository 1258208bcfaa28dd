#pragma once
// Numbers in few characters for the scripts of a page: 16 or 8 bits each, in base64.

#include "inputs/text/json.h"
#include "postprocess/drawing/colour_map.h"

#include <array>
#include <string>
#include <vector>

namespace throughbend
{
void     add_word(std::string &bytes, unsigned value); ///< 16 bits, low byte first
unsigned share_of(double share, unsigned most);        ///< a share from 0 to 1, rounded

/// Each value as 8 bits of the range from low to high.
std::string packed_strains(const std::vector<double> &values, double low, double high);

/// Points by number, 16 bits each.
template <std::size_t n>
std::string packed_places(const std::vector<std::array<int, n>> &groups);

double rounded(double value, double to); ///< to a multiple of `to`

/// A colour map from low to high.
Json map_json(ColourMap map, double low, double high);
} // namespace throughbend
