#pragma once
// Text on its way into a page: everything that comes from a case or a file passes through
// here, so that no title can become a tag. Also the few elements that tables are made of.

#include <map>
#include <string>
#include <vector>

namespace throughbend
{
/// For text between tags and for attributes in double quotes; in SVG as well. Bytes that
/// are no UTF-8 become the replacement character U+FFFD, one each. Characters that steer,
/// but for line feeds and tabs, are left out.
std::string escaped(const std::string &text);

/// A path as an address in a page: whatever could mean something else there is written as
/// %XX (RFC 3986, section 2.1). Still to be escaped like any text.
std::string address_of(const std::string &path);

/// JSON that may stand inside a script element: no tag can end it early.
std::string script_safe(const std::string &json);

std::string base64(const std::string &bytes); ///< RFC 4648, section 4

/// A row of a table. The first cell is its head. Cells are escaped.
std::string table_row(const std::vector<std::string> &cells);

/// A table with a line of heads; empty when there is no row. Everything is escaped.
std::string table(const std::vector<std::string>              &heads,
                  const std::vector<std::vector<std::string>> &rows);

std::string paragraph(const std::string &text);          ///< escaped
std::string list(const std::vector<std::string> &items); ///< escaped; empty for no items

/// The template with each {{name}} replaced by its part, in one go: braces inside a part
/// stay as they are. Throws std::logic_error for a name without a part.
std::string filled(const std::string                        &page,
                   const std::map<std::string, std::string> &parts);
} // namespace throughbend
