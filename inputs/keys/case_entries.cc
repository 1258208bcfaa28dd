#include "inputs/keys/case_entries.h"

#include "inputs/keys/option_table.h"
#include "inputs/text/plain_text.h"

#include <boost/program_options.hpp>

#include <algorithm>
#include <sstream>

namespace throughbend
{
namespace
{
namespace po = boost::program_options;

constexpr std::size_t shown_of_line = 60; // bytes of an offending line in a message

po::options_description known_options()
{
  po::options_description known;
  for (const Option &option : option_table())
    known.add_options()(option.key().c_str(), po::value<std::string>());
  return known;
}

std::string without_comment(std::string_view line)
{
  return std::string(trimmed(line.substr(0, line.find('#'))));
}

/// What is wrong with a line that is neither a section nor a setting; empty if nothing is.
std::string line_problem(const std::string &line)
{
  if (line.front() == '[')
  {
    if (line.back() != ']')
      return "the section's closing ']' is missing";
    if (trimmed(std::string_view(line).substr(1, line.size() - 2)).empty())
      return "the section has no name";
    return "";
  }
  if (line.front() == ';')
    return "comments begin with '#'";
  const std::size_t equals = line.find('=');
  if (equals == std::string::npos)
    return "is neither '[section]' nor 'key = value'";
  if (trimmed(std::string_view(line).substr(0, equals)).empty())
    return "no key before '='";
  return "";
}

std::size_t line_of(std::string_view text, std::size_t at)
{
  return 1 + static_cast<std::size_t>(std::count(
                 text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
}

std::string place_in(const std::string &name, std::size_t line)
{
  return name + ":" + std::to_string(line);
}

bool is_option(const std::string &word)
{
  return word.rfind("--", 0) == 0 && word.size() > 2;
}

bool lacks_value(const std::vector<std::string> &words, std::size_t i)
{
  const std::size_t equals = words[i].find('=');
  if (equals != std::string::npos)
    return equals + 1 == words[i].size();
  return i + 1 == words.size() || is_option(words[i + 1]);
}

std::vector<po::option> parse_words(const std::vector<std::string> &words)
{
  namespace style = po::command_line_style;
  // No short options: `-3 mm` is a value. No guessing: a prefix is no key.
  constexpr int long_only =
      style::allow_long | style::long_allow_next | style::long_allow_adjacent;
  const po::options_description known = known_options();
  return po::command_line_parser(words)
      .options(known)
      .style(long_only)
      .allow_unregistered()
      .run()
      .options;
}

bool names_a_key(const std::string &word)
{
  return word.rfind("--", 0) == 0 &&
         word.substr(0, word.find('=')).find('.') != std::string::npos;
}
} // namespace

CaseEntries entries_of_text(std::string_view text, const std::string &name)
{
  CaseEntries result;
  if (text.substr(0, 2) == "\xFF\xFE" || text.substr(0, 2) == "\xFE\xFF")
  {
    result.is_text = false;
    result.faults.push_back({name, "", "is saved as UTF-16; save it as UTF-8"});
    return result;
  }
  if (text.substr(0, 3) == "\xEF\xBB\xBF")
    text.remove_prefix(3);
  if (const auto at = find_binary_byte(text))
  {
    result.is_text = false;
    result.faults.push_back({place_in(name, line_of(text, *at)), "",
                             "is not text: byte " +
                                 std::to_string(static_cast<unsigned char>(text[*at])) +
                                 " is not plain UTF-8; is this a case file?",
                             line_of(text, *at)});
    return result;
  }

  // Boost stops at the first line it cannot read and knows no line numbers. So lines are
  // looked at here first, and only good ones, in order, are passed on.
  std::vector<std::size_t> setting_lines;
  std::string              good_lines;
  std::istringstream       lines{std::string(text)};
  std::size_t              number = 0;
  for (std::string raw; std::getline(lines, raw);)
  {
    ++number;
    const std::string line = without_comment(raw);
    if (line.empty())
      continue;
    const std::string problem = line_problem(line);
    if (!problem.empty())
    {
      result.faults.push_back(
          {place_in(name, number), clipped(line, shown_of_line), problem, number});
      continue;
    }
    if (line.front() == '[')
      good_lines +=
          "[" + std::string(trimmed(std::string_view(line).substr(1, line.size() - 2))) +
          "]\n";
    else
    {
      good_lines += line + "\n";
      setting_lines.push_back(number);
    }
  }

  std::istringstream       stream(good_lines);
  const po::parsed_options parsed = po::parse_config_file(stream, known_options(), true);
  for (std::size_t i = 0; i < parsed.options.size(); ++i)
  {
    const po::option &option = parsed.options[i];
    result.entries.push_back({option.string_key,
                              option.value.empty() ? "" : option.value.front(),
                              place_in(name, setting_lines.at(i)), setting_lines.at(i)});
  }
  return result;
}

CaseEntries entries_of_words(const std::vector<std::string> &words)
{
  const std::string place = "command line";
  CaseEntries       result;

  // Boost would take the next option for the value, or give up on all of them.
  std::vector<std::string> whole;
  for (std::size_t i = 0; i < words.size(); ++i)
    if (is_option(words[i]) && lacks_value(words, i))
    {
      const std::string name = words[i].substr(0, words[i].find('='));
      result.faults.push_back({place, name, "has no value; write " + name + " \"value\""});
    }
    else
      whole.push_back(words[i]);

  std::vector<po::option> options;
  try
  {
    options = parse_words(whole);
  }
  catch (const po::error &fault)
  {
    result.faults.push_back({place, "", fault.what()});
  }

  for (std::size_t i = 0; i < options.size(); ++i)
  {
    const po::option &option = options[i];
    const std::string value  = option.value.empty() ? "" : option.value.front();
    if (option.string_key.empty())
      result.faults.push_back({place, clipped(value, shown_of_line),
                               "follows no option; quote values that contain blanks: "
                               "--coupon.thickness \"11 mm\""});
    else if (option.unregistered && option.value.empty() && i + 1 < options.size() &&
             options[i + 1].string_key.empty())
    {
      // Boost does not know that an unknown option takes a value and leaves it alone.
      result.entries.push_back({option.string_key, options[i + 1].value.front(), place});
      ++i;
    }
    else
      result.entries.push_back({option.string_key, value, place});
  }
  return result;
}

SortedArguments sort_arguments(const std::vector<std::string> &words)
{
  SortedArguments sorted;
  for (std::size_t i = 0; i < words.size(); ++i)
  {
    if (!names_a_key(words[i]))
    {
      sorted.others.push_back(words[i]);
      continue;
    }
    sorted.overrides.push_back(words[i]);
    const bool value_follows = words[i].find('=') == std::string::npos &&
                               i + 1 < words.size() && words[i + 1].rfind("--", 0) != 0;
    if (value_follows)
      sorted.overrides.push_back(words[++i]);
  }
  return sorted;
}
} // namespace throughbend
