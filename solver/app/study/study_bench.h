#pragma once
// What every verb of studies works with: the case and its keys, those who make passes, the
// store in the study's folder, the line on the terminal. On the first rank only; others
// serve (see study_main).

#include "postprocess/app/study_order.h"
#include "postprocess/words/study/study_progress.h"
#include "solver/record/folder_lock.h"
#include "solver/study/pass_crew.h"
#include "solver/study/study_engine.h"
#include "solver/study/study_store.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// Version and revision; built from changed files, or without a revision, what the program
/// itself is. Passes of another program are never taken over.
std::string program_identity();

class StudyBench
{
public:
  /// `question` tells this study from others of its kind and case. Throws InputError when
  /// the folder holds another study, or another process works in it; nothing in it has been
  /// changed then.
  StudyBench(const StudyOrder &order, const StudyCase &base, StudyKind kind,
             std::vector<StudyKey> keys, const std::string &question,
             std::unique_ptr<PassCrew> crew);

  /// Of a part, only its own points are pushed. May be called again with another plan.
  StudyEnd carry_out(StudyPlan &plan);

  const StudyCase              &base() const { return base_; }
  const StudyOrder             &order() const { return order_; }
  const std::vector<StudyKey>  &keys() const { return engine_->keys(); }
  const std::vector<StudyPass> &passes() const { return engine_->passes(); }

  /// Passes that could not be looked at because --merge makes none.
  std::size_t missing() const { return missing_; }

  /// Writes answers (JSON, solver/study/answers.md; may be empty) and study.csv, says where
  /// they are and what the caution is. `open`: a pass without a finding leaves the question
  /// open.
  enum class Question
  {
    answered,
    open
  };
  ExitCode close(StudyEnd end, const std::string &answers, const std::string &text,
                 Question question);

  const std::filesystem::path &folder() const { return folder_; } ///< of study.db

private:
  void        take_over(const std::filesystem::path &folder);
  std::string own_bars_text(); ///< of the case as it is, by further passes

  StudyOrder                   order_;
  const StudyCase             &base_;
  std::filesystem::path        folder_;
  std::optional<FolderLock>    lock_;
  std::unique_ptr<StudyStore>  store_;
  std::unique_ptr<PassCrew>    crew_;
  StudyLine                    line_;
  std::unique_ptr<StudyEngine> engine_;
  std::size_t                  taken_over_ = 0, missing_ = 0;
  double                       seconds_ = 0;
};
} // namespace throughbend
