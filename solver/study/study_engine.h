#pragma once
// Carries out a plan: passes on all workers, each looked up in the store before it is made
// and kept in it as soon as it is done. Everything but the passes themselves happens on the
// calling thread.

#include "inputs/study_record.h"
#include "solver/study/pass_crew.h"
#include "solver/study/study_case.h"
#include "solver/study/study_plan.h"

#include <functional>
#include <string>
#include <vector>

namespace throughbend
{
/// Where passes are kept. StudyStore is the one on disk; a test has one in memory, or none.
class PassShelf
{
public:
  virtual ~PassShelf() = default;
  /// A pass of this very case by this very program, if there is one.
  virtual std::optional<StudyPass> find(const Case &c) = 0;
  /// Throws std::runtime_error where it cannot be kept.
  virtual void keep(const Case &c, const StudyPass &pass) = 0;
};

enum class StudyEnd
{
  whole,      ///< the plan wants nothing more
  interrupted ///< its user stopped it; what is done is kept
};

/// How far a study is, for a line on the terminal.
struct StudyProgress
{
  std::size_t                        done = 0, planned = 0; ///< passes
  std::size_t                        taken_over = 0;        ///< of the done, from the store
  std::size_t                        under_way  = 0;
  double                             seconds    = 0; ///< since the engine began
  std::map<std::string, std::size_t> outcomes;       ///< of the done
};

class StudyEngine
{
public:
  /// All must outlive it; `shelf` may be null.
  StudyEngine(const StudyCase &base, std::vector<StudyKey> keys, PassCrew &crew,
              PassShelf *shelf);

  void on_progress(std::function<void(const StudyProgress &)> seen)
  {
    seen_ = std::move(seen);
  }
  /// True: stop. Asked many times a second.
  void stop_when(std::function<bool()> asked) { asked_ = std::move(asked); }

  /// May be called again with another plan: numbers of passes go on, and a point that was
  /// pushed before is not pushed again. Throws InputError for a point that is no case.
  StudyEnd carry_out(StudyPlan &plan);

  const std::vector<StudyKey>  &keys() const { return keys_; }
  const std::vector<StudyPass> &passes() const { return passes_; } ///< of this study so far

private:
  struct UnderWay
  {
    StudyPoint point;
    Case       told;
  };
  void tell();
  void take(StudyPlan &plan, const StudyPoint &point, const std::string &hash,
            StudyPass pass);

  const StudyCase                           &base_;
  std::vector<StudyKey>                      keys_;
  PassCrew                                  &crew_;
  PassShelf                                 *shelf_;
  std::function<void(const StudyProgress &)> seen_;
  std::function<bool()>                      asked_;
  std::vector<StudyPass>                     passes_;
  std::map<std::string, std::size_t>         numbers_; ///< of passes by case hash
  StudyProgress                              progress_;
  double                                     started_ = 0;
};
} // namespace throughbend
