#include "inputs/catalogue/catalogue_sheet.h"

#include "inputs/text/csv_table.h"
#include "inputs/text/file_text.h"
#include "inputs/text/plain_text.h"

#include <fmt/core.h>

#include <algorithm>
#include <set>

namespace throughbend
{
namespace
{
constexpr std::size_t shown_of_cell = 60; // bytes

bool holds(const std::vector<std::string> &names, const std::string &name)
{
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// What is wrong with the heads.
std::vector<CatalogueFault> head_faults(const CsvLine &heads, const std::string &name,
                                        const CatalogueColumns &columns)
{
  const std::string           place = name + ":" + std::to_string(heads.number);
  std::vector<CatalogueFault> faults;
  std::set<std::string>       seen;
  for (const std::string &raw : heads.cells)
  {
    const std::string head(trimmed(raw));
    if (!seen.insert(head).second)
      faults.push_back({place, head, "", "the column is there twice; keep one"});
    else if (!holds(columns.known, head))
    {
      std::string problem = "unknown column";
      if (const auto nearest = nearest_name(head, columns.known))
        problem += "; did you mean '" + *nearest + "'?";
      faults.push_back({place, clipped(head, shown_of_cell), "", problem});
    }
  }
  for (const std::string &column : columns.required)
    if (seen.count(column) == 0)
      faults.push_back({place, column, "", "the column is missing from the line of heads"});
  return faults;
}
} // namespace

std::string CatalogueFault::text() const
{
  std::string words = place + ": ";
  if (!column.empty())
    words += column + (cell.empty() ? "" : " = " + cell) + "; ";
  return words + problem;
}

std::string fault_list(const std::vector<CatalogueFault> &faults)
{
  std::string list;
  for (const CatalogueFault &fault : faults)
    list += fault.text() + "\n";
  return list;
}

const std::string &CatalogueRow::cell(const std::string &column) const
{
  static const std::string empty;
  const auto               found = cells.find(column);
  return found == cells.end() ? empty : found->second;
}

CatalogueFault cell_fault(const CatalogueRow &row, const std::string &column,
                          const std::string &problem)
{
  return {row.place, column, clipped(row.cell(column), shown_of_cell), problem};
}

CatalogueSheet read_sheet(std::string_view text, const std::string &name,
                          const CatalogueColumns &columns)
{
  CatalogueSheet sheet;
  if (text.substr(0, 3) == "\xEF\xBB\xBF")
    text.remove_prefix(3);
  if (find_binary_byte(text))
  {
    sheet.faults.push_back({name, "", "", "is no plain UTF-8 text; save it as CSV, UTF-8"});
    return sheet;
  }
  // People leave out the last line's end; only a killed run means something by that.
  const CsvLines found = csv_lines(std::string(text) + "\n");
  if (found.open_quote > 0)
    sheet.faults.push_back({name + ":" + std::to_string(found.open_quote), "", "",
                            "a quote is not closed; close it, or double it inside a "
                            "quoted cell"});
  if (found.lines.empty())
  {
    sheet.faults.push_back({name, "", "", "has no header line"});
    return sheet;
  }

  const CsvLine &heads  = found.lines.front();
  const auto     faults = head_faults(heads, name, columns);
  sheet.faults.insert(sheet.faults.end(), faults.begin(), faults.end());
  for (std::size_t i = 1; i < found.lines.size(); ++i)
  {
    const CsvLine &line = found.lines[i];
    CatalogueRow   row;
    row.place = name + ":" + std::to_string(line.number);
    if (line.cells.size() != heads.cells.size())
    {
      sheet.faults.push_back(
          {row.place, "", "",
           fmt::format(
               "has {} cells where there are {} heads; quote cells that hold a comma",
               line.cells.size(), heads.cells.size())});
      continue;
    }
    for (std::size_t j = 0; j < line.cells.size(); ++j)
      row.cells[std::string(trimmed(heads.cells[j]))] = std::string(trimmed(line.cells[j]));
    bool whole = true;
    for (const std::string &column : columns.required)
      if (row.cells.count(column) > 0 && row.cell(column).empty())
      {
        sheet.faults.push_back(cell_fault(row, column, "must not be empty"));
        whole = false;
      }
    if (whole)
      sheet.rows.push_back(row);
  }
  return sheet;
}

CatalogueSheet read_sheet_file(const std::string &path, const CatalogueColumns &columns)
{
  const FileText file = read_file_text(path);
  if (file.problem.empty())
    return read_sheet(file.text, path, columns);
  CatalogueSheet sheet;
  sheet.faults.push_back({path, "", "", file.problem});
  return sheet;
}

bool is_catalogue_name(std::string_view name)
{
  bool dash = true; // none in front, none doubled, none at the end
  for (const char c : name)
  {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (!plain && (c != '-' || dash))
      return false;
    dash = c == '-';
  }
  return !name.empty() && !dash;
}
} // namespace throughbend
