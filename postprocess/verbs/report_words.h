#pragma once
// The words of the verb `report`: shared by the front program, which explains and checks
// them, and by the companion that makes the page. Reads no run.

#include "inputs/text/own_file.h"
#include "postprocess/verbs/verb.h"

#include <string>
#include <vector>

namespace throughbend
{
/// The verb with all but what carries it out, which differs in the two programs.
Verb report_verb();

enum class Pictures
{
  drawn,
  left_out
};

constexpr std::size_t most_played = 12; ///< runs with a section each on one page

/// What was asked for.
struct ReportOrder
{
  std::vector<std::string> runs;       ///< folders
  std::string              page;       ///< file of the page
  std::string              index;      ///< file of an index of all runs; empty: none
  std::string              class_page; ///< file of a study's class page; empty: none
  std::string              title;      ///< of the page; empty: chosen by the runs
  std::vector<double>      at; ///< travels of the pictures [mm]; empty: chosen by the run
  Pictures                 pictures = Pictures::drawn;
  UnitSystem               units    = UnitSystem::metric; ///< which come first
  ForeignFile              foreign  = ForeignFile::keep;  ///< where the page is to go
};

/// Whether the page holds the comparison alone: more runs than it could play back.
bool compares_only(const ReportOrder &order);

/// Throws InputError, with the cure, for words that cannot be followed.
ReportOrder report_order(const VerbArguments &given);
} // namespace throughbend
