#include "postprocess/html/svg_tag.h"

#include "inputs/units/display_units.h"
#include "postprocess/html/html_text.h"

namespace throughbend
{
std::string svg_number(const double value, const int digits)
{
  std::string text = decimal_text(value, digits);
  if (text.find('.') != std::string::npos)
    text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.')
    text.pop_back();
  return text;
}

SvgTag::SvgTag(const std::string_view name, const int digits) : name_(name), digits_(digits)
{
}

SvgTag &SvgTag::set(const std::string_view attribute, const double value)
{
  return set(attribute, svg_number(value, digits_));
}

SvgTag &SvgTag::set(const std::string_view attribute, const std::string_view value)
{
  attributes_ += " " + std::string(attribute) + "=\"" + escaped(std::string(value)) + "\"";
  return *this;
}

SvgTag &SvgTag::place(const double x, const double y)
{
  return set("x", x).set("y", y);
}

SvgTag &SvgTag::centre(const double x, const double y)
{
  return set("cx", x).set("cy", y);
}

SvgTag &SvgTag::size(const double width, const double height)
{
  return set("width", width).set("height", height);
}

SvgTag &SvgTag::add(const std::string_view attributes)
{
  if (!attributes.empty())
    attributes_ += (attributes.front() == ' ' ? "" : " ") + std::string(attributes);
  return *this;
}

std::string SvgTag::alone() const
{
  return "<" + name_ + attributes_ + "/>\n";
}

std::string SvgTag::around(const std::string_view words) const
{
  return "<" + name_ + attributes_ + ">" + escaped(std::string(words)) + "</" + name_ +
         ">\n";
}
} // namespace throughbend
