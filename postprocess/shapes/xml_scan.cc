#include "postprocess/shapes/xml_scan.h"

#include "inputs/text/plain_text.h"
#include "inputs/text/shown_text.h"

#include <fmt/core.h>

#include <algorithm>
#include <charconv>
#include <system_error>

namespace throughbend
{
namespace
{
constexpr std::size_t deepest         = 16; // ours are seven elements deep
constexpr std::size_t most_attributes = 32;
constexpr auto        blanks          = " \t\r\n";
} // namespace

XmlScan::XmlScan(const std::string_view text, std::string file)
    : text_(text), file_(std::move(file))
{
}

void XmlScan::refuse(const std::string &problem) const
{
  const auto line =
      1 + std::count(text_.begin(),
                     text_.begin() + static_cast<long>(std::min(at_, text_.size())), '\n');
  throw InputError(fmt::format(
      "{} cannot be read: line {}: {}. Was it edited by hand, or written by another "
      "program? Remove it to continue without it, or push the case again.",
      file_, line, problem));
}

void XmlScan::cut_off() const
{
  throw XmlCutOff(file_ + " cannot be read: it is truncated. Push the case again.");
}

void XmlScan::skip_to_end_of(const std::string_view mark)
{
  const std::size_t end = text_.find(mark, at_);
  if (end == std::string_view::npos)
    cut_off();
  at_ = end + mark.size();
}

XmlScan::Part XmlScan::next()
{
  if (closes_at_once_)
  {
    closes_at_once_ = false;
    name_           = open_.back();
    open_.pop_back();
    return Part::close;
  }
  while (at_ < text_.size())
  {
    if (text_[at_] != '<')
    {
      const std::size_t from = at_;
      at_                    = std::min(text_.find('<', at_), text_.size());
      words_                 = text_.substr(from, at_ - from);
      if (!open_.empty())
        return Part::text;
      if (words_.find_first_not_of(blanks) != std::string_view::npos)
        refuse("text " + quoted_text(words_) + " outside of all elements");
    }
    else if (text_.compare(at_, 4, "<!--") == 0)
      skip_to_end_of("-->");
    else if (text_.compare(at_, 2, "<?") == 0)
      skip_to_end_of("?>");
    else
      return tag();
  }
  if (!open_.empty() || !any_)
    cut_off();
  return Part::end;
}

XmlScan::Part XmlScan::tag()
{
  const std::size_t end = text_.find('>', at_);
  if (end == std::string_view::npos)
    cut_off();
  std::string_view inside = text_.substr(at_ + 1, end - at_ - 1);
  const bool       closes = !inside.empty() && inside.front() == '/';
  if (closes)
    inside.remove_prefix(1);
  closes_at_once_ = !closes && !inside.empty() && inside.back() == '/';
  if (closes_at_once_)
    inside.remove_suffix(1);
  name_ = inside.substr(0, inside.find_first_of(blanks));
  if (name_.empty() || name_.find_first_of("!<\"'=&/") != std::string_view::npos)
    refuse(quoted_text(name_) + " is no name of an element");
  attributes(inside.substr(name_.size()));
  if (closes)
  {
    if (open_.empty() || open_.back() != name_)
      refuse("'/" + shown_text(clipped(name_, 40)) + "' closes what is not open");
    open_.pop_back();
  }
  else
  {
    if (open_.size() == deepest)
      refuse(fmt::format("more than {} elements in each other", deepest));
    open_.push_back(name_);
    any_ = true;
  }
  at_ = end + 1;
  return closes ? Part::close : Part::open;
}

void XmlScan::attributes(std::string_view inside)
{
  attributes_.clear();
  while (true)
  {
    inside.remove_prefix(std::min(inside.find_first_not_of(blanks), inside.size()));
    if (inside.empty())
      return;
    const std::size_t equals = inside.find('=');
    if (equals == std::string_view::npos || equals + 1 == inside.size() ||
        (inside[equals + 1] != '"' && inside[equals + 1] != '\''))
      refuse(quoted_text(inside) + " is no attribute");
    const std::size_t close = inside.find(inside[equals + 1], equals + 2);
    if (close == std::string_view::npos || attributes_.size() == most_attributes)
      refuse(quoted_text(inside) + " is no attribute");
    attributes_.emplace_back(trimmed(inside.substr(0, equals)),
                             inside.substr(equals + 2, close - equals - 2));
    inside.remove_prefix(close + 1);
  }
}

std::optional<std::string_view> XmlScan::attribute(const std::string_view name) const
{
  for (const auto &[known, value] : attributes_)
    if (known == name)
      return value;
  return std::nullopt;
}

std::size_t XmlScan::count(const std::string_view attribute_name,
                           const std::size_t      most) const
{
  const std::string_view given  = attribute(attribute_name).value_or("");
  std::size_t            number = 0;
  const auto read = std::from_chars(given.data(), given.data() + given.size(), number);
  if (given.empty() || read.ec != std::errc{} || read.ptr != given.data() + given.size() ||
      number > most)
    refuse(fmt::format("{} = {} is no whole number from 0 to {}", attribute_name,
                       quoted_text(given), most));
  return number;
}
} // namespace throughbend
