#pragma once
// One live line on a terminal while a pass runs: how far, how hard, how long still. Silent
// when nobody watches; it keeps nothing and writes no file.

#include "inputs/units/display_units.h"
#include "solver/outcome/pass_sample.h"

#include <functional>
#include <iosfwd>
#include <string>

namespace throughbend
{
/// Who reads the stream.
enum class Audience
{
  terminal, ///< a person: the line is rewritten in place
  nobody    ///< a file, a pipe, or a rank that does not speak: nothing is written
};
Audience audience_at(int file_descriptor); ///< by whether it is a terminal

std::string duration_text(double seconds); ///< "8 s", "3 min 20 s", "2 h 05 min"

class Progress
{
public:
  using Clock = std::function<double()>; ///< [s] since whenever, never going back

  /// `expected_travel` [mm] at which the pass should end, from the fixture; the stream must
  /// outlive this. Time left is a guess from it, shown only after some travel.
  Progress(std::ostream &out, Audience audience, double expected_travel,
           UnitSystem units = UnitSystem::metric, Clock clock = steady_seconds);
  ~Progress(); ///< ends the line if finish() has not
  Progress(const Progress &)            = delete;
  Progress &operator=(const Progress &) = delete;

  /// The pass is resumed at this travel [mm]: what was before took no time here.
  void go_on_from(double travel) { from_ = travel; }

  void show(const PassSample &sample); ///< at most ten times a second
  void finish();                       ///< shows the last sample and ends the line

  static double steady_seconds();

private:
  void        write(const PassSample &sample);
  std::string line(const PassSample &sample) const;

  std::ostream &out_;
  Audience      audience_;
  double        expected_travel_; // [mm]
  UnitSystem    units_;
  Clock         clock_;
  double        started_;          // [s]
  double        from_     = 0;     // travel then [mm]
  double        shown_at_ = 0;     // [s]
  std::size_t   width_    = 0;     // of the line that stands there; 0: none
  bool          pending_  = false; // the last sample was not shown
  PassSample    last_;
};
} // namespace throughbend
