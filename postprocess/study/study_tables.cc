#include "postprocess/study/study_tables.h"

#include "postprocess/html/html_text.h"
#include "postprocess/runs/pass_sentences.h"
#include "postprocess/study/finding_mark.h"
#include "postprocess/study/spread_charts.h"
#include "postprocess/words/finding_words.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
using Rows = std::vector<std::vector<std::string>>;

/// "pass 7, through: THROUGH: the coupon is bent ...".
std::string side_text(const ReportedStudy &study, const std::string &side,
                      const StudyKey *key, const ReaderUnits &units)
{
  const JsonMembers &answers = study.answers;
  const double       value   = answers.number(side + ".value");
  std::string text = (key ? value_text(*key, value) : fmt::format("{:.5g}", value)) + ": " +
                     answers.word(side + ".outcome");
  if (const StudyPass *const pass = numbered_pass(study, side + ".pass"))
  {
    text = (key ? value_text(*key, value) : fmt::format("{:.5g}", value)) + ": " +
           finding_words(*pass) +
           fmt::format(" (pass {:.0f}). ", answers.number(side + ".pass")) +
           pass_verdict(*pass, shown_in(units));
    if (const std::string why = pass_evidence(*pass, shown_in(units)); !why.empty())
      text += " " + why;
  }
  return text;
}

/// "good to 61 mm, not at 60 mm: over-capacity at the thickest".
std::string limit_side(const ReportedStudy &study, const std::string &side,
                       const std::string &name)
{
  const double value        = study.answers.number(side + ".value"),
               next         = study.answers.number(side + ".next");
  const std::string because = study.answers.word(side + ".because");
  if (!std::isfinite(value) && because.empty())
    return "not known";
  return "good to " + any_value_text(study, name, value) +
         (std::isfinite(next) ? ", not at " + any_value_text(study, name, next) : "") +
         (because.empty() ? "" : ": " + because);
}

const char *mesh_name(const MeshLevel level)
{
  switch (level)
  {
  case MeshLevel::quick:
    return "quick (1 to 2 % in force, for a first look)";
  case MeshLevel::standard:
    return "standard";
  case MeshLevel::fine:
    break;
  }
  return "fine";
}
} // namespace

std::string stacked_table(const std::vector<std::string> &heads, const Rows &rows)
{
  if (rows.empty())
    return "";
  std::string html = "<div class=\"wide\"><table class=\"stacked\">\n<thead><tr>";
  for (const std::string &head : heads)
    html += "<th scope=\"col\">" + escaped(head) + "</th>";
  html += "</tr></thead>\n<tbody>\n";
  for (const std::vector<std::string> &row : rows)
  {
    html += "<tr>";
    for (std::size_t i = 0; i < row.size(); ++i)
    {
      const bool named = heads.size() > 2 && i < heads.size(); // of two the first says all
      html += i == 0  ? "<th scope=\"row\">" + escaped(row[i]) + "</th>"
              : named ? "<td data-head=\"" + escaped(heads[i]) + "\">" + escaped(row[i]) +
                            "</td>"
                      : "<td>" + escaped(row[i]) + "</td>";
    }
    html += "</tr>\n";
  }
  return html + "</tbody></table></div>\n";
}

/// "5 of 399, 1 not known".
std::string count_text(const JsonMembers &answers, const std::string &here)
{
  const double of        = answers.number(here + "of"),
               not_known = answers.number(here + "not_known");
  if (!std::isfinite(of))
    return "";
  return fmt::format("{:.0f} of {:.0f} passes{}", answers.number(here + "passes"), of,
                     not_known > 0 ? fmt::format(", {:.0f} not known", not_known)
                                   : std::string());
}

std::string limits_table(const ReportedStudy &study, const ReaderUnits &units)
{
  const JsonMembers &answers = study.answers;
  Rows               rows;
  std::string        notes;
  for (std::size_t i = 0; answers.has("limits." + std::to_string(i)); ++i)
  {
    const std::string here  = "limits." + std::to_string(i);
    const std::string name  = answers.word(here + ".key");
    const StudyKey   *key   = find_key(study.record, name);
    const double      check = answers.number(here + ".check.value");
    std::string       says;
    if (std::isfinite(check))
      says = any_value_text(study, name, check);
    const std::string words = answers.word(here + ".check.says");
    if (const std::string more = words.empty() ? answers.word(here + ".check.line") : words;
        !more.empty())
      says += (says.empty() ? "" : "; ") + more;
    if (says.empty())
      says = "nothing";
    bool changes = false;
    for (std::size_t c = 0; answers.has(here + ".changes." + std::to_string(c)); ++c)
    {
      const std::string change = here + ".changes." + std::to_string(c);
      rows.push_back({key_name(name), side_text(study, change + ".below", key, units),
                      side_text(study, change + ".above", key, units), says});
      changes = true;
    }
    if (!changes)
      rows.push_back({key_name(name), "no change found", "no change found", says});
    for (std::size_t u = 0; answers.has(here + ".undecided." + std::to_string(u)); ++u)
    {
      const double number = answers.number(here + ".undecided." + std::to_string(u));
      std::string  place  = fmt::format("pass {:.0f}", number);
      std::string  why    = "no finding";
      if (number >= 0 && number < static_cast<double>(study.record.passes.size()))
      {
        const StudyPass &pass = study.record.passes[static_cast<std::size_t>(number)];
        place += " (" + values_text(study.record, pass) + ")";
        why = finding_words(pass);
      }
      notes += paragraph("On neither side: " + place + ", " + why +
                         ". The condition may change there unseen.");
    }
  }
  return stacked_table(
             {"key", "last on the lower side", "first on the upper side", "check says"},
             rows) +
         notes;
}

/// Of a chance: two ends where some passes do not tell.
std::string share_words(const JsonMembers &answers, const std::string &here)
{
  const double share = answers.number(here + "share"),
               most  = answers.number(here + "most_share");
  return percent_text(share) + (most > share ? " to " + percent_text(most) : "");
}

std::string chances_table(const ReportedStudy &study)
{
  Rows rows;
  for (std::size_t i = 0; study.answers.has("chances." + std::to_string(i)); ++i)
  {
    const std::string here = "chances." + std::to_string(i) + ".";
    rows.push_back({study.answers.word(here + "what"), share_words(study.answers, here),
                    percent_text(study.answers.number(here + "low")) + " to " +
                        percent_text(study.answers.number(here + "high")),
                    percent_text(study.answers.number(here + "level")),
                    count_text(study.answers, here)});
  }
  return stacked_table({"what", "share of the passes", "interval of the chance",
                        "confidence of the interval", "counted"},
                       rows);
}

std::string quantiles_table(const ReportedStudy &study, const ReaderUnits &units)
{
  Rows rows;
  for (const std::string &figure : figures_in(study.answers, "quantiles"))
  {
    // Beyond the ram's capacity it is what a stronger one gives, not what this one gave.
    std::vector<std::string> row = {figure == "peak_ram_force_N" ? "ram force that it takes"
                                                                 : figure_name(figure)};
    for (const std::string share : {"0.05", "0.5", "0.95"})
    {
      const std::string here  = "quantiles." + figure + "." + share;
      const std::string band  = "quantile_bands." + figure + "." + share + ".";
      const double      value = study.answers.number(here);
      std::string       text  = std::isfinite(value) ? figure_text(figure, value, units)
                                : figure == "peak_ram_force_N"
                                    ? "more than any force, or not known"
                                    : "not known";
      if (study.answers.has(band + "0"))
        text += ", band " + figure_text(figure, study.answers.number(band + "0"), units) +
                " to " + figure_text(figure, study.answers.number(band + "1"), units);
      row.push_back(text);
    }
    rows.push_back(row);
  }
  return stacked_table({"figure", "5 % lie below", "median", "95 % lie below"}, rows);
}

std::string ranks_table(const ReportedStudy &study)
{
  Rows rows;
  for (const std::string &figure : figures_in(study.answers, "ranks"))
    for (std::size_t i = 0; study.answers.has("ranks." + figure + "." + std::to_string(i));
         ++i)
    {
      const std::string here = "ranks." + figure + "." + std::to_string(i) + ".";
      rows.push_back({figure_name(figure), key_name(study.answers.word(here + "key")),
                      decimal_text(study.answers.number(here + "rank"), 2),
                      decimal_text(study.answers.number(here + "error"), 2)});
    }
  return stacked_table({"figure", "key", "rank correlation (-1 to 1)", "its error"}, rows);
}

std::string scatter_table(const ReportedStudy &study)
{
  Rows rows;
  for (std::size_t i = 0; study.answers.has("inputs." + std::to_string(i)); ++i)
  {
    const std::string here   = "inputs." + std::to_string(i) + ".";
    const std::string source = study.answers.word(here + "source");
    rows.push_back({key_name(study.answers.word(here + "key")),
                    study.answers.word(here + "says"), study.answers.word(here + "law"),
                    source.empty() ? "not told" : source});
  }
  return stacked_table({"key", "value", "distribution", "source"}, rows);
}

std::string choice_table(const ReportedStudy &study)
{
  const JsonMembers &answers = study.answers;
  Rows               rows;
  for (const std::string &name : answers.names_in("fixture"))
  {
    std::string band = "not known", low = "not known", high = "not known";
    for (std::size_t b = 0; answers.has("bands." + std::to_string(b)); ++b)
      if (const std::string here = "bands." + std::to_string(b);
          answers.word(here + ".key") == name)
        band = any_value_text(study, name, answers.number(here + ".low")) + " to " +
               any_value_text(study, name, answers.number(here + ".high"));
    for (std::size_t l = 0; answers.has("limited_by." + std::to_string(l)); ++l)
      if (const std::string here = "limited_by." + std::to_string(l);
          answers.word(here + ".key") == name)
      {
        low  = limit_side(study, here + ".low", name);
        high = limit_side(study, here + ".high", name);
      }
    rows.push_back({key_name(name),
                    any_value_text(study, name, answers.number("fixture." + name)), band,
                    low, high});
  }
  std::string note;
  if (rows.empty())
    for (const std::string &words : answers.names_in("objections"))
      note += paragraph("Objection: " + words + ", " +
                        decimal_text(answers.number("objections." + words), 0) + " times.");
  return note +
         stacked_table({"dimension", "chosen", "band in which the family goes through",
                        "what limits it below", "what limits it above"},
                       rows);
}

std::string passes_table(const ReportedStudy &study, const ReaderUnits &units)
{
  std::vector<std::string> heads = {"pass"};
  for (const StudyKey &key : study.record.keys)
    heads.push_back(key_title(key));
  for (const char *const head : {"finding", "largest ram force", "stretch"})
    heads.emplace_back(head);
  Rows rows;
  for (std::size_t p = 0; p < study.record.passes.size(); ++p)
  {
    const StudyPass         &pass = study.record.passes[p];
    std::vector<std::string> row  = {std::to_string(p)};
    for (std::size_t k = 0; k < study.record.keys.size(); ++k)
      row.push_back(k < pass.values.size()
                        ? number_in_unit(study.record.keys[k], pass.values[k])
                        : "");
    row.push_back(finding_words(pass));
    for (const char *const figure : {"peak_ram_force_N", "peak_face_elongation"})
      row.push_back(figure_text(figure, figure_of(pass, figure), units));
    rows.push_back(row);
  }
  return stacked_table(heads, rows);
}

std::string computed_table(const ReportedStudy &study)
{
  const StudyRecord                               &record  = study.record;
  double                                           seconds = 0;
  std::size_t                                      none    = 0;
  std::vector<std::pair<std::string, std::size_t>> trust;
  for (const StudyPass &pass : record.passes)
  {
    seconds += pass.seconds;
    none += has_finding(pass) ? 0 : 1;
    const std::string word  = pass.accuracy.empty() ? "not known" : pass.accuracy;
    const auto        found = std::find_if(trust.begin(), trust.end(),
                                           [&](const auto &one) { return one.first == word; });
    (found == trust.end() ? trust.emplace_back(word, 0) : *found).second += 1;
  }
  std::string accuracy;
  for (const auto &[word, n] : trust)
    accuracy += (accuracy.empty() ? "" : ", ") + word + " in " + std::to_string(n);
  const std::size_t n = record.passes.size();
  Rows              rows;
  rows.push_back({"passes", std::to_string(n) +
                                (record.planned > n
                                     ? " of " + std::to_string(record.planned) + " planned"
                                     : "") +
                                ", each a whole simulation with contact and friction"});
  rows.push_back(
      {"without a finding",
       none == 0 ? "none"
                 : std::to_string(none) + ": " +
                       percent_text(static_cast<double>(none) / static_cast<double>(n)) +
                       " of the passes; they say nothing about the coupon"});
  if (!accuracy.empty())
    rows.push_back({"accuracy of the figures", accuracy});
  if (study.own)
  {
    const MeshSettings &mesh = study.own->mesh;
    std::string         text = mesh_name(mesh.level);
    if (mesh.layers > 0)
      text += ", " + std::to_string(mesh.layers) + " layers through the thickness";
    if (mesh.cell_size > 0)
      text += ", cells of " + fmt::format("{:.3g}", mesh.cell_size) + " mm in the bend";
    rows.push_back({"mesh", text});
    rows.push_back({"model", mesh.dimension == 3
                                 ? "the coupon's real width"
                                 : "plane strain: the middle of a wide coupon"});
  }
  if (seconds > 0 && n > 0)
    rows.push_back({"time", fmt::format("{:.0f} s for all passes, {:.2f} s each", seconds,
                                        seconds / static_cast<double>(n))});
  if (const auto used = study.answers.truth("surrogate.used"))
  {
    std::string text = *used ? "for what matters only: chances and quantiles come from "
                               "passes"
                             : "none: every figure comes from passes";
    for (const std::string &figure : figures_in(study.answers, "weights"))
      if (const double left =
              study.answers.number("surrogate.by_figure." + figure + ".left_out_share");
          std::isfinite(left))
        text += fmt::format("; it explains {:.0f} % of the variance of the {} of passes "
                            "that it has not seen",
                            100 * left, figure_name(figure));
    rows.push_back({"fitted formula in place of passes", text});
  }
  rows.push_back({"errors of a pass", "Errors of the mesh and uncertainties of plate "
                                      "and grease are not in these figures."});
  return stacked_table({"what", "how"}, rows);
}
} // namespace throughbend
