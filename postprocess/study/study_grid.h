#pragma once
// The passes of a map by their places on the grid of its keys' levels. A place without a
// pass stays empty: nothing is filled in.

#include "inputs/study_record.h"

#include <vector>

namespace throughbend
{
constexpr std::size_t no_pass = static_cast<std::size_t>(-1);

class StudyGrid
{
public:
  /// Levels as `answers` lists them; else all values that the passes have.
  explicit StudyGrid(const StudyRecord &record);

  std::size_t n_keys() const { return levels_.size(); }

  /// Of a key, rising [N, mm, MPa, s; -].
  const std::vector<double> &levels(std::size_t key) const { return levels_[key]; }

  std::size_t n_places() const { return pass_.size(); }

  /// Which pass stands at a place, one level of each key; no_pass where none does. Keys
  /// that are not named are at their first level.
  std::size_t pass(const std::vector<std::size_t> &place) const;

private:
  std::size_t index(const std::vector<std::size_t> &place) const;

  std::vector<std::vector<double>> levels_;
  std::vector<std::size_t>         pass_; ///< the first key runs fastest
};

/// The borders of the cells around the levels of a key: half-way between neighbours, and as
/// far out at the ends.
std::vector<double> cell_borders(const std::vector<double> &levels);
} // namespace throughbend
