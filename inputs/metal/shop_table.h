#pragma once
// A table as a shop keeps it: from a spreadsheet, a testing machine or a text editor. Heads
// with units, `travel [mm]`; separated by comma, semicolon or tab; decimals with a point
// or, where that is unambiguous, a comma; before the heads lines `jack bore = 60 mm`. It
// knows no particular head: whoever asks for a column names it and what it measures.

#include "inputs/units/units.h"

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
/// The head of a column.
struct ShopHead
{
  std::string name; ///< without the unit, lower case, single blanks: travel
  std::string unit; ///< as written: mm; empty: none
  std::string text; ///< all of it as written
};

/// A line `name = value` or `name: value` before the heads, with or without a `#`.
struct ShopNote
{
  std::string name; ///< lower case, single blanks
  std::string value;
  std::size_t line       = 0;
  bool        is_comment = false; ///< behind a `#`, where it may be no more than a remark
};

class ShopTable
{
public:
  /// Throws InputError that says what is wrong, in which line, and the cure.
  static ShopTable read(const std::filesystem::path &file);
  /// From text; `name` stands for the file in messages.
  static ShopTable of_text(std::string_view text, const std::string &name);

  const std::string           &name() const { return name_; }
  const std::vector<ShopHead> &heads() const { return heads_; }
  const std::vector<ShopNote> &notes() const { return notes_; }
  std::size_t                  rows() const { return rows_.size(); }
  /// Of the file, from 1.
  std::size_t line(std::size_t row) const { return rows_.at(row).line; }
  /// `readings.csv:12`
  std::string place(std::size_t row) const;

  /// The column with one of these names, lower case; nothing: there is none. Throws
  /// InputError where two columns have one.
  std::optional<std::size_t> find(const std::vector<std::string> &names) const;

  /// Its values in the inside unit of what it measures; NaN where a cell is empty. Throws
  /// InputError for a cell that is no such quantity.
  std::vector<double> values(std::size_t column, UnitKind kind) const;
  /// The family of units of the column.
  UnitSystem system(std::size_t column) const;

  /// The value of a note with one of these names. Throws InputError as values() does.
  std::optional<double> note(const std::vector<std::string> &names, UnitKind kind) const;

private:
  struct Row
  {
    std::size_t              line = 0;
    std::vector<std::string> cells;
  };
  void              read_notes(std::string_view text);
  void              read_rows(std::string_view text);
  void              check_commas() const;
  std::string       with_point(const std::string &number) const;
  [[noreturn]] void refuse(std::size_t line, const std::string &problem) const;

  std::string           name_;
  char                  separator_  = ',';
  std::size_t           heads_line_ = 0;
  std::vector<ShopHead> heads_;
  std::vector<ShopNote> notes_;
  std::vector<Row>      rows_;
};
} // namespace throughbend
