#pragma once
// The two colour maps of pictures and page: one for strain with a sign, one for strain
// without. Both are perceptually uniform and safe for colour-blind readers; nothing here
// decides what range they are laid over.

#include <array>
#include <string>

namespace throughbend
{
struct Colour
{
  unsigned char red = 0, green = 0, blue = 0;
};

enum class ColourMap
{
  diverging, ///< "vik": blue squeezed, pale none, brown stretched
  sequential ///< "batlow": dark none, pale much
};

/// The map's colour at a share of its range; shares beyond 0...1 have the end's colour.
Colour colour_at(ColourMap map, double share);

/// The map as the 33 stops it is made of, each as 0xRRGGBB, for the page.
const std::array<unsigned, 33> &stops(ColourMap map);

std::string hex_text(Colour colour); ///< "#c97f55"

/// Where the maps come from, and their terms, as a sentence for readers.
std::string colour_map_source();
} // namespace throughbend
