// Makes and guards tests/verify/RESULTS.md from the rows that the rungs of the ladder leave
// in verify_rows (see ladder.h).
//
//   results_table write RESULTS.md ROWS     renews the tables of the rungs that were run,
//                                           and keeps those of the others
//   results_table check RESULTS.md ROWS LABEL
//       exit code 1 when a rung of that label was not run or isn't in the file, when file
//       and code speak of different quantities, published values or tolerances, or when
//       our values in the file and of this run differ by more than the tolerance.

#include "tests/verify/tolerance.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <sstream>
#include <vector>

using namespace throughbend;

namespace
{
namespace fs = std::filesystem;

struct Row
{
  std::string quantity;
  double      published = 0, ours = 0;
  Tolerance   tolerance;
};

struct RungTable
{
  std::string              title, source, label;
  std::vector<Row>         rows;
  std::vector<std::string> notes;
};

std::vector<std::string> split(const std::string &text, char separator)
{
  std::vector<std::string> parts;
  std::istringstream       in(text);
  for (std::string part; std::getline(in, part, separator);)
    parts.push_back(part);
  return parts;
}

std::string number(double value)
{
  char text[32];
  std::snprintf(text, sizeof text, "%.5g", value);
  return text;
}

Tolerance::Measure measure_named(const std::string &name)
{
  using Measure = Tolerance::Measure;
  if (name == "relative")
    return Measure::relative;
  if (name == "absolute")
    return Measure::absolute;
  return name == "at_most" ? Measure::at_most : Measure::at_least;
}

std::string tolerance_text(const Tolerance &tolerance)
{
  switch (tolerance.measure)
  {
  case Tolerance::Measure::relative:
    return number(100 * tolerance.size) + " %";
  case Tolerance::Measure::absolute:
    return "± " + number(tolerance.size);
  case Tolerance::Measure::at_most:
    return "at most" + (tolerance.size > 0 ? " + " + number(tolerance.size) : "");
  case Tolerance::Measure::at_least:
    break;
  }
  return "at least" + (tolerance.size > 0 ? " − " + number(tolerance.size) : "");
}

std::string difference_text(const Row &row)
{
  if (row.tolerance.measure == Tolerance::Measure::relative && row.published != 0)
  {
    char text[32];
    std::snprintf(text, sizeof text, "%+.2f %%",
                  100 * (row.ours - row.published) / std::abs(row.published));
    return text;
  }
  char text[32];
  std::snprintf(text, sizeof text, "%+.2g", row.ours - row.published);
  return text;
}

RungTable read_rows(const fs::path &file)
{
  RungTable     table;
  std::ifstream in(file);
  for (std::string line; std::getline(in, line);)
  {
    const std::vector<std::string> part = split(line, '\t');
    if (part.size() < 2)
      continue;
    if (part[0] == "title")
      table.title = part[1];
    else if (part[0] == "source")
      table.source = part[1];
    else if (part[0] == "length")
      table.label = part[1];
    else if (part[0] == "note")
      table.notes.push_back(part[1]);
    else if (part[0] == "row" && part.size() == 6)
      table.rows.push_back({part[1],
                            std::stod(part[2]),
                            std::stod(part[3]),
                            {measure_named(part[4]), std::stod(part[5])}});
  }
  return table;
}

std::map<std::string, RungTable> read_all_rows(const fs::path &folder)
{
  std::map<std::string, RungTable> all;
  if (fs::exists(folder))
    for (const auto &entry : fs::directory_iterator(folder))
      all[entry.path().stem()] = read_rows(entry.path());
  return all;
}

const std::string marker = "<!-- rung ";

/// Sections of the file by the rung's name: `<!-- rung NAME LABEL -->` and all lines up to
/// the next marker.
std::map<std::string, std::string> read_sections(const fs::path &file)
{
  std::map<std::string, std::string> sections;
  std::ifstream                      in(file);
  std::string                        name;
  for (std::string line; std::getline(in, line);)
  {
    if (line.rfind(marker, 0) == 0)
      name = split(line.substr(marker.size()), ' ').front();
    if (!name.empty())
      sections[name] += line + '\n';
  }
  return sections;
}

std::string table_line(const Row &row)
{
  return "| " + row.quantity + " | " + number(row.published) + " | " + number(row.ours) +
         " | " + difference_text(row) + " | " + tolerance_text(row.tolerance) + " | " +
         (row.tolerance.allows(row.ours, row.published) ? "yes" : "**no**") + " |";
}

std::string section_text(const std::string &name, const RungTable &table)
{
  std::string text = marker + name + ' ' + table.label + " -->\n## " + table.title +
                     "\n\nSource: " + table.source + "  \nRung `" + name +
                     "`, ctest label `" + table.label +
                     "`\n\n| quantity | published | ours | off by | tolerance | inside "
                     "|\n|---|---|---|---|---|---|\n";
  for (const Row &row : table.rows)
    text += table_line(row) + '\n';
  for (const std::string &note : table.notes)
    text += '\n' + note + '\n';
  return text + '\n';
}

void write(const fs::path &file, const fs::path &rows)
{
  std::map<std::string, std::string> sections = read_sections(file);
  for (const auto &[name, table] : read_all_rows(rows))
    sections[name] = section_text(name, table);
  std::ofstream out(file);
  out << "# What was checked, and how close it came\n\n"
         "Every kind of number that throughbend prints, computed where the answer is known "
         "from somewhere else. `published` is that answer, `ours` what the program's own "
         "classes give, `inside` whether the difference stays within the tolerance that "
         "was "
         "set beforehand. `at most` and `at least` mark bounds.\n\n"
         "Made by `tests/verify/renew-results`; not written by hand. The default tests "
         "fail "
         "when this file and the code disagree by more than the tolerance.\n\n";
  for (const auto &[name, text] : sections)
    out << text;
}

/// How far our value in the file may be from that of this run.
double leeway(const Row &row)
{
  // A bound leaves no room of its own: a tenth of it, or of its slack, must do.
  switch (row.tolerance.measure)
  {
  case Tolerance::Measure::relative:
    return row.tolerance.size * std::abs(row.published);
  case Tolerance::Measure::absolute:
    return row.tolerance.size;
  case Tolerance::Measure::at_most:
  case Tolerance::Measure::at_least:
    break;
  }
  return std::max(std::abs(row.published), row.tolerance.size);
}

int check(const fs::path &file, const fs::path &rows, const std::string &label)
{
  int        wrong    = 0;
  const auto complain = [&](const std::string &what)
  {
    std::cout << "results_table: " << what << '\n';
    ++wrong;
  };
  const auto sections = read_sections(file);
  const auto tables   = read_all_rows(rows);
  for (const auto &[name, text] : sections)
    if (text.rfind(marker + name + ' ' + label + " -->", 0) == 0 && tables.count(name) == 0)
      complain("rung " + name + " is in the file, but was not run");

  std::size_t compared = 0;
  for (const auto &[name, table] : tables)
  {
    if (table.label != label)
      continue;
    const auto section = sections.find(name);
    if (section == sections.end())
    {
      complain("rung " + name + " is not in the file");
      continue;
    }
    for (const Row &row : table.rows)
    {
      ++compared;
      if (!row.tolerance.allows(row.ours, row.published))
        complain(name + ": " + row.quantity + ": ours " + number(row.ours) +
                 " is outside the tolerance of " + number(row.published));
      // The line begins with what doesn't change from run to run, then comes our value.
      const std::string head =
          "\n| " + row.quantity + " | " + number(row.published) + " | ";
      const std::size_t place = section->second.find(head);
      if (place == std::string::npos)
      {
        complain(name + ": the file has no '" + row.quantity + "' with the value " +
                 number(row.published));
        continue;
      }
      const std::string rest = section->second.substr(
          place + head.size(), section->second.find('\n', place + 1) - place - head.size());
      const double noted = std::stod(rest);
      if (std::abs(noted - row.ours) > leeway(row))
        complain(name + ": " + row.quantity + ": the file says " + number(noted) +
                 ", this run " + number(row.ours));
      if (rest.find(" | " + tolerance_text(row.tolerance) + " | ") == std::string::npos)
        complain(name + ": " + row.quantity + ": the file has another tolerance than " +
                 tolerance_text(row.tolerance));
    }
  }
  std::cout << "results_table: " << compared << " values of label " << label
            << " compared with " << file.filename().string() << ", " << wrong << " wrong";
  std::cout << (wrong > 0 ? "; after a change that is meant: tests/verify/renew-results\n"
                          : "\n");
  return wrong > 0 || compared == 0 ? 1 : 0;
}
} // namespace

int main(int argc, char **argv)
{
  const std::vector<std::string> words(argv + 1, argv + argc);
  if (words.size() == 3 && words[0] == "write")
  {
    write(words[1], words[2]);
    return 0;
  }
  if (words.size() == 4 && words[0] == "check")
    return check(words[1], words[2], words[3]);
  std::cerr << "results_table write RESULTS.md ROWS | check RESULTS.md ROWS LABEL\n";
  return 2;
}
