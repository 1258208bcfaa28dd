#include "inputs/json.h"

#include "inputs/csv_table.h"

#include <cmath>

namespace throughbend
{
std::string json_quoted(const std::string &text)
{
  const char *const digits = "0123456789abcdef";
  std::string       quoted = "\"";
  for (const char c : text)
    switch (c)
    {
    case '"':
      quoted += "\\\"";
      break;
    case '\\':
      quoted += "\\\\";
      break;
    case '\n':
      quoted += "\\n";
      break;
    case '\r':
      quoted += "\\r";
      break;
    case '\t':
      quoted += "\\t";
      break;
    default:
      if (const auto code = static_cast<unsigned char>(c); code < 0x20 || code == 0x7f)
        quoted += std::string("\\u00") + digits[code / 16] + digits[code % 16];
      else
        quoted += c;
    }
  return quoted + '"';
}

Json Json::truth(const bool value)
{
  Json json;
  json.value_ = value;
  return json;
}

Json Json::known(const std::string &text)
{
  return text.empty() ? Json() : Json(text);
}

Json Json::object()
{
  Json json;
  json.value_ = Members();
  return json;
}

Json Json::list()
{
  Json json;
  json.value_ = Items();
  return json;
}

Json &Json::put(const std::string &key, Json value)
{
  std::get<Members>(value_).push_back({key, std::move(value)});
  return *this;
}

Json &Json::add(Json item)
{
  std::get<Items>(value_).push_back(std::move(item));
  return *this;
}

std::string Json::text() const
{
  return text("\n");
}

std::string Json::text(const std::string &indent) const
{
  const std::string deeper = indent + "  ";
  if (const auto *truth = std::get_if<bool>(&value_))
    return *truth ? "true" : "false";
  if (const auto *number = std::get_if<double>(&value_))
    return std::isfinite(*number) ? number_text(*number) : "null";
  if (const auto *whole = std::get_if<long long>(&value_))
    return std::to_string(*whole);
  if (const auto *words = std::get_if<std::string>(&value_))
    return json_quoted(*words);

  std::string inside;
  if (const auto *items = std::get_if<Items>(&value_))
  {
    for (const Json &item : *items)
      inside += (inside.empty() ? "" : ",") + deeper + item.text(deeper);
    return inside.empty() ? "[]" : '[' + inside + indent + ']';
  }
  if (const auto *members = std::get_if<Members>(&value_))
  {
    for (const Member &member : *members)
      inside += (inside.empty() ? "" : ",") + deeper + json_quoted(member.key) + ": " +
                member.value.text(deeper);
    return inside.empty() ? "{}" : '{' + inside + indent + '}';
  }
  return "null";
}
} // namespace throughbend
