#pragma once
// What a map found: a small picture in letters with its legend for the terminal, and the
// JSON of the record.

#include "inputs/case/option.h"
#include "solver/study/map_grid.h"

#include <map>
#include <string>
#include <vector>

namespace throughbend
{
struct MapAnswer
{
  std::vector<StudyKey>             keys;
  std::vector<std::vector<double>>  levels; ///< of each key [N, mm, MPa, s; -]
  MapFill                           fill = MapFill::whole;
  std::vector<std::optional<Range>> rule; ///< what the case's rule allows of each key
};

std::string map_text(const MapAnswer &map, const MapPlan &plan,
                     const std::vector<StudyPass> &passes);
std::string map_json(const MapAnswer &map);
} // namespace throughbend
