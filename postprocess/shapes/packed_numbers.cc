#include "postprocess/shapes/packed_numbers.h"

#include "postprocess/html/html_text.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace throughbend
{
void add_word(std::string &bytes, const unsigned value)
{
  bytes += static_cast<char>(value & 0xff);
  bytes += static_cast<char>(value >> 8 & 0xff);
}

unsigned share_of(const double share, const unsigned most)
{
  return static_cast<unsigned>(std::lround(std::clamp(share, 0., 1.) * most));
}

std::string packed_strains(const std::vector<double> &values, const double low,
                           const double high)
{
  std::string bytes;
  for (const double value : values)
    bytes += static_cast<char>(share_of((value - low) / (high - low), 0xff));
  return base64(bytes);
}

template <std::size_t n>
std::string packed_places(const std::vector<std::array<int, n>> &groups)
{
  std::string bytes;
  for (const std::array<int, n> &group : groups)
    for (const int place : group)
      add_word(bytes, static_cast<unsigned>(place));
  return base64(bytes);
}

template std::string packed_places(const std::vector<std::array<int, 2>> &);
template std::string packed_places(const std::vector<std::array<int, 4>> &);

double rounded(const double value, const double to)
{
  return std::round(value / to) * to;
}

Json map_json(const ColourMap map, const double low, const double high)
{
  Json list = Json::array();
  for (const unsigned stop : stops(map))
    list.push_back(static_cast<int>(stop));
  return {{"low", low}, {"high", high}, {"stops", list}};
}
} // namespace throughbend
