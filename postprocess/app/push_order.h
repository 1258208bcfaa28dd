#pragma once
// The words behind `throughbend push` as an order that can be carried out. Reads no case.

#include "inputs/units/units.h"
#include "postprocess/verbs/verb.h"
#include "solver/outcome/at_capacity.h"
#include "solver/outcome/finding.h"
#include "solver/record/run_folder.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// How much is said on the terminal.
enum class Speech
{
  full,   ///< notes, live progress, the whole finding
  verdict ///< the verdict alone
};

/// What is wanted of a case.
enum class Task
{
  push,       ///< the pass
  print_case, ///< the case with all its defaults, and stop
  help        ///< the options
};

/// Whether further passes tell how far the figures may be off.
enum class Bars
{
  none,
  wanted
};

struct PushOrder
{
  Task                     task = Task::push;
  std::string              case_file;
  std::vector<std::string> overrides; ///< of keys of the case
  std::filesystem::path    into;      ///< empty: default_folder(); the run to resume
  ExistingRun              existing    = ExistingRun::refuse;
  UnitSystem               units       = UnitSystem::metric;
  Speech                   speech      = Speech::full;
  AtCapacity               at_capacity = AtCapacity::go_on;
  std::optional<Outcome>   expected;
  Bars                     bars = Bars::none;
};

std::vector<VerbOption> push_options();

/// Throws InputError with the cure.
PushOrder push_order(const VerbArguments &given);

/// runs/NAME, after the case file; one called case.ini has the name of its folder.
std::filesystem::path default_folder(const std::string &case_file);
} // namespace throughbend
