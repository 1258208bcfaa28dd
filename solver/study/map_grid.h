#pragma once
// Passes over a grid of one to three keys: all of it, or only where neighbours differ. A
// refined map begins with every fourth or so level and cuts each block in which two passes
// differ, until it is a cell of the grid; blocks along which a border is found later are
// cut as well. So the borders are those of the full grid, unless a patch smaller than a
// first block lies wholly inside one.

#include "solver/study/study_plan.h"

#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
enum class MapFill
{
  whole,
  borders ///< refined where neighbours differ
};

class MapPlan : public StudyPlan
{
public:
  /// One list of levels a key, ascending [N, mm, MPa, s; -].
  MapPlan(std::vector<std::vector<double>> levels, MapFill fill);

  /// The case's own point, pushed in any case; it need not lie on the grid.
  void push_also(const StudyPoint &point) { extra_.push_back(point); }

  std::optional<StudyPoint> next() override;
  void take(const StudyPoint &point, std::size_t number, const StudyPass &pass) override;
  std::size_t planned() const override;

  using Index = std::array<std::size_t, 3>;
  std::size_t size() const;                  ///< of the grid
  std::size_t levels(std::size_t key) const; ///< 1 for a key that is not there

  /// Number in the study of the pass at a grid point; nothing where it was not pushed.
  std::optional<std::size_t> pass_at(const Index &index) const;
  /// What is found at a grid point, or in the block around it all of whose passes agree;
  /// empty: not known yet.
  std::string finding_at(const Index &index) const;
  /// Numbers in the study of the passes that tell what is found there: its own, or those of
  /// the block around it, all of which agree. Empty: not known yet.
  std::vector<std::size_t> passes_around(const Index &index) const;

private:
  struct State
  {
    bool                       asked = false;
    std::optional<std::size_t> pass;
    std::string                finding; ///< what neighbours are compared by
  };
  struct Block
  {
    Index low{}, high{};
  };
  struct UnderWay
  {
    StudyPoint           point;
    std::optional<Index> index; ///< nothing: an extra
  };
  StudyPoint         point_at(const Index &index) const;
  const std::string *known_at(const Index &index) const; ///< pushed or taken; or null
  bool               is_cell(const Block &block) const;
  std::vector<Index> corners(const Block &block) const;
  void               ask_middle(const Block &block, const Index &index);
  void               cut(const Block &block, std::vector<Block> &into);
  bool               settle();
  bool               contains(const Block &block, const Index &index) const;

  std::vector<std::vector<double>> levels_;
  MapFill                          fill_;
  std::map<Index, State>           states_; ///< to be pushed
  std::map<Index, std::string>     taken_;  ///< not pushed: finding of both ends of an edge
  std::vector<Block>               blocks_;
  std::vector<StudyPoint>          extra_;
  std::vector<UnderWay>            under_way_;
  std::size_t                      extras_asked_ = 0;
};

/// By what two passes of a map are alike: finding, what holds the coupon, the metal.
std::string map_finding(const StudyPass &pass);
} // namespace throughbend
