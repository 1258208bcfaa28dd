#pragma once
// How far the plunger goes in the next step: grows while Newton is at ease, shrinks when it
// labours, is cut when a step is refused. Lengths in mm of travel.

namespace throughbend
{
class StepSize
{
public:
  StepSize(double first, double least, double largest)
      : first_(first), least_(least), largest_(largest), size_(first)
  {
  }
  double size() const { return size_; }
  bool   too_small() const { return size_ < least_; }

  /// After a step of `taken` [mm] that needed so many iterations, and was refused so many
  /// times with a larger size.
  void accepted(double taken, int iterations, int refusals);
  void refused(double tried);
  void restart() { size_ = first_; } ///< after a jump

  /// For checkpoints; see solver/pass/state_archive.h.
  template <class Archive>
  friend void transfer(Archive &a, StepSize &value)
  {
    a(value.first_, value.least_, value.largest_, value.size_);
  }

private:
  double first_, least_, largest_, size_;
};
} // namespace throughbend
