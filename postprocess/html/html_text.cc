#include "postprocess/html/html_text.h"

#include "inputs/text/plain_text.h"
#include "inputs/text/shown_text.h"

#include <cctype>
#include <stdexcept>

namespace throughbend
{
namespace
{
const std::string replacement = "\xEF\xBF\xBD"; // U+FFFD, which browsers show too
}

std::string escaped(const std::string &text)
{
  std::string safe;
  for (std::size_t at = 0; at < text.size(); ++at)
  {
    const char        c      = text[at];
    const std::size_t length = utf8_length(text, at);
    if (length == 0)
    {
      safe += replacement;
      continue;
    }
    const std::string character = text.substr(at, length);
    at += length - 1;
    // Control characters are not allowed in a page and draw nothing; marks of direction
    // would make a figure read backwards.
    if (steers(character) && c != '\n' && c != '\t')
      continue;
    switch (c)
    {
    case '&':
      safe += "&amp;";
      break;
    case '<':
      safe += "&lt;";
      break;
    case '>':
      safe += "&gt;";
      break;
    case '"':
      safe += "&quot;";
      break;
    case '\'':
      safe += "&#39;";
      break;
    default:
      safe += character;
    }
  }
  return safe;
}

std::string address_of(const std::string &path)
{
  const std::string plain = "-._~/"; // section 2.3, and what parts folders
  std::string       address;
  for (const char c : path)
    if (std::isalnum(static_cast<unsigned char>(c)) || plain.find(c) != std::string::npos)
      address += c;
    else
    {
      const char *const digits = "0123456789ABCDEF";
      const auto        byte   = static_cast<unsigned char>(c);
      address += {'%', digits[byte >> 4], digits[byte & 15]};
    }
  return address;
}

std::string script_safe(const std::string &json)
{
  std::string safe;
  for (const char c : json)
    if (c == '<')
      safe += "\\u003c"; // inside JSON it can only stand in a text
    else if (c == '>')
      safe += "\\u003e";
    else if (c == '&')
      safe += "\\u0026";
    else if (c == '\x7f')
      safe += "\\u007f"; // a control character, which no page may hold
    else
      safe += c;
  return safe;
}

std::string base64(const std::string &bytes)
{
  const char *const letters =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  for (std::size_t i = 0; i < bytes.size(); i += 3)
  {
    const auto byte = [&](const std::size_t k)
    { return k < bytes.size() ? static_cast<unsigned char>(bytes[k]) : 0u; };
    const unsigned word = byte(i) << 16 | byte(i + 1) << 8 | byte(i + 2);
    text += letters[word >> 18 & 63];
    text += letters[word >> 12 & 63];
    text += i + 1 < bytes.size() ? letters[word >> 6 & 63] : '=';
    text += i + 2 < bytes.size() ? letters[word & 63] : '=';
  }
  return text;
}

std::string table_row(const std::vector<std::string> &cells)
{
  std::string row = "<tr>";
  for (std::size_t i = 0; i < cells.size(); ++i)
    row += i == 0 ? "<th scope=\"row\">" + escaped(cells[i]) + "</th>"
                  : "<td>" + escaped(cells[i]) + "</td>";
  return row + "</tr>\n";
}

std::string table(const std::vector<std::string>              &heads,
                  const std::vector<std::vector<std::string>> &rows)
{
  if (rows.empty())
    return "";
  std::string text = "<div class=\"wide\"><table>\n<thead><tr>";
  for (const std::string &head : heads)
    text += "<th scope=\"col\">" + escaped(head) + "</th>";
  text += "</tr></thead>\n<tbody>\n";
  for (const std::vector<std::string> &row : rows)
    text += table_row(row);
  return text + "</tbody></table></div>\n";
}

std::string paragraph(const std::string &text)
{
  return "<p>" + escaped(text) + "</p>\n";
}

std::string list(const std::vector<std::string> &items)
{
  if (items.empty())
    return "";
  std::string text = "<ul>\n";
  for (const std::string &item : items)
    text += "<li>" + escaped(item) + "</li>\n";
  return text + "</ul>\n";
}

std::string filled(const std::string &page, const std::map<std::string, std::string> &parts)
{
  std::string text;
  std::size_t from = 0;
  while (true)
  {
    const std::size_t open = page.find("{{", from);
    if (open == std::string::npos)
      return text + page.substr(from);
    const std::size_t close = page.find("}}", open);
    const std::string name =
        close == std::string::npos ? "" : page.substr(open + 2, close - open - 2);
    const auto part = parts.find(name);
    if (part == parts.end())
      throw std::logic_error("the page's template asks for " + name +
                             ", which nobody makes");
    text += page.substr(from, open - from) + part->second;
    from = close + 2;
  }
}
} // namespace throughbend
