#pragma once
// A comma-separated table with one line of heads: how run folders keep numbers. Reads a
// table back by its heads and writes numbers so that they read back exactly; it knows
// nothing of what the columns mean.

#include <cstddef>
#include <filesystem>
#include <iosfwd>
#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
/// Shortest text that reads back as the same number; "nan", "inf" and "-inf" otherwise.
std::string number_text(double value);

/// The number a cell holds. Throws InputError when it holds anything else.
double number_of(std::string_view cell);

/// What is wrong with a file, with its path in front of it just once.
std::string named_once(const std::filesystem::path &file, const std::string &words);

/// The cells of one line, joined; those with a comma, quote or line break are quoted.
std::string csv_line(const std::vector<std::string> &cells);

/// The cells of one line and where in the text it begins.
struct CsvLine
{
  std::size_t              number = 0; ///< from 1
  std::vector<std::string> cells;
};

struct CsvLines
{
  std::vector<CsvLine> lines;              ///< finished lines that are not empty
  std::size_t          open_quote = 0;     ///< line of a quote that is never closed; or 0
  bool                 unfinished = false; ///< the last line lacks its end and is left out
};

/// The lines of a text, not yet judged against any heads. Quoted cells may hold commas,
/// doubled quotes and line breaks (RFC 4180, section 2).
CsvLines csv_lines(std::string_view text, char separator = ',');

class CsvTable
{
public:
  /// Reads a whole file. A last line without its line end is that of a killed run and is
  /// left out. Throws InputError when the file cannot be read or a row has a cell too few
  /// or too many. Opens it as run_file_text does.
  static CsvTable read(const std::filesystem::path &file);

  /// Same from a stream; `name` stands for the file in messages.
  static CsvTable read(std::istream &in, const std::string &name);

  /// Same from text in memory.
  static CsvTable of_text(const std::string &text, const std::string &name);

  const std::vector<std::string> &heads() const { return heads_; }
  std::size_t                     rows() const { return rows_.size(); }
  const std::vector<std::string> &row(std::size_t index) const { return rows_.at(index); }

  /// Place of a column, by its head with its unit. Throws InputError when there is none.
  std::size_t              index_of(const std::string &head) const;
  std::vector<std::string> words(const std::string &head) const;
  std::vector<double>      numbers(const std::string &head) const;

private:
  std::string                           name_;
  std::vector<std::string>              heads_;
  std::vector<std::vector<std::string>> rows_;
};
} // namespace throughbend
