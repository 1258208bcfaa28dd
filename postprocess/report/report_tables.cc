#include "postprocess/report/report_tables.h"

#include "inputs/keys/option_table.h"
#include "postprocess/html/html_text.h"
#include "postprocess/words/caution.h"
#include "postprocess/words/finding_words.h"

#include <fmt/core.h>

#include <cmath>
#include <cstdlib>
#include <sstream>

namespace throughbend
{
namespace
{
/// Four digits are enough for a number turned into the other family of units.
std::string shortened(const std::string &text)
{
  const std::size_t space = text.find(' ');
  char             *end   = nullptr;
  const double      value = std::strtod(text.c_str(), &end);
  if (space == std::string::npos || end != text.c_str() + space)
    return text;
  return fmt::format("{:.4g}", value) + text.substr(space);
}

/// A number with its unit in one family; anything else as it is written in a case.
std::string shown_value(const Option &option, const Case &given, const UnitSystem units)
{
  if (const auto *number = std::get_if<NumberSlot>(&option.slot))
  {
    Case copy = given;
    return to_text(number->at(copy), number->kind, units);
  }
  return value_text(option, given);
}

/// For a shell, in quotes where it must be.
std::string shell_word(const std::string &word)
{
  if (!word.empty() &&
      word.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTU"
                             "VWXYZ0123456789/._-+") == std::string::npos)
    return word;
  std::string quoted = "'";
  for (const char c : word)
    quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return quoted + "'";
}

std::string small_percent(const double share)
{
  return decimal_text(100 * share, share < 0.001 ? 3 : 2) + " %";
}

struct Measure
{
  const char *name, *member, *meaning;
  double      usual; ///< at most, in a pass that went well
};

std::vector<Measure> measures(const RunRecord &run)
{
  const double tolerated =
      run.known_case && run.known_case->solver.penetration_tolerance > 0
          ? run.known_case->solver.penetration_tolerance
          : 0.001;
  return {{"energy", "worst_energy_error",
           "ram work minus elastic, plastic and friction work, divided by the largest ram "
           "work until then; the accuracy weighs it by the work of the whole pass",
           0.01},
          {"equilibrium", "worst_equilibrium_error",
           "sum of the forces of all tools on the coupon, divided by the largest of them",
           0.01},
          {"penetration", "deepest_penetration_per_thickness",
           "largest penetration of the coupon into a tool, divided by its thickness",
           tolerated},
          {"force ripple", "worst_force_ripple",
           "oscillation of the ram force about its smoothed curve as cells pass a tool, "
           "divided by its local mean",
           0.02},
          {"regularisation", "regularisation_work_share",
           "work of the small drag that holds a coupon nothing else holds, divided by the "
           "ram work",
           0.001}};
}

std::string mesh_note(const RunRecord &run)
{
  std::string note;
  if (run.known_case)
  {
    const MeshLevel level = run.known_case->mesh.level;
    note += std::string("Mesh level ") + (level == MeshLevel::quick      ? "quick"
                                          : level == MeshLevel::standard ? "standard"
                                                                         : "fine");
    note += run.known_case->mesh.dimension == 2 ? ", plane strain: a wide coupon's middle"
                                                : ", the coupon's real width";
  }
  if (const std::string cells = run.digits("effort.cells"); !cells.empty())
    note += ", " + cells + " cells, " + run.digits("effort.dofs") + " unknowns";
  if (run.right_half())
    note += "; the right half was computed and is shown mirrored";
  if (run.known_case && run.known_case->mesh.dimension == 3)
    note += "; half of the width was computed, and pictures show its middle";
  if (note.empty())
    return "";
  return note + ". To see the effect of the mesh, run the case with --mesh.level fine and "
                "compare both runs.";
}
} // namespace

std::string inputs_html(const RunRecord &run, const ReaderUnits &units)
{
  if (!run.known_case)
    return run.case_text.empty() ? paragraph("The case is not known.")
                                 : "<pre>" + escaped(run.case_text) + "</pre>\n";
  std::string html;
  for (const std::string &section : option_sections())
  {
    std::vector<std::vector<std::string>> rows;
    for (const Option &option : option_table())
    {
      if (option.section != section || section == "case" || // words that stand elsewhere
          (option.applies && !option.applies(*run.known_case)))
        continue;
      const std::string first  = shown_value(option, *run.known_case, units.first());
      const std::string second = shown_value(option, *run.known_case, units.second());
      if (!first.empty())
        rows.push_back(
            {option.name, first, first == second ? "" : shortened(second), option.help});
    }
    if (!rows.empty())
      html += "<section class=\"inputs\"><h4>" + escaped(section) + "</h4>\n" +
              table({"key", "value", "other units", "meaning"}, rows) + "</section>\n";
  }
  return html;
}

std::string caution_html()
{
  std::string        html;
  std::istringstream lines(caution_text());
  for (std::string line; std::getline(lines, line);)
    html += paragraph(line);
  return html;
}

std::string answers_html(const RunRecord &run, const ReaderUnits &units)
{
  std::string html;
  for (const std::string &answer :
       {metal_sentence(run, units), accuracy_sentence(run, units)})
    if (!answer.empty())
      html += "<p class=\"answer\">" + escaped(answer) + "</p>\n";
  return html;
}

std::string lesson_html(const RunRecord &run)
{
  if (!run.known_case || run.known_case->lesson.empty())
    return "";
  return "<p class=\"lesson\">" + escaped(run.known_case->lesson) + "</p>\n";
}

std::string quality_html(const RunRecord &run)
{
  std::vector<std::vector<std::string>> rows;
  for (const Measure &measure : measures(run))
  {
    const double value = run.number(std::string("numerical_quality.") + measure.member);
    if (std::isfinite(value))
      rows.push_back(
          {measure.name, small_percent(value), "at most " + small_percent(measure.usual),
           value <= measure.usual * 1.001 ? "as usual" : "larger than usual: check",
           measure.meaning});
  }
  std::string html =
      rows.empty()
          ? paragraph("The run has left no figures of its numerical errors.")
          : table({"error", "worst", "usual", "judgement", "what it compares"}, rows);
  if (const std::string note = mesh_note(run); !note.empty())
    html += paragraph(note);
  const std::string steps = run.digits("effort.steps");
  if (!steps.empty())
    html += paragraph(fmt::format("{} steps, {} iterations, {} refused attempts, {} jumps "
                                  "to another equilibrium; {} s "
                                  "on {} {}.",
                                  steps, run.digits("effort.iterations"),
                                  run.digits("effort.refusals"), run.digits("effort.jumps"),
                                  decimal_text(run.number("effort.wall_time_s.total"), 1),
                                  run.digits("made_with.ranks"),
                                  run.digits("made_with.ranks") == "1" ? "rank" : "ranks"));
  return html;
}

std::string again_html(const RunRecord &run)
{
  const std::string folder = run.folder.lexically_normal().string();
  std::string html = "<pre>throughbend push " + escaped(shell_word(folder + "/case.ini")) +
                     " --into a-new-folder\nthroughbend report " +
                     escaped(shell_word(folder)) + "</pre>\n";
  std::vector<std::vector<std::string>> rows;
  const auto add = [&](const char *name, const std::string &value)
  {
    if (!value.empty())
      rows.push_back({name, value});
  };
  add("version", run.word("made_with.version"));
  add("revision", run.word("made_with.git_revision"));
  add("started", run.word("made_with.started"));
  add("case file", run.word("made_with.case_source"));
  add("fingerprint of the case", run.word("made_with.case_hash"));
  add("ranks", run.digits("made_with.ranks"));
  add("BLAS", run.word("made_with.blas"));
  const std::string libraries = "made_with.libraries";
  for (const std::string &name : run.summary.names_in(libraries))
    add(name.c_str(), run.word(libraries + "." + name));
  return html + table({"made with", ""}, rows);
}
} // namespace throughbend
