#pragma once
// The words that all verbs of studies share, as an order: where the study goes, whose
// passes it takes over, who makes them. Reads no case.

#include "inputs/units/units.h"
#include "postprocess/app/push_order.h"
#include "postprocess/verbs/verb.h"
#include "solver/outcome/at_capacity.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// The passes of one of several machines: every `of`-th, beginning with the `part`-th.
struct StudyPart
{
  std::size_t part = 1, of = 1;

  std::string folder() const; ///< part-3-of-40
};

struct StudyOrder
{
  std::string                        case_file;
  std::vector<std::string>           overrides;         ///< of keys of the case
  std::filesystem::path              folder;            ///< of the study as a whole
  bool                               overwrite = false; ///< what is in it, of another study
  std::vector<std::filesystem::path> reuse;
  std::optional<StudyPart>           part;
  bool                               merge       = false;      ///< make no pass
  std::size_t                        workers     = 0;          ///< 0: one a core
  Bars                               bars        = Bars::none; ///< of the case as it is
  AtCapacity                         at_capacity = AtCapacity::go_on;
  UnitSystem                         units       = UnitSystem::metric;
  Speech                             speech      = Speech::full;
};

/// Options that every verb of studies has, to stand behind its own.
std::vector<VerbOption> study_options();

/// `verb` gives the default folder, studies/NAME-VERB. Throws InputError with the cure.
StudyOrder study_order(const VerbArguments &given, const std::string &verb);

/// A whole number above 0. Throws InputError that names the option.
std::size_t given_count(const std::string &text, const std::string &option);
} // namespace throughbend
