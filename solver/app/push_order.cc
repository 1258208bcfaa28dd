#include "solver/app/push_order.h"

#include "inputs/case_entries.h"
#include "inputs/input_error.h"

#include <boost/program_options.hpp>

#include <sstream>

namespace throughbend
{
namespace
{
namespace po = boost::program_options;
namespace fs = std::filesystem;

// `undecided` is none: it says nothing about the coupon, and has an exit code of its own.
constexpr Outcome outcomes[] = {Outcome::through, Outcome::jammed, Outcome::over_capacity,
                                Outcome::stroke_out, Outcome::dropped};

std::string outcome_list()
{
  std::string list;
  for (const Outcome outcome : outcomes)
    list += (list.empty() ? "" : ", ") + to_text(outcome);
  return list;
}

po::options_description options()
{
  po::options_description list("Options", 92, 60);
  auto                    add = list.add_options();
  add("into", po::value<std::string>()->value_name("FOLDER"),
      "where the run goes; default runs/NAME after the case file (of a file called "
      "case.ini, after the folder it is in)");
  add("overwrite", "replace the run that is in the folder");
  add("units", po::value<std::string>()->value_name("metric|us"),
      "units of what is printed: mm, kN, MPa or inch, kip, ksi; files stay in N, mm, MPa");
  add("expect", po::value<std::string>()->value_name("OUTCOME"),
      ("end with exit code 1 on any other finding: " + outcome_list()).c_str());
  add("print-case", "check the case, print it with all its defaults, and stop");
  add("quiet", "print the verdict alone");
  add("help", "show this and all keys of a case");
  return list;
}

Outcome expected_outcome(const std::string &word)
{
  for (const Outcome outcome : outcomes)
    if (word == to_text(outcome))
      return outcome;
  throw InputError("--expect " + word + ": there is no such finding. Use one of " +
                   outcome_list() + ".");
}

UnitSystem unit_system(const std::string &word)
{
  if (word == "metric")
    return UnitSystem::metric;
  if (word == "us")
    return UnitSystem::us;
  throw InputError("--units " + word + ": say metric or us.");
}

std::string the_case_file(const std::vector<std::string> &words)
{
  if (words.empty())
    throw InputError("no case file is named: throughbend push CASE. To make a case: "
                     "throughbend starter > my-case.ini");
  if (words.size() > 1)
  {
    std::string list;
    for (const std::string &word : words)
      list += (list.empty() ? "" : ", ") + word;
    throw InputError("one case file at a time, not " + std::to_string(words.size()) + " (" +
                     list +
                     "). A value with a unit needs quotes: "
                     "--coupon.thickness \"11 mm\"");
  }
  return words.front();
}
} // namespace

PushOrder push_order(const std::vector<std::string> &words)
{
  const SortedWords       sorted = sort_words(words);
  po::options_description all    = options();
  all.add_options()("case", po::value<std::vector<std::string>>());
  po::positional_options_description place;
  place.add("case", -1);

  po::variables_map given;
  try
  {
    constexpr int whole_names = po::command_line_style::allow_long |
                                po::command_line_style::long_allow_next |
                                po::command_line_style::long_allow_adjacent;
    po::store(po::command_line_parser(sorted.others)
                  .options(all)
                  .positional(place)
                  .style(whole_names)
                  .run(),
              given);
  }
  catch (const po::error &error)
  {
    throw InputError(std::string(error.what()) +
                     ". Options of push are --into, --overwrite, --units, --expect, "
                     "--print-case, --quiet; keys of the case have a dot: "
                     "--coupon.thickness. See throughbend push --help");
  }

  PushOrder order;
  if (given.count("help") > 0)
  {
    order.task = Task::help;
    return order;
  }
  order.case_file =
      the_case_file(given.count("case") > 0 ? given["case"].as<std::vector<std::string>>()
                                            : std::vector<std::string>{});
  order.overrides = sorted.overrides;
  if (given.count("print-case") > 0)
    order.task = Task::print_case;
  if (given.count("overwrite") > 0)
    order.existing = ExistingRun::overwrite;
  if (given.count("quiet") > 0)
    order.speech = Speech::verdict;
  if (given.count("units") > 0)
    order.units = unit_system(given["units"].as<std::string>());
  if (given.count("expect") > 0)
    order.expected = expected_outcome(given["expect"].as<std::string>());
  if (given.count("into") > 0)
  {
    order.into = given["into"].as<std::string>();
    if (order.into.empty())
      throw InputError("--into names no folder.");
  }
  return order;
}

fs::path default_folder(const std::string &case_file)
{
  std::error_code fault;
  const fs::path  file   = fs::absolute(case_file, fault);
  const fs::path  stem   = file.stem();
  const fs::path  folder = file.parent_path().filename();
  return fs::path("runs") / (stem == "case" && !folder.empty() ? folder : stem);
}

std::string push_options_text()
{
  std::ostringstream text;
  text << options();
  return text.str();
}
} // namespace throughbend
