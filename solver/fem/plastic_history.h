#pragma once
// The plastic state at every quadrature point of the owned cells: as it was at the last
// accepted step, and as the latest evaluation left it. Decides nothing about acceptance.

#include "solver/mechanics/j2_update.h"

#include <cassert>
#include <vector>

namespace throughbend
{
class PlasticHistory
{
public:
  explicit PlasticHistory(std::size_t n_points = 0) : accepted_(n_points), latest_(n_points)
  {
  }

  const PlasticState &accepted(std::size_t point) const
  {
    assert(point < accepted_.size() && "no such point");
    return accepted_[point];
  }
  const PlasticState &latest(std::size_t point) const
  {
    assert(point < latest_.size() && "no such point");
    return latest_[point];
  }
  PlasticState &latest(std::size_t point)
  {
    assert(point < latest_.size() && "no such point");
    return latest_[point];
  }

  /// The latest state becomes history.
  void accept()
  {
    accepted_ = latest_;
    ++version_;
  }

  const std::vector<PlasticState> &all_accepted() const { return accepted_; }
  void                             restore(std::vector<PlasticState> states)
  {
    assert(states.size() == accepted_.size() && "the states are of another model");
    latest_ = accepted_ = std::move(states);
    ++version_;
  }
  std::vector<PlasticState> &all_latest() { return latest_; }

  /// Another number for each history; what was made of an older one is out of date.
  unsigned long version() const { return version_; }

private:
  std::vector<PlasticState> accepted_, latest_;
  unsigned long             version_ = 1;
};
} // namespace throughbend
