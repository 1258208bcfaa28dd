#include "inputs/text/csv_table.h"

#include "inputs/text/input_error.h"
#include "inputs/text/plain_text.h"
#include "inputs/text/run_file.h"
#include "inputs/text/shown_text.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <istream>
#include <iterator>
#include <system_error>

namespace throughbend
{
std::string number_text(const double value)
{
  std::array<char, 32> text{};
  const auto end = std::to_chars(text.data(), text.data() + text.size(), value).ptr;
  return {text.data(), end};
}

double number_of(const std::string_view cell)
{
  double     value = 0;
  const auto end   = cell.data() + cell.size();
  const auto read  = std::from_chars(cell.data(), end, value);
  if (read.ec != std::errc{} || read.ptr != end)
    throw InputError(quoted_text(cell) + " is not a number");
  return value;
}

std::string named_once(const std::filesystem::path &file, const std::string &words)
{
  const std::string name = file.string() + ": ";
  return (words.rfind(name, 0) == 0 ? "" : name) + words;
}

std::string csv_line(const std::vector<std::string> &cells)
{
  std::string line;
  for (const std::string &cell : cells)
  {
    if (&cell != &cells.front())
      line += ',';
    if (cell.find_first_of(",\"\r\n") == std::string::npos)
    {
      line += cell;
      continue;
    }
    line += '"';
    for (const char c : cell)
      line += c == '"' ? std::string("\"\"") : std::string(1, c);
    line += '"';
  }
  return line + '\n';
}

CsvLines csv_lines(const std::string_view text, const char separator)
{
  CsvLines    found;
  CsvLine     line{1, {""}};
  std::size_t number      = 1;
  std::size_t quoted_from = 0;
  for (std::size_t i = 0; i < text.size(); ++i)
  {
    const char c = text[i];
    number += c == '\n' ? 1 : 0;
    if (quoted_from > 0 && c == '"' && i + 1 < text.size() && text[i + 1] == '"')
      line.cells.back() += text[i++];
    else if (c == '"')
      quoted_from = quoted_from > 0 ? 0 : number;
    else if (quoted_from > 0)
      line.cells.back() += c;
    else if (c == separator)
      line.cells.emplace_back();
    else if (c == '\n')
    {
      if (line.cells.size() > 1 || !line.cells.front().empty())
        found.lines.push_back(line);
      line = {number, {""}};
    }
    else if (c != '\r')
      line.cells.back() += c;
  }
  found.open_quote = quoted_from;
  found.unfinished = line.cells.size() > 1 || !line.cells.front().empty();
  return found;
}

CsvTable CsvTable::read(const std::filesystem::path &file)
{
  errno = 0;
  const auto text =
      run_file_text(file.parent_path(), file.filename(), run_file_size::table);
  if (!text)
    throw InputError("cannot read the table " + file.string() +
                     (errno != 0 ? ": " + std::generic_category().message(errno) : "") +
                     ". Check that the run folder is complete and that you may read it.");
  return of_text(*text, file.string());
}

CsvTable CsvTable::read(std::istream &in, const std::string &name)
{
  return of_text({std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()},
                 name);
}

CsvTable CsvTable::of_text(const std::string &text, const std::string &name)
{
  // Each cell takes many times its bytes of memory: counted before any is taken.
  constexpr long most_cells = 8'000'000;
  if (std::count(text.begin(), text.end(), ',') +
          std::count(text.begin(), text.end(), '\n') >
      most_cells)
    throw InputError(fmt::format("{}: has more than {} cells, more than a run writes. "
                                 "Was the file edited by hand?",
                                 name, most_cells));
  CsvTable table;
  table.name_ = name;
  for (const CsvLine &line : csv_lines(text).lines)
    table.rows_.push_back(line.cells);
  if (table.rows_.empty())
    throw InputError(name + ": has no header line. Was the run stopped as it started? "
                            "Push the case again.");
  table.heads_ = table.rows_.front();
  table.rows_.erase(table.rows_.begin());
  for (std::size_t i = 0; i < table.rows_.size(); ++i)
    if (table.rows_[i].size() != table.heads_.size())
      throw InputError(fmt::format("{}: row {} has {} cells where there are {} heads. Was "
                                   "the file edited by hand? Push the case again.",
                                   name, i + 1, table.rows_[i].size(),
                                   table.heads_.size()));
  return table;
}

std::size_t CsvTable::index_of(const std::string &head) const
{
  const auto found = std::find(heads_.begin(), heads_.end(), head);
  if (found == heads_.end())
  {
    std::string known;
    for (const std::string &other : heads_)
      known += (known.empty() ? "" : ", ") + quoted_text(other, 60);
    throw InputError(name_ + ": has no column " + quoted_text(head) +
                     ". Its columns are: " + clipped(known, 1000) + ".");
  }
  return static_cast<std::size_t>(found - heads_.begin());
}

std::vector<std::string> CsvTable::words(const std::string &head) const
{
  const std::size_t        column = index_of(head);
  std::vector<std::string> result;
  for (const auto &row : rows_)
    result.push_back(row[column]);
  return result;
}

std::vector<double> CsvTable::numbers(const std::string &head) const
{
  std::vector<double> result;
  for (const std::string &word : words(head))
    try
    {
      result.push_back(number_of(word));
    }
    catch (const InputError &error)
    {
      throw InputError(fmt::format("{}: column '{}', row {}: {}. Was the file edited by "
                                   "hand? Put it back as it was, or push the case again.",
                                   name_, shown_text(clipped(head, 60)), result.size() + 1,
                                   error.what()));
    }
  return result;
}
} // namespace throughbend
