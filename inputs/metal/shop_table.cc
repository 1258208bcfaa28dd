#include "inputs/metal/shop_table.h"

#include "inputs/text/csv_table.h"
#include "inputs/text/file_text.h"
#include "inputs/text/input_error.h"
#include "inputs/text/plain_text.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

bool is_digit(const char c)
{
  return c >= '0' && c <= '9';
}

/// Lower case, single blanks, and an underscore as a blank: `Jack_Bore` is `jack bore`.
std::string plain_name(const std::string_view text)
{
  std::string name;
  for (const char c : lower_case(trimmed(text)))
  {
    const bool blank = c == ' ' || c == '\t' || c == '_';
    if (!blank)
      name += c;
    else if (!name.empty() && name.back() != ' ')
      name += ' ';
  }
  return name;
}

/// `travel [mm]`, `travel (mm)`, `travel / mm`, `travel`.
ShopHead head_of(const std::string &cell)
{
  ShopHead               head;
  const std::string_view text = trimmed(cell);
  head.text                   = std::string(text);
  std::size_t open            = std::string_view::npos;
  if (!text.empty() && (text.back() == ']' || text.back() == ')'))
    open = text.rfind(text.back() == ']' ? '[' : '(');
  if (open != std::string_view::npos)
    head.unit = std::string(trimmed(text.substr(open + 1, text.size() - open - 2)));
  else if (open = text.rfind(" / "); open != std::string_view::npos)
    head.unit = std::string(trimmed(text.substr(open + 3)));
  head.name = plain_name(text.substr(0, open));
  if (head.unit == "-" || head.unit == "1")
    head.unit.clear();
  return head;
}

/// Of a line of notes: the place of `=` or `:`; nothing in a line of heads, which has a
/// separator before either.
std::size_t note_sign(const std::string_view line)
{
  const std::size_t sign = line.find_first_of("=:");
  if (sign == std::string_view::npos || sign == 0 || line.find_first_of(";\t\"[") < sign)
    return std::string_view::npos;
  return sign;
}

/// Digits, a comma, digits, with a sign in front and an exponent behind at most.
bool has_decimal_comma(const std::string_view text)
{
  const std::size_t comma = text.find(',');
  return comma != std::string_view::npos && comma > 0 && is_digit(text[comma - 1]) &&
         comma + 1 < text.size() && is_digit(text[comma + 1]);
}

/// `1,234` may be 1.234 or 1234; `0,123`, `1,23` and `12,3456` can be but decimals.
bool may_be_thousands(const std::string_view text)
{
  const std::size_t comma = text.find(',');
  std::size_t       first = comma, last = comma + 1;
  while (first > 0 && is_digit(text[first - 1]))
    --first;
  while (last < text.size() && is_digit(text[last]))
    ++last;
  return text[first] != '0' && comma - first <= 3 && last - comma == 4;
}
} // namespace

ShopTable ShopTable::read(const std::filesystem::path &file)
{
  const FileText text = read_file_text(file.string());
  if (!text.problem.empty())
    throw InputError("the table " + file.string() + ": " + text.problem + ".");
  return of_text(text.text, file.string());
}

ShopTable ShopTable::of_text(std::string_view text, const std::string &name)
{
  ShopTable table;
  table.name_ = name;
  if (text.substr(0, 3) == byte_order_mark)
    text.remove_prefix(3);
  if (const auto byte = find_binary_byte(text))
    table.refuse(1 + static_cast<std::size_t>(std::count(
                         text.begin(), text.begin() + static_cast<long>(*byte), '\n')),
                 "is not UTF-8 text. Save the sheet as CSV, with UTF-8 as its character "
                 "set");
  table.read_notes(text);
  return table;
}

void ShopTable::refuse(const std::size_t line, const std::string &problem) const
{
  throw InputError(fmt::format("{}:{}: {}.", name_, line, problem));
}

std::string ShopTable::place(const std::size_t row) const
{
  return fmt::format("{}:{}", name_, line(row));
}

/// Notes and comments up to the heads, then the table.
void ShopTable::read_notes(std::string_view text)
{
  std::size_t number = 0;
  while (!text.empty())
  {
    ++number;
    const std::size_t end     = std::min(text.find('\n'), text.size());
    std::string_view  line    = trimmed(text.substr(0, end));
    const bool        comment = !line.empty() && line.front() == '#';
    while (!line.empty() && (line.front() == '#' || line.front() == ' '))
      line.remove_prefix(1);
    while (!line.empty() && std::string_view(";,\t ").find(line.back()) != line.npos)
      line.remove_suffix(1); // what a spreadsheet puts behind a short line
    const std::size_t sign = note_sign(line);
    if (sign != std::string_view::npos)
      notes_.push_back({plain_name(line.substr(0, sign)),
                        std::string(trimmed(line.substr(sign + 1))), number, comment});
    else if (!line.empty() && !comment)
      break;
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  heads_line_ = number;
  if (text.empty())
    refuse(std::max<std::size_t>(number, 1),
           "there is no line of heads. The first line of the table names its columns with "
           "their units, as in travel [mm];force [kN]");
  read_rows(text);
}

void ShopTable::read_rows(const std::string_view text)
{
  const std::string_view first = text.substr(0, text.find('\n'));
  separator_                   = first.find(';') != std::string_view::npos    ? ';'
                                 : first.find('\t') != std::string_view::npos ? '\t'
                                                                              : ',';
  const CsvLines found         = csv_lines(std::string(text) + "\n", separator_);
  if (found.open_quote > 0)
    refuse(heads_line_ + found.open_quote - 1, "a quote is opened and never closed");
  for (const CsvLine &line : found.lines)
  {
    const std::size_t number = heads_line_ + line.number - 1;
    Row               row{number, {}};
    for (const std::string &cell : line.cells)
      row.cells.emplace_back(trimmed(cell));
    const bool is_empty = std::all_of(row.cells.begin(), row.cells.end(),
                                      [](const std::string &c) { return c.empty(); });
    if (is_empty || row.cells.front().rfind('#', 0) == 0)
      continue;
    if (heads_.empty())
    {
      while (!row.cells.empty() && row.cells.back().empty())
        row.cells.pop_back();
      for (const std::string &cell : row.cells)
        heads_.push_back(head_of(cell));
      continue;
    }
    while (row.cells.size() > heads_.size() && row.cells.back().empty())
      row.cells.pop_back();
    if (row.cells.size() > heads_.size())
      refuse(number,
             fmt::format("{} cells under {} heads{}", row.cells.size(), heads_.size(),
                         separator_ == ','
                             ? ". Where decimals are written with a comma, the "
                               "columns must be separated by semicolons"
                             : ""));
    if (row.cells.size() < heads_.size())
      refuse(number, fmt::format("{} cells under {} heads. Was the line cut off? A value "
                                 "that is not known is an empty cell",
                                 row.cells.size(), heads_.size()));
    rows_.push_back(std::move(row));
  }
  for (const ShopHead &head : heads_)
    if (!head.text.empty() && (is_digit(head.text.front()) || head.text.front() == '-'))
      refuse(heads_line_, "'" + head.text +
                              "' stands where a head is expected. The first line of the "
                              "table names its columns with their units, as in travel "
                              "[mm];force [kN]");
  check_commas();
}

/// Decimal commas are taken where the whole table bears them out.
void ShopTable::check_commas() const
{
  std::size_t doubtful = 0, points = 0;
  std::string doubtful_cell, point_cell;
  bool        comma = false, certain = false;
  for (const Row &row : rows_)
    for (const std::string &cell : row.cells)
    {
      const bool number = !cell.empty() && (is_digit(cell.front()) ||
                                            (cell.size() > 1 && is_digit(cell[1])));
      if (!number)
        continue;
      if (cell.find('.') != std::string::npos && points == 0)
      {
        points     = row.line;
        point_cell = cell;
      }
      if (!has_decimal_comma(cell))
        continue;
      if (std::count(cell.begin(), cell.end(), ',') > 1 ||
          cell.find('.') != std::string::npos)
        refuse(row.line, "'" + cell +
                             "' has separators between its thousands. Write the digits "
                             "without them");
      comma = true;
      if (!may_be_thousands(cell))
        certain = true;
      else if (doubtful == 0)
      {
        doubtful      = row.line;
        doubtful_cell = cell;
      }
    }
  if (!comma)
    return;
  if (points > 0)
    refuse(points, "'" + point_cell +
                       "' has a point where other numbers of the table have a comma. Write "
                       "all decimals the same way, and thousands without a separator");
  if (!certain)
    refuse(doubtful, "'" + doubtful_cell +
                         "' may be a decimal number or one with its thousands separated. "
                         "Write decimals with a point");
}

std::string ShopTable::with_point(const std::string &number) const
{
  std::string text = number;
  if (has_decimal_comma(text))
    text[text.find(',')] = '.';
  return text;
}

std::optional<std::size_t> ShopTable::find(const std::vector<std::string> &names) const
{
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < heads_.size(); ++i)
    if (std::find(names.begin(), names.end(), heads_[i].name) != names.end())
    {
      if (found)
        refuse(heads_line_, "the columns '" + heads_[*found].text + "' and '" +
                                heads_[i].text + "' are the same. Leave one out");
      found = i;
    }
  return found;
}

std::vector<double> ShopTable::values(const std::size_t column, const UnitKind kind) const
{
  const ShopHead     &head = heads_.at(column);
  std::vector<double> values;
  for (const Row &row : rows_)
  {
    const std::string &cell = row.cells[column];
    if (cell.empty())
    {
      values.push_back(std::numeric_limits<double>::quiet_NaN());
      continue;
    }
    // A cell may carry a unit of its own where the head has none.
    const Quantity quantity = read_quantity(with_point(cell) + " " + head.unit, kind);
    if (!quantity.ok())
      refuse(row.line,
             "column '" + head.text + "', '" + clipped(cell, 40) + "': " + quantity.error +
                 (head.unit.empty() && kind != UnitKind::ratio
                      ? ". The head names the unit of its column, as in travel [mm]"
                      : ""));
    values.push_back(quantity.value);
  }
  return values;
}

UnitSystem ShopTable::system(const std::size_t column) const
{
  for (const UnitKind kind : {UnitKind::length, UnitKind::force, UnitKind::stress})
    if (const Quantity one = read_quantity("1 " + heads_.at(column).unit, kind); one.ok())
      return one.system;
  return UnitSystem::metric;
}

std::optional<double> ShopTable::note(const std::vector<std::string> &names,
                                      const UnitKind                  kind) const
{
  std::optional<double> value;
  for (const ShopNote &note : notes_)
    if (std::find(names.begin(), names.end(), note.name) != names.end())
    {
      if (value)
        refuse(note.line, "'" + note.name + "' is given twice");
      if (has_decimal_comma(note.value) && may_be_thousands(note.value))
        refuse(note.line, "'" + note.value +
                              "' may be a decimal number or one with its thousands "
                              "separated. Write decimals with a point");
      const Quantity quantity = read_quantity(with_point(note.value), kind);
      if (!quantity.ok())
        refuse(note.line, note.name + " = " + note.value + ": " + quantity.error);
      value = quantity.value;
    }
  return value;
}
} // namespace throughbend
