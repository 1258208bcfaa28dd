#pragma once
// A value to be written as JSON (RFC 8259), with the members of objects in the order they
// were put. Writes only; nothing in the program needs to read JSON.

#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace throughbend
{
class Json
{
public:
  Json() = default; ///< null
  Json(double value) : value_(value) {}
  Json(int value) : value_(static_cast<long long>(value)) {}
  Json(long long value) : value_(value) {}
  Json(std::string value) : value_(std::move(value)) {}
  Json(const char *value) : value_(std::string(value)) {}

  static Json truth(bool value); ///< named, because any pointer would turn into a bool
  static Json known(const std::string &text); ///< null where the text is empty: not known
  static Json object();                       ///< {} to put members in
  static Json list();                         ///< [] to add items to

  /// Adds a member to an object, after those already there.
  Json &put(const std::string &key, Json value);

  /// Adds an item to a list.
  Json &add(Json item);

  /// Indented by two spaces a level, without a line end. Numbers read back exactly; NaN
  /// and infinity, which JSON has no words for, become null.
  std::string text() const;

private:
  struct Member;
  using Members = std::vector<Member>;
  using Items   = std::vector<Json>;

  std::string text(const std::string &indent) const;

  std::variant<std::monostate, bool, double, long long, std::string, Items, Members> value_;
};

struct Json::Member
{
  std::string key;
  Json        value;
};

/// Text in quotes with everything escaped that must be.
std::string json_quoted(const std::string &text);
} // namespace throughbend
