#include "inputs/text/json_members.h"

#include "inputs/text/csv_table.h"
#include "inputs/text/plain_text.h"
#include "inputs/text/run_file.h"
#include "inputs/text/shown_text.h"

#include <fmt/core.h>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdlib>
#include <limits>

namespace throughbend
{
namespace
{
using Kind   = JsonMember::Kind;
using Parser = nlohmann::json;

constexpr std::size_t deepest = 32; // a run's own files have six groups in each other

const std::string cure = " Was it edited by hand, or written by another program? Put it "
                         "back as it was, or push the case again.";

/// Takes what the library's parser comes upon, one after the other, and its errors in words
/// of our own. False ends the reading.
class MemberReader : public nlohmann::json_sax<Parser>
{
public:
  MemberReader(const std::string &text, const std::string &file,
               std::map<std::string, JsonMember> &into)
      : text_(text), file_(file), members_(into)
  {
  }

  void refuse() const
  {
    if (cut_off_at_ > 0)
      throw CutOffError(file_, cut_off_at_);
    throw InputError(fault_);
  }

  bool null() override
  {
    next_path();
    return true;
  }
  bool boolean(const bool value) override
  {
    return take(next_path(), {Kind::truth, value ? "true" : "false"});
  }
  bool number_integer(const number_integer_t value) override
  {
    return take(next_path(), {Kind::number, std::to_string(value)});
  }
  bool number_unsigned(const number_unsigned_t value) override
  {
    return take(next_path(), {Kind::number, std::to_string(value)});
  }
  bool number_float(number_float_t, const string_t &digits) override
  {
    return take(next_path(), {Kind::number, digits});
  }
  bool string(string_t &value) override { return take(next_path(), value); }
  bool binary(binary_t &) override { return false; } // JSON has none
  bool start_object(std::size_t) override { return open(-1); }
  bool start_array(std::size_t) override { return open(0); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }
  bool key(string_t &name) override
  {
    name_ = name;
    return true;
  }
  bool parse_error(const std::size_t position, const std::string &token,
                   const nlohmann::detail::exception &error) override
  {
    const std::size_t at        = std::min(position, text_.size());
    const bool        too_large = dynamic_cast<const Parser::out_of_range *>(&error);
    const std::size_t line      = line_of(at);

    if (position > text_.size()) // the parser counts the end as a byte
      cut_off_at_ = line;
    else if (too_large)
      fault_ = fmt::format("{} cannot be read: the number {} in line {} is too large.{}",
                           file_, clipped(token, 40), line, cure);
    else
      fault_ = fmt::format("{} cannot be read: line {} is no JSON from its byte {} on.{}",
                           file_, line, column_of(at), cure);
    return false;
  }

private:
  struct Group
  {
    std::string path;
    int         next_item; ///< of a list; -1 in an object
  };

  std::size_t line_of(const std::size_t at) const
  {
    return 1 + static_cast<std::size_t>(
                   std::count(text_.begin(), text_.begin() + static_cast<long>(at), '\n'));
  }

  std::size_t column_of(const std::size_t at) const
  {
    const std::size_t feed = at > 1 ? text_.rfind('\n', at - 2) : std::string::npos;
    return feed == std::string::npos ? at : at - feed - 1;
  }

  std::string next_path()
  {
    if (groups_.empty())
      return "";
    Group            &group = groups_.back();
    const std::string name =
        group.next_item < 0 ? name_ : std::to_string(group.next_item++);
    return group.path.empty() ? name : group.path + "." + name;
  }

  bool take(const std::string &path, JsonMember member)
  {
    if (members_.emplace(path, std::move(member)).second)
      return true;
    fault_ = fmt::format("{}: {} is there twice.{}", file_, shown_text(clipped(path, 100)),
                         cure);
    return false;
  }

  bool open(const int first_item)
  {
    const bool        whole = groups_.empty();
    const std::string path  = next_path();
    if (groups_.size() == deepest)
    {
      fault_ = fmt::format("{} cannot be read: it has more than {} nested groups.{}", file_,
                           deepest, cure);
      return false;
    }
    groups_.push_back({path, first_item});
    return whole || take(path, {Kind::group, ""});
  }

  bool close()
  {
    groups_.pop_back();
    return true;
  }

  const std::string                 &text_, &file_;
  std::map<std::string, JsonMember> &members_;
  std::vector<Group>                 groups_;
  std::string                        name_, fault_;
  std::size_t                        cut_off_at_ = 0; ///< line; 0: it is not
};

std::string said(const JsonMember &member)
{
  switch (member.kind)
  {
  case Kind::text:
    return "the text \"" + member.text + '"';
  case Kind::number:
    return "the number " + member.text;
  case Kind::truth:
    return member.text;
  case Kind::group:
    break;
  }
  return "a group";
}

const char *said(const Kind kind)
{
  switch (kind)
  {
  case Kind::text:
    return "a text";
  case Kind::number:
    return "a number";
  case Kind::truth:
    return "true or false";
  case Kind::group:
    break;
  }
  return "a group";
}
} // namespace

CutOffError::CutOffError(const std::string &file, const std::size_t at)
    : InputError(fmt::format(
          "{} cannot be read: it is cut off in line {}. Push the case again.", file, at)),
      line(at)
{
}

JsonMember::JsonMember(const double value) : kind(Kind::number), text(number_text(value)) {}

JsonMembers::JsonMembers(const std::string &text, std::string file) : file_(std::move(file))
{
  MemberReader reader(text, file_, members_);
  if (!Parser::sax_parse(text, &reader))
    reader.refuse();
}

const JsonMember *JsonMembers::asked(const std::string &path, const Kind kind) const
{
  const auto check = [&](const std::string &where, const Kind wanted)
  {
    const auto found = members_.find(where);
    if (found != members_.end() && found->second.kind != wanted)
      throw InputError(fmt::format("{}: {} is {}, and {} is expected.{}", file_, where,
                                   shown_text(clipped(said(found->second), 60)),
                                   said(wanted), cure));
    return found == members_.end() ? nullptr : &found->second;
  };
  for (std::size_t dot = path.find('.'); dot != std::string::npos;
       dot             = path.find('.', dot + 1))
    check(path.substr(0, dot), Kind::group);
  return check(path, kind);
}

std::string JsonMembers::word(const std::string &path) const
{
  const JsonMember *member = asked(path, Kind::text);
  return member == nullptr ? "" : member->text;
}

std::string JsonMembers::digits(const std::string &path) const
{
  const JsonMember *member = asked(path, Kind::number);
  return member == nullptr ? "" : member->text;
}

double JsonMembers::number(const std::string &path) const
{
  const std::string text = digits(path);
  return text.empty() ? std::numeric_limits<double>::quiet_NaN()
                      : std::strtod(text.c_str(), nullptr);
}

std::optional<bool> JsonMembers::truth(const std::string &path) const
{
  const JsonMember *member = asked(path, Kind::truth);
  return member == nullptr ? std::nullopt : std::optional(member->text == "true");
}

std::vector<std::string> JsonMembers::names_in(const std::string &group) const
{
  const std::string        head = group + ".";
  std::vector<std::string> names;
  for (auto at = members_.lower_bound(head);
       at != members_.end() && at->first.rfind(head, 0) == 0; ++at)
    names.push_back(at->first.substr(head.size()));
  return names;
}

std::vector<std::string> JsonMembers::paths() const
{
  std::vector<std::string> all;
  for (const auto &[path, member] : members_)
    if (member.kind != Kind::group)
      all.push_back(path);
  return all;
}

JsonMember::Kind JsonMembers::kind(const std::string &path) const
{
  const auto found = members_.find(path);
  return found == members_.end() ? Kind::group : found->second.kind;
}

JsonMembers read_members(const std::filesystem::path &file)
{
  const auto text =
      run_file_text(file.parent_path(), file.filename(), run_file_size::summary);
  return {text.value_or(""), file.string()};
}
} // namespace throughbend
