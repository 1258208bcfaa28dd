#pragma once
// The passes of a study on disk: study.db in its folder, where each pass stands under the
// hash of all that determines it. Written through at every pass, so that a killed study
// loses what was under way and nothing else.

#include "solver/outcome/at_capacity.h"
#include "solver/study/file/study_database.h"
#include "solver/study/file/study_file.h"
#include "solver/study/study_engine.h"

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// What makes a pass beside its case.
struct PassOrigin
{
  std::string program; ///< version and revision, exact
  AtCapacity  at_capacity = AtCapacity::go_on;
};

/// All that determines a pass, a line each. What changes nothing in it (titles, how often
/// checkpoints are written) is left out.
std::string made_from(const Case &c, const PassOrigin &origin);

/// What a study was asked for, to tell it from another one in the same folder.
struct StudyRequest
{
  StudyKind             kind = StudyKind::map;
  std::string           title, case_text;
  std::vector<StudyKey> keys;
  std::string           words; ///< the question itself: ranges, condition
};

class StudyStore : public PassShelf
{
public:
  /// Makes the folder where it is missing. Throws InputError as StudyDatabase does.
  StudyStore(const std::filesystem::path &folder, PassOrigin origin);

  /// Looked into as well, when a pass is not here; what is found is copied. Gives back how
  /// many passes of this program it has, and how many of others.
  struct Reusable
  {
    std::size_t fitting = 0, others = 0;
  };
  Reusable reuse(const std::filesystem::path &folder);

  /// The study that is in the folder; nothing in a new one.
  std::optional<StudyRequest> earlier() const;

  /// Begins a study, or begins it again: passes stay, which of them belong to the study is
  /// noted anew.
  void begin(const StudyRequest &request);

  std::optional<StudyPass> find(const Case &c) override;
  void keep(const Case &c, const StudyPass &pass, std::size_t number) override;
  void place(const Case &c, const StudyPass &pass, std::size_t number) override;

  void plan(std::size_t planned);
  void answer(const std::string &answers); ///< JSON, see solver/study/answers.md
  void end(bool whole);

private:
  std::optional<StudyPass> find_in(const StudyDatabase &database, const std::string &from);
  void                     note(const std::string &name, const std::string &value);
  void put_place(const std::string &hash, const StudyPass &pass, std::size_t number);

  StudyDatabase              database_;
  std::vector<StudyDatabase> others_;
  PassOrigin                 origin_;
};
} // namespace throughbend
