#pragma once
// The passes of a map by their places on the grid of its keys' levels. A place without a
// pass stays empty; of a refined map it is known which passes lie around it.

#include "solver/study/file/study_record.h"

#include <array>
#include <vector>

namespace throughbend
{
constexpr std::size_t no_pass = static_cast<std::size_t>(-1);

class StudyGrid
{
public:
  using Place = std::array<std::size_t, 3>; ///< a level of each key; 0 for one not there

  /// Part of the grid between two places, all of whose corners have a pass.
  struct Block
  {
    Place low{}, high{};
  };

  /// Levels as `answers` lists them, and passes off them, such as that of the case's own
  /// values, are not on the grid; without such a list all values that the passes have.
  explicit StudyGrid(const StudyRecord &record);

  std::size_t n_keys() const { return levels_.size(); }

  /// Of a key, rising [N, mm, MPa, s; -].
  const std::vector<double> &levels(std::size_t key) const { return levels_[key]; }

  /// Which pass stands at a place; no_pass where none does.
  std::size_t pass(const Place &place) const;

  /// The cells between neighbouring passes: of a refined map the blocks whose passes agree,
  /// and elsewhere single cells.
  const std::vector<Block> &blocks() const { return blocks_; }

  /// Of the block around a place, if all its passes find the same, the one that gives most
  /// cause to look closer; no_pass else.
  std::size_t pass_around(const Place &place) const;

private:
  std::size_t count(const std::size_t key) const
  {
    return key < levels_.size() ? levels_[key].size() : 1;
  }
  std::size_t index(const Place &place) const;
  void        cut(const StudyRecord &record, const Block &block);
  std::size_t worst(const StudyRecord &record, const Block &block) const;
  bool        agrees(const StudyRecord &record, const Block &block) const;

  std::vector<std::vector<double>> levels_;
  std::vector<std::size_t>         pass_; ///< the first key runs fastest
  std::vector<Block>               blocks_;
  std::vector<bool>                agrees_; ///< of each block
  std::vector<std::size_t>         worst_;  ///< pass of each block
};

/// The borders of the cells around the levels of a key: half-way between neighbours, and as
/// far out at the ends.
std::vector<double> cell_borders(const std::vector<double> &levels);
} // namespace throughbend
