#include "solver/study/study_csv.h"

#include "inputs/keys/option_table.h"
#include "inputs/text/csv_table.h"
#include "inputs/text/shown_text.h"
#include "inputs/units/table_unit.h"

#include <cmath>
#include <set>
#include <vector>

namespace throughbend
{
namespace
{
/// As in every table of ours. A key that this version does not have: as the study shows it.
TableUnit unit_of(const StudyKey &key)
{
  const Option *const option = find_option(key.key);
  if (option == nullptr)
    return {key.unit.c_str(), key.scale};
  const auto *const number = std::get_if<NumberSlot>(&option->slot);
  return table_unit(number == nullptr ? UnitKind::count : number->kind);
}
std::string known_number(const double value)
{
  return std::isfinite(value) ? number_text(value) : "";
}
} // namespace

std::string study_csv(const StudyRecord &study)
{
  std::set<std::string> figures;
  for (const StudyPass &pass : study.passes)
    for (const auto &[name, value] : pass.figures)
      figures.insert(name);
  std::vector<std::string> heads;
  for (const StudyKey &key : study.keys)
  {
    const std::string unit = unit_of(key).name;
    heads.push_back(key.key + (unit.empty() ? "" : " [" + unit + "]"));
  }
  for (const char *head : {"also", "outcome", "held", "metal", "accuracy"})
    heads.emplace_back(head);
  heads.insert(heads.end(), figures.begin(), figures.end());
  for (const char *head : {"seconds [s]", "case_hash", "verdict"})
    heads.emplace_back(head);
  std::string text = csv_line(heads);
  for (const StudyPass &pass : study.passes)
  {
    std::vector<std::string> cells;
    for (std::size_t i = 0; i < study.keys.size(); ++i)
      cells.push_back(known_number(unit_of(study.keys[i]).of(pass.values.at(i))));
    std::string also;
    for (const std::string &word : pass.words)
      also += (also.empty() ? "" : " ") + word;
    for (const std::string &cell :
         {also, pass.outcome, pass.held, pass.metal, pass.accuracy})
      cells.push_back(text_cell(cell));
    for (const std::string &name : figures)
    {
      const auto figure = pass.figures.find(name);
      cells.push_back(figure == pass.figures.end() ? "" : known_number(figure->second));
    }
    cells.push_back(number_text(pass.seconds));
    cells.push_back(pass.case_hash);
    cells.push_back(text_cell(pass.verdict));
    text += csv_line(cells);
  }
  return text;
}
} // namespace throughbend
