#pragma once
// One live line on a terminal while a study runs: passes done, what they found, how long
// still. Silent where nobody watches.

#include "postprocess/words/progress.h"
#include "solver/study/study_engine.h"

#include <iosfwd>
#include <string>

namespace throughbend
{
/// `23 of about 40 passes (12 through, 9 over-capacity), about 1 min 20 s left`
std::string progress_text(const StudyProgress &progress);

class StudyLine
{
public:
  StudyLine(std::ostream &out, Audience audience) : out_(out), audience_(audience) {}
  ~StudyLine() { finish(); }
  StudyLine(const StudyLine &)            = delete;
  StudyLine &operator=(const StudyLine &) = delete;

  void show(const StudyProgress &progress); ///< rewritten where it has changed
  void finish();                            ///< ends the line

private:
  std::ostream &out_;
  Audience      audience_;
  std::string   shown_;
};
} // namespace throughbend
