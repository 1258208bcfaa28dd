#include "postprocess/verbs/verb.h"

#include "inputs/keys/case_entries.h"
#include "inputs/text/input_error.h"
#include "inputs/text/shown_text.h"

#include <fmt/core.h>

#include <boost/program_options.hpp>

#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <iostream>

namespace throughbend
{
namespace
{
namespace po = boost::program_options;

po::options_description options_of(const Verb &verb)
{
  po::options_description list;
  auto                    add = list.add_options();
  for (const VerbOption &option : verb.options)
    if (option.value.empty())
      add(option.name.c_str(), option.help.c_str());
    else if (option.given == Given::again)
      add(option.name.c_str(), po::value<std::vector<std::string>>()->composing(),
          option.help.c_str());
    else
      add(option.name.c_str(), po::value<std::string>(), option.help.c_str());
  add("help", "");
  return list;
}

std::string listed(const std::vector<std::string> &words)
{
  std::string list;
  for (const std::string &word : words)
    list += (list.empty() ? "" : ", ") + word;
  return list;
}

std::string known_options(const Verb &verb)
{
  std::vector<std::string> names;
  for (const VerbOption &option : verb.options)
    names.push_back("--" + option.name);
  const std::string options =
      names.empty() ? verb.name + " has no options but --help"
                    : "Options of " + verb.name + " are " + listed(names) + " and --help";
  return options +
         (verb.keys == CaseKeys::taken ? "; keys of the case have a dot: --coupon.thickness"
                                       : "") +
         ". See throughbend " + verb.name + " --help";
}

void check_choice(const VerbOption &option, const std::string &value)
{
  if (option.choices.empty() || std::find(option.choices.begin(), option.choices.end(),
                                          value) != option.choices.end())
    return;
  throw InputError("--" + option.name + " " + value + ": that is none of " +
                   listed(option.choices) + ".");
}

void check_operands(const Verb &verb, const std::vector<std::string> &operands)
{
  if (operands.size() <= verb.most_operands)
    return;
  if (verb.most_operands == 0)
    throw InputError(verb.name + " takes no '" + operands.front() + "'. " +
                     known_options(verb));
  const std::string what = verb.operand.find("CASE") != std::string::npos ? "case file"
                           : verb.operand == "RUN"                        ? "run"
                                                                          : verb.operand;
  throw InputError((verb.most_operands == 1
                        ? "one " + what + " at a time"
                        : fmt::format("at most {} of {}", verb.most_operands, what)) +
                   fmt::format(", not {} ({}). A value with a unit needs quotes: "
                               "--coupon.thickness \"11 mm\"",
                               operands.size(), listed(operands)));
}
/// `-h` is --help, except as the value of an option. There are no other short options: `-3
/// mm` is a value.
std::vector<std::string> without_short_help(const Verb              &verb,
                                            std::vector<std::string> words)
{
  for (std::size_t i = 0; i < words.size(); ++i)
  {
    const bool is_value = i > 0 && std::any_of(verb.options.begin(), verb.options.end(),
                                               [&](const VerbOption &option) {
                                                 return !option.value.empty() &&
                                                        words[i - 1] == "--" + option.name;
                                               });
    if (words[i] == "-h" && !is_value)
      words[i] = "--help";
  }
  return words;
}
} // namespace

std::string VerbArguments::value(const std::string &option,
                                 const std::string &otherwise) const
{
  const auto found = options.find(option);
  return found == options.end() ? otherwise : found->second.back();
}

std::vector<std::string> VerbArguments::values(const std::string &option) const
{
  const auto found = options.find(option);
  return found == options.end() ? std::vector<std::string>() : found->second;
}

VerbArguments verb_arguments(const Verb &verb, const std::vector<std::string> &words)
{
  const SortedArguments sorted =
      verb.keys == CaseKeys::taken ? sort_arguments(words) : SortedArguments{{}, words};
  po::options_description all = options_of(verb);
  all.add_options()("operands", po::value<std::vector<std::string>>());
  po::positional_options_description place;
  place.add("operands", -1);

  po::variables_map given;
  try
  {
    constexpr int whole_names = po::command_line_style::allow_long |
                                po::command_line_style::long_allow_next |
                                po::command_line_style::long_allow_adjacent;
    po::store(po::command_line_parser(without_short_help(verb, sorted.others))
                  .options(all)
                  .positional(place)
                  .style(whole_names)
                  .run(),
              given);
  }
  catch (const po::error &error)
  {
    throw InputError(std::string(error.what()) + ". " + known_options(verb));
  }

  VerbArguments result;
  result.help      = given.count("help") > 0;
  result.overrides = sorted.overrides;
  if (given.count("operands") > 0)
    result.operands = given["operands"].as<std::vector<std::string>>();
  for (const VerbOption &option : verb.options)
    if (given.count(option.name) > 0)
    {
      const po::variable_value &value = given[option.name];
      if (option.value.empty())
        result.options[option.name] = {""};
      else if (option.given == Given::again)
        result.options[option.name] = value.as<std::vector<std::string>>();
      else
        result.options[option.name] = {value.as<std::string>()};
      if (!option.value.empty())
        for (const std::string &word : result.options[option.name])
          check_choice(option, word);
    }
  if (!result.help)
    check_operands(verb, result.operands);
  return result;
}

VerbOption units_option(const std::string &of_what)
{
  return {"units",
          "metric|us",
          "metric (mm, kN, MPa) or us (inch, kip, ksi) units " + of_what,
          {"metric", "us"}};
}

UnitSystem units_of(const VerbArguments &given)
{
  return given.value("units") == "us" ? UnitSystem::us : UnitSystem::metric;
}

std::string the_case_file(const VerbArguments &given, const std::string &verb)
{
  if (given.operands.empty())
    throw InputError("no case file is named: throughbend " + verb +
                     " CASE. To make a case: throughbend starter > my-case.ini");
  return given.operands.front();
}

bool may_print()
{
  for (const char *name : {"OMPI_COMM_WORLD_RANK", "PMIX_RANK", "PMI_RANK"})
    if (const char *rank = std::getenv(name); rank != nullptr)
      return std::string(rank) == "0";
  return true;
}

ExitCode show(const std::string &text)
{
  // Bytes stay as they are on the way into a file: a case may be read again.
  if (may_print())
    std::cout << (isatty(STDOUT_FILENO) == 1 ? shown_lines(text) : text) << std::flush;
  return ExitCode::finding;
}
} // namespace throughbend
