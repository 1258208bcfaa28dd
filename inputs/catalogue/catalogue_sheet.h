#pragma once
// A catalogue as a table: rows with named cells and the place they stand at, and all that
// is wrong with them at once. The caller says which columns there are; nothing here
// knows rules, metals or lubricants.

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
/// One thing that is wrong in a catalogue.
struct CatalogueFault
{
  std::string place;   ///< `shop.csv:12` or `shop.csv`
  std::string column;  ///< may be empty
  std::string cell;    ///< as it was written, clipped
  std::string problem; ///< with the cure

  std::string text() const; ///< `place: column = cell; problem`
};
std::string fault_list(const std::vector<CatalogueFault> &faults);

struct CatalogueRow
{
  std::string                        place; ///< `shop.csv:12`
  std::map<std::string, std::string> cells; ///< trimmed; columns left out are empty

  const std::string &cell(const std::string &column) const;
};

struct CatalogueSheet
{
  std::vector<CatalogueRow>   rows;
  std::vector<CatalogueFault> faults;
};

struct CatalogueColumns
{
  std::vector<std::string> known;
  std::vector<std::string> required; ///< must be heads and must not be empty in any row
};

/// From text; `name` stands for the file in places. Rows with faults are left out.
CatalogueSheet read_sheet(std::string_view text, const std::string &name,
                          const CatalogueColumns &columns);

/// From a file; one that cannot be read is a fault too.
CatalogueSheet read_sheet_file(const std::string &path, const CatalogueColumns &columns);

/// A fault of one cell.
CatalogueFault cell_fault(const CatalogueRow &row, const std::string &column,
                          const std::string &problem);

/// Joins two catalogues: rows of the second take the place of all rows of the same name.
template <class Row, class NameOf>
std::vector<Row> shadowed(std::vector<Row> rows, const std::vector<Row> &by, NameOf name_of)
{
  std::vector<Row> kept;
  for (Row &row : rows)
  {
    bool replaced = false;
    for (const Row &other : by)
      replaced = replaced || name_of(other) == name_of(row);
    if (!replaced)
      kept.push_back(std::move(row));
  }
  kept.insert(kept.end(), by.begin(), by.end());
  return kept;
}

/// Whether a name can be typed in a case and on a command line: a-z, 0-9 and single dashes.
bool is_catalogue_name(std::string_view name);
} // namespace throughbend
