#include "postprocess/drawing/colour_map.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
// Every eighth value of "vik" and "batlow" of Crameri, F. (2021), Scientific colour maps
// 7.0.1, Zenodo, https://zenodo.org/record/5501399.
// Copyright (c) 2021 Fabio Crameri, MIT License: permission is granted, free of charge, to
// any person obtaining a copy, to deal in it without restriction, provided that this
// copyright notice and permission notice are included in all copies; it is provided "as
// is", without warranty of any kind.
constexpr std::array<unsigned, 33> vik = {
    0x001261, 0x021f69, 0x022b71, 0x023779, 0x034481, 0x055189, 0x0c5e92,
    0x1b6d9c, 0x2f7da6, 0x478cb1, 0x609dbc, 0x79adc7, 0x92bdd2, 0xacccdd,
    0xc5dbe6, 0xdde6e9, 0xebe6e2, 0xeedacf, 0xe9cbb9, 0xe3bba4, 0xdcab8f,
    0xd69c7b, 0xcf8d67, 0xc97f55, 0xc37243, 0xbd6431, 0xb3531f, 0xa5400f,
    0x942f06, 0x832106, 0x741506, 0x670a07, 0x590008};
constexpr std::array<unsigned, 33> batlow = {
    0x011959, 0x08255b, 0x0d315d, 0x0f3b5f, 0x114360, 0x134b61, 0x175262,
    0x1b5962, 0x226061, 0x2b655e, 0x356a59, 0x406f53, 0x4d734d, 0x597745,
    0x667b3e, 0x747e38, 0x828232, 0x90862d, 0xa0892b, 0xb08d2e, 0xbf9035,
    0xce923f, 0xdc954c, 0xe8985b, 0xf19d6b, 0xf8a27e, 0xfca891, 0xfdaea2,
    0xfdb4b4, 0xfdbac4, 0xfcbfd6, 0xfbc6e8, 0xfaccfa};
} // namespace

const std::array<unsigned, 33> &stops(const ColourMap map)
{
  return map == ColourMap::diverging ? vik : batlow;
}

Colour colour_at(const ColourMap map, const double share)
{
  const std::array<unsigned, 33> &table = stops(map);
  const double                    place = std::isfinite(share) ? std::clamp(share, 0., 1.) *
                                                  static_cast<double>(table.size() - 1)
                                                               : 0;
  const auto   low   = std::min(static_cast<std::size_t>(place), table.size() - 2);
  const double part  = place - static_cast<double>(low);
  const auto   blend = [&](const int shift)
  {
    const double a = (table[low] >> shift) & 0xff, b = (table[low + 1] >> shift) & 0xff;
    return static_cast<unsigned char>(std::lround(a + part * (b - a)));
  };
  return {blend(16), blend(8), blend(0)};
}

std::string hex_text(const Colour colour)
{
  return fmt::format("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue);
}

std::string colour_map_source()
{
  return "Colours of the strain maps: vik and batlow of F. Crameri, Scientific colour maps "
         "7.0.1 (2021), copyright Fabio Crameri, MIT License.";
}
} // namespace throughbend
