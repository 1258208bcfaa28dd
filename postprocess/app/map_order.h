#pragma once
// The words behind `throughbend map` as an order. Reads no case: levels stay texts.

#include "postprocess/app/study_order.h"
#include "solver/study/map_grid.h"

#include <string>
#include <vector>

namespace throughbend
{
/// Levels of a key as given.
struct GivenLevels
{
  std::string              option; ///< --along
  std::string              key;
  std::vector<std::string> list;     ///< FROM and TO where they are evenly spaced
  std::size_t              even = 0; ///< number of levels; 0: the list itself
};

struct MapOrder
{
  StudyOrder               study;
  std::vector<GivenLevels> levels; ///< one to three
  MapFill                  fill = MapFill::whole;
};

MapOrder map_order(const VerbArguments &given);
} // namespace throughbend
