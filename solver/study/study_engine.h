#pragma once
// Carries out a plan: passes on all workers, each looked up in the store before it is made
// and kept in it as soon as it is done. Everything but the passes themselves happens on the
// calling thread.

#include "solver/study/file/study_record.h"
#include "solver/study/pass_crew.h"
#include "solver/study/study_case.h"
#include "solver/study/study_plan.h"

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// Where passes are kept. StudyStore is the one on disk; a test has one in memory, or none.
class PassShelf
{
public:
  virtual ~PassShelf() = default;
  /// A pass of this very case by this very program, if there is one. `values` of it are
  /// left empty.
  virtual std::optional<StudyPass> find(const Case &c) = 0;
  /// A new pass, and which number it has in the study. Throws std::runtime_error where it
  /// cannot be kept.
  virtual void keep(const Case &c, const StudyPass &pass, std::size_t number) = 0;
  /// One that was found has this number in the study.
  virtual void place(const Case &c, const StudyPass &pass, std::size_t number) = 0;
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
    Case                    given;
    std::string             hash;
    std::vector<StudyPoint> points; ///< more than one where they are the same case
  };
  enum class From
  {
    crew,
    shelf
  };
  void give_out(StudyPlan &plan);
  void take(StudyPlan &plan, const UnderWay &done, StudyPass pass, From from);
  void tell();

  const StudyCase                           &base_;
  std::vector<StudyKey>                      keys_;
  PassCrew                                  &crew_;
  PassShelf                                 *shelf_;
  std::function<void(const StudyProgress &)> seen_;
  std::function<bool()>                      asked_;
  std::vector<StudyPass>                     passes_;
  std::map<std::string, std::size_t>         numbers_;   ///< of passes by case hash
  std::map<std::size_t, UnderWay>            under_way_; ///< by task
  std::size_t                                tasks_ = 0;
  StudyProgress                              progress_;
  double                                     started_ = 0;
};
} // namespace throughbend
