#pragma once
// A JSON file of ours as it is read back: every member by its path. Whatever stands in the
// file, the answer is a member or a message; no text, however long, deep or broken, ends
// the program. Which members there are is the business of those who ask.

#include "inputs/text/input_error.h"

#include <cstddef>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// The text ends before it is whole, as that of a program that was stopped in writing.
struct CutOffError : InputError
{
  CutOffError(const std::string &file, std::size_t line);
  std::size_t line; ///< from 1
};

struct JsonMember
{
  enum class Kind
  {
    text,
    number,
    truth,
    group ///< an object or a list; its members stand beside it
  };

  JsonMember() = default;
  JsonMember(std::string words) : text(std::move(words)) {}
  JsonMember(const char *words) : text(words) {}
  JsonMember(double value);
  JsonMember(Kind is, std::string words) : kind(is), text(std::move(words)) {}

  Kind        kind = Kind::text;
  std::string text; ///< of a number its digits as in the file, of a truth true or false
};

/// Paths are `section.member`, items of a list by their number from 0: `section.list.0`.
/// Nulls are left out. A member of another kind than asked for, the text "null" in place of
/// a number among them, is an InputError with file and path.
class JsonMembers
{
public:
  JsonMembers() = default;

  /// `file` stands in messages. Throws CutOffError, and InputError for all else that is no
  /// JSON, a name given twice, numbers too large for a double, and groups in groups beyond
  /// any that a run writes.
  JsonMembers(const std::string &text, std::string file);

  bool empty() const { return members_.empty(); }
  bool has(const std::string &path) const { return members_.count(path) > 0; }

  std::string         word(const std::string &path) const;   ///< empty where not there
  double              number(const std::string &path) const; ///< NaN where not there
  std::string         digits(const std::string &path) const; ///< of a number; or empty
  std::optional<bool> truth(const std::string &path) const;

  /// Names of what stands in a group, in alphabetical order.
  std::vector<std::string> names_in(const std::string &group) const;

  /// Paths of all members but groups, in alphabetical order.
  std::vector<std::string> paths() const;

  /// What stands at a path; a group where nothing does.
  JsonMember::Kind kind(const std::string &path) const;

  void put(const std::string &path, JsonMember member) { members_[path] = member; }
  void remove(const std::string &path) { members_.erase(path); }

private:
  /// The member if it is there and of that kind.
  const JsonMember *asked(const std::string &path, JsonMember::Kind kind) const;

  std::string                       file_;
  std::map<std::string, JsonMember> members_;
};

/// Of a whole file, as run_file_text reads it; one that is not there is read as empty, and
/// so is cut off.
JsonMembers read_members(const std::filesystem::path &file);
} // namespace throughbend
